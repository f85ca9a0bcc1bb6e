#include "solve/staging_bound.h"

#include <algorithm>
#include <numeric>

namespace plankwright::solve {
namespace {

constexpr std::size_t kMostOfASort = 6;  // weights that are kept, in each dimension
constexpr std::int64_t kMostShares = 20;

std::size_t at(int index) {
  return static_cast<std::size_t>(index);
}

std::int64_t total(const StageWeight& weight) {
  return std::accumulate(weight.of.begin(), weight.of.end(), std::int64_t{0});
}

/// A use of x stages counts as floor((k + 1) x) / k, or as x where (k + 1) x is whole.
StageWeight shares(const std::vector<std::int64_t>& uses, std::int64_t capacity, std::int64_t k) {
  StageWeight weight{{}, k * (k + 1)};
  for (const std::int64_t use : uses) {
    const std::int64_t whole = (k + 1) * use / capacity;
    weight.of.push_back(whole * capacity == (k + 1) * use ? whole * k : whole * (k + 1));
  }
  return weight;
}

/// Uses below `small` count for nothing, those above capacity - small for a whole stage.
StageWeight without_small(const std::vector<std::int64_t>& uses,
                          std::int64_t capacity,
                          std::int64_t small) {
  StageWeight weight{uses, capacity};
  for (std::int64_t& use : weight.of) {
    use = use < small ? 0 : use > capacity - small ? capacity : use;
  }
  return weight;
}

void keep_strongest(std::vector<StageWeight> some, std::vector<StageWeight>& weights) {
  const auto stages = [](const StageWeight& weight) {
    return static_cast<double>(total(weight)) / static_cast<double>(weight.limit);
  };
  std::ranges::stable_sort(some, std::ranges::greater{}, stages);
  some.resize(std::min(some.size(), kMostOfASort));
  std::ranges::move(some, std::back_inserter(weights));
}

void add_weights(const std::vector<std::int64_t>& uses,
                 std::int64_t capacity,
                 std::vector<StageWeight>& weights) {
  weights.push_back({uses, capacity});
  std::vector<StageWeight> shared;
  for (std::int64_t k = 1; k <= kMostShares; ++k) {
    shared.push_back(shares(uses, capacity, k));
  }
  keep_strongest(std::move(shared), weights);
  std::vector<std::int64_t> sizes = uses;
  std::ranges::sort(sizes);
  sizes.erase(std::unique(sizes.begin(), sizes.end()), sizes.end());
  std::vector<StageWeight> cut;
  for (const std::int64_t small : sizes) {
    if (small > 1 && 2 * small <= capacity) {
      cut.push_back(without_small(uses, capacity, small));
    }
  }
  keep_strongest(std::move(cut), weights);
}

/// Time counted backwards from the end of the last stage.
class Tails {
 public:
  Tails(const StagingProblem& problem, const std::vector<StageWeight>& weights)
      : problem_{problem},
        weights_{weights},
        capacity_{std::max<std::int64_t>(1, problem.capacity[0])},
        tail_(at(problem.tasks), 0) {}

  /// Sets how much time at least lies between a task and the end; its followers must be set.
  void set(int task) {
    const std::vector<int>& followers = problem_.later[at(task)];
    std::int64_t tail = after_all(followers);
    for (const int follower : followers) {
      if (problem_.precedes[at(task)][at(follower)] == 2) {
        tail = std::max(tail, full_stages(tail_[at(follower)] + use(follower)));
      }
    }
    for (const StageWeight& weight : weights_) {
      std::int64_t sum = weight.of[at(task)];
      for (const int follower : followers) {
        sum += weight.of[at(follower)];
      }
      tail = std::max(tail, (stages_for(weight, sum) - 1) * capacity_);
    }
    const std::int64_t full = full_stages(tail);  // a task does not straddle two stages
    tail_[at(task)] = tail + use(task) > full ? full : tail;
  }

  /// One after the other, those with the longest tail first in front.
  std::int64_t after_all(std::vector<int> followers) const {
    std::ranges::stable_sort(followers, [&](int a, int b) { return tail_[at(a)] > tail_[at(b)]; });
    std::int64_t sum = 0;
    std::int64_t most = 0;
    for (const int follower : followers) {
      sum += use(follower);
      most = std::max(most, sum + tail_[at(follower)]);
    }
    return most;
  }

  int stages_to(std::int64_t time) const { return static_cast<int>(full_stages(time) / capacity_); }
  int stages_from(int task) const { return stages_to(tail_[at(task)] + use(task)); }

 private:
  std::int64_t use(int task) const { return problem_.uses[0][at(task)]; }
  std::int64_t full_stages(std::int64_t time) const {
    return (time + capacity_ - 1) / capacity_ * capacity_;
  }

  const StagingProblem& problem_;
  const std::vector<StageWeight>& weights_;
  std::int64_t capacity_;
  std::vector<std::int64_t> tail_;
};

std::vector<int> topological(const StagingProblem& problem) {
  std::vector<int> order(at(problem.tasks));
  std::iota(order.begin(), order.end(), 0);
  std::ranges::stable_sort(order, [&](int a, int b) {
    return problem.earlier[at(a)].size() < problem.earlier[at(b)].size();
  });
  return order;
}

}  // namespace

std::int64_t stages_for(const StageWeight& weight, std::int64_t sum) {
  return (sum + weight.limit - 1) / weight.limit;
}

std::vector<StageWeight> stage_weights(const StagingProblem& problem) {
  std::vector<StageWeight> weights;
  for (int r = 0; r < problem.dimensions; ++r) {
    if (problem.capacity[at(r)] > 0) {
      add_weights(problem.uses[at(r)], problem.capacity[at(r)], weights);
    }
  }
  return weights;
}

std::vector<int> stages_after(const StagingProblem& problem,
                              const std::vector<StageWeight>& weights) {
  const std::vector<int> order = topological(problem);
  Tails tails{problem, weights};
  std::vector<int> after(at(problem.tasks) + 1, 0);
  for (auto task = order.rbegin(); task != order.rend(); ++task) {
    tails.set(*task);
    int& own = after[at(*task)];
    own = std::max(0, tails.stages_from(*task) - 1);
    for (const int later : problem.later[at(*task)]) {
      own = std::max(own, after[at(later)] + (problem.precedes[at(*task)][at(later)] == 2 ? 1 : 0));
    }
    after.back() = std::max(after.back(), own + 1);
  }
  after.back() = std::max(after.back(), tails.stages_to(tails.after_all(order)));
  for (const StageWeight& weight : weights) {
    after.back() = std::max(after.back(), static_cast<int>(stages_for(weight, total(weight))));
  }
  return after;
}

}  // namespace plankwright::solve
