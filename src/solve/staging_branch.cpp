#include "solve/staging_branch.h"

#include <algorithm>
#include <numeric>

namespace plankwright::solve {
namespace {

constexpr std::int64_t kFirstLoads = 2000;  // of a state, before all others had their turn

std::size_t at(int index) {
  return static_cast<std::size_t>(index);
}

std::uint64_t hash_of(const std::uint64_t* words, std::size_t count) {
  std::uint64_t hash = 0x9e3779b97f4a7c15ULL;
  for (std::size_t i = 0; i < count; ++i) {
    hash = (hash ^ words[i]) * 0xbf58476d1ce4e5b9ULL;
    hash ^= hash >> 29U;
  }
  return hash;
}

void set_bit(std::uint64_t* words, int bit) {
  words[bit / 64] |= std::uint64_t{1} << (bit % 64);
}

}  // namespace

StagingBranch::StagingBranch(const StagingProblem& problem,
                             const std::vector<StageWeight>& weights,
                             const std::vector<int>& after,
                             std::int64_t most_states)
    : problem_{problem},
      weights_{weights},
      after_{after},
      words_{at(problem.tasks) / 64 + 1},
      most_states_{static_cast<std::size_t>(most_states)},
      missing_(at(problem.tasks)),
      in_load_(at(problem.tasks), 0) {
  for (int i = 0; i < problem.tasks; ++i) {
    followers_.emplace_back(words_, 0);
    for (const int later : problem.later[at(i)]) {
      set_bit(followers_.back().data(), later);
    }
  }
  std::vector<int> order(at(problem.tasks));
  std::iota(order.begin(), order.end(), 0);
  const auto behind = [&](int task) {
    std::int64_t sum = problem.uses[0][at(task)];
    for (const int later : problem.later[at(task)]) {
      sum += problem.uses[0][at(later)];
    }
    return sum;
  };
  std::ranges::stable_sort(order, [&](int a, int b) {
    const auto left = problem.uses[0][at(a)];
    const auto right = problem.uses[0][at(b)];
    return left > right || (left == right && behind(a) > behind(b));
  });
  rank_.resize(at(problem.tasks));
  for (std::size_t i = 0; i < order.size(); ++i) {
    rank_[at(order[i])] = static_cast<int>(i);
  }
  states_.push_back({});
  bits_.assign(words_, 0);
  depths_.resize(at(problem.tasks) + 2);
  depths_[0].push_back({0, 0, kFirstLoads});
}

bool StagingBranch::has(const std::uint64_t* set, int task) const {
  return (set[task / 64] >> (task % 64) & 1U) != 0;
}

void StagingBranch::open(int state) {
  state_ = state;
  done_.assign(bits(state), bits(state) + words_);
  eligible_.clear();
  load_.clear();
  left_ = problem_.capacity;
  rest_.assign(weights_.size(), 0);
  for (int i = 0; i < problem_.tasks; ++i) {
    if (has(done_.data(), i)) {
      continue;
    }
    missing_[at(i)] = 0;
    for (const int earlier : problem_.direct_earlier[at(i)]) {
      missing_[at(i)] += has(done_.data(), earlier) ? 0 : 1;
    }
    if (missing_[at(i)] == 0) {
      eligible_.push_back(i);
    }
    for (std::size_t w = 0; w < weights_.size(); ++w) {
      rest_[w] += weights_[w].of[at(i)];
    }
  }
  std::ranges::sort(eligible_, {}, [&](int task) { return rank_[at(task)]; });
  work_ += problem_.tasks * 20;
}

bool StagingBranch::fits(int task) const {
  for (int r = 0; r < problem_.dimensions; ++r) {
    if (problem_.uses[at(r)][at(task)] > left_[at(r)]) {
      return false;
    }
  }
  if (problem_.plain) {
    return true;
  }
  const auto in_load = [&](int other) { return in_load_[at(other)] != 0; };
  return std::ranges::none_of(problem_.apart[at(task)], in_load) &&
         std::ranges::none_of(problem_.earlier[at(task)], [&](int other) {
           return in_load(other) && problem_.precedes[at(other)][at(task)] == 2;
         });
}

void StagingBranch::put(int task) {
  in_load_[at(task)] = 1;
  load_.push_back(task);
  for (int r = 0; r < problem_.dimensions; ++r) {
    left_[at(r)] -= problem_.uses[at(r)][at(task)];
  }
  for (const int later : problem_.direct_later[at(task)]) {
    if (--missing_[at(later)] == 0) {
      eligible_.push_back(later);
    }
  }
}

void StagingBranch::take_back(int task, std::size_t eligible) {
  eligible_.resize(eligible);
  for (const int later : problem_.direct_later[at(task)]) {
    ++missing_[at(later)];
  }
  for (int r = 0; r < problem_.dimensions; ++r) {
    left_[at(r)] += problem_.uses[at(r)][at(task)];
  }
  load_.pop_back();
  in_load_[at(task)] = 0;
}

/// Every set of eligible tasks once, by their place in the list; what becomes eligible goes to its
/// end.
void StagingBranch::load_more(std::size_t from) {
  bool last = true;
  for (std::size_t k = from; k < eligible_.size(); ++k) {
    if (loads_left_ <= 0) {
      pruned_loads_ = true;
      return;
    }
    work_ += 5;
    const int task = eligible_[k];
    if (fits(task)) {
      last = false;
      const std::size_t eligible = eligible_.size();
      put(task);
      load_more(k + 1);
      take_back(task, eligible);
    }
  }
  if (last && !load_.empty()) {
    close_load();
  }
}

bool StagingBranch::can_take_more() const {
  return std::ranges::any_of(eligible_,
                             [&](int task) { return in_load_[at(task)] == 0 && fits(task); });
}

/// Whether `other`, which is free but not in the load, could take the place of `task` there for the
/// worse of nobody.
bool StagingBranch::replaces(int other, int task) const {
  bool equal = true;
  for (int r = 0; r < problem_.dimensions; ++r) {
    const std::int64_t more = problem_.uses[at(r)][at(other)] - problem_.uses[at(r)][at(task)];
    if (more < 0 || more > left_[at(r)]) {
      return false;
    }
    equal = equal && more == 0;
  }
  const auto& more = followers_[at(other)];
  const auto& less = followers_[at(task)];
  for (std::size_t w = 0; w < words_; ++w) {
    if ((less[w] & ~more[w]) != 0) {
      return false;
    }
    equal = equal && less[w] == more[w];
  }
  return problem_.precedes[at(task)][at(other)] == 0 && (!equal || other < task) &&
         (problem_.plain || replaces_in_all(other, task));
}

/// The same for what only some jobs have: followers that must wait for a later stage, and tasks
/// that keep apart.
bool StagingBranch::replaces_in_all(int other, int task) const {
  const auto& apart = problem_.apart[at(other)];
  return std::ranges::all_of(problem_.later[at(task)],
                             [&](int later) {
                               return problem_.precedes[at(other)][at(later)] >=
                                      problem_.precedes[at(task)][at(later)];
                             }) &&
         std::ranges::all_of(
             problem_.apart[at(task)],
             [&](int each) { return std::ranges::find(apart, each) != apart.end(); }) &&
         std::ranges::none_of(apart,
                              [&](int each) { return each != task && in_load_[at(each)] != 0; }) &&
         std::ranges::none_of(problem_.earlier[at(other)], [&](int earlier) {
           return in_load_[at(earlier)] != 0 && problem_.precedes[at(earlier)][at(other)] == 2;
         });
}

/// Jackson's rule (1956): a task with at least the same needs and followers could take the place of
/// one in the load; or none of the load has followers, and such stages may as well go last.
bool StagingBranch::is_dominated() const {
  const auto followed = [&](int task) { return !problem_.later[at(task)].empty(); };
  if (std::ranges::none_of(load_, followed) && std::ranges::any_of(eligible_, followed)) {
    return true;
  }
  return std::ranges::any_of(eligible_, [&](int other) {
    return in_load_[at(other)] == 0 &&
           std::ranges::any_of(load_, [&](int task) { return replaces(other, task); });
  });
}

/// Whether the rest could be done in the stages that are left.
bool StagingBranch::promises() const {
  const int left = goal_ - states_[at(state_)].stages - 1;
  for (std::size_t w = 0; w < weights_.size(); ++w) {
    std::int64_t rest = rest_[w];
    for (const int task : load_) {
      rest -= weights_[w].of[at(task)];
    }
    if (rest > weights_[w].limit * left) {
      return false;
    }
  }
  for (int i = 0; i < problem_.tasks; ++i) {
    if (after_[at(i)] >= left && !has(done_.data(), i) && in_load_[at(i)] == 0) {
      return false;
    }
  }
  return true;
}

void StagingBranch::close_load() {
  --loads_left_;
  work_ += static_cast<std::int64_t>(load_.size() * (weights_.size() + 10)) + 50;
  if (can_take_more()) {
    return;
  }
  if (promises() && !is_dominated()) {
    work_ += problem_.tasks + 200;
    add_state();
  }
}

void StagingBranch::add_state() {
  std::vector<std::uint64_t> set = done_;
  for (const int task : load_) {
    set_bit(set.data(), task);
  }
  const int stages = states_[at(state_)].stages + 1;
  const State next{state_, stages, states_[at(state_)].idle + left_[0]};
  auto& same = known_[hash_of(set.data(), words_)];
  int number = -1;
  for (const int known : same) {
    if (std::equal(set.begin(), set.end(), bits(known))) {
      number = known;
    }
  }
  if (number >= 0 && states_[at(number)].stages <= stages) {
    return;
  }
  if (number < 0) {
    number = static_cast<int>(states_.size());
    same.push_back(number);
    states_.push_back(next);
    bits_.insert(bits_.end(), set.begin(), set.end());
  } else {
    states_[at(number)] = next;
  }
  int undone = problem_.tasks;
  for (const std::uint64_t word : set) {
    undone -= __builtin_popcountll(word);
  }
  if (undone == 0) {
    tell(number);
    return;
  }
  auto& heap = depths_[at(stages)];
  const double worth = static_cast<double>(next.idle) / stages /
                           static_cast<double>(std::max<std::int64_t>(1, problem_.capacity[0])) -
                       0.02 * (problem_.tasks - undone) / stages;
  heap.push_back({worth, number, kFirstLoads});
  std::ranges::push_heap(heap, std::ranges::greater{}, &Waiting::worth);
}

/// A state may have been reached sooner since its followers were made: the path says how many
/// stages it really is.
void StagingBranch::tell(int state) {
  std::vector<int> path;
  for (; state > 0; state = states_[at(state)].parent) {
    path.push_back(state);
  }
  std::vector<int> stage_of(at(problem_.tasks), -1);
  for (std::size_t k = 0; k < path.size(); ++k) {
    for (int i = 0; i < problem_.tasks; ++i) {
      if (has(bits(path[k]), i)) {
        stage_of[at(i)] = static_cast<int>(path.size() - k) - 1;
      }
    }
  }
  goal_ = std::min(goal_, static_cast<int>(path.size()) - 1);
  found_(stage_of);
}

void StagingBranch::expand(const Waiting& waiting) {
  open(waiting.state);
  loads_left_ = waiting.loads;
  pruned_loads_ = false;
  load_more(0);
  if (pruned_loads_) {
    cut_short_.push_back({waiting.worth, waiting.state, waiting.loads * 20});
  }
}

bool StagingBranch::run(int stages,
                        std::int64_t work,
                        const std::function<bool()>& stop,
                        const std::function<void(const std::vector<int>&)>& found) {
  goal_ = stages - 1;
  found_ = found;
  const std::int64_t last = work_ + work;
  while (true) {
    bool any = false;
    for (int depth = 0; depth < goal_; ++depth) {
      auto& heap = depths_[at(depth)];
      if (heap.empty()) {
        continue;
      }
      if (work_ >= last || states_.size() >= most_states_ || stop()) {
        return false;
      }
      any = true;
      std::ranges::pop_heap(heap, std::ranges::greater{}, &Waiting::worth);
      const Waiting waiting = heap.back();
      heap.pop_back();
      if (states_[at(waiting.state)].stages == depth) {  // not reached sooner since
        expand(waiting);
      }
    }
    if (!any && cut_short_.empty()) {
      return true;
    }
    if (!any) {
      for (const Waiting& waiting : cut_short_) {
        auto& heap = depths_[at(states_[at(waiting.state)].stages)];
        heap.push_back(waiting);
        std::ranges::push_heap(heap, std::ranges::greater{}, &Waiting::worth);
      }
      cut_short_.clear();
    }
  }
}

}  // namespace plankwright::solve
