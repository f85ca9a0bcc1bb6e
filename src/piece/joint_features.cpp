// What each kind of joint cuts into its two parts.

#include <algorithm>

#include <fmt/format.h>

#include "piece/sizes.h"

namespace plankwright::piece {
namespace {

Direction facing(Direction home) {
  return {home.axis, -home.sign};
}

/// The two sizes of a contact that are not zero, the smaller one first.
std::pair<Length, Length> sides_of(const Joint& joint) {
  Length a;
  Length b;
  bool first = true;
  for (const Axis axis : {Axis::kX, Axis::kY, Axis::kZ}) {
    if (axis == joint.home.axis) {
      continue;
    }
    (first ? a : b) = joint.contact.size[axis];
    first = false;
  }
  return std::minmax(a, b);
}

/// How deep the joint is cut: a groove that leaves its panel or button play is deeper than the
/// tongue reaches.
Length cut_depth(const Joint& joint) {
  const bool has_play = joint.kind == JointKind::kGroove || joint.kind == JointKind::kButton;
  return has_play ? joint.depth + joint.play : joint.depth;
}

/// The contact, pushed along the joint's way home as deep as it is cut.
Box reach(const Joint& joint) {
  Box box = joint.contact;
  const Length depth = cut_depth(joint);
  box.size[joint.home.axis] = depth;
  if (joint.home.sign < 0) {
    box.at[joint.home.axis] -= depth;
  }
  return box;
}

Feature feature_of(const Joint& joint, FeatureKind kind, Direction face) {
  const auto [across, along] = sides_of(joint);
  Feature feature;
  feature.kind = kind;
  feature.face = face;
  feature.place = reach(joint);
  feature.count = joint.count;
  feature.depth = cut_depth(joint);
  feature.across = joint.tongue_thickness > Length{} ? joint.tongue_thickness : across;
  feature.along = joint.tongue_width > Length{} ? joint.tongue_width : along;
  return feature;
}

struct Cuts {
  std::optional<FeatureKind> in_a, in_b;
};

Cuts cuts_of(JointKind kind) {
  switch (kind) {
    case JointKind::kHousing:
      return {{}, FeatureKind::kHousing};
    case JointKind::kRabbet:
      return {{}, FeatureKind::kRabbet};
    case JointKind::kGroove:
    case JointKind::kButton:
      return {{}, FeatureKind::kGroove};
    case JointKind::kMortiseTenon:
      return {FeatureKind::kTenon, FeatureKind::kMortise};
    case JointKind::kStubTenon:
      return {FeatureKind::kTenon, {}};  // into the groove that is there for the panel
    case JointKind::kLooseTenon:
      return {FeatureKind::kLooseMortise, FeatureKind::kLooseMortise};
    case JointKind::kDovetail:
      return {FeatureKind::kDovetails, FeatureKind::kDovetails};
    case JointKind::kDowel:
      return {FeatureKind::kDowelHoles, FeatureKind::kDowelHoles};
    case JointKind::kBiscuit:
      return {FeatureKind::kBiscuitSlots, FeatureKind::kBiscuitSlots};
    case JointKind::kPocketScrew:
      return {FeatureKind::kPocketHoles, {}};
    case JointKind::kScrew:
      return {FeatureKind::kScrewHoles, {}};
    case JointKind::kHalving:
      return {FeatureKind::kHalfLap, FeatureKind::kHalfLap};
    case JointKind::kClip:
      return {FeatureKind::kClipSlots, {}};
    case JointKind::kBolt:
    case JointKind::kConnector:
      return {FeatureKind::kBore, FeatureKind::kBore};
    case JointKind::kEdgeGlue:
    case JointKind::kFaceGlue:
    case JointKind::kShelfPins:
    case JointKind::kHinge:
    case JointKind::kSlide:
    case JointKind::kStands:
      return {};
  }
  return {};
}

void add_shape_features(Part& part) {
  for (const Taper& taper : part.tapers) {
    Feature feature;
    feature.kind = FeatureKind::kTaper;
    feature.face = taper.side;
    feature.place = part.body;
    feature.depth = part.body.size[taper.side.axis] - taper.to_size;
    feature.along = part.body.size[part.length_axis] - taper.from;
    part.features.push_back(feature);
  }
  if (part.arch) {
    Feature feature;
    feature.kind = FeatureKind::kArch;
    feature.face = part.arch->side;
    feature.place = part.body;
    feature.depth = part.arch->rise;
    feature.along = part.arch->span;
    feature.says = part.arch->bent ? "bent from thin layers" : "sawn";
    part.features.push_back(feature);
  }
}

}  // namespace

void add_features_of_joints(Piece& piece) {
  for (Joint& joint : piece.joints) {
    const auto [across, along] = sides_of(joint);
    if (joint.glued && joint.glue_area.count() <= 0) {
      joint.glue_area = measure::area(across, along);
    }
    const Cuts cuts = cuts_of(joint.kind);
    if (cuts.in_a) {
      piece.parts[joint.a].features.push_back(feature_of(joint, *cuts.in_a, joint.home));
    }
    if (cuts.in_b) {
      piece.parts[joint.b].features.push_back(feature_of(joint, *cuts.in_b, facing(joint.home)));
    }
  }
  for (Part& part : piece.parts) {
    add_shape_features(part);
  }
}

}  // namespace plankwright::piece
