// Bottom-up enumeration (Wang 1983; Viswanathan & Bagchi 1993). A rectangle with its parts is worth
// going on with only if its parts at their prices, the best that can be sawn from the sheet around
// it at the same prices, and the worth of all copies above their prices come to more than the best
// layout: every layout that holds the rectangle is bounded by this, whatever the prices. Rectangles
// with the same parts that are no smaller are dropped. The order is by number of parts, then as
// found.

#include "solve/value_states.h"

#include <algorithm>
#include <unordered_map>

namespace plankwright::solve {
namespace {

constexpr std::size_t kMostStates = 2'000'000;
constexpr std::size_t kMostCounts = 100'000'000;

/// G(X, Y): the greatest priced value that can be sawn from the sheet beside a rectangle of that
/// size.
class Surroundings {
 public:
  Surroundings(const GuillotineTable& table, std::int32_t width, std::int32_t height)
      : table_{table}, xs_{table.x_points()}, ys_{table.y_points()} {
    end_x_ = table.floor_x(width);
    end_y_ = table.floor_y(height);
    worth_.assign(xs_.size() * ys_.size(), 0);
    width_ = width;
    height_ = height;
    for (int y = end_y_; y >= 0; --y) {
      row_jumps(y);
      for (int x = end_x_; x >= 0; --x) {
        at(x, y) = best(x, y);
      }
    }
  }

  std::int64_t around(std::int32_t width, std::int32_t height) const {
    return worth_[static_cast<std::size_t>(table_.floor_y(height)) * xs_.size() +
                  static_cast<std::size_t>(table_.floor_x(width))];
  }
  std::int64_t work() const { return work_; }

 private:
  std::int32_t& at(int x, int y) {
    return worth_[static_cast<std::size_t>(y) * xs_.size() + static_cast<std::size_t>(x)];
  }

  void row_jumps(int y) {
    jumps_.clear();
    for (int x = 1; x <= end_x_; ++x) {
      if (table_.at_points(x, y) > table_.at_points(x - 1, y)) {
        jumps_.push_back(x);
      }
    }
  }

  std::int32_t best(int x, int y) {
    std::int32_t most = 0;
    most = x < end_x_ ? std::max(most, at(x + 1, y)) : most;
    most = y < end_y_ ? std::max(most, at(x, y + 1)) : most;
    const std::int32_t own_x = xs_[static_cast<std::size_t>(x)];
    for (const int jump : jumps_) {
      const std::int32_t sum = own_x + xs_[static_cast<std::size_t>(jump)];
      if (sum > width_) {
        break;
      }
      most = std::max(most, table_.at_points(jump, y) + at(table_.floor_x(sum), y));
      ++work_;
    }
    const std::int32_t own_y = ys_[static_cast<std::size_t>(y)];
    for (int jump = 1; jump <= end_y_; ++jump) {
      const std::int32_t sum = own_y + ys_[static_cast<std::size_t>(jump)];
      if (sum > height_) {
        break;
      }
      most = std::max(most, table_.at_points(x, jump) + at(x, table_.floor_y(sum)));
      ++work_;
    }
    return most;
  }

  const GuillotineTable& table_;
  const std::vector<std::int32_t>& xs_;
  const std::vector<std::int32_t>& ys_;
  std::int32_t width_ = 0;
  std::int32_t height_ = 0;
  int end_x_ = 0;
  int end_y_ = 0;
  std::vector<std::int32_t> worth_;
  std::vector<int> jumps_;
  std::int64_t work_ = 0;
};

class Enumerator {
 public:
  Enumerator(const StateSearch& search, std::int64_t above)
      : search_{search},
        kind_{search.problem.kinds[static_cast<std::size_t>(search.kind)]},
        around_{search.table, kind_.width, kind_.height},
        types_{search.problem.types.size()},
        best_{above} {
    for (std::size_t t = 0; t < types_; ++t) {
      slack_ += (search.values[t] - search.prices[t]) * search.problem.types[t].demand;
    }
    result_.work = around_.work();
  }

  StateResult run(std::int64_t work, const std::stop_token& stop) {
    for (std::size_t t = 0; t < types_; ++t) {
      const PackType& type = search_.problem.types[t];
      if (type.demand > 0) {
        add_part(t, type.width, type.height, false);
        if (type.may_turn) {
          add_part(t, type.height, type.width, true);
        }
      }
    }
    std::size_t next = 0;
    for (; next < states_.size(); ++next) {
      if (result_.work > work || states_.size() > kMostStates || counts_.size() > kMostCounts ||
          stop.stop_requested()) {
        break;
      }
      if (states_[next].dead || !may_beat(states_[next])) {
        states_[next].dead = true;
        continue;
      }
      combine(next);
    }
    result_.complete = next == states_.size();
    result_.value = best_;
    if (best_state_ >= 0) {
      result_.root = tree(static_cast<std::size_t>(best_state_));
    }
    return std::move(result_);
  }

 private:
  struct State {
    std::int32_t width = 0;
    std::int32_t height = 0;
    std::int64_t value = 0;
    std::int64_t priced = 0;
    int first = -1;  // states it was built of, or the type
    int second = -1;
    std::uint8_t along_x = 0;
    std::uint8_t dead = 0;
  };

  bool may_beat(const State& state) const {
    return state.priced + around_.around(state.width, state.height) + slack_ > best_;
  }

  const std::uint16_t* counts(std::size_t state) const { return counts_.data() + state * types_; }

  void add_part(std::size_t t, std::int32_t width, std::int32_t height, bool turned) {
    if (width > kind_.width || height > kind_.height) {
      return;
    }
    scratch_.assign(types_, 0);
    scratch_[t] = 1;
    State state{width, height, search_.values[t], search_.prices[t], static_cast<int>(t), -1, 0, 0};
    state.along_x = turned ? 1 : 0;
    offer(state);
  }

  std::uint64_t hash_of_scratch() const {
    std::uint64_t hash = 1469598103934665603ULL;
    for (const std::uint16_t count : scratch_) {
      hash = (hash ^ count) * 1099511628211ULL;
    }
    return hash;
  }

  // Takes a state up unless it is hopeless or no better than one with the same parts.
  void offer(const State& state) {
    result_.work += 20;
    if (!may_beat(state)) {
      return;
    }
    auto& same = by_counts_[hash_of_scratch()];
    result_.work += 20 + static_cast<std::int64_t>(types_ + 10 * same.size());
    for (const int index : same) {
      State& other = states_[static_cast<std::size_t>(index)];
      if (!std::equal(scratch_.begin(), scratch_.end(), counts(static_cast<std::size_t>(index)))) {
        continue;
      }
      if (other.width <= state.width && other.height <= state.height) {
        return;
      }
      if (state.width <= other.width && state.height <= other.height) {
        other.dead = 1;
      }
    }
    same.push_back(static_cast<int>(states_.size()));
    if (state.value > best_) {
      best_ = state.value;
      best_state_ = static_cast<int>(states_.size());
    }
    states_.push_back(state);
    counts_.insert(counts_.end(), scratch_.begin(), scratch_.end());
  }

  void combine(std::size_t index) {
    alive_.push_back(index);
    for (std::size_t i = 0; i < alive_.size(); ++i) {
      const std::size_t other = alive_[i];
      if (states_[index].dead != 0) {
        return;
      }
      if (states_[other].dead != 0) {
        alive_[i--] = alive_.back();
        alive_.pop_back();
        continue;
      }
      join(index, other, true);
      join(index, other, false);
    }
  }

  void join(std::size_t index, std::size_t other, bool along_x) {
    const State& a = states_[index];
    const State& b = states_[other];
    State state;
    state.width = along_x ? a.width + b.width : std::max(a.width, b.width);
    state.height = along_x ? std::max(a.height, b.height) : a.height + b.height;
    result_.work += 10;
    if (state.width > kind_.width || state.height > kind_.height) {
      return;
    }
    state.value = a.value + b.value;
    state.priced = a.priced + b.priced;
    if (!may_beat(state)) {
      return;
    }
    scratch_.resize(types_);
    for (std::size_t t = 0; t < types_; ++t) {
      scratch_[t] = static_cast<std::uint16_t>(counts(index)[t] + counts(other)[t]);
      if (scratch_[t] > search_.problem.types[t].demand) {
        result_.work += static_cast<std::int64_t>(t);
        return;
      }
    }
    state.first = static_cast<int>(index);
    state.second = static_cast<int>(other);
    state.along_x = along_x ? 1 : 0;
    offer(state);
  }

  PackNode tree(std::size_t index) const {
    const State& state = states_[index];
    PackNode node;
    if (state.second < 0) {
      node.type = state.first;
      node.turned = state.along_x != 0;
      return node;
    }
    node.along = state.along_x != 0 ? Axis::kX : Axis::kY;
    node.children.push_back(tree(static_cast<std::size_t>(state.first)));
    node.children.push_back(tree(static_cast<std::size_t>(state.second)));
    return node;
  }

  const StateSearch& search_;
  const PackKind& kind_;
  Surroundings around_;
  std::size_t types_;
  std::int64_t slack_ = 0;
  std::int64_t best_ = 0;
  int best_state_ = -1;
  std::vector<State> states_;
  std::vector<std::uint16_t> counts_;
  std::vector<std::uint16_t> scratch_;
  std::unordered_map<std::uint64_t, std::vector<int>> by_counts_;
  std::vector<std::size_t> alive_;
  StateResult result_;
};

}  // namespace

StateResult enumerate_states(const StateSearch& search,
                             std::int64_t above,
                             std::int64_t work,
                             const std::stop_token& stop) {
  return Enumerator{search, above}.run(work, stop);
}

}  // namespace plankwright::solve
