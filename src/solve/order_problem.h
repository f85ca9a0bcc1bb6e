#pragma once
// An order job made ready to search: a path from a start to an end, with all that follows from the
// precedence filled in.

#include <cstdint>
#include <vector>

#include "solve/order.h"

namespace plankwright::solve {

/// Nodes 1..n are the jobs 0..n-1, node 0 the start and node n+1 the end. Arcs that no order can
/// use cost kNoArc: against the precedence, or past a job that must lie between.
struct OrderProblem {
  static constexpr std::int64_t kNoArc = std::int64_t{1} << 40;

  int nodes = 0;
  std::int64_t unit = 1;                  // every cost is a multiple of it
  std::vector<std::int64_t> costs;        // row by row
  std::vector<std::vector<int>> earlier;  // all that must come before a node
  std::vector<std::vector<int>> later;    // all that must come after
  std::vector<std::vector<std::uint8_t>> precedes;

  std::int64_t cost(int from, int to) const {
    return costs[static_cast<std::size_t>(from) * static_cast<std::size_t>(nodes) +
                 static_cast<std::size_t>(to)];
  }
  std::int64_t& cost(int from, int to) {
    return costs[static_cast<std::size_t>(from) * static_cast<std::size_t>(nodes) +
                 static_cast<std::size_t>(to)];
  }
  /// The least that orders can cost from `bound` on.
  std::int64_t rounded(std::int64_t bound) const { return (bound + unit - 1) / unit * unit; }
  /// Of a path through all nodes; kNoArc or more when it uses an arc that is none.
  std::int64_t cost_of(const std::vector<int>& path) const;
};

/// What an arc costs beyond what every order pays anyway, in parts of 1/kScale: for any order,
/// `base` plus the sum over its arcs is no more than what it costs.
struct PricedArcs {
  static constexpr std::int64_t kScale = 1024;
  std::vector<std::int64_t> costs;  // row by row, none below nought; where there is no arc unused
  std::int64_t base = 0;
};

/// Takes away the arcs that no order cheaper than `best` can use; tells how many.
int drop_dear_arcs(OrderProblem& problem, const PricedArcs& arcs, std::int64_t best);

/// `job` must have passed check_order_job.
OrderProblem make_order_problem(const OrderJob& job);

/// Only orders with `first` before `second` are left; they may not be before each other the other
/// way.
void add_before(OrderProblem& problem, int first, int second);

/// A path from start to end that keeps the precedence, always going where it is cheapest; its cost
/// may be kNoArc or more.
std::vector<int> greedy_path(const OrderProblem& problem);

}  // namespace plankwright::solve
