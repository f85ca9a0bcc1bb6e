#pragma once
// One board as a tree of cuts whose rectangles stay where they are, because faults do not move.

#include <cstdint>
#include <optional>
#include <vector>

#include "solve/board_problem.h"

namespace plankwright::solve {

/// A place for a block in a waste rectangle of the tree, and what sawing it out spoils: the sum of
/// squared waste areas it breaks up (few large rests are worth more than many small ones).
struct BoardSpot {
  int leaf = -1;
  BoardArea at;
  int way = 0;
  bool crosscut_first = true;
  double spoiled = 0;
};

/// Copyable. Every rectangle is cut edge to edge; the saw changes direction at most twice, and once
/// more to free a single part.
class BoardTree {
 public:
  struct Node {
    BoardArea at;
    BoardRole role = BoardRole::kWaste;
    Axis along = Axis::kX;
    int level = 0;  // of a cut: how often the saw has changed direction, the first being 1
    int parent = -1;
    int first = -1;
    int next = -1;
    int block = -1;
    int way = 0;
  };

  BoardTree(const BoardProblem& problem, int board);

  /// The spot for `block`, of a panel strip `width` wide, that spoils least. `work` grows by what
  /// the search took.
  std::optional<BoardSpot> find(const Block& block, std::int64_t width, std::int64_t& work) const;
  void put(const BoardSpot& spot, int block);
  void remove(int node);

  int board() const { return board_; }
  int held() const { return held_; }
  std::int64_t held_area() const { return held_area_; }
  const std::vector<Node>& nodes() const { return nodes_; }
  /// Nodes that hold a block.
  std::vector<int> placed() const;
  /// Widths at which strips from narrowest to `widest` end at a fault of a waste rectangle.
  std::vector<std::int64_t> strip_widths(const Block& block, std::int64_t widest) const;

 private:
  bool stages_allow(int leaf, bool cut_x, bool cut_y, bool crosscut_first) const;
  void try_spot(int leaf, const BoardArea& at, int way, std::optional<BoardSpot>& best) const;
  void look_in(int leaf,
               const Block& block,
               std::int64_t width,
               std::int64_t& work,
               std::optional<BoardSpot>& best) const;
  void look_along(int leaf,
                  const BoardArea& band,
                  std::int64_t length,
                  int way,
                  std::optional<BoardSpot>& best) const;
  void look_for_run(int leaf, const Block& block, int way, std::optional<BoardSpot>& best) const;
  int part_off(int node, Axis axis, std::int64_t from, std::int64_t to);
  int level_of_cut(int node, Axis axis) const;
  void rebuild(int node);
  int fresh();
  void release(int node);

  const BoardProblem* problem_;
  int board_;
  int held_ = 0;
  std::int64_t held_area_ = 0;
  std::vector<Node> nodes_;
  std::vector<int> free_;
};

}  // namespace plankwright::solve
