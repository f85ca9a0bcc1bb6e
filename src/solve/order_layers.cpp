#include "solve/order_layers.h"

#include <algorithm>

namespace plankwright::solve {
namespace {

std::size_t at(int index) {
  return static_cast<std::size_t>(index);
}

constexpr std::int64_t kScale = PricedArcs::kScale;

struct Beginning {
  std::int64_t cost = 0;
  std::int64_t extra = 0;  // what the bound makes of it, above `cost`; the most over all ways here
  std::int64_t bound = 0;  // of the whole order
  std::uint32_t parent = 0;
  int last = 0;
};

/// What is remembered of beginnings once they are left behind.
struct Trace {
  std::uint32_t parent = 0;
  int last = 0;
};

class Sweep {
 public:
  Sweep(const OrderProblem& problem, const OrderRelaxation& relaxation, std::int64_t best)
      : problem_{problem},
        relaxation_{relaxation},
        words_{at(problem.nodes) / 64 + 1},
        limit_{(best - problem.unit) * kScale} {
    for (int node = 0; node < problem.nodes; ++node) {
      std::vector<std::uint64_t> set(words_, 0);
      for (const int earlier : problem.earlier[at(node)]) {
        set[at(earlier) / 64] |= std::uint64_t{1} << (earlier % 64);
      }
      needs_.push_back(std::move(set));
      std::vector<int> next;
      for (int to = 0; to < problem.nodes; ++to) {
        if (problem.cost(node, to) < OrderProblem::kNoArc) {
          next.push_back(to);
        }
      }
      next_.push_back(std::move(next));
    }
  }

  LayersOutcome run(std::size_t width, std::int64_t& work, const std::function<bool()>& stop) {
    LayersOutcome outcome;
    outcome.whole = true;
    now_ = {{0, relaxation_.base(), 0, 0, 0}};
    now_sets_.assign(words_, 0);
    now_sets_[0] = 1;
    for (int place = 1; place < problem_.nodes; ++place) {
      traces_.emplace_back();
      for (const Beginning& beginning : now_) {
        traces_.back().push_back({beginning.parent, beginning.last});
      }
      if (!grow(place, work, stop)) {
        outcome.whole = false;
        return outcome;
      }
      outcome.whole = narrow(width, work) && outcome.whole;
      if (now_.empty()) {
        return outcome;
      }
    }
    outcome.cost = now_.front().cost;
    outcome.path = trace_back();
    return outcome;
  }

 private:
  static std::uint64_t hash_of(const std::uint64_t* words, std::size_t count, int last) {
    std::uint64_t hash = 0x9e3779b97f4a7c15ULL + static_cast<std::uint64_t>(last);
    for (std::size_t i = 0; i < count; ++i) {
      hash = (hash ^ words[i]) * 0xbf58476d1ce4e5b9ULL;
      hash ^= hash >> 31U;
    }
    return hash;
  }

  bool may_follow(const std::uint64_t* set, int node) const {
    if ((set[at(node) / 64] >> (node % 64) & 1U) != 0) {
      return false;
    }
    for (std::size_t w = 0; w < words_; ++w) {
      if ((needs_[at(node)][w] & ~set[w]) != 0) {
        return false;
      }
    }
    return true;
  }

  bool grow(int place, std::int64_t& work, const std::function<bool()>& stop) {
    next_layer_.clear();
    next_sets_.clear();
    table_.assign(1024, kFree);
    std::vector<std::uint64_t> set(words_);
    for (std::size_t k = 0; k < now_.size(); ++k) {
      if (k % 1024 == 0 && stop()) {
        return false;
      }
      const std::uint64_t* before = &now_sets_[k * words_];
      for (const int to : next_[at(now_[k].last)]) {
        work += 15;
        if (!may_follow(before, to)) {
          continue;
        }
        const std::int64_t step = problem_.cost(now_[k].last, to);
        const std::int64_t cost = now_[k].cost + step;
        const std::int64_t extra =
            now_[k].extra + relaxation_.cost(now_[k].last, to) - step * kScale;
        const std::int64_t rest = relaxation_.rest(to, place, [&](int node) {
          return node == to || (before[at(node) / 64] >> (node % 64) & 1U) != 0;
        });
        const std::int64_t bound = cost * kScale + extra + rest;
        work += 60;
        if (bound > limit_) {
          continue;
        }
        std::copy_n(before, words_, set.begin());
        set[at(to) / 64] |= std::uint64_t{1} << (to % 64);
        keep({cost, extra, bound, static_cast<std::uint32_t>(k), to}, set);
      }
    }
    return true;
  }

  void keep(const Beginning& beginning, const std::vector<std::uint64_t>& set) {
    if (next_layer_.size() * 2 >= table_.size()) {
      rehash();
    }
    const std::size_t mask = table_.size() - 1;
    for (std::size_t slot = hash_of(set.data(), words_, beginning.last) & mask;;
         slot = (slot + 1) & mask) {
      if (table_[slot] == kFree) {
        table_[slot] = static_cast<std::uint32_t>(next_layer_.size());
        next_layer_.push_back(beginning);
        next_sets_.insert(next_sets_.end(), set.begin(), set.end());
        return;
      }
      Beginning& same = next_layer_[table_[slot]];
      if (same.last == beginning.last &&
          std::equal(set.begin(), set.end(), &next_sets_[table_[slot] * words_])) {
        join(same, beginning);
        return;
      }
    }
  }

  /// The cheaper way to the same jobs and the same last one; all that the bound knows of the rest
  /// from the one holds for the other.
  void join(Beginning& same, const Beginning& other) const {
    const std::int64_t rest = same.bound - same.cost * kScale - same.extra;
    const std::int64_t extra = std::max(same.extra, other.extra);
    if (other.cost < same.cost) {
      same = other;
    }
    same.extra = extra;
    same.bound = same.cost * kScale + extra + rest;
  }

  void rehash() {
    table_.assign(table_.size() * 4, kFree);
    const std::size_t mask = table_.size() - 1;
    for (std::size_t i = 0; i < next_layer_.size(); ++i) {
      std::size_t slot = hash_of(&next_sets_[i * words_], words_, next_layer_[i].last) & mask;
      while (table_[slot] != kFree) {
        slot = (slot + 1) & mask;
      }
      table_[slot] = static_cast<std::uint32_t>(i);
    }
  }

  /// The `width` best become the layer to go on from; true when that was all.
  bool narrow(std::size_t width, std::int64_t& work) {
    std::vector<std::uint32_t> order;
    for (std::size_t i = 0; i < next_layer_.size(); ++i) {
      if (next_layer_[i].bound <= limit_) {
        order.push_back(static_cast<std::uint32_t>(i));
      }
    }
    const bool whole = order.size() <= width;
    if (!whole) {
      std::nth_element(order.begin(),
                       order.begin() + static_cast<std::ptrdiff_t>(width),
                       order.end(),
                       [&](std::uint32_t a, std::uint32_t b) {
                         return next_layer_[a].bound < next_layer_[b].bound ||
                                (next_layer_[a].bound == next_layer_[b].bound && a < b);
                       });
      order.resize(width);
      std::ranges::sort(order);
    }
    work += static_cast<std::int64_t>(next_layer_.size()) * 20;
    now_.clear();
    now_sets_.clear();
    for (const std::uint32_t i : order) {
      now_.push_back(next_layer_[i]);
      now_sets_.insert(now_sets_.end(),
                       next_sets_.begin() + static_cast<std::ptrdiff_t>(i * words_),
                       next_sets_.begin() + static_cast<std::ptrdiff_t>((i + 1) * words_));
    }
    return whole;
  }

  std::vector<int> trace_back() const {
    std::vector<int> path = {now_.front().last};
    std::uint32_t number = now_.front().parent;
    for (std::size_t layer = traces_.size(); layer-- > 0;) {
      path.push_back(traces_[layer][number].last);
      number = traces_[layer][number].parent;
    }
    std::ranges::reverse(path);
    return path;
  }

  static constexpr std::uint32_t kFree = 0xffffffffU;

  const OrderProblem& problem_;
  const OrderRelaxation& relaxation_;
  std::size_t words_;
  std::int64_t limit_;  // the dearest order that is still cheaper
  std::vector<std::vector<std::uint64_t>> needs_;
  std::vector<std::vector<int>> next_;
  std::vector<Beginning> now_;
  std::vector<std::uint64_t> now_sets_;
  std::vector<Beginning> next_layer_;
  std::vector<std::uint64_t> next_sets_;
  std::vector<std::uint32_t> table_;
  std::vector<std::vector<Trace>> traces_;
};

}  // namespace

LayersOutcome sweep_layers(const OrderProblem& problem,
                           const OrderRelaxation& relaxation,
                           std::int64_t best,
                           std::size_t width,
                           std::int64_t& work,
                           const std::function<bool()>& stop) {
  return Sweep{problem, relaxation, best}.run(width, work, stop);
}

}  // namespace plankwright::solve
