// How rails and stretchers are held by the legs, and whether there is room for it.

#include <algorithm>
#include <array>

#include <fmt/format.h>

#include "piece/kits/board.h"
#include "piece/kits/frame.h"
#include "piece/kits/placing.h"

namespace plankwright::piece {
namespace {

using document::Field;
using document::FieldKind;
using document::FieldRange;

constexpr int kMostDowels = 10;

constexpr std::array kTenonFields = {
    Field{"length",
          FieldKind::kLength,
          "How far it reaches into the leg (half the leg, or as far as there is room)",
          false,
          {},
          FieldRange::kPositive},
    Field{"thickness",
          FieldKind::kLength,
          "Of tenon, loose tenon or dowel (a third of the rail)",
          false,
          {},
          FieldRange::kPositive},
    Field{"below_top",
          FieldKind::kLength,
          "Shoulder above the tenon, so that the leg stays whole at its top (its thickness)",
          false,
          {},
          FieldRange::kNotNegative},
    Field{"mitred", FieldKind::kYesNo, "Ends mitred where two tenons meet in a leg", false, "no"}};

/// Longest tenon that has room in every leg.
struct Room {
  Length longest;
  std::size_t leg = 0;
};

Room room_for_tenons(const Frame& frame,
                     const FrameJoint& joint,
                     const BySide<std::optional<Member>>& members) {
  Room room{std::min(frame.leg_x, frame.leg_y)};
  for (std::size_t leg = 0; leg < kLegs; ++leg) {
    const auto& end = members[at_side(leg < 2 ? FrameSide::kFront : FrameSide::kBack)];
    const auto& side = members[at_side(leg % 2 == 0 ? FrameSide::kLeft : FrameSide::kRight)];
    if (!end || !side) {
      continue;
    }
    const Length longest = longest_tenon(joint, *end, *side, frame.leg_x, frame.leg_y);
    if (longest < room.longest) {
      room = {longest, leg};
    }
  }
  return room;
}

}  // namespace

document::FieldTable tenon_fields() {
  return kTenonFields;
}

void read_joint(const KitCall& call, const KitCall& tenon, Frame& frame) {
  FrameJoint& joint = frame.joint;
  const std::string word = call.fields.word("joint");
  joint.kind = word == "dowel"         ? JointKind::kDowel
               : word == "loose_tenon" ? JointKind::kLooseTenon
                                       : JointKind::kMortiseTenon;
  joint.thickness = tenon.fields.optional_length("thickness").value_or(Length{});
  joint.mitred = tenon.fields.yes("mitred");
  joint.dowels = count_up_to(call, "dowels", kMostDowels);
  joint.undone = call.fields.word("corner") == "bolted";
  const Length usual = std::min(
      {frame.leg_x / 2, frame.leg_y / 2, room_for_tenons(frame, joint, frame.rails).longest});
  joint.length = tenon.fields.optional_length("length").value_or(usual);
  const auto first =
      std::ranges::find_if(frame.rails, [](const auto& rail) { return rail.has_value(); });
  const Length thickness = first == frame.rails.end() ? Length{} : tenon_thickness(joint, **first);
  joint.below_top = tenon.fields.optional_length("below_top").value_or(thickness);
}

bool tenon_section_fits(const KitCall& tenon, const Frame& frame) {
  for (const auto& rail : frame.rails) {
    if (!rail) {
      continue;
    }
    if (frame.joint.thickness >= rail->thickness) {
      does_not_fit(tenon,
                   "thickness",
                   fmt::format("a tenon {} thick leaves no shoulder on a rail of {}",
                               shown(tenon, frame.joint.thickness),
                               shown(tenon, rail->thickness)));
      return false;
    }
    if (frame.joint.below_top >= rail->height) {
      does_not_fit(tenon,
                   "below_top",
                   fmt::format("a shoulder of {} leaves no tenon on a rail {} high",
                               shown(tenon, frame.joint.below_top),
                               shown(tenon, rail->height)));
      return false;
    }
  }
  return true;
}

/// Two tenons that would run into each other in a leg, or one that comes out of it. Dowels can be
/// set at different heights.
bool tenons_have_room(const KitCall& tenon,
                      const Frame& frame,
                      const FrameJoint& joint,
                      const BySide<std::optional<Member>>& members,
                      std::string_view what,
                      std::string_view field) {
  const Length thinner = std::min(frame.leg_x, frame.leg_y);
  if (joint.length >= thinner) {
    does_not_fit(tenon,
                 field,
                 fmt::format("{} of {} come out of a leg of {}",
                             what,
                             shown(tenon, joint.length),
                             shown(tenon, thinner)));
    return false;
  }
  const Room room = room_for_tenons(frame, joint, members);
  if (joint.kind == JointKind::kDowel || joint.length <= room.longest) {
    return true;
  }
  FrameJoint mitred = joint;
  mitred.mitred = true;
  const Length with_mitres = room_for_tenons(frame, mitred, members).longest;
  does_not_fit(
      tenon,
      field,
      fmt::format("{} of {} meet in the {}: {} is the longest that fits{}",
                  what,
                  shown(tenon, joint.length),
                  leg_name(room.leg),
                  shown(tenon, room.longest),
                  joint.mitred || with_mitres <= room.longest
                      ? ""
                      : fmt::format(", {} with `mitred: yes`", shown(tenon, with_mitres))));
  return false;
}

}  // namespace plankwright::piece
