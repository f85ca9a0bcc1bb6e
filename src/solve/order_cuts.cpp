#include "solve/order_cuts.h"

#include <algorithm>
#include <cmath>
#include <utility>

#include "solve/order_assignment.h"

namespace plankwright::solve {
namespace {

constexpr std::int64_t kScale = PricedArcs::kScale;
constexpr double kDust = 1e-7;
constexpr int kMostIdle = 8;
constexpr int kPatience = 12;         // solutions that are hardly better
constexpr double kLeastGain = 0.002;  // of the gap, to count as better
constexpr std::size_t kMostNew = 2;   // cuts of a round, a node
constexpr double kMissing = 4;        // what a missed cut costs, in best known orders
constexpr int kFirstArc = 1;          // column; the one before stands for missed cuts

std::size_t at(int index) {
  return static_cast<std::size_t>(index);
}

}  // namespace

OrderCuts::OrderCuts(OrderProblem& problem, std::vector<OrderCut> cuts)
    : problem_{problem},
      separation_{problem},
      priced_{price_nodes(problem.nodes, scaled_costs(problem))} {
  bound_ = std::min(problem.rounded((priced_.base + kScale - 1) / kScale), OrderProblem::kNoArc);
  work_ = std::int64_t{2} * problem.nodes * problem.nodes * problem.nodes;
  for (OrderCut& cut : cuts) {
    rows_.push_back({std::move(cut), 0});
  }
}

OrderCuts::OrderCuts(OrderProblem& problem, const OrderCuts& wider)
    : problem_{problem},
      separation_{problem},
      programme_{wider.programme_},
      arcs_{wider.arcs_},
      rows_{wider.rows_},
      priced_{wider.priced_},
      bound_{wider.bound_},
      value_{wider.value_},
      set_up_{wider.set_up_} {
  if (set_up_) {
    drop_columns();
  }
}

std::vector<OrderCut> OrderCuts::cuts() const {
  std::vector<OrderCut> cuts;
  for (const Row& row : rows_) {
    cuts.push_back(row.cut);
  }
  return cuts;
}

void OrderCuts::set_up(std::int64_t best) {
  set_up_ = true;
  for (int row = 0; row < 2 * problem_.nodes; ++row) {  // node i left: i; entered: nodes + i
    const bool free = row == problem_.nodes - 1 || row == problem_.nodes;
    programme_.add_row_at_least(free ? 0 : 1);
    programme_.set_row_at_most(row, free ? 0 : 1);
  }
  std::vector<double> costs = {kMissing * static_cast<double>(best) + 1};
  std::vector<std::vector<int>> rows = {{}};
  for (int from = 0; from < problem_.nodes; ++from) {
    for (int to = 0; to < problem_.nodes; ++to) {
      if (problem_.cost(from, to) < OrderProblem::kNoArc) {
        arcs_.push_back({from, to});
        costs.push_back(static_cast<double>(problem_.cost(from, to)));
        rows.push_back({from, problem_.nodes + to});
      }
    }
  }
  programme_.add_columns(costs, rows);
  add_rows(0);
}

/// Those from the given one on go into the programme.
void OrderCuts::add_rows(std::size_t first) {
  std::vector<std::vector<int>> rows;
  for (std::size_t r = first; r < rows_.size(); ++r) {
    rows.push_back({0});
    for (std::size_t a = 0; a < arcs_.size(); ++a) {
      if (rows_[r].cut.has(arcs_[a].from, arcs_[a].to)) {
        rows.back().push_back(static_cast<int>(a) + kFirstArc);
      }
    }
  }
  if (!rows.empty()) {
    programme_.add_rows_at_least(1, rows);
  }
  work_ += static_cast<std::int64_t>(rows.size() * arcs_.size()) * 2;
}

/// The cuts' prices, rounded, make other costs of the arcs; the assignment prices the nodes.
void OrderCuts::price(std::int64_t best) {
  std::vector<std::int64_t> costs = scaled_costs(problem_);
  std::int64_t sum = 0;
  for (std::size_t r = 0; r < rows_.size(); ++r) {
    const double dual = programme_.dual(2 * problem_.nodes + static_cast<int>(r));
    const std::int64_t price = std::llround(dual * static_cast<double>(kScale));
    if (price <= 0) {
      continue;
    }
    sum += price;
    for (const Arc& arc : arcs_) {
      if (rows_[r].cut.has(arc.from, arc.to)) {
        costs[at(arc.from) * at(problem_.nodes) + at(arc.to)] -= price;
      }
    }
    work_ += static_cast<std::int64_t>(arcs_.size()) * 2;
  }
  PricedArcs priced = price_nodes(problem_.nodes, std::move(costs));
  priced.base += sum;
  work_ += std::int64_t{2} * problem_.nodes * problem_.nodes * problem_.nodes;
  drop_dear_arcs(problem_, priced, best);
  if (priced.base > priced_.base) {
    priced_ = std::move(priced);
    const std::int64_t bound = (priced_.base + kScale - 1) / kScale;
    bound_ = std::max(bound_, std::min(problem_.rounded(bound), OrderProblem::kNoArc));
  }
}

/// Those in the basis stay a while, held at nought.
void OrderCuts::drop_columns() {
  std::vector<int> columns;
  std::vector<Arc> kept;
  for (std::size_t a = 0; a < arcs_.size(); ++a) {
    const int column = static_cast<int>(a) + kFirstArc;
    const bool gone = problem_.cost(arcs_[a].from, arcs_[a].to) >= OrderProblem::kNoArc;
    if (gone && !programme_.is_basic(column)) {
      columns.push_back(column);
      continue;
    }
    if (gone) {
      programme_.set_column_bounds(column, 0, 0);
    }
    kept.push_back(arcs_[a]);
  }
  if (!columns.empty()) {
    programme_.remove_columns(columns);
    arcs_ = std::move(kept);
  }
}

void OrderCuts::drop_rows() {
  std::vector<int> rows;
  std::vector<Row> kept;
  for (std::size_t r = 0; r < rows_.size(); ++r) {
    const int row = 2 * problem_.nodes + static_cast<int>(r);
    rows_[r].idle = programme_.dual(row) > kDust ? 0 : rows_[r].idle + 1;
    if (rows_[r].idle > kMostIdle) {
      rows.push_back(row);
    } else {
      kept.push_back(std::move(rows_[r]));
    }
  }
  rows_ = std::move(kept);
  if (!rows.empty()) {
    programme_.remove_rows(rows);
  }
}

void OrderCuts::read_shares() {
  shares_.clear();
  for (std::size_t c = 0; c < arcs_.size(); ++c) {
    if (const double share = programme_.value(static_cast<int>(c) + kFirstArc); share > kDust) {
      shares_.push_back({arcs_[c].from, arcs_[c].to, share});
    }
  }
}

bool OrderCuts::cut_off() {
  const std::int64_t before = separation_.work();
  std::vector<OrderCut> cuts = separation_.find(shares_);
  work_ += (separation_.work() - before) * 3;
  drop_rows();
  drop_columns();
  const std::size_t kept = rows_.size();
  const std::size_t most = at(problem_.nodes) * kMostNew;
  for (std::size_t k = 0; k < std::min(most, cuts.size()); ++k) {
    rows_.push_back({std::move(cuts[k]), 0});
  }
  add_rows(kept);
  return !cuts.empty();
}

bool OrderCuts::improve(std::int64_t best, std::int64_t work, int rounds) {
  const std::int64_t last = work_ + work;
  for (; rounds > 0 && work_ < last && bound_ < best; --rounds) {
    if (!set_up_) {
      drop_dear_arcs(problem_, priced_, best);
      set_up(best);
    }
    const std::int64_t pivots = programme_.pivots();
    const bool solved = programme_.solve();
    work_ += (programme_.pivots() - pivots + 5) * (programme_.rows() + programme_.columns()) * 20;
    if (!solved) {
      const PricedArcs plain = price_nodes(problem_.nodes, scaled_costs(problem_));
      bound_ = plain.base >= OrderProblem::kNoArc * kScale / 2 ? OrderProblem::kNoArc : bound_;
      return false;
    }
    read_shares();
    price(best);
    const double gap = static_cast<double>(best) - value_;
    if (programme_.objective() > value_ + kLeastGain * gap) {
      value_ = programme_.objective();
      stale_ = 0;
    } else if (++stale_ > kPatience) {
      return false;
    }
    if (bound_ < best && rounds > 1 && !cut_off()) {
      return false;
    }
  }
  return bound_ < best;
}

}  // namespace plankwright::solve
