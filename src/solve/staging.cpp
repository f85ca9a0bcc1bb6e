#include "solve/staging.h"

#include <algorithm>
#include <numeric>

#include <fmt/format.h>

#include "solve/staging_bound.h"
#include "solve/staging_branch.h"
#include "solve/staging_problem.h"

namespace plankwright::solve {
namespace {

std::size_t at(int index) {
  return static_cast<std::size_t>(index);
}

constexpr std::int64_t kMostNumber = 1'000'000'000'000;

bool bad(std::int64_t number) {
  return number < 0 || number > kMostNumber;
}

StagingObstacle bad_number(std::vector<int> tasks) {
  return {StagingObstacleKind::kBadNumber, std::move(tasks), -1, 0, 0};
}

void find_bad_numbers(const StagingJob& job, std::vector<StagingObstacle>& found) {
  if (bad(job.stage_time) || std::ranges::any_of(job.resources, bad)) {
    found.push_back(bad_number({}));
  }
  const int tasks = static_cast<int>(job.tasks.size());
  for (int i = 0; i < tasks; ++i) {
    const StagingTask& task = job.tasks[at(i)];
    if (bad(task.time) || std::ranges::any_of(task.uses, bad) ||
        task.uses.size() > job.resources.size()) {
      found.push_back(bad_number({i}));
    }
  }
  for (const auto* pairs : {&job.before, &job.stage_before, &job.apart}) {
    for (const auto& [first, second] : *pairs) {
      const bool names_none = first < 0 || second < 0 || first >= tasks || second >= tasks;
      if (names_none || (pairs == &job.apart && first == second)) {
        found.push_back(bad_number({first, second}));
      }
    }
  }
}

void find_misfits(const StagingJob& job, std::vector<StagingObstacle>& found) {
  for (std::size_t i = 0; i < job.tasks.size(); ++i) {
    const StagingTask& task = job.tasks[i];
    if (task.time > job.stage_time) {
      found.push_back({StagingObstacleKind::kTaskTooLong,
                       {static_cast<int>(i)},
                       -1,
                       task.time,
                       job.stage_time});
    }
    for (std::size_t r = 0; r < task.uses.size(); ++r) {
      if (task.uses[r] > job.resources[r]) {
        found.push_back({StagingObstacleKind::kTaskNeedsMore,
                         {static_cast<int>(i)},
                         static_cast<int>(r),
                         task.uses[r],
                         job.resources[r]});
      }
    }
  }
}

}  // namespace

std::vector<StagingObstacle> find_staging_obstacles(const StagingJob& job) {
  std::vector<StagingObstacle> found;
  find_bad_numbers(job, found);
  if (!found.empty()) {
    return found;
  }
  std::vector<Before> before = job.before;
  before.insert(before.end(), job.stage_before.begin(), job.stage_before.end());
  std::vector<int> circle = find_circle(static_cast<int>(job.tasks.size()), before);
  if (!circle.empty()) {
    found.push_back({StagingObstacleKind::kCircle, std::move(circle), -1, 0, 0});
  }
  find_misfits(job, found);
  return found;
}

base::Error describe(const StagingObstacle& obstacle) {
  const std::string tasks = list_of(obstacle.tasks);
  switch (obstacle.kind) {
    case StagingObstacleKind::kBadNumber:
      return {base::ErrorCode::kBadInput,
              tasks.empty()
                  ? "a stage needs a time and resources of nought or more"
                  : fmt::format("tasks {}: a negative number, or one that names nothing", tasks)};
    case StagingObstacleKind::kCircle:
      return {base::ErrorCode::kBadInput,
              fmt::format("tasks {} wait for each other in a circle", tasks)};
    case StagingObstacleKind::kTaskTooLong:
      return {
          base::ErrorCode::kDoesNotFit,
          fmt::format(
              "task {} takes {}, a stage has only {}", tasks, obstacle.needed, obstacle.available)};
    case StagingObstacleKind::kTaskNeedsMore:
      break;
  }
  return {base::ErrorCode::kDoesNotFit,
          fmt::format("task {} needs {} of resource {}, a stage has only {}",
                      tasks,
                      obstacle.needed,
                      obstacle.resource,
                      obstacle.available)};
}

namespace {

constexpr std::int64_t kFirstTurn = 5'000'000;

StagingJob backwards(const StagingJob& job) {
  StagingJob reversed = job;
  for (auto* pairs : {&reversed.before, &reversed.stage_before}) {
    for (Before& pair : *pairs) {
      std::swap(pair.first, pair.second);
    }
  }
  return reversed;
}

/// The job seen from one end.
struct Side {
  explicit Side(const StagingJob& job)
      : problem{make_staging_problem(job)},
        weights{stage_weights(problem)},
        after{stages_after(problem, weights)} {}

  StagingProblem problem;
  std::vector<StageWeight> weights;
  std::vector<int> after;
};

/// Branches from the front and from the back by turns, with one best plan between them.
class StagingSolver {
 public:
  StagingSolver(const StagingJob& job, const StagingLimits& limits)
      : limits_{limits}, sides_{Side{job}, Side{backwards(job)}} {
    for (int side = 0; side < 2; ++side) {
      answer_.bound = std::max(answer_.bound, sides_[side].after.back());
      take(greedy_stages(sides_[side].problem), side);
    }
  }

  StagingAnswer solve() {
    StagingBranch branches[2] = {branch(0), branch(1)};
    const auto stop = [&] { return limits_.stop.stop_requested() || done(); };
    std::int64_t turn = kFirstTurn;
    for (bool searched = false; !searched && !done() && !stop() && answer_.work < limits_.work;) {
      const std::int64_t before = answer_.work;
      for (int side = 0; side < 2 && !searched && !done(); ++side) {
        const std::int64_t spent = branches[side].work();
        searched = branches[side].run(
            answer_.stages, turn, stop, [&](const auto& stages) { take(stages, side); });
        answer_.work += branches[side].work() - spent;
      }
      if (searched) {
        answer_.bound = answer_.stages;
      }
      if (answer_.work == before) {
        break;  // both memories are full
      }
      turn *= 2;
    }
    answer_.proven = done();
    answer_.stopped = done()                          ? Stopped::kProven
                      : limits_.stop.stop_requested() ? Stopped::kCancelled
                                                      : Stopped::kWorkLimit;
    return answer_;
  }

 private:
  bool done() const { return answer_.stages <= answer_.bound; }

  StagingBranch branch(int side) const {
    const Side& seen = sides_[side];
    return {seen.problem, seen.weights, seen.after, limits_.states / 2};
  }

  void take(std::vector<int> stage_of, int side) {
    int stages = 0;
    for (const int stage : stage_of) {
      stages = std::max(stages, stage + 1);
    }
    if (!answer_.stage_of.empty() && stages >= answer_.stages) {
      return;
    }
    for (int& stage : stage_of) {
      stage = side == 0 ? stage : stages - 1 - stage;
    }
    answer_.stage_of = std::move(stage_of);
    answer_.stages = stages;
    if (limits_.progress) {
      limits_.progress({stages, answer_.bound, answer_.work});
    }
  }

  const StagingLimits& limits_;
  Side sides_[2];
  StagingAnswer answer_;
};

}  // namespace

base::Result<StagingAnswer> solve_staging(const StagingJob& job, const StagingLimits& limits) {
  if (const auto obstacles = find_staging_obstacles(job); !obstacles.empty()) {
    return describe(obstacles.front());
  }
  return StagingSolver{job, limits}.solve();
}

}  // namespace plankwright::solve
