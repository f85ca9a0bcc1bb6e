#include "solve/order_assignment.h"

#include <limits>
#include <utility>

namespace plankwright::solve {
namespace {

std::size_t at(int index) {
  return static_cast<std::size_t>(index);
}

}  // namespace

std::vector<std::int64_t> scaled_costs(const OrderProblem& problem) {
  std::vector<std::int64_t> costs = problem.costs;
  for (std::int64_t& cost : costs) {
    cost *= PricedArcs::kScale;
  }
  return costs;
}

// Rows are the nodes left, 0..n-2; column j stands for node j + 1.
PricedArcs price_nodes(int nodes, std::vector<std::int64_t> costs) {
  const auto cost = [&](int from, int to) -> std::int64_t& {
    return costs[at(from) * at(nodes) + at(to)];
  };
  const int size = nodes - 1;
  std::vector<std::int64_t> row(at(size) + 1, 0);
  std::vector<std::int64_t> column(at(size) + 1, 0);
  std::vector<int> taken_by(at(size) + 1, size);
  for (int start = 0; start < size; ++start) {
    constexpr std::int64_t kFar = std::numeric_limits<std::int64_t>::max();
    std::vector<std::int64_t> distance(at(size) + 1, kFar);
    std::vector<int> from(at(size) + 1, size);
    std::vector<bool> used(at(size) + 1, false);
    int here = size;  // the column in front of the free row
    taken_by[at(size)] = start;
    do {
      used[at(here)] = true;
      const int owner = taken_by[at(here)];
      std::int64_t step = kFar;
      int next = size;
      for (int j = 0; j < size; ++j) {
        if (used[at(j)]) {
          continue;
        }
        const std::int64_t slack = cost(owner, j + 1) - row[at(owner)] - column[at(j)];
        if (slack < distance[at(j)]) {
          distance[at(j)] = slack;
          from[at(j)] = here;
        }
        if (distance[at(j)] < step) {
          step = distance[at(j)];
          next = j;
        }
      }
      for (int j = 0; j <= size; ++j) {
        if (used[at(j)]) {
          row[at(taken_by[at(j)])] += step;
          column[at(j)] -= step;
        } else if (distance[at(j)] < kFar) {
          distance[at(j)] -= step;
        }
      }
      here = next;
    } while (taken_by[at(here)] != size);
    while (here != size) {
      const int before = from[at(here)];
      taken_by[at(here)] = taken_by[at(before)];
      here = before;
    }
  }
  PricedArcs priced;
  for (int i = 0; i < size; ++i) {
    priced.base += row[at(i)] + column[at(i)];
    for (int j = 0; j < size; ++j) {
      cost(i, j + 1) -= row[at(i)] + column[at(j)];
    }
  }
  priced.costs = std::move(costs);
  return priced;
}

}  // namespace plankwright::solve
