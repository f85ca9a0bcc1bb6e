#include "alarm.h"

#include <ctime>

#include <sys/resource.h>

namespace plankwright::bench_tool {
namespace {

double cpu_now() {
  return static_cast<double>(std::clock()) / CLOCKS_PER_SEC;
}

}  // namespace

Watch::Watch() : start_{std::chrono::steady_clock::now()}, cpu_start_{cpu_now()} {}

double Watch::seconds() const {
  return std::chrono::duration<double>(std::chrono::steady_clock::now() - start_).count();
}

double Watch::cpu_seconds() const {
  return cpu_now() - cpu_start_;
}

double peak_megabytes() {
  rusage usage{};
  getrusage(RUSAGE_SELF, &usage);
  return static_cast<double>(usage.ru_maxrss) / 1024;
}

Alarm::Alarm(const RunOptions& options)
    : thread_{[this, seconds = options.seconds, cpu = options.cpu] {
        const Watch watch;
        std::unique_lock lock{mutex_};
        while (!ended_.wait_for(lock, std::chrono::milliseconds(2), [&] { return over_; })) {
          if (cpu > 0 ? watch.cpu_seconds() > cpu : watch.seconds() > seconds) {
            source_.request_stop();
          }
        }
      }} {}

Alarm::~Alarm() {
  {
    const std::scoped_lock lock{mutex_};
    over_ = true;
  }
  ended_.notify_all();
}

}  // namespace plankwright::bench_tool
