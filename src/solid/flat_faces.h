#pragma once
// For this room only: the surface of a solid as flat faces.

#include <vector>

#include "solid/painter_order.h"
#include "solid/solid.h"

namespace plankwright::solid {

/// The surface of `solid`. Flat faces stay whole; curved ones become triangles within 0.5 mm.
std::vector<FlatFace> flat_faces(const Solid& solid, std::size_t tag);

}  // namespace plankwright::solid
