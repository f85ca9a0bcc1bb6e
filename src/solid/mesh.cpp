// Bodies of boxes, which most parts are, are meshed without the geometry library: the planes of
// their faces divide space into cells of wood or air (box_body.cpp), and a face lies wherever the
// two meet. Cells side by side in one plane become one rectangle.
#include "solid/mesh.h"

#include <algorithm>
#include <array>
#include <cmath>
#include <utility>

#include <BRepMesh_IncrementalMesh.hxx>
#include <BRep_Tool.hxx>
#include <Poly_Triangulation.hxx>
#include <Standard_Failure.hxx>
#include <TopExp_Explorer.hxx>
#include <TopLoc_Location.hxx>
#include <TopoDS.hxx>
#include <TopoDS_Face.hxx>
#include <fmt/format.h>
#include <gp_Trsf.hxx>

#include "solid/box_body.h"
#include "solid/inside.h"
#include "solid/solid.h"

namespace plankwright::solid {
namespace {

using measure::Axis;
using measure::Box;
using measure::Length;
using measure::Point;

constexpr double kTurn = 0.35;  // radians between neighbouring facets of a curve, at most

void add_corner(Mesh& mesh, Vector at, Vector normal) {
  for (const double v : {at.x, at.y, at.z}) {
    mesh.places.push_back(static_cast<float>(v));
  }
  for (const double v : {normal.x, normal.y, normal.z}) {
    mesh.normals.push_back(static_cast<float>(v));
  }
}

std::uint32_t corners_of(const Mesh& mesh) {
  return static_cast<std::uint32_t>(mesh.places.size() / 3);
}

/// Along one axis: where the faces of the boxes stand, each place once.
std::vector<Length> planes(const Body& body, Axis axis) {
  std::vector<Length> places;
  for (const auto* lumps : {&body.wood, &body.cuts}) {
    for (const Lump& lump : *lumps) {
      const Box& box = std::get<Box>(lump);
      places.push_back(box.begin(axis));
      places.push_back(box.end(axis));
    }
  }
  std::ranges::sort(places);
  const auto repeated = std::ranges::unique(places);
  places.erase(repeated.begin(), repeated.end());
  return places;
}

/// Which cells are wood.
class Cells {
 public:
  explicit Cells(const Body& body) {
    for (const Axis axis : {Axis::kX, Axis::kY, Axis::kZ}) {
      planes_[static_cast<std::size_t>(axis)] = planes(body, axis);
    }
    wood_.assign(count(0) * count(1) * count(2), false);
    for (const Lump& lump : body.wood) {
      fill(std::get<Box>(lump), true);
    }
    for (const Lump& lump : body.cuts) {
      fill(std::get<Box>(lump), false);
    }
  }

  std::size_t count(std::size_t axis) const { return planes_[axis].size() - 1; }
  double plane(std::size_t axis, std::size_t i) const { return planes_[axis][i].mm(); }
  /// Air all around; a place of npos is outside.
  bool wood(const std::array<std::size_t, 3>& at) const {
    for (std::size_t axis = 0; axis < 3; ++axis) {
      if (at[axis] >= count(axis)) {
        return false;
      }
    }
    return wood_[place(at)];
  }

 private:
  std::size_t place(const std::array<std::size_t, 3>& at) const {
    return (at[0] * count(1) + at[1]) * count(2) + at[2];
  }
  std::pair<std::size_t, std::size_t> range(const Box& box, Axis axis) const {
    const auto& all = planes_[static_cast<std::size_t>(axis)];
    const auto index = [&](Length place) {
      return static_cast<std::size_t>(std::ranges::lower_bound(all, place) - all.begin());
    };
    return {index(box.begin(axis)), index(box.end(axis))};
  }
  void fill(const Box& box, bool with) {
    const auto [x0, x1] = range(box, Axis::kX);
    const auto [y0, y1] = range(box, Axis::kY);
    const auto [z0, z1] = range(box, Axis::kZ);
    for (std::size_t x = x0; x < x1; ++x) {
      for (std::size_t y = y0; y < y1; ++y) {
        for (std::size_t z = z0; z < z1; ++z) {
          wood_[place({x, y, z})] = with;
        }
      }
    }
  }

  std::array<std::vector<Length>, 3> planes_;
  std::vector<bool> wood_;
};

/// The faces square to one axis that look one way.
class FaceLayer {
 public:
  FaceLayer(const Cells& cells, std::size_t axis, bool upward, Mesh& mesh)
      : cells_{cells},
        mesh_{mesh},
        axis_{axis},
        u_{(axis + 1) % 3},
        v_{(axis + 2) % 3},
        upward_{upward} {}

  void add_all() {
    for (std::size_t layer = 0; layer < cells_.count(axis_); ++layer) {
      add_layer(layer);
    }
  }

 private:
  std::array<std::size_t, 3> cell(std::size_t layer, std::size_t u, std::size_t v) const {
    std::array<std::size_t, 3> at{};
    at[axis_] = layer;
    at[u_] = u;
    at[v_] = v;
    return at;
  }
  bool is_face(std::size_t layer, std::size_t u, std::size_t v) const {
    const std::size_t beyond = upward_ ? layer + 1 : layer - 1;  // 0 - 1 is outside as well
    return cells_.wood(cell(layer, u, v)) && !cells_.wood(cell(beyond, u, v));
  }

  void add_layer(std::size_t layer) {
    const std::size_t us = cells_.count(u_);
    const std::size_t vs = cells_.count(v_);
    std::vector<bool> open(us * vs);
    for (std::size_t u = 0; u < us; ++u) {
      for (std::size_t v = 0; v < vs; ++v) {
        open[u * vs + v] = is_face(layer, u, v);
      }
    }
    const auto whole_row = [&](std::size_t u, std::size_t from, std::size_t to) {
      return std::all_of(open.begin() + static_cast<std::ptrdiff_t>(u * vs + from),
                         open.begin() + static_cast<std::ptrdiff_t>(u * vs + to),
                         [](bool is_open) { return is_open; });
    };
    for (std::size_t u = 0; u < us; ++u) {
      for (std::size_t v = 0; v < vs; ++v) {
        if (!open[u * vs + v]) {
          continue;
        }
        std::size_t v_end = v + 1;
        while (v_end < vs && open[u * vs + v_end]) {
          ++v_end;
        }
        std::size_t u_end = u + 1;
        while (u_end < us && whole_row(u_end, v, v_end)) {
          ++u_end;
        }
        for (std::size_t taken = u; taken < u_end; ++taken) {
          std::fill(open.begin() + static_cast<std::ptrdiff_t>(taken * vs + v),
                    open.begin() + static_cast<std::ptrdiff_t>(taken * vs + v_end),
                    false);
        }
        add_rectangle(layer, {u, u_end}, {v, v_end});
      }
    }
  }

  void add_rectangle(std::size_t layer,
                     std::pair<std::size_t, std::size_t> us,
                     std::pair<std::size_t, std::size_t> vs) {
    const double height = cells_.plane(axis_, upward_ ? layer + 1 : layer);
    std::array<double, 3> normal{};
    normal[axis_] = upward_ ? 1 : -1;
    const std::uint32_t first = corners_of(mesh_);
    for (const auto& [u, v] : {std::pair{us.first, vs.first},
                               std::pair{us.second, vs.first},
                               std::pair{us.second, vs.second},
                               std::pair{us.first, vs.second}}) {
      std::array<double, 3> at{};
      at[axis_] = height;
      at[u_] = cells_.plane(u_, u);
      at[v_] = cells_.plane(v_, v);
      add_corner(mesh_, {at[0], at[1], at[2]}, {normal[0], normal[1], normal[2]});
    }
    // The axes go round as x, y, z do, so u then v is anticlockwise seen from above the axis.
    const std::array<std::uint32_t, 6> up{0, 1, 2, 0, 2, 3};
    const std::array<std::uint32_t, 6> down{0, 2, 1, 0, 3, 2};
    for (const std::uint32_t corner : upward_ ? up : down) {
      mesh_.triangles.push_back(first + corner);
    }
  }

  const Cells& cells_;
  Mesh& mesh_;
  std::size_t axis_, u_, v_;
  bool upward_;
};

Body without_empty_boxes(const Body& body) {
  Body kept = body;
  for (auto* lumps : {&kept.wood, &kept.cuts}) {
    std::erase_if(*lumps, [](const Lump& lump) { return std::get<Box>(lump).empty(); });
  }
  return kept;
}

base::Result<Mesh> mesh_of_boxes(const Body& given) {
  const Body body = without_empty_boxes(given);
  Mesh mesh;
  if (!body.wood.empty()) {
    const Cells cells{body};
    for (std::size_t axis = 0; axis < 3; ++axis) {
      FaceLayer{cells, axis, true, mesh}.add_all();
      FaceLayer{cells, axis, false, mesh}.add_all();
    }
  }
  if (mesh.triangles.empty()) {
    return base::Error{base::ErrorCode::kDoesNotFit, "the cuts leave no wood"};
  }
  return mesh;
}

void add_triangle(Mesh& mesh, const std::array<Vector, 3>& corners) {
  const Vector across = cross(corners[1] - corners[0], corners[2] - corners[0]);
  if (norm(across) <= 0) {
    return;
  }
  const std::uint32_t first = corners_of(mesh);
  for (const Vector corner : corners) {
    add_corner(mesh, corner, unit(across));
  }
  mesh.triangles.insert(mesh.triangles.end(), {first, first + 1, first + 2});
}

void add_face(Mesh& mesh, const TopoDS_Face& face) {
  TopLoc_Location location;
  const Handle(Poly_Triangulation)& triangles = BRep_Tool::Triangulation(face, location);
  if (triangles.IsNull()) {
    return;
  }
  const gp_Trsf move = location.Transformation();
  const bool turned = face.Orientation() == TopAbs_REVERSED;
  for (int i = 1; i <= triangles->NbTriangles(); ++i) {
    int a = 0;
    int b = 0;
    int c = 0;
    triangles->Triangle(i).Get(a, b, c);
    if (turned) {
      std::swap(b, c);
    }
    const auto corner = [&](int node) {
      return to_vector(triangles->Node(node).Transformed(move).XYZ());
    };
    add_triangle(mesh, {corner(a), corner(b), corner(c)});
  }
}

}  // namespace

base::Result<Mesh> mesh_of(const Body& body, Length chord) {
  if (is_of_boxes(body)) {
    return mesh_of_boxes(body);
  }
  const auto solid = Solid::make(body);
  if (!solid.ok()) {
    return solid.error();
  }
  try {
    const TopoDS_Shape& shape = solid.value().inside().shape;
    const BRepMesh_IncrementalMesh mesher(shape, chord.mm(), Standard_False, kTurn);
    Mesh mesh;
    for (TopExp_Explorer faces(shape, TopAbs_FACE); faces.More(); faces.Next()) {
      add_face(mesh, TopoDS::Face(faces.Current()));
    }
    return mesh;
  } catch (const Standard_Failure& failure) {  // not a std::exception
    return base::Error{.message = fmt::format("the surface of this body cannot be worked out ({})",
                                              failure.DynamicType()->Name())};
  }
}

}  // namespace plankwright::solid
