#pragma once
// How few stages there could be: weights that any stage's load keeps below a limit, and what must
// follow a task.

#include <cstdint>
#include <vector>

#include "solve/staging_problem.h"

namespace plankwright::solve {

/// Numbers for the tasks such that no stage can hold more than `limit` of them.
struct StageWeight {
  std::vector<std::int64_t> of;  // each task
  std::int64_t limit = 1;
};

/// The uses of each dimension themselves and what dual feasible functions make of them (Fekete &
/// Schepers, Math. Program. 91, 2001); among them the counts of tasks above a half and a third of a
/// stage. At most a dozen for each dimension, those that say most of the whole job.
std::vector<StageWeight> stage_weights(const StagingProblem& problem);

/// The fewest stages for tasks whose weights sum to `sum`.
std::int64_t stages_for(const StageWeight& weight, std::int64_t sum);

/// For each task, how many stages at least come after its own; the last entry how many there are in
/// all. Tails after Johnson (1988) and Scholl & Klein (INFORMS J. Comput. 9, 1997).
std::vector<int> stages_after(const StagingProblem& problem,
                              const std::vector<StageWeight>& weights);

}  // namespace plankwright::solve
