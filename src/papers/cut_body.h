#pragma once
// A part as it lies on the bench before it is put together: with its tenons, tongues and tails,
// mortises, housings, grooves and dowel holes.

#include <vector>

#include "piece/piece.h"
#include "solid/body.h"

namespace plankwright::papers {

/// What every part of the piece looks like with its joints cut, one body a part. Dowels themselves
/// are left out, and so are screws and biscuits: they change nothing that is seen of a part.
std::vector<solid::Body> cut_bodies(const piece::Piece& piece);

}  // namespace plankwright::papers
