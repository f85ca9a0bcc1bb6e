#pragma once
// Orders built place by place: of all beginnings with the same jobs done and the same last job only
// the cheapest goes on, and only if a bound says that it could end well.

#include <cstdint>
#include <functional>
#include <vector>

#include "solve/order_problem.h"
#include "solve/order_relaxation.h"

namespace plankwright::solve {

/// What one sweep over all places came to. `path` is empty when nothing below the goal was found.
struct LayersOutcome {
  std::vector<int> path;
  std::int64_t cost = 0;
  bool whole =
      false;  // nothing was left out: there is no order cheaper than the one known or found
};

/// Keeps at most `width` beginnings of each length, those with the least bound. Looks for an order
/// cheaper than `best`. `work` is counted up; `stop` gives up.
LayersOutcome sweep_layers(const OrderProblem& problem,
                           const OrderRelaxation& relaxation,
                           std::int64_t best,
                           std::size_t width,
                           std::int64_t& work,
                           const std::function<bool()>& stop);

}  // namespace plankwright::solve
