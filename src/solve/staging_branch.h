#pragma once
// Branch, bound and remember for stages: filled one after the other, the most promising state of
// every depth in turn, and no set of done tasks looked at twice (Sewell & Jacobson, INFORMS J.
// Comput. 24, 2012).

#include <cstdint>
#include <functional>
#include <unordered_map>
#include <vector>

#include "solve/staging_bound.h"
#include "solve/staging_problem.h"

namespace plankwright::solve {

class StagingBranch {
 public:
  StagingBranch(const StagingProblem& problem,
                const std::vector<StageWeight>& weights,
                const std::vector<int>& after,
                std::int64_t most_states);

  /// Looks for fewer stages than `stages` until `work` more is used up, `stop` says so or the
  /// memory is full. Calls `found` with every better plan. True when it has looked at everything.
  bool run(int stages,
           std::int64_t work,
           const std::function<bool()>& stop,
           const std::function<void(const std::vector<int>&)>& found);
  std::int64_t work() const { return work_; }

 private:
  struct State {
    int parent = -1;
    int stages = 0;
    std::int64_t idle = 0;
  };
  struct Waiting {
    double worth = 0;  // less is better
    int state = 0;
    std::int64_t loads = 0;  // how many to try
  };

  std::uint64_t* bits(int state) { return &bits_[static_cast<std::size_t>(state) * words_]; }
  bool has(const std::uint64_t* set, int task) const;
  void open(int state);
  void expand(const Waiting& waiting);
  void load_more(std::size_t from);
  bool fits(int task) const;
  void put(int task);
  void take_back(int task, std::size_t eligible);
  void close_load();
  bool can_take_more() const;
  bool replaces(int other, int task) const;
  bool replaces_in_all(int other, int task) const;
  bool is_dominated() const;
  bool promises() const;
  void add_state();
  void tell(int state);

  const StagingProblem& problem_;
  const std::vector<StageWeight>& weights_;
  const std::vector<int>& after_;
  std::size_t words_;
  std::size_t most_states_;
  std::vector<std::vector<std::uint64_t>> followers_;  // as sets
  std::vector<int> rank_;                              // order in which tasks are tried

  std::vector<State> states_;
  std::vector<std::uint64_t> bits_;
  std::unordered_map<std::uint64_t, std::vector<int>> known_;
  std::vector<std::vector<Waiting>> depths_;  // heaps
  std::vector<Waiting> cut_short_;

  // The state being expanded.
  int state_ = 0;
  std::vector<std::uint64_t> done_;
  std::vector<int> missing_;  // undone predecessors of each task
  std::vector<int> eligible_;
  std::vector<std::uint8_t> in_load_;
  std::vector<int> load_;
  std::vector<std::int64_t> left_;  // of each dimension
  std::vector<std::int64_t> rest_;  // weight of what is undone
  std::int64_t loads_left_ = 0;
  bool pruned_loads_ = false;

  int goal_ = 0;  // stages wanted
  std::function<void(const std::vector<int>&)> found_;
  std::int64_t work_ = 0;
};

}  // namespace plankwright::solve
