#pragma once
// What a solid is made of, as plain values: boxes and extruded outlines, less what is cut away.

#include <optional>
#include <variant>
#include <vector>

#include "measure/box.h"
#include "measure/length.h"

namespace plankwright::solid {

/// A place in the plane of an outline. Looking along x, `u` and `v` are y and z; along y they are x
/// and z; along z they are x and y.
struct OutlinePoint {
  measure::Length u, v;
  friend bool operator==(OutlinePoint, OutlinePoint) = default;
};

/// One edge of an outline, from where the edge before it ends: a straight line to `to`, or the arc
/// of the circle through `through`.
struct OutlineEdge {
  OutlinePoint to;
  std::optional<OutlinePoint> through = std::nullopt;
  friend bool operator==(const OutlineEdge&, const OutlineEdge&) = default;
};

/// A closed outline; the first edge begins where the last one ends. It must not cross itself and
/// may run either way round.
struct Outline {
  std::vector<OutlineEdge> edges;
  friend bool operator==(const Outline&, const Outline&) = default;
};

/// Straight lines from corner to corner and back to the first.
Outline polygon(const std::vector<OutlinePoint>& corners);

/// A full circle, such as a dowel hole.
Outline circle(OutlinePoint centre, measure::Length radius);

/// A slot with round ends, as a cutter leaves it. `low` and `high` are the corners of the rectangle
/// around it; the ends are round along the longer side.
Outline slot(OutlinePoint low, OutlinePoint high);

/// An outline drawn out along `along`, from `from` over `length`.
struct Extrusion {
  Outline outline;
  measure::Axis along = measure::Axis::kZ;
  measure::Length from;
  measure::Length length;
  friend bool operator==(const Extrusion&, const Extrusion&) = default;
};

using Lump = std::variant<measure::Box, Extrusion>;

/// The wood of one part: all `wood` together, less all `cuts`. A tapered leg is one extrusion less
/// its mortises; a tenoned rail is a box and two smaller boxes.
struct Body {
  std::vector<Lump> wood;
  std::vector<Lump> cuts = {};
  friend bool operator==(const Body&, const Body&) = default;
};

}  // namespace plankwright::solid
