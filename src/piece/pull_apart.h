#pragma once
// How a piece is drawn pulled apart, so that one sees what goes into what.

#include <vector>

#include "piece/piece.h"

namespace plankwright::piece {

/// How far a part is drawn out, in steps of the picture's own choosing along each axis.
struct PulledOut {
  double x = 0;
  double y = 0;
  double z = 0;
  friend bool operator==(const PulledOut&, const PulledOut&) = default;
};

/// One a part. Across every joint the two parts stand one step from each other, against the way the
/// joint closes, as nearly as all joints together allow: a shelf between two sides stays and the
/// sides go out; a drawer comes out to the front. The whole stays where it was.
std::vector<PulledOut> pull_apart(const Piece& piece);

}  // namespace plankwright::piece
