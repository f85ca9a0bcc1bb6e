#pragma once
// Where a fraction of an order goes wrong: cuts that every order passes and it does not.

#include <cstdint>
#include <vector>

#include "solve/order_problem.h"

namespace plankwright::solve {

/// Every order goes at least once directly from a node of `leaves` to one of `enters`.
struct OrderCut {
  std::vector<std::uint8_t> leaves;
  std::vector<std::uint8_t> enters;
  double flow = 0;  // how often the fraction does

  bool has(int from, int to) const {
    return leaves[static_cast<std::size_t>(from)] != 0 && enters[static_cast<std::size_t>(to)] != 0;
  }
};

/// So much of an arc.
struct ArcShare {
  int from = 0;
  int to = 0;
  double share = 0;
};

/// Finds for each pair of nodes of which one must come before the other whether one whole unit can
/// flow between them past all that must come before the first or after the second, and if not,
/// widens the smallest cut (Balas, Fischetti & Pulleyblank, 1995). Pairs with a third node between
/// them follow from the two shorter ones and are left out.
class OrderSeparation {
 public:
  explicit OrderSeparation(const OrderProblem& problem);

  /// Cuts that `shares` miss, worst first. Not all pairs are tried each time when they are many.
  std::vector<OrderCut> find(const std::vector<ArcShare>& shares);
  /// Pairs not yet in the problem's precedence, those first of which either way would rule out most
  /// of `shares`; at most `most`.
  std::vector<Before> open_questions(const std::vector<ArcShare>& shares, std::size_t most);
  std::int64_t work() const { return work_; }

 private:
  struct Pair {
    int first = 0;
    int second = 0;
  };

  void make_net(const std::vector<ArcShare>& shares);
  double flow_between(const Pair& pair, double enough);
  double push(const Pair& pair, double most);
  OrderCut widened(const Pair& pair, bool first_side);
  void weigh(OrderCut& cut, const std::vector<ArcShare>& shares) const;

  const OrderProblem& problem_;
  std::vector<Pair> pairs_;
  std::size_t next_pair_ = 0;
  // A net of ways, each with its way back; those that leave a node stand together.
  std::vector<int> starts_;
  std::vector<int> target_;
  std::vector<int> back_;
  std::vector<double> full_;
  std::vector<double> room_;
  std::vector<std::uint8_t> barred_;
  std::vector<int> reached_by_;  // way, or kUnreached
  std::vector<int> queue_;
  std::int64_t work_ = 0;
};

}  // namespace plankwright::solve
