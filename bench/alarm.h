#pragma once
// Time, processor time and memory of a run, and asking a solver to stop.

#include <chrono>
#include <condition_variable>
#include <mutex>
#include <stop_token>
#include <thread>

#include "run_options.h"

namespace plankwright::bench_tool {

/// Seconds since it was made: of the clock, and of the processor over all threads.
class Watch {
 public:
  Watch();
  double seconds() const;
  double cpu_seconds() const;

 private:
  std::chrono::steady_clock::time_point start_;
  double cpu_start_ = 0;
};

/// Most memory this process has had so far, in megabytes.
double peak_megabytes();

/// Asks to stop after the seconds of the options, or after the processor seconds when those are
/// given (for a machine that others use as well), unless it is destroyed first.
class Alarm {
 public:
  explicit Alarm(const RunOptions& options);
  ~Alarm();
  Alarm(const Alarm&) = delete;
  Alarm& operator=(const Alarm&) = delete;
  std::stop_token token() const { return source_.get_token(); }

 private:
  std::stop_source source_;
  std::mutex mutex_;
  std::condition_variable ended_;
  bool over_ = false;
  std::jthread thread_;
};

}  // namespace plankwright::bench_tool
