#include "piece/kits/frame.h"

#include <algorithm>

#include <fmt/format.h>

#include "base/nearest.h"
#include "piece/kits/board.h"
#include "piece/kits/placing.h"

namespace plankwright::piece {

std::optional<FrameSide> side_of(const KitCall& call,
                                 std::string_view field,
                                 std::string_view word) {
  static constexpr std::array<std::string_view, 4> kWords = {"front", "back", "left", "right"};
  const auto found = std::ranges::find(kWords, word);
  if (found == kWords.end()) {
    if (!word.empty()) {
      call.fields.complain(field,
                           fmt::format("found `{}`, expected {}", word, base::list_words(kWords)),
                           base::nearest_word(word, std::span<const std::string_view>{kWords}));
    }
    return std::nullopt;
  }
  return kFrameSides[static_cast<std::size_t>(found - kWords.begin())];
}

Axis runs_along(FrameSide side) {
  return side == FrameSide::kFront || side == FrameSide::kBack ? Axis::kX : Axis::kY;
}

Direction outward(FrameSide side) {
  switch (side) {
    case FrameSide::kFront:
      return kToFront;
    case FrameSide::kBack:
      return kToBack;
    case FrameSide::kLeft:
      return kToLeft;
    case FrameSide::kRight:
      return kToRight;
  }
  return kToFront;
}

std::array<std::size_t, 2> legs_of(FrameSide side) {
  switch (side) {
    case FrameSide::kFront:
      return {0, 1};
    case FrameSide::kBack:
      return {2, 3};
    case FrameSide::kLeft:
      return {0, 2};
    case FrameSide::kRight:
      return {1, 3};
  }
  return {0, 1};
}

Length leg_along(const Frame& frame, FrameSide side) {
  return runs_along(side) == Axis::kX ? frame.leg_x : frame.leg_y;
}

Length leg_across(const Frame& frame, FrameSide side) {
  return runs_along(side) == Axis::kX ? frame.leg_y : frame.leg_x;
}

Box member_box(const Frame& frame, FrameSide side, const Member& member) {
  const Direction out = outward(side);
  const Axis along = runs_along(side);
  Box box = frame.box;
  box.at[along] += leg_along(frame, side);
  box.size[along] -= 2 * leg_along(frame, side);
  box.at[out.axis] = out.sign < 0 ? frame.box.begin(out.axis) + member.setback
                                  : frame.box.end(out.axis) - member.setback - member.thickness;
  box.size[out.axis] = member.thickness;
  box.at.z += member.bottom;
  box.size.z = member.height;
  return box;
}

std::string leg_name(std::size_t leg) {
  return fmt::format("{} {} leg", leg < 2 ? "front" : "back", leg % 2 == 0 ? "left" : "right");
}

void join_to_legs(const KitCall& call,
                  const Frame& frame,
                  FrameSide side,
                  PartIndex part,
                  const FrameJoint& way,
                  const Member& member) {
  const std::array<std::size_t, 2> legs = legs_of(side);
  for (const int sign : {-1, 1}) {
    const PartIndex leg = frame.legs[legs[sign < 0 ? 0 : 1]];
    Joint& joint = add_joint(call,
                             way.kind,
                             part,
                             leg,
                             {runs_along(side), sign},
                             way.length,
                             way.kind == JointKind::kDowel ? way.dowels : 1);
    joint.tongue_thickness = tenon_thickness(way, member);
    joint.tongue_width = way.kind == JointKind::kDowel ? Length{} : member.height - way.below_top;
    joint.undone = way.undone;
    joint.glued = !way.undone;
  }
}

}  // namespace plankwright::piece
