// What is added to a bare frame of legs and rails: stretchers, cross rails, corner blocks.

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

constexpr int kMostCrossRails = 20;
constexpr int kMostInCorner = 10;  // bolts or inserts
constexpr int kBlockScrews = 2;    // into each rail (common practice, no source)

Field length_field(std::string_view key, std::string_view says, bool required) {
  return {key, FieldKind::kLength, says, required, {}, FieldRange::kPositive};
}

// ---- Stretchers

std::vector<FrameSide> stretcher_sides(const KitCall& call) {
  std::vector<FrameSide> sides;
  for (const std::string& word : call.fields.identifiers("sides")) {
    if (const auto side = side_of(call, "sides", word)) {
      sides.push_back(*side);
    }
  }
  return sides;
}

bool stretcher_fits(const KitCall& call, const Frame& frame, FrameSide side, const Member& member) {
  Length rails = frame.box.size.z;
  for (const auto& rail : frame.rails) {
    rails = rail ? std::min(rails, rail->bottom) : rails;
  }
  if (member.bottom + member.height > rails) {
    does_not_fit(
        call,
        "above_floor",
        fmt::format(
            "stretchers {} high and {} above the floor reach past {}, where the rails begin",
            shown(call, member.height),
            shown(call, member.bottom),
            shown(call, rails)));
    return false;
  }
  const Length leg = leg_across(frame, side);
  if (member.setback < Length{} || member.setback + member.thickness > leg) {
    does_not_fit(call,
                 member.setback < Length{} ? "thickness" : "setback",
                 fmt::format("a stretcher {} thick stands out of a leg of {}",
                             shown(call, member.thickness),
                             shown(call, leg)));
    return false;
  }
  return member.height > Length{} && member.thickness > Length{};
}

/// A stretcher in the middle between two others.
void add_centre(const KitCall& call, const Frame& frame, const BySide<PartIndex>& parts) {
  const auto both = [&](FrameSide a, FrameSide b) {
    return parts[at_side(a)] != Space::kNone && parts[at_side(b)] != Space::kNone;
  };
  const bool between_sides = both(FrameSide::kLeft, FrameSide::kRight);
  if (!between_sides && !both(FrameSide::kFront, FrameSide::kBack)) {
    call.fields.complain(
        "centre", "a centre stretcher needs stretchers on two opposite sides to stand between");
    return;
  }
  const PartIndex low = parts[at_side(between_sides ? FrameSide::kLeft : FrameSide::kFront)];
  const PartIndex high = parts[at_side(between_sides ? FrameSide::kRight : FrameSide::kBack)];
  const Axis along = between_sides ? Axis::kX : Axis::kY;
  const Axis across = between_sides ? Axis::kY : Axis::kX;
  const Box from = call.shop.piece.parts[low].body;
  const Length thickness = from.size[along];
  Box body = from;
  body.at[along] = from.end(along);
  body.size[along] = call.shop.piece.parts[high].body.at[along] - from.end(along);
  body.at[across] = frame.box.centre()[across] - thickness / 2;
  body.size[across] = thickness;
  const PartIndex part = add_part(call,
                                  {.name = "centre stretcher",
                                   .path = "stretcher_centre",
                                   .stock = call.fields.identifier("stock"),
                                   .body = body,
                                   .length = along,
                                   .thickness = across});
  for (const auto& [other, sign] : {std::pair{low, -1}, {high, 1}}) {
    // Half way into what holds it (reference table of proportions: a half to two thirds).
    add_joint(call, JointKind::kMortiseTenon, part, other, {along, sign}, thickness / 2)
        .tongue_thickness = thickness / 3;
  }
}

// ---- Corner blocks

struct Block {
  std::string stock, bolt, insert;
  Length length, width, thickness;
  int bolts = 1, inserts = 2;
};

Block read_block(const KitCall& call) {
  Block block;
  block.stock = call.fields.identifier("stock");
  block.length = call.fields.length("length");
  block.width = call.fields.length("width");
  block.thickness = stock_thickness(call, block.stock, call.fields.length("thickness"));
  block.bolt = call.fields.identifier("bolt");
  block.bolts = count_up_to(call, "bolts", kMostInCorner);
  block.insert = call.fields.identifier("insert");
  block.inserts = count_up_to(call, "inserts", kMostInCorner);
  return block;
}

/// The two sides that meet at a leg: the one the block lies along first.
std::array<FrameSide, 2> sides_at(const Frame& frame, std::size_t leg) {
  const FrameSide end = leg < 2 ? FrameSide::kFront : FrameSide::kBack;
  const FrameSide side = leg % 2 == 0 ? FrameSide::kLeft : FrameSide::kRight;
  return frame.has_rail(side) ? std::array{side, end} : std::array{end, side};
}

/// Against the inner face of the rail and the face of the leg. In truth a block stands askew across
/// the corner and meets both rails; a body has its edges along the axes.
Box block_box(const Frame& frame, const Block& block, FrameSide along, std::size_t leg) {
  const Member& rail = frame.rail(along);
  const Box rail_box = member_box(frame, along, rail);
  const Direction out = outward(along);
  const Axis axis = runs_along(along);
  const bool at_low_end = legs_of(along)[0] == leg;
  Box box = rail_box;
  box.at[out.axis] =
      out.sign < 0 ? rail_box.end(out.axis) : rail_box.at[out.axis] - block.thickness;
  box.size[out.axis] = block.thickness;
  box.at[axis] = at_low_end ? rail_box.at[axis] : rail_box.end(axis) - block.length;
  box.size[axis] = block.length;
  box.at.z = rail_box.end(Axis::kZ) - block.width;
  box.size.z = block.width;
  return box;
}

bool block_fits(const KitCall& call, const Frame& frame, const Block& block, FrameSide along) {
  const Member& rail = frame.rail(along);
  const Length shoulder = member_box(frame, along, rail).size[runs_along(along)];
  if (block.width > rail.height) {
    does_not_fit(call,
                 "width",
                 fmt::format("the block is {} wide, its rail only {} high",
                             shown(call, block.width),
                             shown(call, rail.height)));
    return false;
  }
  if (2 * block.length > shoulder) {
    does_not_fit(call,
                 "length",
                 fmt::format("two blocks of {} do not fit along a rail of {}",
                             shown(call, block.length),
                             shown(call, shoulder)));
    return false;
  }
  return true;
}

void add_block(const KitCall& call, const Frame& frame, const Block& block, std::size_t leg) {
  const auto [along, across] = sides_at(frame, leg);
  if (!frame.has_rail(along) || !block_fits(call, frame, block, along)) {
    return;
  }
  const Axis axis = runs_along(along);
  const PartIndex part = add_part(call,
                                  {.name = "corner block",
                                   .path = fmt::format("corner_block_{}", leg + 1),
                                   .stock = block.stock,
                                   .body = block_box(frame, block, along, leg),
                                   .length = axis,
                                   .thickness = outward(along).axis});
  const Direction to_leg{axis, legs_of(along)[0] == leg ? -1 : 1};
  Joint& fixed = add_joint(call,
                           JointKind::kScrew,
                           part,
                           frame.rail_parts[at_side(along)],
                           outward(along),
                           {},
                           kBlockScrews);
  fixed.glued = true;
  if (frame.has_rail(across)) {
    add_joint(call,
              JointKind::kScrew,
              part,
              frame.rail_parts[at_side(across)],
              outward(across),
              {},
              kBlockScrews)
        .undone = true;
  }
  add_joint(call, JointKind::kBolt, part, frame.legs[leg], to_leg, {}, block.bolts).hardware =
      block.bolt;
  if (fitting_of_kind(call, block.bolt, {"leg_bolt"}, "a leg bolt", "bolt") != nullptr) {
    add_hardware(call, block.bolt, block.bolts, leg_name(leg), {part, frame.legs[leg]}, "bolt");
  }
  if (fitting_of_kind(call, block.insert, {"insert"}, "a threaded insert", "insert") != nullptr) {
    add_hardware(
        call, block.insert, block.inserts, leg_name(leg), {part, frame.legs[leg]}, "insert");
  }
}

}  // namespace

document::FieldTable stretcher_fields() {
  static const std::vector<Field> kFields = {
      {"sides", FieldKind::kIdentifiers, "Between the legs of which sides", false, "[left, right]"},
      {"stock", FieldKind::kIdentifier, "Solid stock of the stretchers", true},
      length_field("height", "From lower to upper edge", true),
      length_field("thickness", "Of the stretchers", true),
      length_field("above_floor", "From the floor to the lower edge", true),
      {"setback",
       FieldKind::kLength,
       "From the outer face of the legs (in the middle of them)",
       false,
       {},
       FieldRange::kNotNegative},
      length_field("tenon_length", "How far they reach into the legs (as the rails)", false),
      {"centre", FieldKind::kYesNo, "One more in the middle, between two of these", false, "no"}};
  return kFields;
}

bool read_stretchers(const KitCall& call, Frame& frame) {
  Member member;
  member.stock = call.fields.identifier("stock");
  member.height = call.fields.length("height");
  member.thickness = stock_thickness(call, member.stock, call.fields.length("thickness"));
  member.bottom = call.fields.length("above_floor");
  frame.stretcher_joint = frame.joint;
  frame.stretcher_joint.thickness = {};
  frame.stretcher_joint.below_top = {};
  frame.stretcher_joint.length =
      call.fields.optional_length("tenon_length").value_or(frame.joint.length);
  for (const FrameSide side : stretcher_sides(call)) {
    const Length middle = (leg_across(frame, side) - member.thickness) / 2;
    member.setback = call.fields.optional_length("setback").value_or(middle);
    if (!stretcher_fits(call, frame, side, member)) {
      return false;
    }
    frame.stretchers[at_side(side)] = member;
  }
  return true;
}

void add_stretchers(const KitCall& call, const Frame& frame) {
  static constexpr std::array<std::string_view, 4> kPaths = {
      "stretcher_front", "stretcher_back", "stretcher_left", "stretcher_right"};
  BySide<PartIndex> parts;
  parts.fill(Space::kNone);
  for (const FrameSide side : kFrameSides) {
    const auto& member = frame.stretchers[at_side(side)];
    if (!member) {
      continue;
    }
    parts[at_side(side)] = add_part(call,
                                    {.name = "stretcher",
                                     .path = std::string{kPaths[at_side(side)]},
                                     .stock = member->stock,
                                     .body = member_box(frame, side, *member),
                                     .length = runs_along(side),
                                     .thickness = outward(side).axis,
                                     .show_faces = {outward(side)}});
    join_to_legs(call, frame, side, parts[at_side(side)], frame.stretcher_joint, *member);
  }
  if (call.fields.yes("centre")) {
    add_centre(call, frame, parts);
  }
}

document::FieldTable cross_rail_fields() {
  static const std::vector<Field> kFields = {
      {"count", FieldKind::kCount, "How many, evenly spaced", false, "1", FieldRange::kPositive},
      {"stock", FieldKind::kIdentifier, "Solid stock of the cross rails", true},
      length_field("height", "From lower to upper edge, which is level with the other rails", true),
      length_field("thickness", "Of the cross rails", true),
      length_field("tenon_length", "How far they are let in (half the rail)", false)};
  return kFields;
}

void add_cross_rails(const KitCall& call, const Frame& frame) {
  if (!frame.has_rail(FrameSide::kFront) || !frame.has_rail(FrameSide::kBack)) {
    call.fields.complain("count", "a cross rail needs a front and a back rail to stand between");
    return;
  }
  const Member& front = frame.rail(FrameSide::kFront);
  const Member& back = frame.rail(FrameSide::kBack);
  const std::string stock = call.fields.identifier("stock");
  const Length height = call.fields.length("height");
  const Length thickness = stock_thickness(call, stock, call.fields.length("thickness"));
  const Length thinner = std::min(front.thickness, back.thickness);
  const Length tenon = call.fields.optional_length("tenon_length").value_or(thinner / 2);
  const int count = count_up_to(call, "count", kMostCrossRails);
  const Box shoulder = member_box(frame, FrameSide::kFront, front);
  const Length gap = (shoulder.size.x - count * thickness) / (count + 1);
  if (height > std::min(front.height, back.height)) {
    does_not_fit(call,
                 "height",
                 fmt::format("the cross rail is {} high, the rail it is let into only {}",
                             shown(call, height),
                             shown(call, std::min(front.height, back.height))));
    return;
  }
  if (tenon >= thinner && thinner > Length{}) {
    does_not_fit(call,
                 "tenon_length",
                 fmt::format("let in {}, a cross rail comes out of a rail {} thick",
                             shown(call, tenon),
                             shown(call, thinner)));
    return;
  }
  if (gap <= Length{}) {
    does_not_fit(call,
                 "count",
                 fmt::format("{} cross rails of {} do not fit between legs {} apart",
                             count,
                             shown(call, thickness),
                             shown(call, shoulder.size.x)));
    return;
  }
  for (int i = 0; i < count; ++i) {
    Box body = frame.box;
    body.at.x = shoulder.at.x + gap + i * (gap + thickness);
    body.size.x = thickness;
    body.at.y = shoulder.end(Axis::kY);
    body.size.y = member_box(frame, FrameSide::kBack, back).at.y - body.at.y;
    body.at.z = shoulder.end(Axis::kZ) - height;
    body.size.z = height;
    const PartIndex part =
        add_part(call,
                 {.name = "cross rail",
                  .path = count > 1 ? fmt::format("cross_rail_{}", i + 1) : "cross_rail",
                  .stock = stock,
                  .body = body,
                  .length = Axis::kY,
                  .thickness = Axis::kX});
    for (const auto& [side, home] :
         {std::pair{FrameSide::kFront, kToFront}, {FrameSide::kBack, kToBack}}) {
      add_joint(call, JointKind::kHousing, part, frame.rail_parts[at_side(side)], home, tenon);
    }
  }
}

document::FieldTable corner_block_fields() {
  static const std::vector<Field> kFields = {
      {"stock", FieldKind::kIdentifier, "Solid stock of the blocks", true},
      length_field("length", "Across the corner", true),
      length_field("width", "As it stands beside the rail", true),
      length_field("thickness", "Of the blocks", true),
      {"bolt", FieldKind::kIdentifier, "Leg bolt of the shop"},
      {"bolts", FieldKind::kCount, "At each corner", false, "1", FieldRange::kPositive},
      {"insert", FieldKind::kIdentifier, "Threaded insert of the shop"},
      {"inserts", FieldKind::kCount, "At each corner", false, "2"}};
  return kFields;
}

void add_corner_blocks(const KitCall& call, const Frame& frame) {
  const Block block = read_block(call);
  for (std::size_t leg = 0; leg < kLegs; ++leg) {
    add_block(call, frame, block, leg);
  }
}

}  // namespace plankwright::piece
