#include "papers/cut_body.h"

#include "papers/part_body.h"

namespace plankwright::papers {
namespace {

using measure::Axis;
using measure::Box;
using measure::Length;
using piece::Joint;
using piece::JointKind;

/// The tongue from the shoulder into the other part, `depth` deep: as thick and wide as the joint
/// says, in the middle of where the parts meet.
Box tongue(const Joint& joint, Length depth) {
  Box box = joint.contact;
  box.size[joint.home.axis] = depth;
  if (joint.home.sign < 0) {
    box.at[joint.home.axis] -= depth;
  }
  const auto u = static_cast<Axis>((static_cast<std::size_t>(joint.home.axis) + 1) % 3);
  const auto v = static_cast<Axis>((static_cast<std::size_t>(joint.home.axis) + 2) % 3);
  const bool u_is_thin = box.size[u] <= box.size[v];
  const auto narrow = [&](Axis axis, Length size) {
    if (size > Length{} && size < box.size[axis]) {
      box.at[axis] += (box.size[axis] - size) / 2;
      box.size[axis] = size;
    }
  };
  narrow(u_is_thin ? u : v, joint.tongue_thickness);
  narrow(u_is_thin ? v : u, joint.tongue_width);
  return box;
}

bool is_drawn(JointKind kind) {
  switch (kind) {
    case JointKind::kHousing:
    case JointKind::kRabbet:
    case JointKind::kGroove:
    case JointKind::kMortiseTenon:
    case JointKind::kStubTenon:
      return true;
    default:
      return false;
  }
}

}  // namespace

std::vector<solid::Body> cut_bodies(const piece::Piece& piece) {
  std::vector<solid::Body> bodies;
  for (const piece::Part& part : piece.parts) {
    bodies.push_back(part_body(part));
  }
  for (const Joint& joint : piece.joints) {
    if (!is_drawn(joint.kind) || joint.depth <= Length{}) {
      continue;
    }
    const bool leaves_play = joint.kind == JointKind::kGroove;
    bodies[joint.a].wood.emplace_back(tongue(joint, joint.depth));
    bodies[joint.b].cuts.emplace_back(
        tongue(joint, leaves_play ? joint.depth + joint.play : joint.depth));
  }
  return bodies;
}

}  // namespace plankwright::papers
