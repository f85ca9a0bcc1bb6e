#pragma once
// Good orders soon: neighbouring stretches of an order change places, again and again.

#include <cstdint>
#include <functional>
#include <vector>

#include "solve/order_problem.h"
#include "solve/random.h"

namespace plankwright::solve {

/// Iterated local search: exchanges of two neighbouring stretches that keep the precedence, looked
/// for as Gambardella & Dorigo do (INFORMS J. Comput. 12, 2000), and stretches turned round, from
/// orders shaken a little.
class OrderSearch {
 public:
  OrderSearch(const OrderProblem& problem, std::uint64_t seed);

  void run(std::int64_t work, std::int64_t goal, const std::function<bool()>& stop);
  /// A path found elsewhere becomes the one to go on from, if it is better.
  void learn(const std::vector<int>& path);
  const std::vector<int>& best() const { return best_; }
  std::int64_t best_cost() const { return best_cost_; }
  std::int64_t work() const { return work_; }
  /// When the best order was found.
  std::int64_t best_work() const { return best_work_; }

 private:
  struct Exchange {
    std::size_t left = 0;  // stretches left+1..middle and middle+1..right
    std::size_t middle = 0;
    std::size_t right = 0;
    std::int64_t gain = 0;
    bool turned = false;  // instead the one stretch left+1..right is turned round
  };
  Exchange best_exchange(std::size_t left);
  void find_turn(std::size_t left, Exchange& best);
  void apply(const Exchange& exchange);
  void descend();
  void shake();
  bool lets_through(std::int64_t more);
  void go_back(const std::vector<int>& path, std::int64_t cost);
  std::int64_t gain_of(std::size_t left, std::size_t middle, std::size_t right) const;

  const OrderProblem& problem_;
  Random random_;
  std::vector<int> path_;
  std::int64_t cost_ = 0;
  std::vector<int> best_;
  std::int64_t best_cost_ = 0;
  std::int64_t best_work_ = 0;
  std::vector<std::uint8_t> waits_;  // nodes to look behind again
  std::vector<int> queue_;
  std::vector<int> place_;
  std::vector<std::int64_t> barred_;  // the search in which a node was last barred
  std::int64_t searches_ = 0;
  std::int64_t rounds_ = 0;  // since it was last warm
  std::int64_t cycle_ = 5000;
  std::int64_t work_ = 0;
};

}  // namespace plankwright::solve
