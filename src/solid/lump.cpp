#include <BRepBuilderAPI_MakeEdge.hxx>
#include <BRepBuilderAPI_MakeFace.hxx>
#include <BRepBuilderAPI_MakeWire.hxx>
#include <BRepCheck_Analyzer.hxx>
#include <BRepPrimAPI_MakeBox.hxx>
#include <BRepPrimAPI_MakePrism.hxx>
#include <GC_MakeArcOfCircle.hxx>
#include <TopoDS_Edge.hxx>
#include <TopoDS_Face.hxx>
#include <gp_Pln.hxx>
#include <gp_Vec.hxx>

#include "solid/inside.h"

namespace plankwright::solid {
namespace {

using base::Error;
using base::ErrorCode;
using base::Result;
using measure::Axis;

Error bad(std::string message) {
  return {.code = ErrorCode::kBadInput, .message = std::move(message)};
}

gp_Pnt in_space(OutlinePoint p, Axis along, measure::Length height) {
  switch (along) {
    case Axis::kX:
      return {height.mm(), p.u.mm(), p.v.mm()};
    case Axis::kY:
      return {p.u.mm(), height.mm(), p.v.mm()};
    case Axis::kZ:
      break;
  }
  return {p.u.mm(), p.v.mm(), height.mm()};
}

gp_Vec along_axis(Axis along, double length) {
  return {along == Axis::kX ? length : 0,
          along == Axis::kY ? length : 0,
          along == Axis::kZ ? length : 0};
}

Result<TopoDS_Edge> make_edge(const gp_Pnt& from, const OutlineEdge& edge, const Extrusion& e) {
  const gp_Pnt to = in_space(edge.to, e.along, e.from);
  if (!edge.through) {
    return BRepBuilderAPI_MakeEdge(from, to).Edge();
  }
  const GC_MakeArcOfCircle arc(from, in_space(*edge.through, e.along, e.from), to);
  if (!arc.IsDone()) {
    return bad("the three points of an arc are in line");
  }
  return BRepBuilderAPI_MakeEdge(arc.Value()).Edge();
}

Result<TopoDS_Face> make_face(const Extrusion& e) {
  BRepBuilderAPI_MakeWire wire;
  OutlinePoint from = e.outline.edges.back().to;
  for (const OutlineEdge& step : e.outline.edges) {
    if (step.to == from) {
      return bad("an edge of an outline has no length");
    }
    const auto edge = make_edge(in_space(from, e.along, e.from), step, e);
    if (!edge.ok()) {
      return edge.error();
    }
    wire.Add(edge.value());
    from = step.to;
  }
  const gp_Pln plane(in_space(from, e.along, e.from), gp_Dir(along_axis(e.along, 1)));
  BRepBuilderAPI_MakeFace face(plane, wire.Wire());
  if (!face.IsDone() || !BRepCheck_Analyzer(face.Face()).IsValid()) {
    return bad("an outline crosses or touches itself");
  }
  return face.Face();
}

Result<TopoDS_Shape> make_extrusion(const Extrusion& e) {
  if (e.length <= measure::Length{}) {
    return bad("an outline is drawn out over no length");
  }
  if (e.outline.edges.size() < 2) {
    return bad("an outline needs at least two edges");
  }
  const auto face = make_face(e);
  if (!face.ok()) {
    return face.error();
  }
  return BRepPrimAPI_MakePrism(face.value(), along_axis(e.along, e.length.mm())).Shape();
}

Result<TopoDS_Shape> make_box(const measure::Box& box) {
  if (box.empty()) {
    return bad("a box has no size");
  }
  const gp_Pnt at(box.at.x.mm(), box.at.y.mm(), box.at.z.mm());
  return BRepPrimAPI_MakeBox(at, box.size.x.mm(), box.size.y.mm(), box.size.z.mm()).Shape();
}

}  // namespace

Result<TopoDS_Shape> make_lump(const Lump& lump) {
  if (const auto* box = std::get_if<measure::Box>(&lump)) {
    return make_box(*box);
  }
  return make_extrusion(std::get<Extrusion>(lump));
}

}  // namespace plankwright::solid
