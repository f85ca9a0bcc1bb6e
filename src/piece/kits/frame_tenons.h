#pragma once
// How the rails of a frame are held by its legs, and whether two tenons have room in one leg.

#include <array>
#include <optional>

#include "piece/kit.h"

namespace plankwright::piece {

/// The sides of a frame, in the order of its rails.
enum class FrameSide { kFront, kBack, kLeft, kRight };
inline constexpr std::array kFrameSides = {
    FrameSide::kFront, FrameSide::kBack, FrameSide::kLeft, FrameSide::kRight};

/// A rail or stretcher as its joints see it.
struct Member {
  std::string stock;
  Length bottom, height;  // above the floor of the frame
  Length thickness;
  Length setback;  // from the outer face of the leg
};

/// How members are held.
struct FrameJoint {
  JointKind kind = JointKind::kMortiseTenon;
  Length length;     // of a tenon, on each side of a loose tenon or dowel
  Length thickness;  // of a tenon or dowel; zero: a third of the member
  Length below_top;  // shoulder above the tenon, so that the mortise stays closed
  bool mitred = false;
  bool undone = false;  // dry, held by bolts
  int dowels = 2;
};

Length tenon_thickness(const FrameJoint& joint, const Member& member);

/// Longest tenons that two members of the same height may have in a leg of `x` by `y`, when the
/// first comes in along x and the second along y: until one of them meets the side of the other, or
/// its far side when their ends are mitred.
Length longest_tenon(
    const FrameJoint& joint, const Member& along_x, const Member& along_y, Length x, Length y);

}  // namespace plankwright::piece
