#pragma once
// Small orders by trying every way of sawing.

#include <cstdint>
#include <map>
#include <optional>
#include <stop_token>
#include <tuple>
#include <vector>

#include "solve/board_problem.h"

namespace plankwright::solve {

/// The best of all layouts, or that there is none that holds everything.
struct ExactBoards {
  bool possible = false;
  std::int64_t cost = 0;
  std::int64_t value = 0;
  std::vector<BoardLayout> layouts;
  std::uint32_t held = 0;  // bit for each copy, in the order of the blocks
};

/// Tries every cut that can matter: parts pushed to the low end rest on a cut, on a fault or on the
/// board's edge, so that only sums of their sizes from there need be sawn. Small orders without
/// panels and lots only.
class BoardExact {
 public:
  explicit BoardExact(const BoardProblem& problem);

  static bool is_small(const BoardProblem& problem);
  /// Nothing when `work` did not suffice or somebody asked to stop.
  std::optional<ExactBoards> solve(std::int64_t work, const std::stop_token& stop);
  std::int64_t work() const { return work_; }

 private:
  using Set = std::uint32_t;
  /// How a rectangle is parted: the part from `from` to `to` takes `first`, the rest lies behind.
  struct Cut {
    bool possible = false;
    Set first = 0;
    BoardArea at;  // of the first child; of a single part its own place
    int way = 0;
  };
  using Key = std::tuple<std::int64_t, std::int64_t, std::int64_t, std::int64_t, Set, int>;
  struct Shelf {
    Set held = 0;
    std::vector<std::pair<int, Set>> boards;
    std::int64_t cost = -1;  // not reached
  };

  const Block& block(int copy) const;
  bool holds(int board, Set set);
  const Cut& cut(const BoardArea& rest, Set set, Axis axis, int level);
  Cut find_cut(const BoardArea& rest, Set set, Axis axis, int level);
  Cut find_single(const BoardArea& rest, Set set, Axis axis, int level) const;
  std::vector<std::int64_t> starts(const BoardArea& rest, Set set, Axis axis) const;
  std::vector<std::int64_t> ends(const BoardArea& rest,
                                 Set set,
                                 Axis axis,
                                 std::int64_t from) const;
  BoardNode root(int board, Set set);
  BoardNode cell(const BoardArea& rest, Set set, Axis axis, int level);
  void add_children(const BoardArea& rest, Set set, Axis axis, int level, BoardNode& into);
  std::vector<Shelf> fill_boards(const std::stop_token& stop);

  const BoardProblem* problem_;
  std::vector<int> copies_;  // block of each
  int board_ = 0;            // the one `known_` is about
  std::map<Key, Cut> known_;
  std::vector<std::vector<signed char>> holds_;
  std::int64_t work_ = 0;
  std::int64_t most_work_ = 0;
};

/// The node of a block that lies at `at`, with the cuts inside a run.
BoardNode block_node(const BoardProblem& problem, int block, const BoardArea& at, int way);

}  // namespace plankwright::solve
