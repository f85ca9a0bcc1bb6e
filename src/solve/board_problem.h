#pragma once
// A board job as the search sees it: blocks to be put on boards, and where each board is clear.

#include <cstdint>
#include <optional>
#include <vector>

#include "solve/boards.h"

namespace plankwright::solve {

/// A rectangle on a board.
struct BoardArea {
  std::int64_t x = 0;
  std::int64_t y = 0;
  std::int64_t length = 0;
  std::int64_t width = 0;

  std::int64_t end_x() const { return x + length; }
  std::int64_t end_y() const { return y + width; }
  bool overlaps(const BoardArea& other) const {
    return x < other.end_x() && other.x < end_x() && y < other.end_y() && other.y < end_y();
  }
};

/// A part inside a block, placed from the block's corner.
struct BlockPart {
  BoardArea at;
  Quality quality = Quality::kClearOneFace;
  int part = -1;
};

/// What is put on a board in one piece: a part, a run of parts, or a strip of one copy of a panel
/// (whose width is chosen when it is put down). `demand` is 1 for a panel copy. `worth` is the
/// value of one copy, of the whole panel for panels.
struct Block {
  std::int64_t length = 0;
  std::int64_t width = 0;  // of panels: the widest strip
  std::vector<BlockPart> parts;
  int part = -1;
  int run = -1;
  int panel = -1;
  std::int64_t copy = 0;
  Quality quality = Quality::kClearOneFace;  // the strictest of its parts
  std::int64_t demand = 1;
  std::int64_t worth = 0;
  int lot_group = -1;

  bool is_panel() const { return panel >= 0; }
  std::int64_t area() const { return length * width; }
};

/// A board less its trims, with the faults that matter for each way a part may lie: sound on both
/// faces, the upper face clear, the lower one clear, both clear.
struct BoardShape {
  BoardArea usable;
  std::vector<BoardArea> faults[4];

  bool clear(const BoardArea& area, int way) const;
};

/// The ways to look for a part of this quality, indices into BoardShape::faults.
struct Ways {
  int first = 0;
  int last = 0;
};
Ways ways_of(Quality quality);
BoardFace face_of(int way);

struct BoardProblem {
  const BoardJob* job = nullptr;
  std::vector<BoardShape> shapes;  // of each board of the job
  std::vector<Block> blocks;

  /// Whether `block` may lie with its corner at x, y, seen that way; every part of it clear.
  bool clear(int board, const Block& block, std::int64_t x, std::int64_t y, int way) const;
};

/// Whether strips of a panel can add up to `rest` more of net width.
bool strips_reach(const BoardPanel& panel, std::int64_t rest);

BoardProblem make_board_problem(const BoardJob& job);

}  // namespace plankwright::solve
