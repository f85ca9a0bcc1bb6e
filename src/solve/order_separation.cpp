#include "solve/order_separation.h"

#include <algorithm>
#include <functional>
#include <numeric>

namespace plankwright::solve {
namespace {

constexpr double kDust = 1e-7;
constexpr int kUnreached = -1;
constexpr int kSource = -2;
constexpr double kLeastLack = 0.02;
constexpr std::int64_t kWorkOfAFind = 30'000'000;

std::size_t at(int index) {
  return static_cast<std::size_t>(index);
}

}  // namespace

OrderSeparation::OrderSeparation(const OrderProblem& problem)
    : problem_{problem}, barred_(at(problem.nodes), 0) {
  for (int first = 0; first < problem.nodes; ++first) {
    const std::vector<int>& later = problem.later[at(first)];
    for (const int second : later) {
      if (std::ranges::none_of(later, [&](int k) { return problem.precedes[at(k)][at(second)]; })) {
        pairs_.push_back({first, second});
      }
    }
  }
}

void OrderSeparation::make_net(const std::vector<ArcShare>& shares) {
  starts_.assign(at(problem_.nodes) + 1, 0);
  for (const ArcShare& arc : shares) {
    ++starts_[at(arc.from) + 1];
    ++starts_[at(arc.to) + 1];
  }
  std::partial_sum(starts_.begin(), starts_.end(), starts_.begin());
  target_.assign(shares.size() * 2, 0);
  back_ = target_;
  full_.assign(target_.size(), 0);
  std::vector<int> next = starts_;
  for (const ArcShare& arc : shares) {
    const int there = next[at(arc.from)]++;
    const int back = next[at(arc.to)]++;
    target_[at(there)] = arc.to;
    target_[at(back)] = arc.from;
    back_[at(there)] = back;
    back_[at(back)] = there;
    full_[at(there)] = arc.share;
  }
}

/// Along a shortest way with room (Edmonds & Karp, 1972); nought when there is none.
double OrderSeparation::push(const Pair& pair, double most) {
  reached_by_.assign(at(problem_.nodes), kUnreached);
  queue_ = {pair.first};
  reached_by_[at(pair.first)] = kSource;
  for (std::size_t k = 0; k < queue_.size() && reached_by_[at(pair.second)] == kUnreached; ++k) {
    const int node = queue_[k];
    for (int way = starts_[at(node)]; way < starts_[at(node) + 1]; ++way) {
      const int to = target_[at(way)];
      if (room_[at(way)] > kDust && reached_by_[at(to)] == kUnreached && barred_[at(to)] == 0) {
        reached_by_[at(to)] = way;
        queue_.push_back(to);
      }
    }
    work_ += starts_[at(node) + 1] - starts_[at(node)] + 1;
  }
  work_ += problem_.nodes / 8 + 10;
  if (reached_by_[at(pair.second)] == kUnreached) {
    return 0;
  }
  const auto before = [&](int node) { return target_[at(back_[at(reached_by_[at(node)])])]; };
  for (int node = pair.second; node != pair.first; node = before(node)) {
    most = std::min(most, room_[at(reached_by_[at(node)])]);
  }
  for (int node = pair.second; node != pair.first; node = before(node)) {
    room_[at(reached_by_[at(node)])] -= most;
    room_[at(back_[at(reached_by_[at(node)])])] += most;
  }
  return most;
}

/// Stops at `enough`. Short of that `reached_by_` tells the side of the first node.
double OrderSeparation::flow_between(const Pair& pair, double enough) {
  std::ranges::fill(barred_, 0);
  for (const int node : problem_.earlier[at(pair.first)]) {
    barred_[at(node)] = 1;
  }
  for (const int node : problem_.later[at(pair.second)]) {
    barred_[at(node)] = 1;
  }
  room_ = full_;
  work_ += static_cast<std::int64_t>(full_.size()) / 8;
  double flow = 0;
  while (flow < enough) {
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
      if (barred_[at(node)] != 0 || (reached_by_[at(node)] != kUnreached) != side) {
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
    cut.leaves[at(node)] = reached_by_[at(node)] != kUnreached;
    cut.enters[at(node)] = reached_by_[at(node)] == kUnreached;
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
  struct Question {
    Before pair;
    double lack = 0;
  };
  make_net(shares);
  std::vector<Question> best;  // worst last
  for (int a = 1; a + 1 < problem_.nodes; ++a) {
    for (int b = a + 1; b + 1 < problem_.nodes; ++b) {
      if (problem_.precedes[at(a)][at(b)] != 0 || problem_.precedes[at(b)][at(a)] != 0) {
        continue;
      }
      const double least = best.size() < most ? kLeastLack : best.back().lack;
      double lack = 1 - flow_between({a, b}, 1 - least);
      if (lack > least) {
        lack = std::min(lack, 1 - flow_between({b, a}, 1 - least));
      }
      if (lack > least) {
        best.insert(std::ranges::upper_bound(best, lack, std::ranges::greater{}, &Question::lack),
                    {{a, b}, lack});
        best.resize(std::min(best.size(), most));
      }
    }
  }
  std::vector<Before> pairs;
  for (const Question& question : best) {
    pairs.push_back(question.pair);
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
    if (flow_between(pair, 1 - kLeastLack) >= 1 - kLeastLack) {
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
