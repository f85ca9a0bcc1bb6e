#include "bench/laid_part.h"

#include <algorithm>
#include <array>

namespace plankwright::bench {
namespace {

using measure::Axis;
using measure::Direction;
using piece::Part;

/// What joints add to the part on this side.
Length let_in(const piece::Piece& piece, piece::PartIndex part, Direction side) {
  Length depth;
  for (const piece::Joint& joint : piece.joints) {
    if (joint.a == part && joint.home == side && piece::lets_in(joint.kind)) {
      depth = std::max(depth, joint.depth);
    }
  }
  return depth;
}

measure::Box outline_of(const piece::Piece& piece, piece::PartIndex part) {
  measure::Box box = piece.parts[part].body;
  for (const Axis axis : {Axis::kX, Axis::kY, Axis::kZ}) {
    const Length below = let_in(piece, part, {axis, -1});
    box.at[axis] -= below;
    box.size[axis] += below + let_in(piece, part, {axis, 1});
  }
  return box;
}

bool contains(const std::vector<Direction>& sides, Direction side) {
  return std::ranges::find(sides, side) != sides.end();
}

/// The only one of the two sides along `axis` that is among `sides`; 0 for none or both.
int only_side(const std::vector<Direction>& sides, Axis axis) {
  return (contains(sides, {axis, 1}) ? 1 : 0) - (contains(sides, {axis, -1}) ? 1 : 0);
}

Direction reference_side(const Part& part, Axis axis, const std::vector<Direction>& cut_into) {
  if (const int shown = only_side(part.show_faces, axis); shown != 0) {
    return {axis, shown};
  }
  if (const int cut = only_side(cut_into, axis); cut != 0 && axis != part.length_axis) {
    return {axis, -cut};
  }
  return {axis, axis == Axis::kX && part.hand == piece::Hand::kRight ? 1 : -1};
}

}  // namespace

const Direction& LaidPart::reference(Axis axis) const {
  return end.axis == axis ? end : edge.axis == axis ? edge : face;
}

Length LaidPart::from(Axis axis, Length at) const {
  return reference(axis).sign < 0 ? at - outline.begin(axis) : outline.end(axis) - at;
}

int LaidPart::handedness() const {
  // An even permutation of x, y, z is right-handed when an even number of its axes is turned.
  const auto i = static_cast<int>(end.axis);
  const auto j = static_cast<int>(edge.axis);
  const int even = (j - i + 3) % 3 == 1 ? 1 : -1;
  return even * end.sign * edge.sign * face.sign;
}

std::vector<LaidPart> ways_to_lay(const piece::Piece& piece,
                                  piece::PartIndex part,
                                  const std::vector<Direction>& cut_into) {
  const Part& one = piece.parts[part];
  const LaidPart liked{reference_side(one, one.length_axis, cut_into),
                       reference_side(one, one.width_axis(), cut_into),
                       reference_side(one, one.thickness_axis, cut_into),
                       outline_of(piece, part)};
  constexpr std::array<unsigned, 8> kTurns = {0, 1, 2, 4, 3, 5, 6, 7};  // fewest sides first
  std::vector<LaidPart> ways;
  for (const unsigned turn : kTurns) {
    LaidPart way = liked;
    way.end.sign *= (turn & 1U) != 0 ? -1 : 1;
    way.edge.sign *= (turn & 2U) != 0 ? -1 : 1;
    way.face.sign *= (turn & 4U) != 0 ? -1 : 1;
    ways.push_back(way);
  }
  return ways;
}

std::string side_name(const Part& part, Direction side) {
  constexpr std::array<std::array<const char*, 2>, 3> kWords = {
      {{"left", "right"}, {"front", "back"}, {"lower", "upper"}}};
  const char* noun = side.axis == part.length_axis      ? " end"
                     : side.axis == part.thickness_axis ? " face"
                                                        : " edge";
  return kWords[static_cast<std::size_t>(side.axis)][side.sign > 0 ? 1 : 0] + std::string{noun};
}

}  // namespace plankwright::bench
