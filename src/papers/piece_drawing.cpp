#include "papers/piece_drawing.h"

#include <algorithm>
#include <array>
#include <string_view>

#include "papers/part_body.h"

namespace plankwright::papers {
namespace {

using measure::Axis;
using measure::Length;

// From the front and a little from the right and above, as one stands before a piece.
constexpr double kTurn = 33;
constexpr double kLift = 17;
constexpr double kTallLift = 8;  // of what is as high as a person: one does not look down on it
constexpr Length kTall = Length::from_nm(1'700'000'000);
constexpr int kGrainStrokes = 60;  // over the longest size of the piece

struct Tone {
  std::string_view species;  // the front part of its id
  Colour colour;
};

// By eye, for crayon on white paper; no source.
constexpr std::array<Tone, 12> kTones = {{{"cherry", {0.72, 0.42, 0.27}},
                                          {"walnut", {0.42, 0.30, 0.22}},
                                          {"oak", {0.80, 0.64, 0.42}},
                                          {"maple", {0.92, 0.80, 0.60}},
                                          {"ash", {0.86, 0.75, 0.56}},
                                          {"beech", {0.84, 0.62, 0.44}},
                                          {"birch", {0.91, 0.79, 0.60}},
                                          {"mahogany", {0.60, 0.31, 0.21}},
                                          {"pine", {0.93, 0.78, 0.50}},
                                          {"poplar", {0.78, 0.77, 0.58}},
                                          {"alder", {0.80, 0.58, 0.42}},
                                          {"fir", {0.90, 0.74, 0.52}}}};
constexpr Colour kOtherWood{0.82, 0.68, 0.50};
constexpr Colour kPlainBoard{0.80, 0.80, 0.78};

base::Result<solid::Solid> solid_of(const piece::Part& part) {
  auto whole = solid::Solid::make(part_body(part));
  // A part cut away to nothing is a fault of the piece; it is still drawn as the box it comes from.
  return whole.ok() ? whole : solid::Solid::make({.wood = {part.body}, .cuts = {}});
}

base::Result<std::monostate> add_solids(const plan::Plan& plan, PiecePicture& picture) {
  const auto& parts = plan.piece.parts;
  const auto add = [&](const base::Result<solid::Solid>& solid, piece::PartIndex part, Axis grain) {
    if (!solid.ok()) {
      return false;
    }
    picture.solids.push_back({.id = static_cast<int>(picture.part_of.size()),
                              .solid = solid.value(),
                              .show_hidden = false,
                              .grain = grain});
    picture.part_of.push_back(part);
    return true;
  };
  for (piece::PartIndex i = 0; i < parts.size(); ++i) {
    const auto solid = solid_of(parts[i]);
    if (!add(solid, i, parts[i].length_axis)) {
      return solid.error();
    }
  }
  for (const DrawnPull& pull : pulls_of(plan.piece, plan.shop)) {
    const auto solid = solid::Solid::make(pull.body);
    if (!add(solid, pull.front, Axis::kY)) {
      return solid.error();
    }
  }
  return std::monostate{};
}

/// Around all that is drawn, which pulls and site allowances may make larger than the piece.
measure::Box hull_of(const plan::Plan& plan) {
  measure::Box hull = plan.piece.overall;
  for (const piece::Part& part : plan.piece.parts) {
    hull = measure::hull(hull, part.body);
  }
  return hull;
}

Length grain_pitch(const measure::Box& hull) {
  return std::max({hull.size.x, hull.size.y, hull.size.z}) / kGrainStrokes;
}

}  // namespace

Projection projection_of(const plan::Plan& plan) {
  return plan.shop.unit == measure::LengthUnit::kInch ? Projection::kThirdAngle
                                                      : Projection::kFirstAngle;
}

Colour wood_colour(const piece::Part& part) {
  if (part.species.empty()) {
    return part.material == piece::Material::kBoughtIn ? kTones[3].colour : kPlainBoard;
  }
  const auto tone = std::ranges::find_if(
      kTones, [&](const Tone& t) { return part.species.starts_with(t.species); });
  return tone == kTones.end() ? kOtherWood : tone->colour;
}

base::Result<PiecePicture> picture_of(const plan::Plan& plan) {
  PiecePicture picture;
  if (const auto added = add_solids(plan, picture); !added.ok()) {
    return added.error();
  }
  if (picture.solids.empty()) {
    return base::Error{base::ErrorCode::kBadInput, "there is no part to draw"};
  }
  const measure::Box hull = hull_of(plan);
  picture.eye = solid::perspective_view(hull, kTurn, hull.size.z > kTall ? kTallLift : kLift);
  const std::array cameras{
      solid::front_view(), side_view(projection_of(plan)), solid::top_view(), picture.eye};
  auto views = solid::hidden_line_views(picture.solids, cameras);
  if (!views.ok()) {
    return views.error();
  }
  picture.front = views.value()[0];
  picture.side = views.value()[1];
  picture.top = views.value()[2];
  picture.perspective = views.value()[3];
  auto painted = solid::painted_view(picture.solids, picture.eye, grain_pitch(hull));
  if (!painted.ok()) {
    return painted.error();
  }
  picture.painted = std::move(painted).value();
  return picture;
}

}  // namespace plankwright::papers
