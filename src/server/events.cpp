#include "server/events.h"

#include <fmt/format.h>

namespace plankwright::server {
namespace {

constexpr std::size_t kMostKept = 256;

}  // namespace

void Events::publish(const std::string& name, const std::string& data) {
  {
    const std::lock_guard lock{mutex_};
    ++newest_;
    log_.push_back({newest_, fmt::format("id: {}\nevent: {}\ndata: {}\n\n", newest_, name, data)});
    if (log_.size() > kMostKept) {
      log_.pop_front();
    }
  }
  changed_.notify_all();
}

std::uint64_t Events::newest() const {
  const std::lock_guard lock{mutex_};
  return newest_;
}

Events::Told Events::wait(std::uint64_t after, std::chrono::milliseconds patience) const {
  std::unique_lock lock{mutex_};
  changed_.wait_for(lock, patience, [&] { return closed_ || newest_ > after; });
  Told told{"", after, closed_};
  for (const Event& event : log_) {
    if (event.number > after) {
      told.text += event.text;
      told.last = event.number;
    }
  }
  return told;
}

void Events::close() {
  {
    const std::lock_guard lock{mutex_};
    closed_ = true;
  }
  changed_.notify_all();
}

}  // namespace plankwright::server
