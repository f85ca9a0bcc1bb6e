#include "solve/order_branch.h"

#include <algorithm>
#include <optional>
#include <utility>

#include "solve/order_separation.h"

namespace plankwright::solve {
namespace {

constexpr std::int64_t kScale = PricedArcs::kScale;
constexpr std::size_t kMostTried = 8;
constexpr int kTryRounds = 2;
constexpr std::int64_t kWorkOfTries = 400'000'000;
constexpr std::int64_t kWorkOfAPart = 200'000'000;

constexpr std::size_t kMostBytes = 300'000'000;
constexpr double kWhole = 0.99;

std::int64_t bound_of(const OrderProblem& problem, std::int64_t base) {
  return std::min(problem.rounded((base + kScale - 1) / kScale), OrderProblem::kNoArc);
}

/// The order that a fraction is, if it is a whole one; empty otherwise.
std::vector<int> whole_path(const OrderProblem& problem, const std::vector<ArcShare>& shares) {
  std::vector<int> next(static_cast<std::size_t>(problem.nodes), -1);
  for (const ArcShare& arc : shares) {
    if (arc.share > kWhole) {
      next[static_cast<std::size_t>(arc.from)] = arc.to;
    }
  }
  std::vector<int> path;
  for (int node = 0; node >= 0 && path.size() < next.size();
       node = next[static_cast<std::size_t>(node)]) {
    path.push_back(node);
  }
  bool sound = path.size() == next.size();
  for (std::size_t a = 0; a < path.size() && sound; ++a) {
    for (std::size_t b = a + 1; b < path.size() && sound; ++b) {
      const auto later = static_cast<std::size_t>(path[b]);
      sound = path[a] != path[b] && problem.precedes[later][static_cast<std::size_t>(path[a])] == 0;
    }
  }
  return sound ? path : std::vector<int>{};
}

}  // namespace

OrderBranching::OrderBranching(const OrderProblem& problem, const OrderCuts& cuts) {
  open_.push_back({problem, cuts.cuts(), cuts.shares(), cuts.priced().base});
}

std::int64_t OrderBranching::bound() const {
  return open_.empty() ? given_up_
                       : std::min(given_up_, bound_of(open_.front().problem, open_.front().base));
}

/// Once they take too much room, whatever is put in is given up.
void OrderBranching::put(Part part) {
  const auto nodes = static_cast<std::size_t>(part.problem.nodes);
  const std::size_t bytes = nodes * nodes * 14 + part.cuts.size() * (2 * nodes + 64);
  if (open_.size() * bytes > kMostBytes) {
    given_up_ = std::min(given_up_, bound_of(part.problem, part.base));
    return;
  }
  open_.push_back(std::move(part));
  std::ranges::push_heap(open_, std::ranges::greater{}, &Part::base);
}

OrderBranching::Part OrderBranching::decided(
    const Part& part, const OrderCuts& whole, const Before& pair, std::int64_t best, int rounds) {
  Part child{part.problem, {}, {}, 0};
  add_before(child.problem, pair.first, pair.second);
  OrderCuts cuts{child.problem, whole};
  cuts.improve(best, kWorkOfAPart, rounds);
  child.cuts = cuts.cuts();
  child.shares = cuts.shares();
  child.base = std::max(part.base, cuts.priced().base);
  work_ += cuts.work();
  return child;
}

/// False when `part` has become smaller: one way of a pair leads nowhere.
bool OrderBranching::split(Part& part,
                           const OrderCuts& cuts,
                           const std::vector<Before>& pairs,
                           std::int64_t best,
                           const std::function<bool()>& stop) {
  std::optional<std::pair<Part, Part>> chosen;
  std::int64_t most = -1;
  const std::int64_t last = work_ + kWorkOfTries;
  for (const Before& pair : pairs) {
    if (chosen && (work_ > last || stop())) {
      break;
    }
    Part one = decided(part, cuts, pair, best, kTryRounds);
    Part other = decided(part, cuts, {pair.second, pair.first}, best, kTryRounds);
    const bool no_one = bound_of(one.problem, one.base) >= best;
    if (no_one || bound_of(other.problem, other.base) >= best) {
      part = no_one ? std::move(other) : std::move(one);
      return false;
    }
    const std::int64_t least = std::min(one.base, other.base) - part.base;
    const std::int64_t score = least * 4 + std::max(one.base, other.base) - part.base;
    if (score > most) {
      most = score;
      chosen = {std::move(one), std::move(other)};
    }
  }
  put(std::move(chosen->first));
  put(std::move(chosen->second));
  return true;
}

/// A part without a question is an order, or stays as it is.
void OrderBranching::give_up(const Part& part, std::int64_t best) {
  const std::vector<int> path = whole_path(part.problem, part.shares);
  if (path.empty()) {
    given_up_ = std::min(given_up_, bound_of(part.problem, part.base));
  } else if (part.problem.cost_of(path) < best) {
    path_ = path;
    given_up_ = std::min(given_up_, part.problem.cost_of(path));
  }
}

void OrderBranching::branch(Part part, std::int64_t best, const std::function<bool()>& stop) {
  while (bound_of(part.problem, part.base) < best) {
    if (stop()) {
      put(std::move(part));
      return;
    }
    OrderCuts cuts{part.problem, part.cuts};
    cuts.improve(best, kWorkOfAPart);
    work_ += cuts.work();
    part.base = std::max(part.base, cuts.priced().base);
    part.shares = cuts.shares();
    if (bound_of(part.problem, part.base) >= best) {
      return;
    }
    OrderSeparation separation{part.problem};
    const std::vector<Before> pairs = separation.open_questions(part.shares, kMostTried);
    work_ += separation.work() * 3;
    if (pairs.empty()) {
      give_up(part, best);
      return;
    }
    if (split(part, cuts, pairs, best, stop)) {
      return;
    }
  }
}

void OrderBranching::run(std::int64_t best, std::int64_t work, const std::function<bool()>& stop) {
  const std::int64_t last = work_ + work;
  path_.clear();
  while (work_ < last && path_.empty() && !open_.empty() && !stop()) {
    std::ranges::pop_heap(open_, std::ranges::greater{}, &Part::base);
    Part part = std::move(open_.back());
    open_.pop_back();
    if (bound_of(part.problem, part.base) >= best) {
      open_.clear();  // the others are no better
      return;
    }
    branch(std::move(part), best, stop);
  }
}

}  // namespace plankwright::solve
