#pragma once
// Work in stages: which tasks share a glue-up, so that each closes within the open time and there
// are as few as possible. Without the extras this is simple assembly line balancing, type 1.

#include <cstdint>
#include <functional>
#include <optional>
#include <stop_token>
#include <string>
#include <vector>

#include "base/result.h"
#include "solve/precedence.h"
#include "solve/sheets.h"

namespace plankwright::solve {

/// One thing to do in a stage: `time` it takes of the stage (spreading and closing a joint, say),
/// and what it `uses` of each resource for as long as the stage lasts (clamps of each reach); a
/// shorter list means nought of the rest.
struct StagingTask {
  std::int64_t time = 0;
  std::vector<std::int64_t> uses;
};

/// Every stage has `stage_time` (the open time) and `resources` (the clamps of each reach). In
/// `before` the first may be in the same stage or an earlier one; in `stage_before` it must be in
/// an earlier one (it has to cure first). `apart` may not share a stage, in whatever order.
struct StagingJob {
  std::vector<StagingTask> tasks;
  std::int64_t stage_time = 0;
  std::vector<std::int64_t> resources;
  std::vector<Before> before;
  std::vector<Before> stage_before;
  std::vector<Before> apart;
};

/// `stage_of` counts stages from nought. `bound` is the fewest stages any plan could have, `proven`
/// that they meet. `work` is what was spent, about a nanosecond each.
struct StagingAnswer {
  std::vector<int> stage_of;
  int stages = 0;
  int bound = 0;
  bool proven = false;
  Stopped stopped = Stopped::kWorkLimit;
  std::int64_t work = 0;
};

struct StagingProgress {
  int stages = 0;
  int bound = 0;
  std::int64_t work = 0;
};

/// How long to try, in work and never in seconds. `states` limits the memory of states seen.
struct StagingLimits {
  std::int64_t work = 1'000'000'000;
  std::int64_t states = 5'000'000;
  std::stop_token stop = {};
  std::function<void(const StagingProgress&)> progress = {};
};

enum class StagingObstacleKind : std::uint8_t {
  kBadNumber,     // a negative time, use or stage time, or a pair that names no task
  kCircle,        // tasks that wait for each other
  kTaskTooLong,   // one task alone takes longer than a stage
  kTaskNeedsMore  // one task alone needs more of a resource than a stage has
};

/// Why a job cannot be staged: the tasks, the resource, what is needed and what there is.
struct StagingObstacle {
  StagingObstacleKind kind = StagingObstacleKind::kBadNumber;
  std::vector<int> tasks;
  int resource = -1;
  std::int64_t needed = 0;
  std::int64_t available = 0;
};

/// Everything that keeps a job from being staged; a job without any always has an answer.
std::vector<StagingObstacle> find_staging_obstacles(const StagingJob& job);

/// An obstacle in words, tasks by index.
base::Error describe(const StagingObstacle& obstacle);

/// Fewest stages, with a proven bound. The first obstacle as an error: kBadInput for numbers and
/// circles, kDoesNotFit for a task that fits no stage.
base::Result<StagingAnswer> solve_staging(const StagingJob& job, const StagingLimits& limits = {});

/// Everything wrong with an answer, in words; empty when it is sound. Shares no code with the
/// solver.
std::vector<std::string> check_staging(const StagingJob& job, const StagingAnswer& answer);

}  // namespace plankwright::solve
