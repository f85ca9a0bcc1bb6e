#pragma once
// What is sanded and finished.

#include <vector>

#include "measure/quantity.h"
#include "piece/piece.h"

namespace plankwright::piece {

/// Area of each part, by its index, that is sanded and gets every coat. Left out: what another part
/// covers; what stands on the floor or, of a built-in, against the building; the rear of what
/// closes the piece behind; faces inside an opening that drawers fill, the fronts and rails that
/// show there apart; drawer boxes (they are sealed by themselves), the ladder of a plinth and
/// bought-in parts.
std::vector<measure::SquareMillimetres> finished_areas(const Piece& piece);

}  // namespace plankwright::piece
