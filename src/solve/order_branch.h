#pragma once
// Which of two jobs comes first, decided both ways until nothing cheaper is left.

#include <cstdint>
#include <functional>
#include <vector>

#include "solve/order_cuts.h"
#include "solve/order_problem.h"

namespace plankwright::solve {

/// Branch and cut on the precedence of pairs, the least bound first: a pair that is decided makes
/// more cuts hold and fewer arcs useful. Of the pairs that both ways rule out most of the fraction
/// of an order a few are tried out, and the one that lifts the bound most is taken.
class OrderBranching {
 public:
  /// `cuts` has been improved for `problem`.
  OrderBranching(const OrderProblem& problem, const OrderCuts& cuts);

  /// Looks for what is cheaper than `best` until `work` is used up or all is decided.
  void run(std::int64_t best, std::int64_t work, const std::function<bool()>& stop);
  /// Cheaper than what was best, or empty.
  const std::vector<int>& path() const { return path_; }
  bool over() const { return open_.empty(); }
  /// No order costs less than this and the best known one.
  std::int64_t bound() const;
  std::int64_t work() const { return work_; }

 private:
  /// Some of the orders, and what their programme came to.
  struct Part {
    OrderProblem problem;
    std::vector<OrderCut> cuts;
    std::vector<ArcShare> shares;
    std::int64_t base = 0;  // in parts of 1/PricedArcs::kScale
  };

  Part decided(
      const Part& part, const OrderCuts& whole, const Before& pair, std::int64_t best, int rounds);
  void branch(Part part, std::int64_t best, const std::function<bool()>& stop);
  bool split(Part& part,
             const OrderCuts& cuts,
             const std::vector<Before>& pairs,
             std::int64_t best,
             const std::function<bool()>& stop);
  void put(Part part);
  void give_up(const Part& part, std::int64_t best);

  std::vector<Part> open_;  // a heap, the least base in front
  std::int64_t work_ = 0;
  std::int64_t given_up_ = OrderProblem::kNoArc;  // the least bound of parts without a question
  std::vector<int> path_;
};

}  // namespace plankwright::solve
