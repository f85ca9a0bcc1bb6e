#pragma once
// Flat faces in space, put in the order in which a painter lays them down.

#include <vector>

#include "solid/camera.h"
#include "solid/vector.h"

namespace plankwright::solid {

/// A flat face; the inside is where an odd number of loops goes round. `normal` is unit and points
/// out of the wood. `tag` is the caller's own.
struct FlatFace {
  std::size_t tag = 0;
  Vector normal;
  std::vector<std::vector<Vector>> loops;
};

/// The faces turned to the eye, farthest first. A face that is partly in front of and partly behind
/// the plane of another may come out in two pieces. Faces of different solids must not cross.
std::vector<FlatFace> painter_order(std::vector<FlatFace> faces, const Camera& camera);

}  // namespace plankwright::solid
