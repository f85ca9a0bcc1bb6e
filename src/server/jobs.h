#pragma once
// Long work that tells how far it is and can be called off, and work that is done afterwards.

#include <atomic>
#include <condition_variable>
#include <functional>
#include <map>
#include <memory>
#include <mutex>
#include <string>
#include <thread>

#include "server/events.h"
#include "server/planner.h"

namespace plankwright::server {

/// Whether work is still wanted.
using CalledOff = std::shared_ptr<std::atomic<bool>>;

/// The long work of each commission. Safe from several threads.
class Jobs {
 public:
  explicit Jobs(Events& events) : events_{events} {}

  /// Begins work for commission `id`.
  CalledOff begin(const std::string& id);
  /// Tells all pages how far `job` is: `share` from 0 to 1.
  void tell(const std::string& id, const std::string& job, double share, const std::string& says);
  /// Calls off all work that has begun for `id`. Returns how much there was.
  int call_off(const std::string& id);
  /// Calls off everything; for the end.
  void call_off_all();

 private:
  Events& events_;
  std::mutex mutex_;
  std::multimap<std::string, std::weak_ptr<std::atomic<bool>>> begun_;
};

/// After a quick plan the full one is made, of each commission the last that was asked for, and
/// told of as a "better" event.
class Afterthoughts {
 public:
  Afterthoughts(Planner& planner, Jobs& jobs, Events& events);
  ~Afterthoughts();
  Afterthoughts(const Afterthoughts&) = delete;
  Afterthoughts& operator=(const Afterthoughts&) = delete;

  void add(const std::string& id, PlanOrder quick);
  /// Forgets what waits for `id`.
  void drop(const std::string& id);
  void stop();

 private:
  void work();
  void make(const std::string& id, PlanOrder order);

  Planner& planner_;
  Jobs& jobs_;
  Events& events_;
  std::mutex mutex_;
  std::condition_variable changed_;
  std::map<std::string, PlanOrder> waiting_;
  bool stopping_ = false;
  std::thread worker_;
};

}  // namespace plankwright::server
