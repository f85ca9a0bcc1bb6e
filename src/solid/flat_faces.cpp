#include "solid/flat_faces.h"

#include <BRepAdaptor_Curve.hxx>
#include <BRepAdaptor_Surface.hxx>
#include <BRepMesh_IncrementalMesh.hxx>
#include <BRepTools_WireExplorer.hxx>
#include <BRep_Tool.hxx>
#include <GCPnts_TangentialDeflection.hxx>
#include <Poly_Triangulation.hxx>
#include <TopExp_Explorer.hxx>
#include <TopoDS.hxx>
#include <TopoDS_Edge.hxx>
#include <TopoDS_Face.hxx>
#include <TopoDS_Wire.hxx>

#include "solid/inside.h"

namespace plankwright::solid {
namespace {

constexpr double kChordError = 0.5;  // mm; tones only, the lines over them are exact
constexpr double kChordAngle = 0.2;  // rad

// The points of an edge from its start as the wire runs, without the last one.
void add_edge(const TopoDS_Edge& edge, std::vector<Vector>& loop) {
  const BRepAdaptor_Curve curve(edge);
  const GCPnts_TangentialDeflection points(curve, kChordAngle, kChordError);
  const int count = points.NbPoints();
  const bool reversed = edge.Orientation() == TopAbs_REVERSED;
  for (int i = 1; i < count; ++i) {
    loop.push_back(to_vector(points.Value(reversed ? count + 1 - i : i).XYZ()));
  }
}

FlatFace whole_face(const TopoDS_Face& face, const BRepAdaptor_Surface& surface, std::size_t tag) {
  const gp_Pln plane = surface.Plane();
  const gp_Dir out =
      plane.Position().Direct() ? plane.Axis().Direction() : plane.Axis().Direction().Reversed();
  const double sign = face.Orientation() == TopAbs_REVERSED ? -1 : 1;
  FlatFace flat{.tag = tag, .normal = to_vector(out.XYZ()) * sign, .loops = {}};
  for (TopExp_Explorer wire(face, TopAbs_WIRE); wire.More(); wire.Next()) {
    std::vector<Vector>& loop = flat.loops.emplace_back();
    for (BRepTools_WireExplorer edge(TopoDS::Wire(wire.Current()), face); edge.More();
         edge.Next()) {
      add_edge(edge.Current(), loop);
    }
  }
  return flat;
}

void add_triangles(const TopoDS_Face& face, std::size_t tag, std::vector<FlatFace>& faces) {
  TopLoc_Location place;
  const auto triangles = BRep_Tool::Triangulation(face, place);
  if (triangles.IsNull()) {
    return;
  }
  const auto corner = [&](int node) {
    return to_vector(triangles->Node(node).Transformed(place.Transformation()).XYZ());
  };
  for (int i = 1; i <= triangles->NbTriangles(); ++i) {
    int a = 0;
    int b = 0;
    int c = 0;
    triangles->Triangle(i).Get(a, b, c);
    if (face.Orientation() == TopAbs_REVERSED) {
      std::swap(b, c);
    }
    const std::vector<Vector> loop{corner(a), corner(b), corner(c)};
    const Vector out = cross(loop[1] - loop[0], loop[2] - loop[0]);
    if (norm(out) > 0) {
      faces.push_back({.tag = tag, .normal = unit(out), .loops = {loop}});
    }
  }
}

}  // namespace

std::vector<FlatFace> flat_faces(const Solid& solid, std::size_t tag) {
  std::vector<FlatFace> faces;
  for (TopExp_Explorer it(solid.inside().shape, TopAbs_FACE); it.More(); it.Next()) {
    const TopoDS_Face face = TopoDS::Face(it.Current());
    const BRepAdaptor_Surface surface(face);
    if (surface.GetType() == GeomAbs_Plane) {
      faces.push_back(whole_face(face, surface, tag));
    } else {
      BRepMesh_IncrementalMesh(face, kChordError, Standard_False, kChordAngle);
      add_triangles(face, tag, faces);
    }
  }
  return faces;
}

}  // namespace plankwright::solid
