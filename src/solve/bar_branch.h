#pragma once
// Small orders of bars settled for certain, bar by bar.

#include <cstdint>
#include <optional>
#include <vector>

#include "solve/bar_master.h"

namespace plankwright::solve {

/// `complete` when nothing was left untried; then no set of bars is cheaper than `bars`, or than
/// the price that was to be beaten when there are none.
struct BarBranching {
  std::vector<BarPattern> bars;
  bool complete = false;
  std::int64_t work = 0;
};

/// Looks for bars cheaper than `to_beat`: the longest part left goes into the next bar, filled in
/// every way that leaves no room for another part; what is left over is looked at once. Bounded by
/// the least price for its length. Gives up beyond `most_work`.
BarBranching branch_bars(const BarProblem& problem, std::int64_t to_beat, std::int64_t most_work);

}  // namespace plankwright::solve
