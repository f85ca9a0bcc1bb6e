#pragma once
// Where the members of a joint lie along it: tails and pins of a corner, dowels and screws in a
// row. What is marked out, what the machines are set to and what is drawn all follow this.

#include <vector>

#include "measure/length.h"
#include "piece/piece.h"

namespace plankwright::piece {

/// One tail of a dovetailed corner: distances from the reference edge. It is wide at its end and
/// narrow where it leaves its board.
struct Tail {
  Length from, to;            // at the end of the tail
  Length base_from, base_to;  // at the shoulder
  friend bool operator==(const Tail&, const Tail&) = default;
};

/// The tails of a corner `height` wide whose tails are `depth` long: at their ends tails are three
/// times as wide as the pins between them, with half a pin at each edge and never less than 6 mm of
/// it (common practice, no source). They lean in 1 to 8, the slope for hardwood (JN9). Together
/// with the pins they make up the height to the nanometre. Empty when so many do not fit.
std::vector<Tail> dovetail_tails(Length height, int count, Length depth);

/// Middles of `count` dowels, biscuits or screws in a row over `length`, measured from its
/// reference end: the outer ones half a step from the ends and no more than 40 mm, the others
/// spread evenly (common practice, no source). Empty for no count.
std::vector<Length> fixings_in_row(Length length, int count);

/// How thick the dowels of a joint are: as the joint says, or a third of the thinner part (JN8).
Length dowel_thickness(const Joint& joint);

/// How deep a dowel's hole is in the part the joint goes onto (`b`), and in the other: as the joint
/// says, or three times its thickness (JN8), leaving a fifth of a part that is too thin for that.
struct DowelDepths {
  Length in_a, in_b;
};
DowelDepths dowel_depths(const Piece& piece, const Joint& joint);

}  // namespace plankwright::piece
