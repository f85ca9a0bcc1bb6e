#include "server/planner.h"

#include <algorithm>

#include <fmt/format.h>

#include "store/files.h"

namespace plankwright::server {
namespace {

constexpr int kMostAtWork = 2;

std::string key_of(const PlanOrder& order) {
  std::string key = fmt::format("{}\n{}\n", order.file, order.quick ? "quick" : "full");
  for (const auto& [choice, option] : order.picks) {
    key += fmt::format("{}={}\n", choice, option);
  }
  return key + store::hash_of(order.text);
}

std::string hash_of(const base::Result<std::string>& text) {
  return text.ok() ? store::hash_of(text.value()) : "";
}

}  // namespace

Planner::Bench::Bench(Planner& planner) : planner_{planner} {
  std::unique_lock lock{planner_.bench_mutex_};
  planner_.bench_free_.wait(lock, [&] { return planner_.at_work_ < kMostAtWork; });
  ++planner_.at_work_;
}

Planner::Bench::~Bench() {
  {
    const std::lock_guard lock{planner_.bench_mutex_};
    --planner_.at_work_;
  }
  planner_.bench_free_.notify_one();
}

SharedPlan Planner::find(const std::string& key, const shop::OpenFile& open) {
  Kept found;
  {
    const std::lock_guard lock{mutex_};
    const auto kept = std::ranges::find(kept_, key, &Kept::key);
    if (kept == kept_.end()) {
      return nullptr;
    }
    kept_.splice(kept_.begin(), kept_, kept);
    found = *kept;
  }
  const bool fresh = std::ranges::all_of(found.sources, [&](const Source& source) {
    return hash_of(open(source.name)) == source.hash;
  });
  return fresh ? found.plan : nullptr;
}

SharedPlan Planner::known(const PlanOrder& order) {
  return find(key_of(order), order.open);
}

void Planner::keep(Kept kept) {
  const std::lock_guard lock{mutex_};
  std::erase_if(kept_, [&](const Kept& other) { return other.key == kept.key; });
  kept_.push_front(std::move(kept));
  if (kept_.size() > most_kept_) {
    kept_.pop_back();
  }
}

Planner::Kept Planner::make(const std::string& key, const PlanOrder& order) const {
  std::vector<Source> sources;
  const shop::OpenFile watched = [&](const std::string& name) {
    auto text = order.open(name);
    sources.push_back({name, hash_of(text)});
    return text;
  };
  plan::PlanLimits limits;
  limits.compare_choices = !order.quick;
  limits.look_for_nudges = !order.quick;
  limits.draw_purchases = !order.quick;
  auto planned = std::make_shared<const plan::Planned>(
      plan::plan_commission(order.text, order.file, watched, reference_, order.picks, limits));
  return {key, std::move(sources), std::move(planned)};
}

SharedPlan Planner::plan(const PlanOrder& order) {
  const std::string key = key_of(order);
  if (SharedPlan found = find(key, order.open)) {
    return found;
  }
  std::promise<SharedPlan> promise;
  std::shared_future<SharedPlan> awaited;
  {
    const std::lock_guard lock{mutex_};
    const auto same =
        std::ranges::find(being_made_, key, &decltype(being_made_)::value_type::first);
    if (same != being_made_.end()) {
      awaited = same->second;
    } else {
      being_made_.emplace_back(key, promise.get_future().share());
    }
  }
  if (awaited.valid()) {
    return awaited.get();
  }
  const auto done = [&] {
    const std::lock_guard lock{mutex_};
    being_made_.remove_if([&](const auto& one) { return one.first == key; });
  };
  try {
    const Bench bench{*this};
    Kept kept = make(key, order);
    SharedPlan made = kept.plan;
    keep(std::move(kept));
    done();
    promise.set_value(made);
    return made;
  } catch (...) {
    done();
    promise.set_exception(std::current_exception());
    throw;
  }
}

}  // namespace plankwright::server
