#include "server/watch.h"

#include <nlohmann/json.hpp>

namespace plankwright::server {

Watch::Watch(store::Keeper& keeper, Events& events, std::chrono::milliseconds every)
    : keeper_{keeper}, events_{events} {
  for (const store::Entry& entry : keeper_.list()) {
    const auto kept = keeper_.read(entry.id);
    stamps_[entry.id] = entry.stamp;
    versions_[entry.id] = kept.ok() ? kept.value().version : "";
  }
  worker_ = std::thread{[this, every] { work(every); }};
}

Watch::~Watch() {
  stop();
}

void Watch::stop() {
  {
    const std::lock_guard lock{mutex_};
    stopping_ = true;
  }
  stopped_.notify_all();
  if (worker_.joinable()) {
    worker_.join();
  }
}

void Watch::work(std::chrono::milliseconds every) {
  std::unique_lock lock{mutex_};
  while (!stopped_.wait_for(lock, every, [&] { return stopping_; })) {
    lock.unlock();
    try {
      look();
    } catch (const std::exception&) {
      // A disk that fails now is told to whoever asks for a text; the next look may go well.
    }
    lock.lock();
  }
}

void Watch::look() {
  std::map<std::string, std::string> stamps;
  for (const store::Entry& entry : keeper_.list()) {
    stamps[entry.id] = entry.stamp;
    if (const auto before = stamps_.find(entry.id);
        before == stamps_.end() || before->second != entry.stamp) {
      const auto kept = keeper_.read(entry.id);
      tell(entry.id, kept.ok() ? kept.value().version : "");
    }
  }
  for (const auto& [id, stamp] : stamps_) {
    if (!stamps.contains(id)) {
      tell(id, "");  // taken away
    }
  }
  stamps_ = std::move(stamps);
}

bool Watch::learn(const std::string& id, const std::string& version) {
  const std::lock_guard lock{mutex_};
  const auto [known, is_new] = versions_.try_emplace(id, version);
  if (!is_new && known->second == version) {
    return false;
  }
  known->second = version;
  return true;
}

void Watch::tell(const std::string& id, const std::string& version) {
  if (learn(id, version)) {
    events_.publish("changed", nlohmann::ordered_json{{"id", id}, {"version", version}}.dump());
  }
}

}  // namespace plankwright::server
