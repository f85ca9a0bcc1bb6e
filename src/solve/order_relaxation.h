#pragma once
// What an order must cost at least: paths that may forget where they have been.

#include <cstdint>
#include <vector>

#include "solve/order_problem.h"

namespace plankwright::solve {

/// The cheapest path through as many places as there are nodes that keeps to each node's earliest
/// and latest place and remembers, at each node, only whether a few near nodes have been done
/// (ng-paths: Baldacci, Mingozzi & Roberti, Oper. Res. 59, 2011). Prices on the nodes make up for
/// what is done twice or never (Held & Karp, 1971), and nodes found in a circle are remembered
/// along it.
class OrderRelaxation {
 public:
  /// `most_memory` nodes are remembered at a node at most; `most_steps` limits what one pass costs.
  OrderRelaxation(const OrderProblem& problem,
                  const PricedArcs& arcs,
                  int most_memory,
                  std::int64_t most_steps);

  /// Improves the bound against an order that costs `best` until `work` is used up. False when it
  /// has stalled.
  bool improve(std::int64_t best, std::int64_t work);
  /// No order costs less; `OrderProblem::kNoArc` or more when there is no order.
  std::int64_t bound() const { return bound_; }
  /// Goes on with other costs of the arcs, or with fewer of them in the problem. What has been
  /// learnt to remember stays.
  void rest_on(const PricedArcs& arcs);
  /// Makes the prices of the best bound those of `rest`.
  void settle();
  std::int64_t work() const { return work_; }

  /// In parts of 1/PricedArcs::kScale, after settle(): what an arc costs with prices, and what
  /// every order pays on top.
  std::int64_t cost(int from, int to) const {
    return arcs_costs_[static_cast<std::size_t>(from) * static_cast<std::size_t>(problem_.nodes) +
                       static_cast<std::size_t>(to)] -
           price_[static_cast<std::size_t>(to)];
  }
  std::int64_t base() const;
  /// The least that the rest costs from `node` at `place` when `has(n)` tells what has been done.
  template <class Has>
  std::int64_t rest(int node, int place, Has has) const {
    const auto& memory = memory_[static_cast<std::size_t>(node)];
    unsigned mask = 0;
    for (std::size_t b = 0; b < memory.size(); ++b) {
      mask |= has(memory[b]) ? 1U << b : 0U;
    }
    return value_[index(node, place, mask)];
  }

 private:
  struct Arc {
    int to = 0;
    unsigned barred = 0;              // done nodes that rule the arc out
    std::vector<std::uint16_t> mask;  // what is remembered after it, for each mask before
  };

  bool in_window(int node, int place) const;
  std::size_t index(int node, int place, unsigned mask) const;
  void lay_out();
  void make_arcs(int node);
  bool is_closed(int node, unsigned mask) const;
  unsigned closed(int node, unsigned mask) const;
  int bit_of(int node, int other) const;
  std::int64_t pass();
  std::vector<int> cheapest_path() const;
  bool remember(const std::vector<int>& path);
  bool remember_between(const std::vector<int>& path, std::size_t from, std::size_t to, int node);
  void move_prices(const std::vector<int>& path, std::int64_t value, std::int64_t best);

  const OrderProblem& problem_;
  std::vector<std::int64_t> arcs_costs_;
  std::int64_t arcs_base_ = 0;
  std::size_t most_memory_;
  std::size_t memory_limit_ = 0;
  std::int64_t most_steps_;
  std::vector<std::vector<int>> memory_;
  std::vector<std::vector<Arc>> arcs_;
  std::vector<std::vector<std::uint16_t>> masks_;  // those worth a value, of each node
  std::vector<std::size_t> offset_;
  std::vector<std::int64_t> value_;
  std::vector<std::int64_t> price_;
  std::vector<std::int64_t> best_price_;
  std::vector<double> direction_;
  std::int64_t bound_ = 0;
  std::int64_t best_value_ = 0;
  double step_;
  int stale_ = 0;
  std::int64_t steps_ = 0;  // of one pass
  bool laid_out_ = false;
  std::int64_t work_ = 0;
};

}  // namespace plankwright::solve
