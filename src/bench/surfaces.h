#pragma once
// The wood that is sanded and finished, by what can be reached when.

#include <vector>

#include "measure/quantity.h"
#include "piece/piece.h"

namespace plankwright::bench {

/// Finished faces of one part, in the reach of sandpaper before and after its assembly is glued.
struct Surface {
  measure::SquareMillimetres inside;   // does not show; hard to reach once glued
  measure::SquareMillimetres outside;  // shows
};

/// By part. The areas are those that get every coat (piece/surface.h), so that sanding, coats and
/// litres agree.
std::vector<Surface> surfaces_of(const piece::Piece& piece);

}  // namespace plankwright::bench
