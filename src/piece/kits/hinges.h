#pragma once
// Hinges on a leaf and on what it hangs on.

#include "piece/kit.h"
#include "piece/kits/door_leaf.h"

namespace plankwright::piece {

/// Fits `count` hinges of the field `hinge` on the hinge side of the leaf: the joint, the fittings,
/// and what is cut for them. Butt hinges are let into the edge of the leaf and the face beside it;
/// cup hinges are bored into the back of the leaf and their plates screwed to the face beside it.
/// Complains when nothing stands there, when the leaf is too thin or its stile too narrow for the
/// cup, and when the hinges do not fit one above the other.
void fit_hinges(const KitCall& call, const Leaf& leaf, PartIndex hinge_part, int count);

}  // namespace plankwright::piece
