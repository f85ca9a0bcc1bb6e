#include "board_kind.h"

#include <algorithm>
#include <chrono>
#include <condition_variable>
#include <cstdio>
#include <ctime>
#include <mutex>
#include <thread>

#include <fmt/format.h>
#include <nlohmann/json.hpp>

#include "board_instances.h"
#include "solve/check_boards.h"

namespace plankwright::bench_tool {
namespace {

using Clock = std::chrono::steady_clock;

struct Options {
  std::vector<std::string> files;
  std::string variant = "yield";
  std::string set;
  double seconds = 2;
  double cpu = 0;
  std::int64_t first = -1;
};

double since(Clock::time_point start) {
  return std::chrono::duration<double>(Clock::now() - start).count();
}

double cpu_seconds() {
  return static_cast<double>(std::clock()) / CLOCKS_PER_SEC;
}

/// Asks to stop when the time is over, unless it is destroyed first.
class Alarm {
 public:
  explicit Alarm(const Options& options)
      : thread_{[this, options] {
          const auto start = Clock::now();
          const double cpu = cpu_seconds();
          std::unique_lock lock{mutex_};
          while (!ended_.wait_for(lock, std::chrono::milliseconds(2), [&] { return over_; })) {
            if (options.cpu > 0 ? cpu_seconds() - cpu > options.cpu
                                : since(start) > options.seconds) {
              source_.request_stop();
            }
          }
        }} {}
  ~Alarm() {
    {
      const std::scoped_lock lock{mutex_};
      over_ = true;
    }
    ended_.notify_all();
  }
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

struct Summary {
  int instances = 0;
  int solved = 0;
  int checked = 0;
  int proven = 0;
  double reached = 0;  // of the bound: sums
  double possible = 0;
  double board_area = 0;
  double slowest_first = 0;
};

std::int64_t area_of(const solve::BoardJob& job) {
  std::int64_t area = 0;
  for (const solve::RoughBoard& board : job.boards) {
    area += board.length * board.width;
  }
  return area;
}

void run_one(const BoardInstance& instance, const Options& options, Summary& summary) {
  const bool money = instance.job.goal == solve::BoardGoal::kLeastMoney;
  solve::BoardLimits limits;
  // The clock decides; the work is a guard, of which the bound has its share.
  limits.work = static_cast<std::int64_t>(std::max(options.seconds, options.cpu) * 2e9);
  double first = 0;
  const auto start = Clock::now();
  const double cpu = cpu_seconds();
  limits.progress = [&](const solve::BoardProgress& progress) {
    if (first == 0 && (money || progress.value > 0)) {
      first = since(start);
    }
  };
  const Alarm alarm{options};
  limits.stop = alarm.token();
  const auto answer = solve_boards(instance.job, limits);
  nlohmann::json line = {{"name", instance.name},
                         {"variant", options.variant},
                         {"seconds", since(start)},
                         {"cpu_seconds", cpu_seconds() - cpu},
                         {"first_seconds", first}};
  summary.instances += 1;
  if (!answer.ok()) {
    line["says"] = answer.error().message;
    fmt::print("{}\n", line.dump());
    return;
  }
  const solve::BoardAnswer& found = answer.value();
  const auto faults = check_boards(instance.job, found);
  for (const auto& fault : faults) {
    fmt::print(stderr, "{}: {}\n", instance.name, fault.message);
  }
  line["value"] = money ? found.cost : found.value;
  line["bound"] = found.bound;
  line["proven"] = found.proven;
  line["checked"] = faults.empty();
  line["board_area"] = money ? found.cost : area_of(instance.job);
  line["part_area"] = found.value;
  fmt::print("{}\n", line.dump());
  std::fflush(stdout);
  summary.solved += 1;
  summary.checked += faults.empty() ? 1 : 0;
  summary.proven += found.proven ? 1 : 0;
  summary.reached += static_cast<double>(money ? found.bound : found.value);
  summary.possible += static_cast<double>(money ? found.cost : found.bound);
  summary.board_area += static_cast<double>(money ? found.cost : area_of(instance.job));
  summary.slowest_first = std::max(summary.slowest_first, first);
}

Options parse(const std::vector<std::string>& words) {
  Options options;
  for (std::size_t i = 0; i < words.size(); ++i) {
    const bool has_value = i + 1 < words.size();
    if (words[i] == "--variant" && has_value) {
      options.variant = words[++i];
    } else if (words[i] == "--set" && has_value) {
      options.set = words[++i];
    } else if (words[i] == "--seconds" && has_value) {
      options.seconds = std::stod(words[++i]);
    } else if (words[i] == "--cpu" && has_value) {
      options.cpu = std::stod(words[++i]);
    } else if (words[i] == "--first" && has_value) {
      options.first = std::stoll(words[++i]);
    } else {
      options.files.push_back(words[i]);
    }
  }
  return options;
}

}  // namespace

int run_board_kind(const std::vector<std::string>& words) {
  const Options options = parse(words);
  if (options.files.empty() || (options.variant != "yield" && options.variant != "money")) {
    fmt::print(stderr,
               "solve_instances boards BOARDS BILLS... [--variant yield|money] [--seconds S] "
               "[--cpu S] [--first N] [--set NAME]\n");
    return 2;
  }
  const auto instances = read_board_instances(options.files, options.variant);
  if (!instances.ok()) {
    fmt::print(stderr, "{}\n", instances.error().message);
    return 1;
  }
  Summary summary;
  for (const BoardInstance& instance : instances.value()) {
    if (instance.name.find(options.set) != std::string::npos &&
        (options.first < 0 || summary.instances < options.first)) {
      run_one(instance, options, summary);
    }
  }
  fmt::print(stderr,
             "{} instances, {} laid out, {} checked, {} proven; {:.1f} % of the own bound in all; "
             "slowest first {:.4f} s\n",
             summary.instances,
             summary.solved,
             summary.checked,
             summary.proven,
             100 * summary.reached / std::max(1.0, summary.possible),
             summary.slowest_first);
  return 0;
}

}  // namespace plankwright::bench_tool
