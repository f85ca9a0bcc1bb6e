#pragma once
// The master programme over bar patterns, its bound, and dives from it to whole bars.

#include <cstdint>
#include <limits>
#include <set>
#include <stop_token>
#include <vector>

#include "solve/bar_knapsack.h"
#include "solve/linear_program.h"
#include "solve/random.h"

namespace plankwright::solve {

/// A bar job in whole numbers: lengths and capacities hold one kerf more than they are, equal parts
/// are one type, longest first.
struct BarProblem {
  struct Kind {
    std::int64_t capacity = 0;
    std::int64_t price = 0;
    std::int64_t available = std::numeric_limits<std::int64_t>::max();
    bool is_limited() const { return available != std::numeric_limits<std::int64_t>::max(); }
  };
  std::vector<std::int64_t> lengths;
  std::vector<std::int64_t> demand;
  std::vector<Kind> kinds;
};

/// `count` bars of a kind with so many of each type.
struct BarPattern {
  int kind = 0;
  std::int64_t count = 1;
  std::vector<std::int64_t> counts;
};

/// First fit by decreasing length, a bar at a time and each bar repeated while its parts last; of
/// the kinds that hold the longest part left, the one whose filling is cheapest by length. Empty
/// when the bars on hand do not suffice.
std::vector<BarPattern> first_bars(const BarProblem& problem);

/// For one unlimited kind: the longest part left and beside it what fills the bar best, bar by bar
/// (minimum bin slack of Gupta & Ho, 1999). `work` is raised by what was spent.
std::vector<BarPattern> fullest_bars(const BarProblem& problem, std::int64_t& work);

/// Least price that a set of bars can have if it is at least `money`.
std::int64_t reachable_price(const BarProblem& problem, std::int64_t money);

class BarMaster {
 public:
  explicit BarMaster(const BarProblem& problem);

  void add_patterns(const std::vector<BarPattern>& patterns);
  /// One round of column generation for the whole order. Does nothing when finished.
  void step();
  bool is_finished() const { return finished_; }
  std::int64_t bound() const { return bound_; }
  std::int64_t bars_bound() const { return bars_bound_; }
  std::int64_t work() const { return work_; }

  /// A dive: patterns are fixed one after another, with column generation for what is left at every
  /// node, as long as the goal can be met. Where it cannot, the last choice is taken back and its
  /// pattern barred, a few times a dive. Empty when this dive failed.
  std::vector<BarPattern> dive(std::int64_t goal, Random& random, const std::stop_token& stop);

 private:
  struct Column {
    int kind = 0;
    std::vector<std::int64_t> counts;
  };
  struct Round {
    double bound = 0;  // no solution of the programme is below it
    bool grew = false;
  };

  static std::size_t at(int index) { return static_cast<std::size_t>(index); }
  bool add_column(int kind, std::vector<std::int64_t> counts);
  bool add_fillings(int kind,
                    BarFilling filling,
                    const std::vector<std::int64_t>& values,
                    const std::vector<std::int64_t>& wanted);
  Round price(const std::vector<double>& prices,
              const std::vector<std::int64_t>& wanted,
              const std::vector<std::int64_t>& stock);
  std::vector<double> duals() const;
  std::vector<std::int64_t> stock() const;
  bool is_proper(const Column& column, const std::vector<std::int64_t>& wanted) const;

  /// What a dive has fixed, what it still wants, and the columns it must do without.
  struct Dive {
    std::vector<std::int64_t> wanted;
    std::vector<std::int64_t> stock;
    std::vector<BarPattern> fixed;
    std::int64_t price = 0;
    std::vector<std::size_t> barred = {};
    std::size_t last = 0;  // column fixed last
  };
  double solve_for(const Dive& dive);
  bool can_meet(Dive& dive, std::int64_t goal, const std::stop_token& stop);
  bool leaves_out() const;
  bool fix_whole(Dive& dive) const;
  bool fix_one(Dive& dive, Random& random) const;
  void fix(Dive& dive, std::size_t index, std::int64_t times) const;

  const BarProblem& problem_;
  LinearProgram program_;
  int artificial_ = 0;  // columns that only keep the programme solvable
  std::vector<int> kind_rows_;
  std::vector<Column> columns_;
  std::set<std::pair<int, std::vector<std::int64_t>>> known_;
  std::vector<double> best_prices_;
  double best_rate_ = -1;
  double smoothing_ = 0.5;
  std::int64_t bound_ = 0;
  std::int64_t bars_bound_ = 0;
  bool finished_ = false;
  std::int64_t work_ = 0;
};

}  // namespace plankwright::solve
