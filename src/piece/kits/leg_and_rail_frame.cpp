// Four legs and the rails between them: tables, desks, the bases of cabinets.

#include <algorithm>
#include <array>

#include <fmt/format.h>

#include "piece/kits/board.h"
#include "piece/kits/frame.h"
#include "piece/kits/kits.h"
#include "piece/kits/placing.h"

namespace plankwright::piece {
namespace {

using document::Field;
using document::FieldKind;
using document::FieldRange;

constexpr std::array<std::string_view, 3> kJoints = {"mortise_and_tenon", "loose_tenon", "dowel"};
constexpr std::array<std::string_view, 2> kCorners = {"glued", "bolted"};

document::FieldTable fields() {
  static const std::vector<Field> kFields = {
      {.key = "leg",
       .kind = FieldKind::kMap,
       .says = "The four legs",
       .required = true,
       .inner = leg_fields()},
      {.key = "rail",
       .kind = FieldKind::kMap,
       .says = "The rails, level with the tops of the legs",
       .required = true,
       .inner = rail_fields()},
      {"sides",
       FieldKind::kIdentifiers,
       "Which sides have a rail",
       false,
       "[front, back, left, right]"},
      {"open_front", FieldKind::kYesNo, "Yes leaves the front rail out, for a drawer", false, "no"},
      {.key = "front_arch",
       .kind = FieldKind::kMap,
       .says = "Arch in the lower edge of the front rail",
       .inner = arch_fields()},
      {.key = "joint",
       .kind = FieldKind::kWord,
       .says = "How the rails are held",
       .fallback = "mortise_and_tenon",
       .words = kJoints},
      {.key = "tenon",
       .kind = FieldKind::kMap,
       .says = "Its tenons or dowels",
       .inner = tenon_fields()},
      {"dowels",
       FieldKind::kCount,
       "At each end of a dowelled rail",
       false,
       "2",
       FieldRange::kPositive},
      {.key = "corner",
       .kind = FieldKind::kWord,
       .says = "Glued up for good, or held by bolts and taken apart",
       .fallback = "glued",
       .words = kCorners},
      {.key = "corner_block",
       .kind = FieldKind::kMap,
       .says = "Blocks that the bolts go through",
       .inner = corner_block_fields()},
      {.key = "cross_rail",
       .kind = FieldKind::kMap,
       .says = "Rails between front and back rail, under a top",
       .inner = cross_rail_fields()},
      {.key = "stretchers",
       .kind = FieldKind::kMap,
       .says = "Rails low between the legs",
       .inner = stretcher_fields()},
      {"glides", FieldKind::kIdentifier, "Glide of the shop, one under each leg"},
      {"drawer_bank", FieldKind::kAny, "A drawer in the open front"}};
  return kFields;
}

/// Rails and stretchers must tie all four legs together.
bool holds_together(const KitCall& call, const Frame& frame, bool centre) {
  std::array<std::size_t, kLegs> group = {0, 1, 2, 3};
  const auto tie = [&](std::size_t a, std::size_t b) {
    const std::size_t old = group[b];
    std::ranges::replace(group, old, group[a]);
  };
  for (const FrameSide side : kFrameSides) {
    if (frame.has_rail(side) || frame.stretchers[at_side(side)]) {
      tie(legs_of(side)[0], legs_of(side)[1]);
    }
  }
  if (centre) {
    tie(0, 3);
  }
  if (std::ranges::all_of(group, [&](std::size_t g) { return g == group[0]; })) {
    return true;
  }
  call.fields.complain("sides", "these rails do not tie the four legs together");
  return false;
}

// ---- Openings -----------------------------------------------------------------------------------

void add_opening(const KitCall& call, std::string name, const Box& box, std::string filled_with) {
  if (!box.empty()) {
    call.shop.piece.openings.push_back(
        {std::move(name), box, std::move(filled_with), call.fields.at()});
  }
}

std::string within(const KitCall& call, std::string_view name) {
  return call.space.name.empty() ? std::string{name} : fmt::format("{}.{}", call.space.name, name);
}

/// Where feet and knees go.
void open_below(const KitCall& call, const Frame& frame) {
  Box box = frame.box;
  box.at.x += frame.leg_x;
  box.size.x -= 2 * frame.leg_x;
  for (const auto& rail : frame.rails) {
    box.size.z = rail ? std::min(box.size.z, rail->bottom) : box.size.z;
  }
  add_opening(call, within(call, "under"), box, "");
}

/// The room for a drawer where the front rail is left out.
void open_front(const KitCall& call, const KitCall& rail, const Frame& frame) {
  const bool filled = call.fields.has("drawer_bank");
  if (!call.fields.yes("open_front")) {
    if (filled) {
      call.fields.complain("drawer_bank", "a drawer needs `open_front: yes`");
    }
    return;
  }
  const Member front = read_rail(rail, frame, FrameSide::kFront);
  const auto part = [&](FrameSide side) {
    return frame.has_rail(side) ? frame.rail_parts[at_side(side)] : Space::kNone;
  };
  Space space = call.space;
  space.name = within(call, "front");
  space.box = frame.box;
  space.box.at.x += frame.leg_x;
  space.box.size.x -= 2 * frame.leg_x;
  space.box.at.z += front.bottom;
  space.box.size.z = front.height;
  if (frame.has_rail(FrameSide::kBack)) {
    space.box.size.y =
        member_box(frame, FrameSide::kBack, frame.rail(FrameSide::kBack)).at.y - space.box.at.y;
  }
  space.left = part(FrameSide::kLeft);
  space.right = part(FrameSide::kRight);
  space.behind = part(FrameSide::kBack);
  space.below = Space::kNone;
  space.above = Space::kNone;
  add_opening(call, space.name, space.box, filled ? "drawer_bank" : "");
  fill(call.fields.node(), space, call.shop);
}

// ---- The kit ------------------------------------------------------------------------------------

void add_glides(const KitCall& call, const Frame& frame) {
  const std::string glides = call.fields.identifier("glides");
  if (fitting_of_kind(call, glides, {"glide", "leveller"}, "a glide", "glides") != nullptr) {
    add_hardware(
        call, glides, kLegs, "under the legs", {frame.legs.begin(), frame.legs.end()}, "glides");
  }
}

void add_bolts(const KitCall& call, const Frame& frame) {
  const document::Fields block = call.fields.map("corner_block");
  if (!frame.joint.undone) {
    return;
  }
  if (!call.fields.has("corner_block")) {
    call.fields.complain("corner", "bolted corners need a `corner_block`");
    return;
  }
  add_corner_blocks({block, call.space, call.shop}, frame);
}

void build(const KitCall& call) {
  const document::Fields leg_map = call.fields.map("leg");
  const document::Fields rail_map = call.fields.map("rail");
  const document::Fields tenon_map = call.fields.map("tenon");
  const document::Fields stretcher_map = call.fields.map("stretchers");
  const KitCall leg{leg_map, call.space, call.shop};
  const KitCall rail{rail_map, call.space, call.shop};
  const KitCall tenon{tenon_map, call.space, call.shop};
  const KitCall stretchers{stretcher_map, call.space, call.shop};

  Frame frame;
  frame.box = call.space.box;
  if (!read_leg_section(leg, frame) || !read_rails(call, rail, frame)) {
    return;
  }
  read_joint(call, tenon, frame);
  const bool stretched = call.fields.has("stretchers");
  if (stretched && !read_stretchers(stretchers, frame)) {
    return;
  }
  if (!tenon_section_fits(tenon, frame) || !taper_fits(leg, frame) ||
      !tenons_have_room(tenon, frame, frame.joint, frame.rails, "tenons", "length") ||
      !tenons_have_room(stretchers,
                        frame,
                        frame.stretcher_joint,
                        frame.stretchers,
                        "tenons of stretchers",
                        "tenon_length") ||
      !holds_together(call, frame, stretched && stretcher_map.yes("centre"))) {
    return;
  }
  add_legs(leg, frame);
  add_rails(rail, frame, read_arch(call, frame));
  if (stretched) {
    add_stretchers(stretchers, frame);
  }
  if (call.fields.has("cross_rail")) {
    const document::Fields cross = call.fields.map("cross_rail");
    add_cross_rails({cross, call.space, call.shop}, frame);
  }
  add_bolts(call, frame);
  add_glides(call, frame);
  open_below(call, frame);
  open_front(call, rail, frame);
}

}  // namespace

const Kit& leg_and_rail_frame_kit() {
  static const Kit kKit = {
      "leg_and_rail_frame", "Four legs with rails between them", fields(), build};
  return kKit;
}

}  // namespace plankwright::piece
