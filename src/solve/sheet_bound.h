#pragma once
// How little any layout can cost: column generation over patterns, step by step.

#include <cstdint>
#include <limits>
#include <memory>
#include <set>
#include <stop_token>
#include <vector>

#include "solve/guillotine_table.h"
#include "solve/kind_cuts.h"
#include "solve/linear_program.h"
#include "solve/sheet_problem.h"
#include "solve/value_states.h"

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
/// the bound of Farley (1990) after every round; first on a coarse grid, then on finer ones, at
/// last over patterns that hold no part more often than it is wanted.
class SheetBound {
 public:
  SheetBound(const PackProblem& problem,
             const std::vector<std::int64_t>& demand,
             BoundPrices prices);

  /// Patterns of a known layout become columns, so that the first prices are sensible. One layout
  /// of everything must be given before the first step.
  void add_sheets(const std::vector<PackSheet>& sheets);

  /// Long rounds end early when asked.
  void set_stop(const std::stop_token& stop) { stop_ = stop; }
  /// One round: solve, price, bound. Nothing happens when finished.
  void step();
  /// No further round can raise the bound.
  bool is_finished() const { return finished_; }
  /// The plain programme is solved; what is left to prove is slow.
  bool is_refined() const { return proper_ || finished_; }
  /// Least money, and fewest sheets, of any layout.
  std::int64_t bound() const { return bound_; }
  std::int64_t sheets_bound() const { return sheets_bound_; }
  /// The price of the best layout known: nothing needs to be proven beyond it.
  void set_best(std::int64_t price) { best_ = price; }
  std::int64_t work() const { return work_; }
  /// Value of the last master programme, and its columns with their values.
  const std::vector<BoundColumn>& columns() const { return columns_; }
  double column_value(std::size_t column) const;
  /// Prices of the types behind the best bound so far.
  const std::vector<double>& prices() const { return best_prices_; }
  const std::vector<double>& last_prices() const { return prices_; }
  /// What the rounds say about the numbers of sheets of each kind.
  const KindCuts& kind_cuts() const { return cuts_; }

 private:
  /// A pricing round that looks at every pattern worth it, kind by kind, over several steps.
  struct ExactRound {
    std::vector<std::int64_t> values;
    std::vector<std::int32_t> whole;
    std::vector<std::int32_t> less;
    std::vector<std::int64_t> allowed;  // by kind, the worth no pattern was found above
    std::vector<double> prices;
    bool complete = true;
    bool grew = false;
    std::int64_t above = 0;
    std::unique_ptr<StateEnumeration> states;  // of the kind after those in `allowed`
  };

  static std::size_t at(int index) { return static_cast<std::size_t>(index); }
  void choose_grids();
  void enter_level();
  bool add_column(int kind, PackNode root);
  std::vector<std::int32_t> whole_prices(const std::vector<double>& prices);
  void price(const std::vector<double>& prices);
  std::vector<std::int64_t> table_values() const;
  std::int64_t farley(const std::vector<std::int32_t>& whole,
                      const std::vector<std::int64_t>& values,
                      bool count_sheets) const;
  bool take_bound(const std::vector<std::int32_t>& whole,
                  const std::vector<std::int64_t>& values,
                  const std::vector<double>& prices);
  std::vector<double> trial_prices() const;
  double reduced_cost(int kind, const std::vector<std::int64_t>& counts) const;
  bool add_improving(int kind, PackNode root);
  void step_plain(double value);
  void next_level();
  void refine();
  PackNode table_pattern(int kind) const;
  void start_kinds();
  void step_kinds();
  void start_proper();
  void step_proper(double value);
  bool respect_demand(const std::vector<double>& prices);
  void start_exact();
  void step_exact();
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
  std::size_t kinds_level_ = 0;  // levels below it had their look at whole numbers of sheets
  KindCuts cuts_;
  std::unique_ptr<LinearProgram> filling_;  // can the candidate hold everything?
  std::size_t filled_columns_ = 0;
  KindCuts::Sheets candidate_;
  int kind_rounds_ = 0;
  std::int64_t best_ = std::numeric_limits<std::int64_t>::max();
  bool proper_ = false;                  // patterns hold no type more often than it is wanted
  std::vector<std::int64_t> penalties_;  // on each copy of a type, in the table's values
  int proper_rounds_ = 0;
  std::unique_ptr<ExactRound> exact_;
  std::stop_token stop_;
  bool finished_ = false;
  std::int64_t work_ = 0;
};

/// The smallest sum of prices, each kind at most as often as there is of it, that is at least
/// `money`; `money` itself when there are too many sums to look at.
std::int64_t smallest_sum(const PackProblem& problem,
                          const std::vector<std::int64_t>& prices,
                          std::int64_t money);

}  // namespace plankwright::solve
