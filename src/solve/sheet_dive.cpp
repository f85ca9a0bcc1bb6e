// Diving after Gilmore & Gomory's rounding, with column generation for the residual order at every
// node: whole multiples first, then the pattern with the largest fraction, a little noise making
// every dive another. Where the rest is small enough for ruin and recreate, that takes over with
// exactly the money that is left. Draws come from the dive's own seed.

#include "solve/sheet_dive.h"

#include <algorithm>
#include <cmath>
#include <numeric>

namespace plankwright::solve {
namespace {

constexpr std::int64_t kSearchWork = 150'000'000;
constexpr int kRounds = 4;
constexpr std::int64_t kMostCells = 400'000;

}  // namespace

SheetDive::SheetDive(const PackProblem& problem,
                     const std::vector<std::int64_t>& demand,
                     const std::vector<BoundColumn>& columns,
                     std::uint64_t seed)
    : problem_{problem}, demand_{demand}, random_{seed} {
  std::int64_t dearest = 1;
  for (const PackKind& kind : problem.kinds) {
    dearest = std::max(dearest, kind.price);
  }
  for (std::size_t t = 0; t < demand.size(); ++t) {
    master_.add_row_at_least(static_cast<double>(demand[t]));
  }
  for (const PackKind& kind : problem.kinds) {
    kind_rows_.push_back(
        kind.is_limited() ? master_.add_row_at_most(static_cast<double>(kind.available)) : -1);
  }
  for (std::size_t t = 0; t < demand.size(); ++t) {  // keeps every node solvable
    master_.add_column(static_cast<double>(dearest), {{static_cast<int>(t), 1.0}});
  }
  for (const BoundColumn& column : columns) {
    add_column(column.kind, column.root);
  }
}

bool SheetDive::add_column(int kind, PackNode root) {
  BoundColumn column{kind, count_types(root, demand_.size()), std::move(root)};
  std::vector<std::pair<int, double>> entries;
  for (std::size_t t = 0; t < demand_.size(); ++t) {
    if (column.counts[t] > 0) {
      entries.emplace_back(static_cast<int>(t), static_cast<double>(column.counts[t]));
    }
  }
  if (entries.empty()) {
    return false;
  }
  if (kind_rows_[at(kind)] >= 0) {
    entries.emplace_back(kind_rows_[at(kind)], 1.0);
  }
  lp_column_.push_back(
      master_.add_column(static_cast<double>(problem_.kinds[at(kind)].price), entries));
  columns_.push_back(std::move(column));
  return true;
}

std::int64_t SheetDive::copies_wanted() const {
  return std::accumulate(wanted_.begin(), wanted_.end(), std::int64_t{0});
}

bool SheetDive::is_proper(const BoundColumn& column) const {
  for (std::size_t t = 0; t < wanted_.size(); ++t) {
    if (column.counts[t] > wanted_[t]) {
      return false;
    }
  }
  return true;
}

void SheetDive::start() {
  wanted_ = demand_;
  stock_.clear();
  for (const PackKind& kind : problem_.kinds) {
    stock_.push_back(kind.available);
  }
  fixed_.clear();
  fixed_price_ = 0;
  const std::int64_t copies = copies_wanted();
  const double share = 0.2 + 0.6 * random_.fraction();
  search_below_ = std::clamp<std::int64_t>(
      static_cast<std::int64_t>(static_cast<double>(copies) * share), 20, 60 + random_.below(140));
  phase_ = Phase::kDescend;
}

double SheetDive::solve_master() {
  for (std::size_t t = 0; t < wanted_.size(); ++t) {
    master_.set_row_at_least(static_cast<int>(t), static_cast<double>(wanted_[t]));
  }
  for (std::size_t k = 0; k < kind_rows_.size(); ++k) {
    if (kind_rows_[k] >= 0) {
      master_.set_row_at_most(kind_rows_[k], static_cast<double>(stock_[k]));
    }
  }
  for (std::size_t c = 0; c < columns_.size(); ++c) {
    master_.set_column_bounds(lp_column_[c], 0, is_proper(columns_[c]) ? 1e30 : 0);
  }
  work_ += 3000 * static_cast<std::int64_t>(columns_.size() + wanted_.size());
  return master_.solve() ? master_.objective() : 1e300;
}

// New patterns for what is still wanted, none of it too often. False when no price improves.
bool SheetDive::price_rest() {
  std::vector<std::int32_t> values;
  double density = 1e-30;
  double area = 1;
  for (std::size_t t = 0; t < wanted_.size(); ++t) {
    const PackType& type = problem_.types[t];
    density = std::max(
        density,
        master_.dual(static_cast<int>(t)) / (static_cast<double>(type.width) * type.height));
  }
  for (const PackKind& kind : problem_.kinds) {
    area = std::max(area, static_cast<double>(kind.width) * kind.height);
  }
  const double scale = 1e9 / (density * area);
  for (std::size_t t = 0; t < wanted_.size(); ++t) {
    const double dual = wanted_[t] > 0 ? std::max(0.0, master_.dual(static_cast<int>(t))) : 0;
    values.push_back(static_cast<std::int32_t>(dual * scale * 0.999));
  }
  GuillotineTable table{problem_, wanted_, 1};
  if (table.cells() > 4 * kMostCells) {
    return false;
  }
  table.fill(values);
  work_ += table.work() + table.cells();
  bool grew = false;
  for (int k = 0; k < static_cast<int>(problem_.kinds.size()); ++k) {
    std::vector<std::int64_t> left = wanted_;
    PackNode root = settle(problem_, k, table.pattern(k), &left);
    double reduced = static_cast<double>(problem_.kinds[at(k)].price);
    for (std::size_t t = 0; t < wanted_.size(); ++t) {
      reduced -= master_.dual(static_cast<int>(t)) * static_cast<double>(wanted_[t] - left[t]);
    }
    if (kind_rows_[at(k)] >= 0) {
      reduced -= master_.dual(kind_rows_[at(k)]);
    }
    if (stock_[at(k)] > 0 && reduced < -1e-6 && add_column(k, std::move(root))) {
      grew = true;
    }
  }
  return grew;
}

void SheetDive::fix(int kind, const PackNode& root, std::int64_t times) {
  const auto counts = count_types(root, wanted_.size());
  for (std::size_t t = 0; t < wanted_.size(); ++t) {
    wanted_[t] -= counts[t] * times;
  }
  if (problem_.kinds[at(kind)].is_limited()) {
    stock_[at(kind)] -= times;
  }
  fixed_price_ += problem_.kinds[at(kind)].price * times;
  fixed_.push_back({kind, times, root});
}

bool SheetDive::fix_whole() {
  bool any = false;
  std::vector<std::pair<std::size_t, std::int64_t>> whole;
  for (std::size_t c = 0; c < columns_.size(); ++c) {
    const auto times = static_cast<std::int64_t>(std::floor(master_.value(lp_column_[c]) + 1e-6));
    if (times > 0) {
      whole.emplace_back(c, times);
    }
  }
  for (const auto& [c, most] : whole) {
    std::int64_t times = std::min(most, stock_[at(columns_[c].kind)]);
    for (std::size_t t = 0; t < wanted_.size(); ++t) {
      if (columns_[c].counts[t] > 0) {
        times = std::min(times, wanted_[t] / columns_[c].counts[t]);
      }
    }
    if (times > 0) {
      fix(columns_[c].kind, columns_[c].root, times);
      any = true;
    }
  }
  return any;
}

void SheetDive::fix_one() {
  double best = 0.05;
  std::size_t chosen = columns_.size();
  for (std::size_t c = 0; c < columns_.size(); ++c) {
    const double value = master_.value(lp_column_[c]);
    if (value < 1e-6 || !is_proper(columns_[c]) || stock_[at(columns_[c].kind)] == 0) {
      continue;
    }
    const double rank = value + 0.5 * random_.fraction();
    if (rank > best) {
      best = rank;
      chosen = c;
    }
  }
  if (chosen == columns_.size()) {
    begin_search();
  } else {
    fix(columns_[chosen].kind, columns_[chosen].root, 1);
  }
}

void SheetDive::descend() {
  if (copies_wanted() <= search_below_) {
    begin_search();
    return;
  }
  double value = solve_master();
  for (int round = 0; round < kRounds && price_rest(); ++round) {
    value = solve_master();
  }
  const double most = static_cast<double>(goal_) * 1.02 + 1e-6;
  if (value > 1e299 || static_cast<double>(fixed_price_) + value > most) {
    begin_search();  // the programme sees no way, the search may
    return;
  }
  if (!fix_whole()) {
    fix_one();
  }
}

void SheetDive::begin_search() {
  search_left_ = kSearchWork;
  search_.reset();
  rest_ = std::make_unique<PackProblem>(problem_);
  for (std::size_t k = 0; k < stock_.size(); ++k) {
    rest_->kinds[k].available = stock_[k];
  }
  if (copies_wanted() == 0) {
    found_ = fixed_price_ <= goal_ ? fixed_ : std::vector<PackSheet>{};
    phase_ = Phase::kStart;
    return;
  }
  if (goal_ <= fixed_price_ || copies_wanted() > 3000) {
    phase_ = Phase::kStart;
    return;
  }
  search_ = std::make_unique<SheetSearch>(*rest_, wanted_, random_.next());
  search_->aim(goal_ - fixed_price_);
  phase_ = Phase::kSearch;
}

void SheetDive::search(std::int64_t work, const std::stop_token& stop) {
  const std::int64_t before = search_->forest().work();
  const bool done = search_->run(std::min(work, search_left_), stop);
  const std::int64_t spent = search_->forest().work() - before + 1000;
  work_ += spent;
  search_left_ -= spent;
  if (done) {
    found_ = fixed_;
    for (PackSheet& sheet : search_->sheets()) {
      found_.push_back(std::move(sheet));
    }
  }
  if (done || search_left_ <= 0) {
    phase_ = Phase::kStart;
  }
}

bool SheetDive::run(std::int64_t work, std::int64_t goal, const std::stop_token& stop) {
  const std::int64_t end = work_ + work;
  found_.clear();
  if (goal != goal_) {
    goal_ = goal;
    phase_ = Phase::kStart;
  }
  while (work_ < end && found_.empty() && !stop.stop_requested()) {
    work_ += 5000;
    switch (phase_) {
      case Phase::kStart:
        start();
        break;
      case Phase::kDescend:
        descend();
        break;
      default:
        search(end - work_, stop);
    }
  }
  return !found_.empty();
}

}  // namespace plankwright::solve
