#include "solid/hidden_lines.h"

#include <BRepAdaptor_Curve.hxx>
#include <BRepLib.hxx>
#include <GCPnts_TangentialDeflection.hxx>
#include <HLRAlgo_Projector.hxx>
#include <HLRBRep_Algo.hxx>
#include <HLRBRep_HLRToShape.hxx>
#include <Standard_Failure.hxx>
#include <TopExp_Explorer.hxx>
#include <TopoDS.hxx>
#include <TopoDS_Edge.hxx>
#include <fmt/format.h>
#include <gp_Ax2.hxx>

#include "solid/inside.h"
#include "solid/tidy_lines.h"

namespace plankwright::solid {
namespace {

using base::Error;
using base::Result;

constexpr double kChordError = 0.05;   // mm, as promised for ViewLine
constexpr double kChordAngle = 0.3;    // rad
constexpr double kNearestToEye = 0.1;  // of the viewing distance

HLRAlgo_Projector projector(const Camera& camera) {
  const gp_Ax2 axes(to_point(camera.target),
                    gp_Dir(camera.to_eye.x, camera.to_eye.y, camera.to_eye.z),
                    gp_Dir(camera.right.x, camera.right.y, camera.right.z));
  return camera.eye_distance ? HLRAlgo_Projector(axes, *camera.eye_distance)
                             : HLRAlgo_Projector(axes);
}

ViewLine line_of(const TopoDS_Edge& edge, int id) {
  const BRepAdaptor_Curve curve(edge);
  const GCPnts_TangentialDeflection points(curve, kChordAngle, kChordError);
  ViewLine line{.solid = id, .points = {}};
  for (int i = 1; i <= points.NbPoints(); ++i) {
    line.points.push_back({points.Value(i).X(), points.Value(i).Y()});
  }
  return line;
}

void collect(const TopoDS_Shape& edges, int id, std::vector<ViewLine>& lines) {
  if (edges.IsNull()) {
    return;
  }
  BRepLib::BuildCurves3d(edges);  // the library hands out curves on the picture plane only
  for (TopExp_Explorer edge(edges, TopAbs_EDGE); edge.More(); edge.Next()) {
    lines.push_back(line_of(TopoDS::Edge(edge.Current()), id));
  }
}

View draw(std::span<const DrawnSolid> solids, const Camera& camera) {
  const Handle(HLRBRep_Algo) drawing = new HLRBRep_Algo;
  for (const DrawnSolid& drawn : solids) {
    drawing->Add(drawn.solid.inside().shape);
  }
  drawing->Projector(projector(camera));
  drawing->Update();
  drawing->Hide();
  HLRBRep_HLRToShape found(drawing);
  View view{.name = camera.name};
  for (const DrawnSolid& drawn : solids) {
    const TopoDS_Shape& shape = drawn.solid.inside().shape;
    collect(found.VCompound(shape), drawn.id, view.visible);
    collect(found.OutLineVCompound(shape), drawn.id, view.visible);
    if (drawn.show_hidden) {
      collect(found.HCompound(shape), drawn.id, view.hidden);
      collect(found.OutLineHCompound(shape), drawn.id, view.hidden);
    }
  }
  return tidied(std::move(view));
}

}  // namespace

std::optional<Error> refuse_near_eye(std::span<const DrawnSolid> solids, const Camera& camera) {
  if (!camera.eye_distance) {
    return std::nullopt;
  }
  for (const DrawnSolid& drawn : solids) {
    const measure::Box box = drawn.solid.bounds();
    for (int corner = 0; corner < 8; ++corner) {
      const measure::Point at{(corner & 1) != 0 ? box.end().x : box.at.x,
                              (corner & 2) != 0 ? box.end().y : box.at.y,
                              (corner & 4) != 0 ? box.end().z : box.at.z};
      if (depth(camera, to_vector(at)) > *camera.eye_distance * (1 - kNearestToEye)) {
        return Error{.message = fmt::format(
                         "the eye of view {} is too near to solid {}", camera.name, drawn.id)};
      }
    }
  }
  return std::nullopt;
}

Result<std::vector<View>> hidden_line_views(std::span<const DrawnSolid> solids,
                                            std::span<const Camera> cameras) {
  std::vector<View> views;
  for (const Camera& camera : cameras) {
    if (const auto refused = refuse_near_eye(solids, camera)) {
      return *refused;
    }
    try {
      views.push_back(draw(solids, camera));
    } catch (const Standard_Failure& failure) {  // not a std::exception
      return Error{.message = fmt::format(
                       "view {} cannot be drawn ({})", camera.name, failure.DynamicType()->Name())};
    }
  }
  return views;
}

}  // namespace plankwright::solid
