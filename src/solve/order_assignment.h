#pragma once
// A successor for every job, whether or not that makes one order of them.

#include <cstdint>
#include <vector>

#include "solve/order_problem.h"

namespace plankwright::solve {

/// What the cheapest choice of successors costs, each node being the successor of one, and prices
/// that prove it: an arc costs no less than what its ends pay. `cost` is kNoArc or more when there
/// is no such choice.
struct Assignment {
  std::int64_t cost = 0;
  std::vector<std::int64_t> leaving;   // of each node but the end
  std::vector<std::int64_t> entering;  // of each node but the start
};

/// By shortest augmenting paths (Kuhn 1955, Tomizawa 1971).
Assignment assign_successors(const OrderProblem& problem);

}  // namespace plankwright::solve
