#pragma once
// What a board can hold at most, reckoned along lines drawn across it.

#include <cstdint>
#include <vector>

#include "solve/board_problem.h"

namespace plankwright::solve {

/// A rectangle of a block as the lines see it: a part with its share of the block's price, or a
/// panel strip, whose price goes with its width. Sizes are along and across the lines' own axis.
struct LineItem {
  int block = 0;
  std::int64_t along = 0;      // how far a line is met: length for lines across the board
  std::int64_t across = 0;     // what it takes of a line, without the kerf
  double share = 1;            // of the block's price
  bool any_width = false;      // a strip seen by lines across the board: priced by the unit
  double worth_of_width = 1;   // of a strip: what its joints leave, at best
  std::int64_t panel_net = 0;  // of a strip
  Quality quality = Quality::kClearOneFace;
};

/// Lines across one board, all alike in bands between the faults. On each line parts lie with a
/// kerf between neighbours, each in a clear rectangle of its own size that the line crosses.
/// Spreading a block's price evenly over the lines that cross it, no layout of any kind is worth
/// more than the sum over all lines of the best set of parts on each.
class BoardLines {
 public:
  /// `axis`: kX counts lines across the board along its length, kY lines along the grain.
  BoardLines(const BoardProblem& problem, int board, Axis axis);

  /// What the board holds at most at these whole prices of the blocks. Adds how often each block is
  /// used at best to `uses`, if asked.
  std::int64_t most(const std::vector<std::int64_t>& prices, std::vector<double>* uses) const;
  /// About the work of one call, in nanoseconds.
  std::int64_t work() const { return work_; }

 private:
  struct Band {
    std::int64_t lines = 0;
    std::vector<std::uint64_t> feasible;  // words_ for each cell: which items may start there
  };

  void add_items(const BoardProblem& problem);
  void mark_feasible(const BoardProblem& problem,
                     const std::vector<std::int64_t>& edges,
                     std::size_t item);
  std::int64_t best_on_line(const Band& band,
                            const std::vector<std::int64_t>& worth,
                            std::vector<int>* chosen) const;

  Axis axis_;
  int board_;
  std::int64_t kerf_ = 0;
  std::int64_t from_ = 0;   // of the usable board, along the lines
  std::int64_t range_ = 0;  // its extent there, with one kerf more
  std::int64_t cell_ = 1;   // positions on a line are counted in cells of so many units
  std::size_t cells_ = 0;
  std::size_t words_ = 0;
  std::vector<LineItem> items_;
  std::vector<std::size_t> steps_;  // of each item, in cells
  std::vector<Band> bands_;
  std::int64_t work_ = 0;
};

}  // namespace plankwright::solve
