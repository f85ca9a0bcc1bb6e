#pragma once
// What an order must cost at least, by a linear programme of its arcs: every node is left once and
// entered once, and between what must come before and what must come after runs a way that avoids
// what belongs elsewhere.

#include <cstdint>
#include <limits>
#include <vector>

#include "solve/linear_program.h"
#include "solve/order_problem.h"
#include "solve/order_separation.h"

namespace plankwright::solve {

/// Cutting planes (Balas, Fischetti & Pulleyblank, Math. Prog. 68, 1995; Ascheuer, Juenger &
/// Reinelt, Comput. Optim. Appl. 17, 2000). What the simplex code says is not believed: its prices
/// of the cuts are rounded, and the bound comes from them and an assignment in whole numbers.
class OrderCuts {
 public:
  /// Drops arcs of `problem` that no order cheaper than the best known one can use. `cuts` are to
  /// begin with.
  explicit OrderCuts(OrderProblem& problem, std::vector<OrderCut> cuts = {});
  /// Goes on where `wider` is, which has all the orders of `problem` and more.
  OrderCuts(OrderProblem& problem, const OrderCuts& wider);

  /// Cuts until `work` is used up, or so many times. False when it has stalled.
  bool improve(std::int64_t best, std::int64_t work, int rounds = std::numeric_limits<int>::max());
  /// No order costs less than this and the best known one.
  std::int64_t bound() const { return bound_; }
  const PricedArcs& priced() const { return priced_; }
  std::int64_t work() const { return work_; }
  /// Those that are in force, and the fraction of an order that keeps to them.
  std::vector<OrderCut> cuts() const;
  const std::vector<ArcShare>& shares() const { return shares_; }

 private:
  struct Arc {
    int from = 0;
    int to = 0;
  };
  struct Row {
    OrderCut cut;
    int idle = 0;  // solutions since it last mattered
  };

  void set_up(std::int64_t best);
  void add_rows(std::size_t first);
  void read_shares();
  void price(std::int64_t best);
  void drop_columns();
  void drop_rows();
  bool cut_off();

  OrderProblem& problem_;
  OrderSeparation separation_;
  LinearProgram programme_;
  std::vector<Arc> arcs_;  // of the columns
  std::vector<Row> rows_;  // those behind the two of each node
  std::vector<ArcShare> shares_;
  PricedArcs priced_;
  std::int64_t bound_ = 0;
  double value_ = 0;  // of the programme when it last got better
  int stale_ = 0;     // solutions since
  bool set_up_ = false;
  std::int64_t work_ = 0;
};

}  // namespace plankwright::solve
