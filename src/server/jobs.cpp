#include "server/jobs.h"

#include <algorithm>

#include <nlohmann/json.hpp>

#include "store/files.h"

namespace plankwright::server {
namespace {

using Json = nlohmann::ordered_json;

int sheets_in(const plan::Plan& plan) {
  int sheets = 0;
  for (const stock::SheetNeed& need : plan.stock.sheets) {
    sheets += need.sheets;
  }
  return sheets;
}

}  // namespace

CalledOff Jobs::begin(const std::string& id) {
  const std::lock_guard lock{mutex_};
  std::erase_if(begun_, [](const auto& one) { return one.second.expired(); });
  auto called_off = std::make_shared<std::atomic<bool>>(false);
  begun_.emplace(id, called_off);
  return called_off;
}

void Jobs::tell(const std::string& id,
                const std::string& job,
                double share,
                const std::string& says) {
  events_.publish("progress",
                  Json{{"id", id}, {"job", job}, {"share", share}, {"says", says}}.dump());
}

int Jobs::call_off(const std::string& id) {
  const std::lock_guard lock{mutex_};
  int count = 0;
  const auto [first, last] = begun_.equal_range(id);
  for (auto one = first; one != last; ++one) {
    if (const auto called_off = one->second.lock()) {
      *called_off = true;
      ++count;
    }
  }
  begun_.erase(first, last);
  return count;
}

void Jobs::call_off_all() {
  const std::lock_guard lock{mutex_};
  for (const auto& [id, begun] : begun_) {
    if (const auto called_off = begun.lock()) {
      *called_off = true;
    }
  }
  begun_.clear();
}

Afterthoughts::Afterthoughts(Planner& planner, Jobs& jobs, Events& events)
    : planner_{planner}, jobs_{jobs}, events_{events}, worker_{[this] { work(); }} {}

Afterthoughts::~Afterthoughts() {
  stop();
}

void Afterthoughts::stop() {
  {
    const std::lock_guard lock{mutex_};
    stopping_ = true;
    waiting_.clear();
  }
  changed_.notify_all();
  if (worker_.joinable()) {
    worker_.join();
  }
}

void Afterthoughts::add(const std::string& id, PlanOrder quick) {
  quick.quick = false;
  {
    const std::lock_guard lock{mutex_};
    waiting_.insert_or_assign(id, std::move(quick));
  }
  changed_.notify_all();
}

void Afterthoughts::drop(const std::string& id) {
  const std::lock_guard lock{mutex_};
  waiting_.erase(id);
}

void Afterthoughts::work() {
  // While the maker goes on typing, the plan of a moment ago is not worth a processor.
  constexpr std::chrono::milliseconds kPause{400};
  std::unique_lock lock{mutex_};
  while (!stopping_) {
    changed_.wait(lock, [&] { return stopping_ || !waiting_.empty(); });
    while (!stopping_ && changed_.wait_for(lock, kPause) != std::cv_status::timeout) {
    }
    if (stopping_ || waiting_.empty()) {
      continue;
    }
    auto next = waiting_.extract(waiting_.begin());
    lock.unlock();
    make(next.key(), std::move(next.mapped()));
    lock.lock();
  }
}

void Afterthoughts::make(const std::string& id, PlanOrder order) {
  try {
    jobs_.tell(id, "plan", 0, "Looking for better widths and comparing the choices");
    const std::string planned = store::hash_of(order.text);
    const SharedPlan full = planner_.plan(order);
    jobs_.tell(id, "plan", 1, "Done");
    if (full->plan) {
      events_.publish("better",
                      Json{{"id", id},
                           {"planned", planned},
                           {"price", full->plan->price.price.minor()},
                           {"sheets", sheets_in(*full->plan)}}
                          .dump());
    }
  } catch (const std::exception& fault) {
    // Whoever asks for the full plan is told of the fault; here nobody waits for an answer.
    jobs_.tell(id, "plan", 1, fault.what());
  }
}

}  // namespace plankwright::server
