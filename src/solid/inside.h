#pragma once
// For this room only: what stands behind a Solid. The one header that names the geometry library.

#include <TopoDS_Shape.hxx>
#include <gp_Dir.hxx>
#include <gp_Pnt.hxx>

#include "solid/body.h"
#include "solid/solid.h"
#include "solid/vector.h"

namespace plankwright::solid {

struct Solid::Inside {
  TopoDS_Shape shape;
};

inline gp_Pnt to_point(Vector v) {
  return {v.x, v.y, v.z};
}
inline Vector to_vector(const gp_XYZ& p) {
  return {p.X(), p.Y(), p.Z()};
}

/// One box or extrusion as a solid of its own. Errors as Solid::make, without the lump's number.
base::Result<TopoDS_Shape> make_lump(const Lump& lump);

}  // namespace plankwright::solid
