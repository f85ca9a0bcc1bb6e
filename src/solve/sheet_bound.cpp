// Every round solves the master programme, smooths its prices towards the best so far (Wentges
// 1997), turns them into whole numbers and fills one table, which prices all kinds at once. Scaled
// until no pattern of an unlimited kind is worth more than it costs, the prices are feasible for
// the dual, so their worth is a bound whether or not the round was the last (Farley 1990). All of
// it is whole-number arithmetic from the rounded prices on.

#include "solve/sheet_bound.h"

#include <algorithm>
#include <cmath>
#include <numeric>

namespace plankwright::solve {
namespace {

constexpr double kLargestValue = 1e9;  // of the table
constexpr std::int64_t kMostCells = 3'000'000;
constexpr std::int32_t kMostPoints = 6000;
constexpr double kEpsilon = 1e-7;

std::int64_t ceil_of(Int128 numerator, Int128 denominator) {
  return static_cast<std::int64_t>((numerator + denominator - 1) / denominator);
}

}  // namespace

std::int64_t smallest_sum(const PackProblem& problem,
                          const std::vector<std::int64_t>& prices,
                          std::int64_t money) {
  std::int64_t unit = 0;
  std::int64_t most = 0;
  for (const std::int64_t price : prices) {
    unit = std::gcd(unit, price);
    most = std::max(most, price);
  }
  if (unit == 0 || money <= 0) {
    return std::max<std::int64_t>(money, 0);
  }
  const std::int64_t cells = (money + most) / unit + 1;
  if (cells > 2'000'000) {
    return (money + unit - 1) / unit * unit;
  }
  std::vector<std::int32_t> used(static_cast<std::size_t>(cells));
  std::vector<std::uint8_t> reached(used.size(), 0);
  reached[0] = 1;
  for (std::size_t k = 0; k < prices.size(); ++k) {
    const auto step = static_cast<std::size_t>(prices[k] / unit);
    std::ranges::fill(used, 0);
    for (std::size_t sum = step; step > 0 && sum < reached.size(); ++sum) {
      if (reached[sum] == 0 && reached[sum - step] != 0 &&
          used[sum - step] < problem.kinds[k].available) {
        reached[sum] = 1;
        used[sum] = used[sum - step] + 1;
      }
    }
  }
  for (auto sum = static_cast<std::size_t>((money + unit - 1) / unit); sum < reached.size();
       ++sum) {
    if (reached[sum] != 0) {
      return static_cast<std::int64_t>(sum) * unit;
    }
  }
  return money;
}

SheetBound::SheetBound(const PackProblem& problem,
                       const std::vector<std::int64_t>& demand,
                       BoundPrices prices)
    : problem_{problem}, demand_{demand}, money_{std::move(prices)}, cuts_{problem, money_.kinds} {
  prices_.assign(problem.types.size(), 0);
  choose_grids();
  enter_level();
}

void SheetBound::choose_grids() {
  std::int32_t smallest = std::numeric_limits<std::int32_t>::max();
  std::int32_t largest = 1;
  for (const PackType& type : problem_.types) {
    smallest = std::min({smallest, type.width, type.height});
  }
  for (const PackKind& kind : problem_.kinds) {
    largest = std::max({largest, kind.width, kind.height});
  }
  std::int32_t grid = std::max(1, (largest + kMostPoints - 1) / kMostPoints);
  grid = std::min(grid, smallest);
  while (grid < smallest && GuillotineTable{problem_, demand_, grid}.cells() > kMostCells) {
    grid = std::min(smallest, grid * 2);
  }
  grids_ = {grid};
  while (grid * 4 <= smallest && GuillotineTable{problem_, demand_, grid}.cells() > 40'000) {
    grid *= 4;
    grids_.insert(grids_.begin(), grid);
  }
}

void SheetBound::enter_level() {
  table_ = std::make_unique<GuillotineTable>(problem_, demand_, grids_[level_]);
  master_ = std::make_unique<LinearProgram>();
  for (const std::int64_t wanted : demand_) {
    master_->add_row_at_least(static_cast<double>(wanted));
  }
  kind_rows_.clear();
  for (const PackKind& kind : problem_.kinds) {
    kind_rows_.push_back(
        kind.is_limited() ? master_->add_row_at_most(static_cast<double>(kind.available)) : -1);
  }
  columns_.clear();
  known_.clear();
  smoothing_ = best_prices_.empty() ? 0.5 : 1;
  best_rate_ = -1;
  work_ += table_->cells();
}

void SheetBound::add_sheets(const std::vector<PackSheet>& sheets) {
  for (const PackSheet& sheet : sheets) {
    add_column(sheet.kind, sheet.root);
  }
}

bool SheetBound::add_column(int kind, PackNode root) {
  std::vector<std::int64_t> counts = count_types(root, problem_.types.size());
  if (!known_.emplace(kind, counts).second) {
    return false;
  }
  std::vector<std::pair<int, double>> entries;
  for (std::size_t t = 0; t < counts.size(); ++t) {
    if (counts[t] > 0) {
      entries.emplace_back(static_cast<int>(t), static_cast<double>(counts[t]));
    }
  }
  if (kind_rows_[at(kind)] >= 0) {
    entries.emplace_back(kind_rows_[at(kind)], 1.0);
  }
  master_->add_column(static_cast<double>(money_.kinds[at(kind)]), entries);
  columns_.push_back({kind, std::move(counts), std::move(root)});
  return true;
}

double SheetBound::column_value(std::size_t column) const {
  return master_->value(static_cast<int>(column));
}

std::int64_t SheetBound::reachable(std::int64_t money) const {
  return money_.per_cut > 0 || money_.per_length > 0 ? money
                                                     : smallest_sum(problem_, money_.kinds, money);
}

bool SheetBound::can_still_rise(double value) const {
  return reachable(static_cast<std::int64_t>(std::ceil(value - 1e-6))) > bound_;
}

std::vector<std::int32_t> SheetBound::whole_prices(const std::vector<double>& prices) {
  double density = 1e-30;
  double area = 1;
  for (std::size_t t = 0; t < prices.size(); ++t) {
    const PackType& type = problem_.types[t];
    density = std::max(density,
                       prices[t] / (static_cast<double>(type.width / table_->grid()) *
                                    (type.height / table_->grid())));
  }
  for (const PackKind& kind : problem_.kinds) {
    area = std::max(
        area, static_cast<double>(kind.width / table_->grid()) * (kind.height / table_->grid()));
  }
  scale_ = kLargestValue / (density * area);
  std::vector<std::int32_t> whole;
  for (std::size_t t = 0; t < prices.size(); ++t) {
    whole.push_back(demand_[t] > 0 ? static_cast<std::int32_t>(std::max(0.0, prices[t]) * scale_)
                                   : 0);
  }
  return whole;
}

std::vector<std::int64_t> SheetBound::table_values() const {
  std::vector<std::int64_t> values;
  for (int k = 0; k < static_cast<int>(problem_.kinds.size()); ++k) {
    values.push_back(table_->value(k));
  }
  return values;
}

// The best of theta * D - sum over limited kinds of stock * max(0, theta * F - price), over the
// thetas at which it bends; theta may not make a pattern of an unlimited kind worth more than its
// sheet.
std::int64_t SheetBound::farley(const std::vector<std::int32_t>& whole,
                                const std::vector<std::int64_t>& values,
                                bool count_sheets) const {
  Int128 worth = 0;
  std::int64_t copies = 0;
  for (std::size_t t = 0; t < whole.size(); ++t) {
    worth += static_cast<Int128>(whole[t]) * demand_[t];
    copies += demand_[t];
  }
  struct Bend {
    std::int64_t price = 0;
    std::int64_t value = 1;
    std::int64_t stock = 0;
  };
  std::vector<Bend> bends;
  std::vector<Bend> limited;
  const auto less = [](const Bend& a, const Bend& b) {
    return static_cast<Int128>(a.price) * b.value < static_cast<Int128>(b.price) * a.value;
  };
  Bend most{-1, 1, 0};
  for (std::size_t k = 0; k < problem_.kinds.size(); ++k) {
    const Bend bend{count_sheets ? 1 : money_.kinds[k],
                    std::max<std::int64_t>(1, values[k]),
                    std::min(copies, problem_.kinds[k].available)};
    if (problem_.kinds[k].is_limited()) {
      limited.push_back(bend);
      bends.push_back(bend);
    } else if (most.price < 0 || less(bend, most)) {
      most = bend;
    }
  }
  if (most.price >= 0) {
    bends.push_back(most);
  }
  if (!count_sheets && (money_.per_cut > 0 || money_.per_length > 0)) {
    // With money for cuts the prices may be scaled down but not up.
    const Bend unscaled{1, static_cast<std::int64_t>(std::ceil(scale_)), 0};
    std::erase_if(bends, [&](const Bend& bend) { return less(unscaled, bend); });
    bends.push_back(unscaled);
  }
  Int128 best = 0;
  for (const Bend& theta : bends) {
    if (most.price >= 0 && less(most, theta)) {
      continue;
    }
    Int128 sum = worth * theta.price;
    for (const Bend& kind : limited) {
      const Int128 over = static_cast<Int128>(theta.price) * kind.value -
                          static_cast<Int128>(kind.price) * theta.value;
      sum -= over > 0 ? over * kind.stock : 0;
    }
    best = std::max<Int128>(best, sum > 0 ? ceil_of(sum, theta.value) : 0);
  }
  return static_cast<std::int64_t>(best);
}

// True when the prices gave the best bound so far on this level.
bool SheetBound::take_bound(const std::vector<std::int32_t>& whole,
                            const std::vector<std::int64_t>& values,
                            const std::vector<double>& prices) {
  if (problem_.kinds.size() > 1) {
    Int128 worth = 0;
    for (std::size_t t = 0; t < whole.size(); ++t) {
      worth += static_cast<Int128>(whole[t]) * demand_[t];
    }
    cuts_.add(values, worth);
  }
  const std::int64_t money = farley(whole, values, false);
  sheets_bound_ = std::max(sheets_bound_, farley(whole, values, true));
  bound_ = std::max(bound_, reachable(money));
  if (static_cast<double>(money) <= best_rate_) {
    return false;
  }
  best_rate_ = static_cast<double>(money);
  best_prices_ = prices;
  return true;
}

void SheetBound::price(const std::vector<double>& prices) {
  const std::vector<std::int32_t> whole = whole_prices(prices);
  const std::int64_t before = table_->work();
  table_->fill(whole, money_.per_cut * scale_, money_.per_length * scale_);
  work_ += table_->work() - before;
  take_bound(whole, table_values(), prices);
}

std::vector<double> SheetBound::trial_prices() const {
  std::vector<double> trial = prices_;
  for (std::size_t t = 0; t < trial.size(); ++t) {
    trial[t] = best_prices_.empty()  // the first round proves at least what the area does
                   ? problem_.types[t].value
                   : smoothing_ * best_prices_[t] + (1 - smoothing_) * trial[t];
  }
  return trial;
}

double SheetBound::reduced_cost(int kind, const std::vector<std::int64_t>& counts) const {
  double reduced = static_cast<double>(money_.kinds[at(kind)]);
  if (kind_rows_[at(kind)] >= 0) {
    reduced -= master_->dual(kind_rows_[at(kind)]);
  }
  for (std::size_t t = 0; t < counts.size(); ++t) {
    reduced -= prices_[t] * static_cast<double>(counts[t]);
  }
  return reduced;
}

bool SheetBound::add_improving(int kind, PackNode root) {
  const double small =
      kEpsilon * static_cast<double>(std::max<std::int64_t>(1, money_.kinds[at(kind)]));
  return reduced_cost(kind, count_types(root, problem_.types.size())) < -small &&
         add_column(kind, std::move(root));
}

void SheetBound::step() {
  if (finished_) {
    return;
  }
  if (exact_) {
    step_exact();
    return;
  }
  work_ += 2000 * static_cast<std::int64_t>(problem_.types.size() + 5);
  if (!master_->solve()) {
    finished_ = true;
    return;
  }
  for (std::size_t t = 0; t < prices_.size(); ++t) {
    prices_[t] = std::max(0.0, master_->dual(static_cast<int>(t)));
  }
  if (filling_) {
    step_kinds();
  } else if (proper_) {
    step_proper(master_->objective());
  } else {
    step_plain(master_->objective());
  }
}

void SheetBound::step_plain(double value) {
  if (!can_still_rise(value)) {
    next_level();
    return;
  }
  price(trial_prices());
  bool grew = false;
  for (int k = 0; k < static_cast<int>(problem_.kinds.size()); ++k) {
    grew = add_improving(k,
                         grids_[level_] == 1 ? settle(problem_, k, table_->pattern(k))
                                             : table_->pattern(k)) ||
           grew;
  }
  const bool done = !grew && smoothing_ == 0;
  smoothing_ = grew ? 0.5 : 0;
  if (done) {
    next_level();
  }
}

void SheetBound::next_level() {
  if (problem_.kinds.size() > 1 && kinds_level_ <= level_) {
    kinds_level_ = level_ + 1;
    start_kinds();
  } else if (level_ + 1 == grids_.size()) {
    start_proper();
  } else {
    refine();
  }
}

// On a finer grid a pattern of the coarser may not fit; settled to its true size it does.
void SheetBound::refine() {
  std::vector<BoundColumn> old = std::move(columns_);
  ++level_;
  enter_level();
  for (BoundColumn& column : old) {
    add_column(column.kind, settle(problem_, column.kind, column.root));
  }
}

PackNode SheetBound::table_pattern(int kind) const {
  PackNode loose = table_->pattern(kind);
  return grids_[level_] == 1 ? settle(problem_, kind, loose) : loose;
}

}  // namespace plankwright::solve
