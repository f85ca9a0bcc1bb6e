// Adds up every stage from the job alone.

#include <algorithm>

#include <fmt/format.h>

#include "solve/staging.h"

namespace plankwright::solve {
namespace {

std::int64_t use_of(const StagingTask& task, std::size_t dimension) {
  if (dimension == 0) {
    return task.time;
  }
  return dimension <= task.uses.size() ? task.uses[dimension - 1] : 0;
}

void check_loads(const StagingJob& job,
                 const StagingAnswer& answer,
                 std::vector<std::string>& faults) {
  for (std::size_t dimension = 0; dimension <= job.resources.size(); ++dimension) {
    const std::int64_t limit = dimension == 0 ? job.stage_time : job.resources[dimension - 1];
    for (int stage = 0; stage < answer.stages; ++stage) {
      std::int64_t load = 0;
      for (std::size_t i = 0; i < job.tasks.size(); ++i) {
        load += answer.stage_of[i] == stage ? use_of(job.tasks[i], dimension) : 0;
      }
      if (load > limit) {
        faults.push_back(
            dimension == 0
                ? fmt::format("stage {} takes {} of {}", stage, load, limit)
                : fmt::format(
                      "stage {} needs {} of {} of resource {}", stage, load, limit, dimension - 1));
      }
    }
  }
}

}  // namespace

std::vector<std::string> check_staging(const StagingJob& job, const StagingAnswer& answer) {
  std::vector<std::string> faults;
  const auto outside = [&](int stage) { return stage < 0 || stage >= answer.stages; };
  if (answer.stage_of.size() != job.tasks.size() || std::ranges::any_of(answer.stage_of, outside)) {
    return {"not every task has a stage"};
  }
  for (int stage = 0; stage < answer.stages; ++stage) {
    if (std::ranges::count(answer.stage_of, stage) == 0) {
      faults.push_back(fmt::format("stage {} is empty", stage));
    }
  }
  const auto stage = [&](int task) { return answer.stage_of[static_cast<std::size_t>(task)]; };
  for (const auto& [first, second] : job.before) {
    if (stage(first) > stage(second)) {
      faults.push_back(fmt::format("task {} is staged after task {}", first, second));
    }
  }
  for (const auto& [first, second] : job.stage_before) {
    if (stage(first) >= stage(second)) {
      faults.push_back(fmt::format("task {} is not in a stage before task {}", first, second));
    }
  }
  for (const auto& [first, second] : job.apart) {
    if (stage(first) == stage(second)) {
      faults.push_back(fmt::format("tasks {} and {} share stage {}", first, second, stage(first)));
    }
  }
  check_loads(job, answer, faults);
  if (answer.bound > answer.stages || answer.proven != (answer.bound == answer.stages)) {
    faults.emplace_back("a bound above the stages, or proven claimed wrongly");
  }
  return faults;
}

}  // namespace plankwright::solve
