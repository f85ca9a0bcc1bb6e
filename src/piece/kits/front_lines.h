#pragma once
// Where doors and drawer fronts may reach: up to the sides of their opening (inset), or over what
// bounds it (overlay).

#include <optional>

#include "piece/kit.h"

namespace plankwright::piece {

/// How much of the part beside an opening an overlay front may cover.
enum class Covers {
  kHalf,  // half of it, so that the neighbour can cover the other half
  kWhole  // all of it where nothing more stands beside it, half of it where it is shared
};

/// The line along `side` of the opening that an overlay front may reach, before its reveal is taken
/// off: over `overlay` when that is written, else as `covers` says. The side of the opening itself
/// where nothing bounds it.
Length overlay_line(const KitCall& call,
                    Direction side,
                    Covers covers,
                    std::optional<Length> overlay);

/// The part that bounds the opening at `side` (left, right, below or above), or Space::kNone.
PartIndex bounding(const Space& space, Direction side);

/// True when nothing of its own unit stands beyond the part in the direction `side`, parallel to
/// it: the outer side of a case, not a divider.
bool is_outermost(const Piece& piece, PartIndex part, Direction side);

}  // namespace plankwright::piece
