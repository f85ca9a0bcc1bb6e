#include "board_kind.h"

#include <algorithm>
#include <cstdio>

#include <fmt/format.h>
#include <nlohmann/json.hpp>

#include "alarm.h"
#include "board_instances.h"
#include "solve/check_boards.h"

namespace plankwright::bench_tool {
namespace {

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

void run_one(const BoardInstance& instance, const RunOptions& options, Summary& summary) {
  const bool money = instance.job.goal == solve::BoardGoal::kLeastMoney;
  solve::BoardLimits limits;
  // The clock decides; the work is a guard, of which the bound has its share.
  limits.work = static_cast<std::int64_t>(std::max(options.seconds, options.cpu) * 2e9);
  double first = 0;
  const Watch watch;
  limits.progress = [&](const solve::BoardProgress& progress) {
    if (first == 0 && (money || progress.value > 0)) {
      first = watch.seconds();
    }
  };
  const Alarm alarm{options};
  limits.stop = alarm.token();
  const auto answer = solve_boards(instance.job, limits);
  nlohmann::json line = {{"name", instance.name},
                         {"variant", options.variant},
                         {"seconds", watch.seconds()},
                         {"cpu_seconds", watch.cpu_seconds()},
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

}  // namespace

int run_board_kind(const RunOptions& given) {
  RunOptions options = given;
  if (options.variant.empty()) {
    options.variant = "yield";
  }
  if (options.variant != "yield" && options.variant != "money") {
    fmt::print(stderr, "boards have the variants yield and money\n");
    return 2;
  }
  const auto instances = read_board_instances(options.files, options.variant);
  if (!instances.ok()) {
    fmt::print(stderr, "{}\n", instances.error().message);
    return 1;
  }
  Summary summary;
  std::int64_t seen = 0;
  for (const BoardInstance& instance : instances.value()) {
    if (instance.name.find(options.set) != std::string::npos &&
        (options.first < 0 || summary.instances < options.first) && seen++ % options.every == 0) {
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
