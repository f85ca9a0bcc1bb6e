#pragma once
// The last few things that were worked out, by what they were worked out from.

#include <algorithm>
#include <list>
#include <mutex>
#include <optional>
#include <utility>

namespace plankwright::server {

/// Keeps at most `most` values; the one that was not asked for longest goes first. Safe from
/// several threads. Values are cheap to copy (shared pointers).
template <class Key, class Value>
class Recent {
 public:
  explicit Recent(std::size_t most) : most_{most} {}

  std::optional<Value> find(const Key& key) {
    const std::lock_guard lock{mutex_};
    const auto found =
        std::find_if(kept_.begin(), kept_.end(), [&](const auto& one) { return one.first == key; });
    if (found == kept_.end()) {
      return std::nullopt;
    }
    kept_.splice(kept_.begin(), kept_, found);
    return found->second;
  }

  void keep(const Key& key, Value value) {
    const std::lock_guard lock{mutex_};
    kept_.remove_if([&](const auto& one) { return one.first == key; });
    kept_.emplace_front(key, std::move(value));
    if (kept_.size() > most_) {
      kept_.pop_back();
    }
  }

 private:
  std::size_t most_;
  std::mutex mutex_;
  std::list<std::pair<Key, Value>> kept_;
};

}  // namespace plankwright::server
