#include "solve/order_separation.h"

#include <algorithm>

namespace plankwright::solve {
namespace {

constexpr double kDust = 1e-7;
constexpr double kLeastLack = 0.02;
constexpr std::int64_t kWorkOfAFind = 30'000'000;

std::size_t at(int index) {
  return static_cast<std::size_t>(index);
}

}  // namespace

OrderSeparation::OrderSeparation(const OrderProblem& problem)
    : problem_{problem}, leaving_(at(problem.nodes)), barred_(at(problem.nodes), 0) {
  const int end = problem.nodes - 1;
  for (int node = 1; node < end; ++node) {
    pairs_.push_back({0, node});
    pairs_.push_back({node, end});
  }
  for (int first = 1; first < end; ++first) {
    for (const int second : problem.later[at(first)]) {
      if (second != end) {
        pairs_.push_back({first, second});
      }
    }
  }
}

void OrderSeparation::make_net(const std::vector<ArcShare>& shares) {
  edges_.clear();
  full_.clear();
  for (auto& leaving : leaving_) {
    leaving.clear();
  }
  for (const ArcShare& arc : shares) {
    leaving_[at(arc.from)].push_back(static_cast<int>(edges_.size()));
    leaving_[at(arc.to)].push_back(static_cast<int>(edges_.size()) + 1);
    edges_.push_back({arc.to, 0});
    edges_.push_back({arc.from, 0});
    full_.push_back(arc.share);
    full_.push_back(0);
  }
}

/// Along a shortest way with room (Edmonds & Karp, 1972); nought when there is none.
double OrderSeparation::push(const Pair& pair, double most) {
  reached_by_.assign(at(problem_.nodes), -1);
  std::vector<int> queue = {pair.first};
  reached_by_[at(pair.first)] = -2;
  for (std::size_t k = 0; k < queue.size() && reached_by_[at(pair.second)] == -1; ++k) {
    for (const int edge : leaving_[at(queue[k])]) {
      ++work_;
      const int to = edges_[at(edge)].to;
      if (edges_[at(edge)].room > kDust && barred_[at(to)] == 0 && reached_by_[at(to)] == -1) {
        reached_by_[at(to)] = edge;
        queue.push_back(to);
      }
    }
  }
  work_ += problem_.nodes / 4 + static_cast<std::int64_t>(queue.size()) * 2;
  if (reached_by_[at(pair.second)] == -1) {
    return 0;
  }
  const auto back_from = [&](int node) { return edges_[at(reached_by_[at(node)] ^ 1)].to; };
  for (int node = pair.second; node != pair.first; node = back_from(node)) {
    most = std::min(most, edges_[at(reached_by_[at(node)])].room);
  }
  for (int node = pair.second; node != pair.first; node = back_from(node)) {
    edges_[at(reached_by_[at(node)])].room -= most;
    edges_[at(reached_by_[at(node)] ^ 1)].room += most;
  }
  return most;
}

/// Stops at a whole unit. Short of that `reached_by_` tells the side of the first node.
double OrderSeparation::flow_between(const Pair& pair) {
  std::ranges::fill(barred_, 0);
  for (const int node : problem_.earlier[at(pair.first)]) {
    barred_[at(node)] = 1;
  }
  for (const int node : problem_.later[at(pair.second)]) {
    barred_[at(node)] = 1;
  }
  for (std::size_t e = 0; e < edges_.size(); ++e) {
    edges_[e].room = full_[e];
  }
  work_ += static_cast<std::int64_t>(edges_.size()) / 2;
  double flow = 0;
  while (flow < 1 - kLeastLack) {
    const double more = push(pair, 1 - flow);
    if (more <= 0) {
      break;
    }
    flow += more;
  }
  return flow;
}

/// With more nodes than the first on its side, all before all chosen ones of the other, more can be
/// left out. Either the first side is filled up first or the second.
OrderCut OrderSeparation::widened(const Pair& pair, bool first_side) {
  std::vector<int> before = {pair.first};
  std::vector<int> after = {pair.second};
  const auto all_before = [&](int node) {
    return std::ranges::all_of(after, [&](int b) { return problem_.precedes[at(node)][at(b)]; });
  };
  const auto all_after = [&](int node) {
    return std::ranges::all_of(before, [&](int a) { return problem_.precedes[at(a)][at(node)]; });
  };
  for (const bool side : {first_side, !first_side}) {
    for (int node = 0; node < problem_.nodes; ++node) {
      if (barred_[at(node)] != 0 || (reached_by_[at(node)] != -1) != side) {
        continue;
      }
      if (side && node != pair.first && all_before(node)) {
        before.push_back(node);
      } else if (!side && node != pair.second && all_after(node)) {
        after.push_back(node);
      }
    }
  }
  OrderCut cut;
  cut.leaves.assign(at(problem_.nodes), 0);
  cut.enters.assign(at(problem_.nodes), 0);
  for (int node = 0; node < problem_.nodes; ++node) {
    cut.leaves[at(node)] = reached_by_[at(node)] != -1;
    cut.enters[at(node)] = reached_by_[at(node)] == -1;
  }
  const auto leave_out = [&](const std::vector<int>& nodes) {
    for (const int node : nodes) {
      cut.leaves[at(node)] = cut.enters[at(node)] = 0;
    }
    work_ += static_cast<std::int64_t>(nodes.size()) * 2;
  };
  for (const int node : before) {
    leave_out(problem_.earlier[at(node)]);
  }
  for (const int node : after) {
    leave_out(problem_.later[at(node)]);
  }
  work_ += problem_.nodes * 4;
  return cut;
}

void OrderSeparation::weigh(OrderCut& cut, const std::vector<ArcShare>& shares) const {
  cut.flow = 0;
  for (const ArcShare& arc : shares) {
    cut.flow += cut.has(arc.from, arc.to) ? arc.share : 0;
  }
}

std::vector<Before> OrderSeparation::open_questions(const std::vector<ArcShare>& shares,
                                                    std::size_t most) {
  make_net(shares);
  struct Question {
    Before pair;
    double lack = 0;
  };
  std::vector<Question> questions;
  for (int a = 1; a + 1 < problem_.nodes; ++a) {
    for (int b = a + 1; b + 1 < problem_.nodes; ++b) {
      if (problem_.precedes[at(a)][at(b)] != 0 || problem_.precedes[at(b)][at(a)] != 0) {
        continue;
      }
      const double one = 1 - flow_between({a, b});
      const double other = one > kLeastLack ? 1 - flow_between({b, a}) : 0;
      if (const double lack = std::min(one, other); lack > kLeastLack) {
        questions.push_back({{a, b}, lack + 0.1 * std::max(one, other)});
      }
    }
  }
  std::ranges::stable_sort(questions, std::ranges::greater{}, &Question::lack);
  std::vector<Before> pairs;
  for (std::size_t k = 0; k < std::min(most, questions.size()); ++k) {
    pairs.push_back(questions[k].pair);
  }
  return pairs;
}

std::vector<OrderCut> OrderSeparation::find(const std::vector<ArcShare>& shares) {
  make_net(shares);
  std::vector<OrderCut> cuts;
  const std::int64_t last = work_ + kWorkOfAFind;
  for (std::size_t tried = 0; tried < pairs_.size() && work_ < last; ++tried) {
    const Pair pair = pairs_[next_pair_];
    next_pair_ = (next_pair_ + 1) % pairs_.size();
    if (flow_between(pair) >= 1 - kLeastLack) {
      continue;
    }
    for (const bool first_side : {true, false}) {
      OrderCut cut = widened(pair, first_side);
      weigh(cut, shares);
      work_ += static_cast<std::int64_t>(shares.size());
      const bool fresh = std::ranges::none_of(cuts, [&](const OrderCut& other) {
        return other.leaves == cut.leaves && other.enters == cut.enters;
      });
      if (fresh) {
        cuts.push_back(std::move(cut));
      }
    }
  }
  std::ranges::stable_sort(cuts, {}, &OrderCut::flow);
  return cuts;
}

}  // namespace plankwright::solve
