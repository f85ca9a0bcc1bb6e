// Bottom-up enumeration (Wang 1983; Viswanathan & Bagchi 1993). A rectangle with its parts is worth
// going on with only if its parts at their prices, the best that can be sawn from the sheet around
// it at the same prices, and the worth of all copies above their prices come to more than the best
// layout: every layout that holds the rectangle is bounded by this, whatever the prices. Rectangles
// with the same parts that are no smaller are dropped. The order is by number of parts, then as
// found.

#include "solve/value_states.h"

#include <algorithm>

namespace plankwright::solve {
namespace {

constexpr std::size_t kMostStates = 2'000'000;
constexpr std::size_t kMostCounts = 100'000'000;
constexpr std::size_t kFewestBuckets = 1024;

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
      for (int x = end_x_; x >= 0; --x) {
        at(x, y) = best(x, y);
      }
    }
    work_ += static_cast<std::int64_t>(worth_.size()) * 4;
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

  // What is sawn off beside the rectangle can be taken piece by piece, none of them split along the
  // same axis again.
  std::int32_t best(int x, int y) {
    std::int32_t most = 0;
    most = x < end_x_ ? std::max(most, at(x + 1, y)) : most;
    most = y < end_y_ ? std::max(most, at(x, y + 1)) : most;
    const std::int32_t own_x = xs_[static_cast<std::size_t>(x)];
    for (const int jump : table_.row_firsts(y)) {
      const std::int32_t sum = own_x + xs_[static_cast<std::size_t>(jump)];
      if (sum > width_) {
        break;
      }
      most = std::max(most, table_.at_points(jump, y) + at(table_.floor_x(sum), y));
      ++work_;
    }
    const std::int32_t own_y = ys_[static_cast<std::size_t>(y)];
    for (const int jump : table_.column_firsts(x)) {
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
  std::int64_t work_ = 0;
};

}  // namespace

class StateEnumeration::Enumerator {
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
    work_ = around_.work();
  }

  void start() {
    buckets_.assign(kFewestBuckets, -1);
    for (std::size_t t = 0; t < types_; ++t) {
      const PackType& type = search_.problem.types[t];
      if (type.demand > 0) {
        add_part(t, type.width, type.height, false);
        if (type.may_turn) {
          add_part(t, type.height, type.width, true);
        }
      }
    }
  }

  bool run(std::int64_t work, const std::stop_token& stop) {
    const std::int64_t end = work_ + work;
    for (; next_ < states_.size(); ++next_) {
      if (is_too_large()) {
        return true;
      }
      if (work_ > end || stop.stop_requested()) {
        return false;
      }
      if (states_[next_].dead == 0 && !may_beat(states_[next_])) {
        states_[next_].dead = 1;
      }
      if (states_[next_].dead == 0) {
        combine(next_);
      }
    }
    return true;
  }

  std::int64_t work() const { return work_; }

  StateResult result() const {
    StateResult result;
    result.complete = next_ == states_.size();
    result.value = best_;
    result.work = work_;
    if (best_state_ >= 0) {
      result.root = tree(static_cast<std::size_t>(best_state_));
    }
    return result;
  }

 private:
  struct State {
    std::int32_t width = 0;
    std::int32_t height = 0;
    std::int64_t value = 0;
    std::int64_t priced = 0;
    int first = -1;  // states it was built of, or the type
    int second = -1;
    std::int64_t beside = 0;  // the most that can be sawn from the sheet around it
    std::uint64_t hash = 0;   // of its parts
    int same_bucket = -1;
    std::uint8_t along_x = 0;
    std::uint8_t dead = 0;
  };

  bool is_too_large() const { return states_.size() > kMostStates || counts_.size() > kMostCounts; }

  bool may_beat(const State& state) const { return state.priced + state.beside + slack_ > best_; }

  const std::uint16_t* counts(std::size_t state) const { return counts_.data() + state * types_; }

  void add_part(std::size_t t, std::int32_t width, std::int32_t height, bool turned) {
    if (width > kind_.width || height > kind_.height) {
      return;
    }
    scratch_.assign(types_, 0);
    scratch_[t] = 1;
    State state;
    state.width = width;
    state.height = height;
    state.value = search_.values[t];
    state.priced = search_.prices[t];
    state.first = static_cast<int>(t);
    state.beside = around_.around(width, height);
    state.along_x = turned ? 1 : 0;
    if (may_beat(state)) {
      offer(state);
    }
  }

  std::uint64_t hash_of_scratch() const {
    std::uint64_t hash = 1469598103934665603ULL;
    for (const std::uint16_t count : scratch_) {
      hash = (hash ^ count) * 1099511628211ULL;
    }
    return hash;
  }

  int& bucket_of(std::uint64_t hash) {
    return buckets_[static_cast<std::size_t>(hash ^ (hash >> 32U)) & (buckets_.size() - 1)];
  }

  void grow_buckets() {
    buckets_.assign(buckets_.size() * 4, -1);
    for (std::size_t i = 0; i < states_.size(); ++i) {
      int& bucket = bucket_of(states_[i].hash);
      states_[i].same_bucket = bucket;
      bucket = static_cast<int>(i);
    }
    work_ += static_cast<std::int64_t>(10 * states_.size());
  }

  // Takes a state up unless it is no better than one with the same parts.
  void offer(State state) {
    work_ += 60 + 2 * static_cast<std::int64_t>(types_);
    if (states_.size() > buckets_.size()) {
      grow_buckets();
    }
    state.hash = hash_of_scratch();
    int& bucket = bucket_of(state.hash);
    for (int index = bucket; index >= 0;) {
      State& other = states_[static_cast<std::size_t>(index)];
      work_ += 10;
      if (other.hash == state.hash &&
          std::equal(scratch_.begin(), scratch_.end(), counts(static_cast<std::size_t>(index)))) {
        if (other.width <= state.width && other.height <= state.height) {
          return;
        }
        if (state.width <= other.width && state.height <= other.height) {
          other.dead = 1;
        }
      }
      index = other.same_bucket;
    }
    state.same_bucket = bucket;
    bucket = static_cast<int>(states_.size());
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
      // Around both together there is no more than around one of them.
      work_ += 3;
      if (states_[index].priced + states_[other].priced + slack_ +
              std::min(states_[index].beside, states_[other].beside) >
          best_) {
        join(index, other, true);
        join(index, other, false);
      }
    }
  }

  void join(std::size_t index, std::size_t other, bool along_x) {
    const State& a = states_[index];
    const State& b = states_[other];
    State state;
    state.width = along_x ? a.width + b.width : std::max(a.width, b.width);
    state.height = along_x ? std::max(a.height, b.height) : a.height + b.height;
    work_ += 10;
    if (state.width > kind_.width || state.height > kind_.height) {
      return;
    }
    state.beside = around_.around(state.width, state.height);
    state.value = a.value + b.value;
    state.priced = a.priced + b.priced;
    if (!may_beat(state)) {
      return;
    }
    scratch_.resize(types_);
    for (std::size_t t = 0; t < types_; ++t) {
      scratch_[t] = static_cast<std::uint16_t>(counts(index)[t] + counts(other)[t]);
      if (scratch_[t] > search_.problem.types[t].demand) {
        work_ += static_cast<std::int64_t>(t);
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

  const StateSearch search_;
  const PackKind& kind_;
  Surroundings around_;
  std::size_t types_;
  std::int64_t slack_ = 0;
  std::int64_t best_ = 0;  // nothing at or below it is of interest
  int best_state_ = -1;
  std::vector<State> states_;
  std::vector<std::uint16_t> counts_;
  std::vector<std::uint16_t> scratch_;
  std::vector<int> buckets_;
  std::vector<std::size_t> alive_;
  std::size_t next_ = 0;
  std::int64_t work_ = 0;
};

StateEnumeration::StateEnumeration(const StateSearch& search, std::int64_t above)
    : enumerator_{std::make_unique<Enumerator>(search, above)} {
  enumerator_->start();
}
StateEnumeration::~StateEnumeration() = default;

bool StateEnumeration::run(std::int64_t work, const std::stop_token& stop) {
  return enumerator_->run(work, stop);
}
std::int64_t StateEnumeration::work() const {
  return enumerator_->work();
}
StateResult StateEnumeration::result() const {
  return enumerator_->result();
}

StateResult enumerate_states(const StateSearch& search,
                             std::int64_t above,
                             std::int64_t work,
                             const std::stop_token& stop) {
  StateEnumeration states{search, above};
  states.run(work, stop);
  return states.result();
}

}  // namespace plankwright::solve
