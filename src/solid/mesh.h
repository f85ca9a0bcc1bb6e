#pragma once
// The surface of a body as triangles, for pictures that turn.

#include <cstdint>
#include <vector>

#include "base/result.h"
#include "measure/length.h"
#include "solid/body.h"

namespace plankwright::solid {

/// Triangles over corners. Each face has corners of its own, so that its light is its own too.
/// Millimetres; three numbers a corner; corners of a triangle run anticlockwise seen from outside.
struct Mesh {
  std::vector<float> places;
  std::vector<float> normals;  // of length 1
  std::vector<std::uint32_t> triangles;
};

/// The surface of `body`. Boxes are exact; curves are within `chord` of the true surface. Errors as
/// Solid::make.
base::Result<Mesh> mesh_of(const Body& body, measure::Length chord);

}  // namespace plankwright::solid
