#pragma once
// How little any layout can cost: column generation over patterns, step by step.

#include <cstdint>
#include <memory>
#include <set>
#include <vector>

#include "solve/guillotine_table.h"
#include "solve/linear_program.h"
#include "solve/sheet_problem.h"

namespace plankwright::solve {

/// What the bound reckons with: the price of each kind, and money for cuts. Labour that is left out
/// is taken as nothing, which keeps the bound true.
struct BoundPrices {
  std::vector<std::int64_t> kinds;
  double per_cut = 0;
  double per_length = 0;  // for each unit of the problem
};

/// A column of the master programme: a pattern of a kind.
struct BoundColumn {
  int kind = 0;
  std::vector<std::int64_t> counts;
  PackNode root;
};

/// The linear programme over patterns (Gilmore & Gomory 1965), priced by the guillotine table, with
/// the bound of Farley (1990) after every round; first on a coarse grid, then on finer ones.
class SheetBound {
 public:
  SheetBound(const PackProblem& problem,
             const std::vector<std::int64_t>& demand,
             BoundPrices prices);

  /// Patterns of a known layout become columns, so that the first prices are sensible. One layout
  /// of everything must be given before the first step.
  void add_sheets(const std::vector<PackSheet>& sheets);

  /// One round: solve, price, bound. Nothing happens when finished.
  void step();
  /// No further round can raise the bound.
  bool is_finished() const { return finished_; }
  /// Least money, and fewest sheets, of any layout.
  std::int64_t bound() const { return bound_; }
  std::int64_t sheets_bound() const { return sheets_bound_; }
  /// A bound proven elsewhere; rounds that could not lift it are spared.
  void raise(std::int64_t bound);
  std::int64_t work() const { return work_; }
  /// Value of the last master programme, and its columns with their values.
  const std::vector<BoundColumn>& columns() const { return columns_; }
  double column_value(std::size_t column) const;
  /// Prices of the types behind the best bound so far.
  const std::vector<double>& prices() const { return best_prices_; }
  const std::vector<double>& last_prices() const { return prices_; }
  /// True when the columns are those of the finest grid.
  bool at_finest() const { return level_ + 1 == grids_.size(); }

 private:
  static std::size_t at(int index) { return static_cast<std::size_t>(index); }
  void choose_grids();
  void enter_level();
  bool add_column(int kind, PackNode root);
  std::vector<std::int32_t> whole_prices(const std::vector<double>& prices);
  void price(const std::vector<double>& prices);
  std::int64_t farley(const std::vector<std::int32_t>& whole, bool count_sheets) const;
  std::int64_t reachable(std::int64_t money) const;
  bool can_still_rise(double value) const;

  const PackProblem& problem_;
  std::vector<std::int64_t> demand_;
  BoundPrices money_;
  std::vector<std::int32_t> grids_;
  std::size_t level_ = 0;
  std::unique_ptr<GuillotineTable> table_;
  std::unique_ptr<LinearProgram> master_;
  std::vector<int> kind_rows_;
  std::vector<BoundColumn> columns_;
  std::set<std::pair<int, std::vector<std::int64_t>>> known_;
  std::vector<double> prices_;
  std::vector<double> best_prices_;
  double best_rate_ = -1;  // bound before rounding of best_prices_ on this level
  double smoothing_ = 0.5;
  double scale_ = 1;
  std::int64_t bound_ = 0;
  std::int64_t sheets_bound_ = 1;
  bool finished_ = false;
  std::int64_t work_ = 0;
};

/// The smallest sum of prices, each kind at most as often as there is of it, that is at least
/// `money`; `money` itself when there are too many sums to look at.
std::int64_t smallest_sum(const PackProblem& problem,
                          const std::vector<std::int64_t>& prices,
                          std::int64_t money);

}  // namespace plankwright::solve
