#pragma once
// A successor for every job, whether or not that makes one order of them.

#include <cstdint>
#include <vector>

#include "solve/order_problem.h"

namespace plankwright::solve {

/// The costs of a problem's arcs in parts of 1/PricedArcs::kScale, row by row; far more than any
/// order where there is no arc.
std::vector<std::int64_t> scaled_costs(const OrderProblem& problem);

/// Prices on the nodes that prove what the cheapest choice of successors costs, each node but the
/// start being the successor of one; `costs` row by row as scaled_costs gives them. The base is far
/// more than any order when there is no such choice. By shortest augmenting paths (Kuhn 1955,
/// Tomizawa 1971).
PricedArcs price_nodes(int nodes, std::vector<std::int64_t> costs);

}  // namespace plankwright::solve
