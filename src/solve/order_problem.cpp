#include "solve/order_problem.h"

#include <algorithm>
#include <numeric>

namespace plankwright::solve {
namespace {

std::size_t at(int index) {
  return static_cast<std::size_t>(index);
}

void fill_costs(const OrderJob& job, OrderProblem& problem) {
  const int jobs = problem.nodes - 2;
  problem.costs.assign(at(problem.nodes) * at(problem.nodes), OrderProblem::kNoArc);
  for (int a = 0; a < jobs; ++a) {
    problem.cost(0, a + 1) = job.first.empty() ? 0 : job.first[at(a)];
    problem.cost(a + 1, jobs + 1) = job.last.empty() ? 0 : job.last[at(a)];
    for (int b = 0; b < jobs; ++b) {
      const std::int64_t change = job.change[at(a)][at(b)];
      if (a != b && change >= 0) {
        problem.cost(a + 1, b + 1) = change;
      }
    }
  }
  if (jobs == 0) {
    problem.cost(0, 1) = 0;
  }
}

void fill_precedence(const OrderJob& job, OrderProblem& problem) {
  const int jobs = problem.nodes - 2;
  auto& precedes = problem.precedes;
  precedes.assign(at(problem.nodes), std::vector<std::uint8_t>(at(problem.nodes), 0));
  for (const Before& pair : job.before) {
    precedes[at(pair.first + 1)][at(pair.second + 1)] = 1;
  }
  for (int a = 0; a < jobs; ++a) {
    precedes[0][at(a + 1)] = precedes[at(a + 1)][at(jobs + 1)] = 1;
    for (int b = 0; b < jobs; ++b) {
      if (a != b && job.change[at(a)][at(b)] == kComesBefore) {
        precedes[at(b + 1)][at(a + 1)] = 1;
      }
    }
  }
  precedes[0][at(jobs + 1)] = 1;
  for (int k = 0; k < problem.nodes; ++k) {
    for (int i = 0; i < problem.nodes; ++i) {
      if (precedes[at(i)][at(k)] != 0) {
        for (int j = 0; j < problem.nodes; ++j) {
          precedes[at(i)][at(j)] |= precedes[at(k)][at(j)];
        }
      }
    }
  }
}

void drop_arcs(OrderProblem& problem) {
  for (int i = 0; i < problem.nodes; ++i) {
    for (const int j : problem.later[at(i)]) {
      problem.cost(j, i) = OrderProblem::kNoArc;
      for (const int k : problem.later[at(j)]) {
        problem.cost(i, k) = OrderProblem::kNoArc;
      }
    }
  }
}

}  // namespace

std::int64_t OrderProblem::cost_of(const std::vector<int>& path) const {
  std::int64_t total = 0;
  for (std::size_t i = 1; i < path.size(); ++i) {
    total += cost(path[i - 1], path[i]);
  }
  return total;
}

OrderProblem make_order_problem(const OrderJob& job) {
  OrderProblem problem;
  problem.nodes = static_cast<int>(job.change.size()) + 2;
  fill_costs(job, problem);
  fill_precedence(job, problem);
  problem.earlier.resize(at(problem.nodes));
  problem.later.resize(at(problem.nodes));
  for (int i = 0; i < problem.nodes; ++i) {
    for (int j = 0; j < problem.nodes; ++j) {
      if (problem.precedes[at(i)][at(j)] != 0) {
        problem.later[at(i)].push_back(j);
        problem.earlier[at(j)].push_back(i);
      }
    }
  }
  drop_arcs(problem);
  std::int64_t unit = 0;
  for (const std::int64_t cost : problem.costs) {
    unit = cost < OrderProblem::kNoArc ? std::gcd(unit, cost) : unit;
  }
  problem.unit = std::max<std::int64_t>(1, unit);
  return problem;
}

void add_before(OrderProblem& problem, int first, int second) {
  std::vector<int> before = problem.earlier[at(first)];
  std::vector<int> after = problem.later[at(second)];
  before.push_back(first);
  after.push_back(second);
  for (const int a : before) {
    for (const int b : after) {
      if (problem.precedes[at(a)][at(b)] == 0) {
        problem.precedes[at(a)][at(b)] = 1;
        problem.later[at(a)].push_back(b);
        problem.earlier[at(b)].push_back(a);
      }
    }
  }
  drop_arcs(problem);
}

int drop_dear_arcs(OrderProblem& problem, const PricedArcs& arcs, std::int64_t best) {
  const std::int64_t most = (best - problem.unit) * PricedArcs::kScale - arcs.base;
  int dropped = 0;
  for (std::size_t i = 0; i < problem.costs.size(); ++i) {
    if (problem.costs[i] < OrderProblem::kNoArc && arcs.costs[i] > most) {
      problem.costs[i] = OrderProblem::kNoArc;
      ++dropped;
    }
  }
  return dropped;
}

std::vector<int> greedy_path(const OrderProblem& problem) {
  std::vector<int> waiting(at(problem.nodes), 0);
  for (int i = 0; i < problem.nodes; ++i) {
    waiting[at(i)] = static_cast<int>(problem.earlier[at(i)].size());
  }
  std::vector<int> path = {0};
  std::vector<bool> done(at(problem.nodes), false);
  for (done[0] = true; path.size() < at(problem.nodes);) {
    for (const int next : problem.later[at(path.back())]) {
      --waiting[at(next)];
    }
    int best = -1;
    for (int i = 0; i < problem.nodes; ++i) {
      if (!done[at(i)] && waiting[at(i)] == 0 &&
          (best < 0 || problem.cost(path.back(), i) < problem.cost(path.back(), best))) {
        best = i;
      }
    }
    done[at(best)] = true;
    path.push_back(best);
  }
  return path;
}

}  // namespace plankwright::solve
