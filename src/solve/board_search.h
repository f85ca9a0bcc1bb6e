#pragma once
// Ruin and recreate: take a few parts off one or two boards, put them back better.

#include <cstdint>
#include <functional>
#include <stop_token>
#include <vector>

#include "solve/board_tree.h"
#include "solve/random.h"

namespace plankwright::solve {

/// Boards being filled. `left` counts the copies of each block that lie nowhere yet; for a panel
/// copy it is the net width that is still missing.
struct BoardState {
  std::vector<BoardTree> trees;
  std::vector<std::int64_t> left;
  std::vector<int> lot_of_group;
  std::vector<std::int64_t> held_of_group;
};

class BoardSearch {
 public:
  BoardSearch(const BoardProblem& problem, std::uint64_t seed);

  /// Quick layouts by several rules; the first is told at once. True when one holds everything.
  bool start(const std::stop_token& stop);
  /// Goes on for `work` units, or until a layout is as good as `bound`, or somebody asks to stop.
  void run(std::int64_t work, std::int64_t bound, const std::stop_token& stop);

  const BoardState& best() const { return best_; }
  bool has_best() const { return has_best_; }
  std::int64_t best_cost() const { return best_cost_; }
  std::int64_t best_value() const { return best_value_; }
  std::int64_t work() const { return work_; }
  std::int64_t first_work() const { return first_work_; }

  std::function<void(std::int64_t cost, std::int64_t value)> progress;

 private:
  enum class Opening { kCheapArea, kCheap, kLarge, kAny };
  struct Saved {
    int tree;
    BoardTree copy;
  };
  struct Undo {
    std::vector<Saved> trees;
    std::vector<std::int64_t> left;
    std::vector<int> lot_of_group;
    std::vector<std::int64_t> held_of_group;
  };

  void clear();
  bool least_money() const { return problem_->job->goal == BoardGoal::kLeastMoney; }
  bool lot_allows(const Block& block, int board) const;
  void take(int tree, const BoardSpot& spot, int block);
  void give_back(int tree, int node);
  void save(int tree);
  void undo();
  std::vector<int> order_of_blocks(int rule);
  std::vector<int> trees_to_try() const;
  void place(int block, std::vector<int>& tries, Opening opening, const std::stop_token& stop);
  bool place_part(int block, const std::vector<int>& tries);
  bool place_strip(int block, const std::vector<int>& tries);
  bool open(int block, std::vector<int>& tries, Opening opening);
  bool fits_empty(int block, int board);
  int used_of(int board) const;
  void recreate(int rule, std::vector<int> tries, Opening opening, const std::stop_token& stop);
  std::vector<int> ruin();
  void ruin_tree(int tree, int most);
  double objective() const;
  void keep_if_best();
  std::int64_t strip_width(const Block& block, std::int64_t rest, std::int64_t wanted) const;

  const BoardProblem* problem_;
  Random random_;
  BoardState state_;
  Undo undo_;
  std::vector<double> penalty_;                 // of a copy that lies nowhere
  std::vector<std::vector<signed char>> fits_;  // block, board: -1 not asked yet
  std::vector<double> late_;
  BoardState best_;
  bool has_best_ = false;
  bool skipping_ = false;
  std::int64_t best_cost_ = 0;
  std::int64_t best_value_ = 0;
  std::int64_t work_ = 0;
  std::int64_t first_work_ = 0;
};

}  // namespace plankwright::solve
