#include "solid/solid.h"

#include <stdexcept>

#include <BRepAlgoAPI_Common.hxx>
#include <BRepAlgoAPI_Cut.hxx>
#include <BRepAlgoAPI_Fuse.hxx>
#include <BRepBndLib.hxx>
#include <BRepCheck_Analyzer.hxx>
#include <BRepGProp.hxx>
#include <Bnd_Box.hxx>
#include <GProp_GProps.hxx>
#include <ShapeUpgrade_UnifySameDomain.hxx>
#include <Standard_Failure.hxx>
#include <TopExp_Explorer.hxx>
#include <TopLoc_Location.hxx>
#include <TopTools_ListOfShape.hxx>
#include <fmt/format.h>
#include <gp_Trsf.hxx>
#include <gp_Vec.hxx>

#include "solid/box_body.h"
#include "solid/inside.h"

namespace plankwright::solid {
namespace {

using base::Error;
using base::ErrorCode;
using base::Result;
using measure::Length;

constexpr double kVolumeTolerance = 1e-9;  // relative, of the integration over curved faces

Result<TopTools_ListOfShape> make_lumps(const std::vector<Lump>& lumps, std::string_view kind) {
  TopTools_ListOfShape shapes;
  for (std::size_t i = 0; i < lumps.size(); ++i) {
    const auto shape = make_lump(lumps[i]);
    if (!shape.ok()) {
      Error error = shape.error();
      error.message = fmt::format("{} {}: {}", kind, i + 1, error.message);
      return error;
    }
    shapes.Append(shape.value());
  }
  return shapes;
}

template <class Operation>
TopoDS_Shape combine(const TopTools_ListOfShape& arguments, const TopTools_ListOfShape& tools) {
  Operation operation;
  operation.SetArguments(arguments);
  operation.SetTools(tools);
  operation.Build();
  return operation.Shape();
}

// Faces that lie in one plane become one face again: a rail and its tenon show no line between.
TopoDS_Shape without_seams(const TopoDS_Shape& shape) {
  ShapeUpgrade_UnifySameDomain unify(shape);
  unify.Build();
  return unify.Shape();
}

TopoDS_Shape joined(TopTools_ListOfShape wood) {
  TopTools_ListOfShape first;
  first.Append(wood.First());
  wood.RemoveFirst();
  return wood.IsEmpty() ? first.First() : combine<BRepAlgoAPI_Fuse>(first, wood);
}

double volume_of(const TopoDS_Shape& shape) {
  GProp_GProps properties;
  BRepGProp::VolumeProperties(shape, properties, kVolumeTolerance);
  return properties.Mass();
}

Bnd_Box box_around(const TopoDS_Shape& shape) {
  Bnd_Box box;
  BRepBndLib::AddOptimal(shape,
                         box,
                         /*useTriangulation=*/Standard_False,
                         /*useShapeTolerance=*/Standard_False);
  return box;
}

measure::Point to_length(const gp_Pnt& p) {
  return {Length::from_mm(p.X()), Length::from_mm(p.Y()), Length::from_mm(p.Z())};
}

Result<TopoDS_Shape> make_shape(const Body& body) {
  if (body.wood.empty()) {
    return Error{.message = "a body needs at least one box or outline"};
  }
  const auto wood = make_lumps(body.wood, "wood");
  if (!wood.ok()) {
    return wood.error();
  }
  const auto cuts = make_lumps(body.cuts, "cut");
  if (!cuts.ok()) {
    return cuts.error();
  }
  TopoDS_Shape shape = joined(wood.value());
  if (!cuts.value().IsEmpty()) {
    TopTools_ListOfShape whole;
    whole.Append(shape);
    shape = combine<BRepAlgoAPI_Cut>(whole, cuts.value());
  }
  if (body.wood.size() + body.cuts.size() > 1) {
    shape = without_seams(shape);
  }
  if (!TopExp_Explorer(shape, TopAbs_SOLID).More()) {
    return Error{.code = ErrorCode::kDoesNotFit, .message = "the cuts leave no wood"};
  }
  return shape;
}

}  // namespace

Result<Solid> Solid::make(const Body& body) {
  try {
    const auto shape = make_shape(body);
    if (!shape.ok()) {
      return shape.error();
    }
    return Solid{std::make_shared<const Inside>(Inside{shape.value()})};
  } catch (const Standard_Failure& failure) {  // not a std::exception
    return Error{.message = fmt::format("this body cannot be worked out ({})",
                                        failure.DynamicType()->Name())};
  }
}

measure::CubicMillimetres Solid::volume() const {
  return measure::CubicMillimetres{volume_of(inside_->shape)};
}

measure::Point Solid::centre_of_mass() const {
  GProp_GProps properties;
  BRepGProp::VolumeProperties(inside_->shape, properties, kVolumeTolerance);
  return to_length(properties.CentreOfMass());
}

measure::Box Solid::bounds() const {
  const Bnd_Box box = box_around(inside_->shape);
  const measure::Point low = to_length(box.CornerMin());
  return {.at = low, .size = to_length(box.CornerMax()) - low};
}

int Solid::pieces() const {
  int count = 0;
  for (TopExp_Explorer solids(inside_->shape, TopAbs_SOLID); solids.More(); solids.Next()) {
    ++count;
  }
  return count;
}

bool Solid::valid() const {
  return BRepCheck_Analyzer(inside_->shape).IsValid();
}

Solid Solid::moved(measure::Point by) const {
  gp_Trsf move;
  move.SetTranslation(gp_Vec(by.x.mm(), by.y.mm(), by.z.mm()));
  return Solid{std::make_shared<const Inside>(Inside{inside_->shape.Moved(TopLoc_Location(move))})};
}

measure::CubicMillimetres interference(const Solid& a, const Solid& b) {
  if (measure::intersection(a.bounds(), b.bounds()).empty()) {
    return measure::CubicMillimetres{0};
  }
  try {
    BRepAlgoAPI_Common common(a.inside().shape, b.inside().shape);
    return measure::CubicMillimetres{volume_of(common.Shape())};
  } catch (const Standard_Failure& failure) {  // not a std::exception
    throw std::runtime_error(fmt::format("interference: {}", failure.DynamicType()->Name()));
  }
}

Result<measure::CubicMillimetres> interference(const Body& a, const Body& b) {
  if (is_of_boxes(a) && is_of_boxes(b)) {
    return shared_volume_of_boxes(a, b);
  }
  const auto first = Solid::make(a);
  if (!first.ok()) {
    return first.error();
  }
  const auto second = Solid::make(b);
  if (!second.ok()) {
    return second.error();
  }
  return interference(first.value(), second.value());
}

}  // namespace plankwright::solid
