#pragma once
// A second opinion on a sheet layout, from the order and the layout alone.

#include <cstdint>
#include <string>
#include <vector>

#include "solve/sheets.h"

namespace plankwright::solve {

enum class SheetFaultKind : std::uint8_t {
  kMissingPart,    // fewer or more copies than ordered
  kWrongSize,      // a part's rectangle is not the part
  kWrongTurn,      // turned although the grain forbids it
  kNotGuillotine,  // children do not fill their rectangle from edge to edge
  kKerf,           // two neighbours without a kerf between them
  kTrim,           // the tree does not start at the trimmed sheet
  kGroup,          // a run broken, out of order, or missing
  kStages,         // the saw changes direction too often
  kFirstCut,       // the first cut goes the wrong way
  kStock,          // more sheets than there are, or a kind that does not exist
  kOffcut,         // called an offcut but too small to keep, or the other way about
  kCost,           // the money does not add up
  kBound           // the bound lies above the cost, or proven is claimed wrongly
};

struct SheetFault {
  SheetFaultKind kind = SheetFaultKind::kMissingPart;
  std::string message;
};

/// Everything wrong with an answer, in the order found; empty when it is sound. Shares no code with
/// the solver.
std::vector<SheetFault> check_sheets(const SheetJob& job, const SheetAnswer& answer);

}  // namespace plankwright::solve
