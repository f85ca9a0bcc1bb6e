#pragma once
// Looks at the kept commissions once a second, and tells the pages which were changed elsewhere.

#include <chrono>
#include <condition_variable>
#include <map>
#include <mutex>
#include <string>
#include <thread>

#include "server/events.h"
#include "store/keeper.h"

namespace plankwright::server {

class Watch {
 public:
  Watch(store::Keeper& keeper, Events& events, std::chrono::milliseconds every);
  ~Watch();
  Watch(const Watch&) = delete;
  Watch& operator=(const Watch&) = delete;

  /// Tells all pages that `id` now has `version`, unless they know.
  void tell(const std::string& id, const std::string& version);
  void stop();

 private:
  void work(std::chrono::milliseconds every);
  void look();
  bool learn(const std::string& id, const std::string& version);

  store::Keeper& keeper_;
  Events& events_;
  std::mutex mutex_;
  std::condition_variable stopped_;
  bool stopping_ = false;
  std::map<std::string, std::string> versions_;  // by id, as the pages know them
  std::map<std::string, std::string> stamps_;    // by id; the watching thread's own
  std::thread worker_;
};

}  // namespace plankwright::server
