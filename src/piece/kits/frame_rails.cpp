// The rails of a frame, one of them arched.

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

constexpr std::array<std::string_view, 2> kArchWays = {"sawn", "bent"};

constexpr std::array kRailFields = {
    Field{"stock", FieldKind::kIdentifier, "Solid stock of the rails", true},
    Field{
        "height", FieldKind::kLength, "From lower to upper edge", true, {}, FieldRange::kPositive},
    Field{"thickness", FieldKind::kLength, "Of the rails", true, {}, FieldRange::kPositive},
    Field{"setback",
          FieldKind::kLength,
          "From the outer face of the legs to the rail",
          false,
          "0",
          FieldRange::kNotNegative},
    Field{"front_stock", FieldKind::kIdentifier, "Of the front rail, when it differs"},
    Field{"back_stock", FieldKind::kIdentifier, "Of the back rail, when it differs"},
    Field{"side_stock", FieldKind::kIdentifier, "Of the side rails, when it differs"},
    Field{
        "front_height", FieldKind::kLength, "Of the front rail", false, {}, FieldRange::kPositive},
    Field{"back_height", FieldKind::kLength, "Of the back rail", false, {}, FieldRange::kPositive},
    Field{"side_height", FieldKind::kLength, "Of the side rails", false, {}, FieldRange::kPositive},
    Field{"front_thickness",
          FieldKind::kLength,
          "Of the front rail",
          false,
          {},
          FieldRange::kPositive},
    Field{
        "back_thickness", FieldKind::kLength, "Of the back rail", false, {}, FieldRange::kPositive},
    Field{"side_thickness",
          FieldKind::kLength,
          "Of the side rails",
          false,
          {},
          FieldRange::kPositive},
    Field{"front_setback",
          FieldKind::kLength,
          "Of the front rail",
          false,
          {},
          FieldRange::kNotNegative},
    Field{"back_setback",
          FieldKind::kLength,
          "Of the back rail",
          false,
          {},
          FieldRange::kNotNegative},
    Field{"side_setback",
          FieldKind::kLength,
          "Of the side rails",
          false,
          {},
          FieldRange::kNotNegative}};

constexpr std::array kArchFields = {
    Field{"rise",
          FieldKind::kLength,
          "Height of the arch over its ends",
          true,
          {},
          FieldRange::kPositive},
    Field{"span", FieldKind::kLength, "Width of the arch", true, {}, FieldRange::kPositive},
    Field{.key = "way",
          .kind = FieldKind::kWord,
          .says = "Sawn from one board, or bent from thin layers",
          .fallback = "sawn",
          .words = kArchWays}};

/// One of the overrides `front_height`, `side_setback` ..., else the value for all rails.
Length rail_length(const KitCall& rail, std::string_view of, std::string_view key) {
  const std::string own = fmt::format("{}_{}", of, key);
  return rail.fields.optional_length(own).value_or(rail.fields.length(key));
}

bool rail_fits(const KitCall& rail, const Frame& frame, FrameSide side, const Member& member) {
  if (member.bottom < Length{}) {
    does_not_fit(rail,
                 "height",
                 fmt::format("the rail is {} high, its legs only {}",
                             shown(rail, member.height),
                             shown(rail, frame.box.size.z)));
    return false;
  }
  const Length leg = leg_across(frame, side);
  if (member.setback + member.thickness > leg) {
    does_not_fit(rail,
                 "setback",
                 fmt::format("a rail {} thick and {} back from the face stands out of a leg of {}",
                             shown(rail, member.thickness),
                             shown(rail, member.setback),
                             shown(rail, leg)));
    return false;
  }
  return member.height > Length{} && member.thickness > Length{};
}

bool alike(const std::optional<Member>& a, const std::optional<Member>& b) {
  return a && b && a->stock == b->stock && a->height == b->height && a->thickness == b->thickness;
}

/// Like rails have like names: long and short ones, or by their sides.
std::string rail_name(const Frame& frame, FrameSide side, bool arched) {
  const bool front_like_back = !arched && alike(frame.rails[at_side(FrameSide::kFront)],
                                                frame.rails[at_side(FrameSide::kBack)]);
  const bool along_x = runs_along(side) == Axis::kX;
  if (front_like_back) {
    const Length x = frame.box.size.x - 2 * frame.leg_x;
    const Length y = frame.box.size.y - 2 * frame.leg_y;
    return x == y ? "rail" : along_x == (x > y) ? "long rail" : "short rail";
  }
  if (!along_x) {
    return "side rail";
  }
  return side == FrameSide::kBack ? "back rail" : arched ? "arched front rail" : "front rail";
}

}  // namespace

document::FieldTable rail_fields() {
  return kRailFields;
}

document::FieldTable arch_fields() {
  return kArchFields;
}

Member read_rail(const KitCall& rail, const Frame& frame, FrameSide side) {
  const std::string_view of = side == FrameSide::kFront  ? "front"
                              : side == FrameSide::kBack ? "back"
                                                         : "side";
  Member member;
  const std::string own = rail.fields.identifier(fmt::format("{}_stock", of));
  member.stock = own.empty() ? rail.fields.identifier("stock") : own;
  member.height = rail_length(rail, of, "height");
  member.thickness = stock_thickness(rail, member.stock, rail_length(rail, of, "thickness"));
  member.setback = rail_length(rail, of, "setback");
  member.bottom = frame.box.size.z - member.height;
  return member;
}

bool read_rails(const KitCall& call, const KitCall& rail, Frame& frame) {
  for (const std::string& word : call.fields.identifiers("sides")) {
    const auto side = side_of(call, "sides", word);
    if (!side || (*side == FrameSide::kFront && call.fields.yes("open_front"))) {
      continue;
    }
    const Member member = read_rail(rail, frame, *side);
    if (!rail_fits(rail, frame, *side, member)) {
      return false;
    }
    frame.rails[at_side(*side)] = member;
  }
  return true;
}

/// The arch in the front rail, when there is one and it can be made.
std::optional<Arch> read_arch(const KitCall& call, const Frame& frame) {
  if (!call.fields.has("front_arch")) {
    return std::nullopt;
  }
  const document::Fields arch_fields = call.fields.map("front_arch");
  const KitCall arch{arch_fields, call.space, call.shop};
  if (!frame.has_rail(FrameSide::kFront)) {
    arch_fields.complain("rise", "there is no front rail for this arch");
    return std::nullopt;
  }
  const Length rise = arch_fields.length("rise");
  const Length span = arch_fields.length("span");
  const Length height = frame.rail(FrameSide::kFront).height;
  const Length shoulder =
      member_box(frame, FrameSide::kFront, frame.rail(FrameSide::kFront)).size.x;
  // Less than a third is weak, and short in the grain beside the arch (common practice, no source).
  if (3 * (height - rise) < height) {
    does_not_fit(
        arch,
        "rise",
        rise >= height
            ? fmt::format("an arch that rises {} cuts through a rail {} high",
                          shown(call, rise),
                          shown(call, height))
            : fmt::format("an arch that rises {} leaves {} of a rail {} high, less than a third",
                          shown(call, rise),
                          shown(call, height - rise),
                          shown(call, height)));
    return std::nullopt;
  }
  if (span > shoulder) {
    does_not_fit(arch,
                 "span",
                 fmt::format("an arch of {} is wider than the {} between the legs",
                             shown(call, span),
                             shown(call, shoulder)));
    return std::nullopt;
  }
  return Arch{kDown, span, rise, arch_fields.word("way") == "bent"};
}

void add_rails(const KitCall& rail, Frame& frame, const std::optional<Arch>& arch) {
  static constexpr BySide<std::string_view> kPaths = {
      "rail_front", "rail_back", "rail_left", "rail_right"};
  for (const FrameSide side : kFrameSides) {
    if (!frame.has_rail(side)) {
      continue;
    }
    const Member& member = frame.rail(side);
    const PartIndex part = add_part(rail,
                                    {.name = rail_name(frame, side, arch.has_value()),
                                     .path = std::string{kPaths[at_side(side)]},
                                     .stock = member.stock,
                                     .body = member_box(frame, side, member),
                                     .length = runs_along(side),
                                     .thickness = outward(side).axis,
                                     .show_faces = {outward(side)}});
    if (side == FrameSide::kFront && arch) {
      rail.shop.piece.parts[part].arch = arch;
      rail.shop.piece.parts[part].risky = true;
    }
    frame.rail_parts[at_side(side)] = part;
    join_to_legs(rail, frame, side, part, frame.joint, member);
  }
}

}  // namespace plankwright::piece
