#pragma once
// A second opinion on a board layout, from the order and the layout alone.

#include <cstdint>
#include <string>
#include <vector>

#include "solve/boards.h"

namespace plankwright::solve {

enum class BoardFaultKind : std::uint8_t {
  kMissingPart,    // fewer or more copies than ordered, or than were said to be left out
  kWrongSize,      // a part's rectangle is not the part, or not upright to the grain
  kNotGuillotine,  // children do not fill their rectangle from edge to edge
  kKerf,           // two neighbours without a kerf between them
  kTrim,           // the tree does not start at the board less its trims
  kDefect,         // a fault where the part must be clear or sound
  kRun,            // a run broken, out of order, on two faces, or missing
  kPanel,          // strips too narrow, too wide, or not adding up to the panel
  kLot,            // parts of one lot group from different lots
  kStages,         // the saw changes direction too often, or starts the wrong way
  kStock,          // a board that does not exist, or more often than it is there
  kCost,           // the money or the value does not add up
  kBound           // the bound lies on the wrong side, or proven is claimed wrongly
};

struct BoardFault {
  BoardFaultKind kind = BoardFaultKind::kMissingPart;
  std::string message;
};

/// Everything wrong with an answer, in the order found; empty when it is sound. Shares no code with
/// the solver.
std::vector<BoardFault> check_boards(const BoardJob& job, const BoardAnswer& answer);

}  // namespace plankwright::solve
