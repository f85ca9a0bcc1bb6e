#pragma once
// A staging job made ready to search, with all that follows from the precedence filled in.

#include <cstdint>
#include <vector>

#include "solve/staging.h"

namespace plankwright::solve {

/// Row r of `uses` is dimension r of every task; dimension 0 is the time. `earlier` and `later` are
/// all that must not come after and before a task; `direct_*` only what does not follow from
/// others. `strict` tells of a pair whether the second must be in a later stage than the first.
struct StagingProblem {
  int tasks = 0;
  int dimensions = 1;
  std::vector<std::int64_t> capacity;           // of each dimension
  std::vector<std::vector<std::int64_t>> uses;  // uses[dimension][task]
  std::vector<std::vector<int>> direct_earlier;
  std::vector<std::vector<int>> direct_later;
  std::vector<std::vector<int>> earlier;
  std::vector<std::vector<int>> later;
  std::vector<std::vector<std::uint8_t>> precedes;  // 1: not after, 2: in an earlier stage
  std::vector<std::vector<int>> apart;
  bool plain = true;  // time and precedence only
};

/// `job` must be free of obstacles.
StagingProblem make_staging_problem(const StagingJob& job);

/// Stages filled one after the other, always with the free task that fits and has most time in and
/// behind it.
std::vector<int> greedy_stages(const StagingProblem& problem);

}  // namespace plankwright::solve
