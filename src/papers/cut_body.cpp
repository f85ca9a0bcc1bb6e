#include "papers/cut_body.h"

#include <utility>

#include "papers/part_body.h"
#include "piece/joint_layout.h"

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

/// The two axes of the plane the parts meet in: the one the joint is thin on first.
std::pair<Axis, Axis> plane_of(const Joint& joint) {
  const auto u = static_cast<Axis>((static_cast<std::size_t>(joint.home.axis) + 1) % 3);
  const auto v = static_cast<Axis>((static_cast<std::size_t>(joint.home.axis) + 2) % 3);
  return joint.contact.size[u] <= joint.contact.size[v] ? std::pair{u, v} : std::pair{v, u};
}

/// A place square to `square_to`, by its coordinates on `first` and on the axis left over.
solid::OutlinePoint in_plane(Axis square_to, Axis first, Length on_first, Length on_other) {
  // An outline's u is the earlier of its two axes (solid/body.h).
  const Axis u = square_to == Axis::kX ? Axis::kY : Axis::kX;
  return first == u ? solid::OutlinePoint{on_first, on_other}
                    : solid::OutlinePoint{on_other, on_first};
}

/// The tails of `a`, reaching into `b` as deep as the joint goes.
std::vector<solid::Lump> tails(const Joint& joint) {
  const auto [thin, wide] = plane_of(joint);
  const Length shoulder = joint.contact.begin(joint.home.axis);
  const Length end = shoulder + joint.depth * joint.home.sign;
  const Length edge = joint.contact.begin(wide);
  std::vector<solid::Lump> lumps;
  for (const piece::Tail& tail :
       piece::dovetail_tails(joint.contact.size[wide], joint.count, joint.depth)) {
    const auto corner = [&, wide = wide, thin = thin](Length on_wide, Length on_home) {
      return in_plane(thin, wide, edge + on_wide, on_home);
    };
    lumps.emplace_back(solid::Extrusion{.outline = solid::polygon({corner(tail.base_from, shoulder),
                                                                   corner(tail.base_to, shoulder),
                                                                   corner(tail.to, end),
                                                                   corner(tail.from, end)}),
                                        .along = thin,
                                        .from = joint.contact.begin(thin),
                                        .length = joint.contact.size[thin]});
  }
  return lumps;
}

/// Holes for dowels `depth` deep, on the side of the joint that `towards` points to.
std::vector<solid::Lump> dowel_holes(const Joint& joint, Length depth, int towards) {
  const auto [thin, wide] = plane_of(joint);
  const Axis along = joint.home.axis;
  const Length face = joint.contact.begin(along);
  const Length middle = joint.contact.begin(thin) + joint.contact.size[thin] / 2;
  std::vector<solid::Lump> lumps;
  for (const Length at : piece::fixings_in_row(joint.contact.size[wide], joint.count)) {
    lumps.emplace_back(solid::Extrusion{
        .outline = solid::circle(in_plane(along, wide, joint.contact.begin(wide) + at, middle),
                                 piece::dowel_thickness(joint) / 2),
        .along = along,
        .from = towards > 0 ? face : face - depth,
        .length = depth});
  }
  return lumps;
}

void append(std::vector<solid::Lump>& to, std::vector<solid::Lump> lumps) {
  to.insert(to.end(), lumps.begin(), lumps.end());
}

void cut_joint(std::vector<solid::Body>& bodies, const piece::Piece& piece, const Joint& joint) {
  if (joint.kind == JointKind::kDovetail && joint.depth > Length{}) {
    append(bodies[joint.a].wood, tails(joint));
    append(bodies[joint.b].cuts, tails(joint));
  } else if (joint.kind == JointKind::kDowel) {
    const piece::DowelDepths depths = piece::dowel_depths(piece, joint);
    append(bodies[joint.a].cuts, dowel_holes(joint, depths.in_a, -joint.home.sign));
    append(bodies[joint.b].cuts, dowel_holes(joint, depths.in_b, joint.home.sign));
  } else if (is_drawn(joint.kind) && joint.depth > Length{}) {
    const bool leaves_play = joint.kind == JointKind::kGroove;
    bodies[joint.a].wood.emplace_back(tongue(joint, joint.depth));
    bodies[joint.b].cuts.emplace_back(
        tongue(joint, leaves_play ? joint.depth + joint.play : joint.depth));
  }
}

}  // namespace

std::vector<solid::Body> cut_bodies(const piece::Piece& piece) {
  std::vector<solid::Body> bodies;
  for (const piece::Part& part : piece.parts) {
    bodies.push_back(part_body(part));
  }
  for (const Joint& joint : piece.joints) {
    cut_joint(bodies, piece, joint);
  }
  return bodies;
}

}  // namespace plankwright::papers
