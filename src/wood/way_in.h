#pragma once
// Whether a piece or a package of it can be carried in: doors, corridor corners, stairs, ceilings.
// Packages are boxes carried level; what is cunning (tilting, turning on end half-way) is left to
// the carriers as a reserve.

#include "measure/box.h"
#include "measure/length.h"
#include "measure/quantity.h"

namespace plankwright::wood {

/// The longest box of one width that goes round a right-angled corner, lying in plan.
struct CornerLimit {
  measure::Length longest;  // zero when the width alone is too much
  /// Where it is tightest: the angle between the long side and the walls of the first corridor.
  measure::Degrees tightest;
  /// True when the box gets further by sliding sideways into the wider corridor than by turning.
  bool slides = false;
};

/// From a corridor `a` wide round a right-angled corner into one `b` wide with a box `w` wide: the
/// least over all angles of a/cos + b/sin - 2w/sin(2 angle), or, when that is longer, the wider
/// corridor's own width, into which the box is pushed sideways. For a = b the first is
/// 2 sqrt2 a - 2w. Source: plane geometry.
CornerLimit longest_round_corner(measure::Length a, measure::Length b, measure::Length w);

/// The best way to carry a box through a narrow place.
struct Carry {
  measure::Axis upright = measure::Axis::kZ;  // which of its sides points up
  measure::Length to_spare;                   // negative: it does not go through, by so much
};

/// A box of `size` round a right-angled corner; `height` is the clear height, zero when it does not
/// bind. All six ways to hold the box are tried; the one with most to spare is given.
Carry best_round_corner(const measure::Point& size,
                        measure::Length a,
                        measure::Length b,
                        measure::Length height);

/// A box of `size` straight through a door or lift opening; `height` as above.
Carry best_through_door(const measure::Point& size, measure::Length width, measure::Length height);

/// The ceiling that a box needs to be stood up from lying on its back: the diagonal of its side.
measure::Length standing_up_height(measure::Length height, measure::Length depth);

/// Clear height square to the pitch of a stair, of a `headroom` measured plumb above the line of
/// the nosings: a package carried along the stair must be thinner. Landings are corners (above)
/// whose corridors are the stair and the landing or the next flight. Source: plane geometry.
measure::Length clearance_over_pitch(measure::Length headroom,
                                     measure::Length rise,
                                     measure::Length going);

}  // namespace plankwright::wood
