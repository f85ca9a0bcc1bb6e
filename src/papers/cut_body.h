#pragma once
// A part as it lies on the bench before it is put together: with its tenons and tongues, mortises,
// housings and grooves.

#include <vector>

#include "piece/piece.h"
#include "solid/body.h"

namespace plankwright::papers {

/// What every part of the piece looks like with its joints cut, one body a part. Joints that are
/// round or go through the surface (dowels, screws, biscuits, dovetails between their shoulders)
/// are left as the plain body: they cannot be told from it at the size of a picture.
std::vector<solid::Body> cut_bodies(const piece::Piece& piece);

}  // namespace plankwright::papers
