#include "piece/kits/frame_tenons.h"

#include <algorithm>

namespace plankwright::piece {
namespace {

/// From the outer face of the leg to the near and the far side of the tenon in the middle of its
/// member.
struct Reach {
  Length near, far;
};

Reach reach_of(const FrameJoint& joint, const Member& member) {
  const Length tenon = tenon_thickness(joint, member);
  const Length near = member.setback + (member.thickness - tenon) / 2;
  return {near, near + tenon};
}

}  // namespace

Length tenon_thickness(const FrameJoint& joint, const Member& member) {
  return joint.thickness > Length{} ? joint.thickness : member.thickness / 3;
}

Length longest_tenon(
    const FrameJoint& joint, const Member& along_x, const Member& along_y, Length x, Length y) {
  const Reach first = reach_of(joint, along_x);
  const Reach second = reach_of(joint, along_y);
  if (joint.mitred) {
    return std::min(x - second.near, y - first.near);
  }
  return std::max(x - second.far, y - first.far);
}

}  // namespace plankwright::piece
