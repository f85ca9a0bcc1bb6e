#include <algorithm>
#include <array>
#include <set>
#include <tuple>

#include "bench/items.h"
#include "piece/joint_layout.h"

namespace plankwright::bench {
namespace {

using measure::Axis;
using piece::Feature;
using piece::FeatureKind;
using piece::Joint;
using piece::JointKind;
using piece::Part;

/// The two sizes of a contact across the way home, the smaller one first.
std::pair<Length, Length> sides_of(const Joint& joint) {
  std::vector<Length> sides;
  for (const Axis axis : {Axis::kX, Axis::kY, Axis::kZ}) {
    if (axis != joint.home.axis) {
      sides.push_back(joint.contact.size[axis]);
    }
  }
  return std::minmax(sides[0], sides[1]);
}

/// A solid strip on an edge is counted as a part, and a tongue across a whole panel is more work
/// than a tenon.
std::string kind_of(const Job& job, const Joint& joint) {
  if (joint.kind == JointKind::kEdgeGlue &&
      job.piece.parts[joint.a].material == piece::Material::kSolid) {
    return "strip";
  }
  const bool tenon = joint.kind == JointKind::kStubTenon || joint.kind == JointKind::kMortiseTenon;
  return tenon && sides_of(joint).second > job.limits.wide_tenon
             ? "wide_tongue"
             : table_word(piece::word(joint.kind));
}

/// A board and the strips on its edges are one when they go into another board together.
class Boards {
 public:
  explicit Boards(const piece::Piece& piece) : first_(all_parts(piece)) {
    for (const Joint& joint : piece.joints) {
      if (joint.kind == JointKind::kEdgeGlue || joint.kind == JointKind::kFaceGlue) {
        const PartIndex from = std::max(first_[joint.a], first_[joint.b]);
        const PartIndex to = std::min(first_[joint.a], first_[joint.b]);
        std::ranges::replace(first_, from, to);
      }
    }
  }
  PartIndex of(PartIndex part) const { return first_[part]; }

 private:
  std::vector<PartIndex> first_;
};

/// Joints of one kind that close the same way between the same two boards are one.
class SeenJoints {
 public:
  explicit SeenJoints(const piece::Piece& piece) : boards_{piece} {}

  bool is_new(const Joint& joint) {
    const PartIndex a = boards_.of(joint.a);
    const PartIndex b = boards_.of(joint.b);
    return a == b ||
           seen_.insert({joint.kind, a, b, joint.home.axis, joint.home.sign, joint.depth.nm()})
               .second;
  }

 private:
  Boards boards_;
  std::set<std::tuple<JointKind, PartIndex, PartIndex, Axis, int, std::int64_t>> seen_;
};

Item joint_item(const Job& job, const Joint& joint, bool in_box) {
  const auto [across, along] = sides_of(joint);
  Item item;
  item.subject = in_box ? "drawer_joint" : "joint";
  item.kind = kind_of(job, joint);
  item.parts = {joint.a, joint.b};
  item.count = joint.count;
  item.feet = along.feet();
  item.across = joint.tongue_thickness > Length{} ? joint.tongue_thickness : across;
  if (joint.kind == JointKind::kDowel) {
    item.across = piece::dowel_thickness(joint);
  }
  item.depth = joint.depth;
  return item;
}

bool has_joint(const piece::Piece& piece, PartIndex part, JointKind kind) {
  return std::ranges::any_of(piece.joints, [&](const Joint& joint) {
    return joint.kind == kind && (joint.a == part || joint.b == part);
  });
}

bool touches(const measure::Box& a, const measure::Box& b) {
  const measure::Box shared = measure::intersection(a, b);
  return std::ranges::all_of(std::array{Axis::kX, Axis::kY, Axis::kZ},
                             [&](Axis axis) { return shared.size[axis] >= Length{}; });
}

/// Slots that buttons reach into are cut with the buttons' own standard.
bool is_button_slot(const piece::Piece& piece, PartIndex part, const Feature& feature) {
  return std::ranges::any_of(piece.joints, [&](const Joint& joint) {
    return joint.kind == JointKind::kButton && joint.b == part &&
           touches(joint.contact, feature.place);
  });
}

/// The kind a feature is looked up by: some cuts are part of a joint's own standard.
std::string kind_of(const piece::Piece& piece, PartIndex part, const Feature& feature) {
  if (feature.kind == FeatureKind::kGroove && is_button_slot(piece, part, feature)) {
    return "button_slot";
  }
  if (feature.kind == FeatureKind::kGroove && has_joint(piece, part, JointKind::kStubTenon)) {
    return "frame_groove";
  }
  if (feature.kind == FeatureKind::kLippedEdge && has_joint(piece, part, JointKind::kEdgeGlue)) {
    return "lipped_edge_with_strip";
  }
  return table_word(piece::word(feature.kind));
}

Item feature_item(const piece::Piece& piece, PartIndex part, const Feature& feature, bool in_box) {
  Item item;
  item.subject = in_box ? "drawer_feature" : "feature";
  item.kind = kind_of(piece, part, feature);
  item.parts = {part};
  item.count = feature.count;
  item.feet = feature.along.feet();
  item.across = feature.across;
  item.depth = feature.depth;
  return item;
}

}  // namespace

void add_joint_items(const Job& job, std::vector<Item>& items) {
  const std::vector<bool> boxes = box_parts(job.piece);
  SeenJoints seen{job.piece};
  for (const Joint& joint : job.piece.joints) {
    if (joint.count > 0 && seen.is_new(joint)) {
      items.push_back(joint_item(job, joint, boxes[joint.a] || boxes[joint.b]));
    }
  }
  for (PartIndex i = 0; i < job.piece.parts.size(); ++i) {
    for (const Feature& feature : job.piece.parts[i].features) {
      items.push_back(feature_item(job.piece, i, feature, boxes[i]));
    }
  }
}

}  // namespace plankwright::bench
