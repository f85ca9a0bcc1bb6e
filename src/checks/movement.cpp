// Wood gets wider in damp air and narrower in dry. Where the movement has no room, it makes some.

#include "wood/movement.h"

#include <algorithm>
#include <cmath>
#include <optional>

#include <fmt/format.h>

#include "checks/report.h"

namespace plankwright::checks {
namespace {

/// How a solid part's width (or the size along `axis`) differs between two moistures.
std::optional<wood::Movement> change_along(const Inspection& look,
                                           const Part& part,
                                           Axis axis,
                                           Length size,
                                           measure::Percent from,
                                           measure::Percent to) {
  const wood::Species* species = look.wood.species.get(part.species);
  if (species == nullptr || part.material != piece::Material::kSolid) {
    return std::nullopt;
  }
  const auto parsed = wood::parse_cut(part.cut_kind);
  const wood::Cut cut = parsed.ok() ? parsed.value() : wood::Cut::kFlatSawn;
  const wood::Side side = axis == part.length_axis      ? wood::Side::kLength
                          : axis == part.thickness_axis ? wood::Side::kThickness
                                                        : wood::Side::kWidth;
  const auto moved = wood::movement(*species, side, cut, size, from, to);
  return moved.ok() ? std::optional{moved.value()} : std::nullopt;
}

Length absolute(Length length) {
  return length < Length{} ? -length : length;
}

/// A top on clips or buttons moves both ways from where it is held; half of it at each side.
void check_top(const Inspection& look, PartIndex index, std::vector<Finding>& findings) {
  const Part& top = look.part(index);
  Length play;
  bool held_loosely = false;
  bool held_fast = false;
  for (const piece::Joint& joint : look.piece.joints) {
    if ((joint.a != index && joint.b != index) || joint.home.axis != Axis::kZ) {
      continue;
    }
    const bool loose =
        joint.kind == piece::JointKind::kClip || joint.kind == piece::JointKind::kButton;
    held_loosely = held_loosely || loose;
    held_fast = held_fast || joint.kind == piece::JointKind::kScrew || joint.glued;
    play = loose ? std::max(play, joint.play) : play;
  }
  const auto moisture = look.moisture();
  const auto moved =
      change_along(look, top, top.width_axis(), top.finished.width, moisture.dry, moisture.damp);
  if (!moved || (!held_loosely && !held_fast) || top.finished.width < Length::from_mm(300)) {
    return;
  }
  if (play == Length{}) {
    if (const shop::Hardware* clip = look.shop.fitting("top_clip"); clip && held_loosely) {
      const auto slot = clip->sizes.find("play");
      play = slot != clip->sizes.end() ? slot->second : Length::from_mm(6);
    }
  }
  const Length each_side = moved->change / 2;
  Finding finding;
  finding.id = fmt::format("movement.{}", top.path);
  finding.kind = "movement";
  finding.parts = {index};
  finding.from = top.from;
  finding.value = each_side.mm();
  finding.limit_value = play.mm();
  finding.unit = "mm";
  finding.source = wood::print(moved->from);
  finding.figure = fmt::format("{} between {:.1f} and {:.1f} % moisture, {} at each side",
                               look.fine(moved->change),
                               moisture.dry.count(),
                               moisture.damp.count(),
                               look.fine(each_side));
  if (held_fast && !held_loosely) {
    finding.severity = Severity::kFails;
    finding.title = fmt::format("The {} is held fast and cannot move", top.name);
    finding.limit = "no play";
    finding.remedy = "hold it with clips or buttons in slots, fast in the middle only";
    findings.push_back(std::move(finding));
  } else if (each_side > play) {
    finding.severity = Severity::kFails;
    finding.title = fmt::format("The {} moves more than its fastenings allow", top.name);
    finding.limit = fmt::format("{} play each way", look.fine(play));
    finding.remedy = fmt::format("slots with {} play each way, or quarter-sawn boards",
                                 look.size(Length::from_mm(std::ceil(each_side.mm() + 1))));
    findings.push_back(std::move(finding));
  } else if (each_side * 4 > play * 3) {
    finding.severity = Severity::kNote;
    finding.title =
        fmt::format("The {} needs its fastenings set near the middle of their play", top.name);
    finding.limit = fmt::format("{} play each way", look.fine(play));
    finding.remedy = fmt::format("set them for the day's moisture; the shop is at {:.1f} % now",
                                 moisture.shop.count());
    findings.push_back(std::move(finding));
  }
}

/// A panel floats in its groove; swollen, it must not push the frame apart, dry it must not show.
void check_panel(const Inspection& look,
                 const piece::Joint& joint,
                 std::vector<Finding>& findings) {
  const Part& panel = look.part(joint.a);
  if (!panel.moves_free || joint.kind != piece::JointKind::kGroove ||
      joint.home.axis != panel.width_axis() || joint.home.sign < 0) {
    return;
  }
  const auto moisture = look.moisture();
  const auto swell = change_along(
      look, panel, panel.width_axis(), panel.finished.width, moisture.shop, moisture.damp);
  const auto shrink = change_along(
      look, panel, panel.width_axis(), panel.finished.width, moisture.shop, moisture.dry);
  if (!swell || !shrink) {
    return;
  }
  const Length room = joint.play * 2;
  const Length shrinks = absolute(shrink->change);
  Finding finding;
  finding.id = fmt::format("movement.{}", panel.path);
  finding.kind = "movement";
  finding.parts = {joint.a};
  finding.from = panel.from;
  finding.source = wood::print(swell->from);
  finding.unit = "mm";
  if (swell->change > room) {
    finding.severity = Severity::kFails;
    finding.title = fmt::format("The {} will push its frame apart in damp air", panel.name);
    finding.figure = fmt::format("swells {}", look.fine(swell->change));
    finding.limit = fmt::format("{} room in both grooves", look.fine(room));
    finding.value = swell->change.mm();
    finding.limit_value = room.mm();
    finding.remedy = fmt::format("leave {} at each side today", look.fine(swell->change / 2));
    findings.push_back(std::move(finding));
  } else if (shrinks > joint.depth * 2) {
    finding.severity = Severity::kPoor;
    finding.title = fmt::format("The {} will come out of its grooves in dry air", panel.name);
    finding.figure = fmt::format("shrinks {}", look.fine(shrinks));
    finding.limit = fmt::format("{} hold in both grooves", look.fine(joint.depth * 2));
    finding.value = shrinks.mm();
    finding.limit_value = joint.depth.mm() * 2;
    finding.remedy = "deeper grooves, or a narrower panel";
    findings.push_back(std::move(finding));
  }
}

/// The opening that a front or a door stands in, by its place.
const piece::Opening* opening_of(const Inspection& look, const Part& front) {
  for (const piece::Opening& opening : look.piece.openings) {
    const auto shared = measure::intersection(opening.box, front.body);
    if (shared.size.x > Length{} && shared.size.y > Length{} && shared.size.z > Length{}) {
      return &opening;
    }
  }
  return nullptr;
}

/// An inset front with its grain across the opening moves in height: the gap must hold the swelling
/// from the driest day it may be fitted on.
void check_front(const Inspection& look,
                 const piece::Drawer& drawer,
                 std::vector<Finding>& findings) {
  if (drawer.parts.empty()) {
    return;
  }
  const PartIndex index = drawer.parts.front();
  const Part& front = look.part(index);
  const piece::Opening* opening = opening_of(look, front);
  if (opening == nullptr || front.width_axis() != Axis::kZ) {
    return;
  }
  const Length gap = opening->box.size.z - front.body.size.z;
  const auto moisture = look.moisture();
  const auto whole =
      change_along(look, front, Axis::kZ, front.finished.width, moisture.dry, moisture.damp);
  const auto swell =
      change_along(look, front, Axis::kZ, front.finished.width, moisture.shop, moisture.damp);
  if (!whole || !swell || gap <= Length{} || whole->change * 2 < gap) {
    return;
  }
  Finding finding;
  finding.id = fmt::format("movement.{}", front.path);
  finding.kind = "movement";
  finding.severity = whole->change >= gap ? Severity::kFails : Severity::kPoor;
  finding.title = fmt::format("The gap at {} closes and opens with the seasons", front.name);
  finding.figure = fmt::format(
      "{} between {:.1f} and {:.1f} % moisture: built dry the gap closes "
      "to {}, built wet it opens to {}",
      look.fine(whole->change),
      moisture.dry.count(),
      moisture.damp.count(),
      look.fine(gap - whole->change),
      look.fine(gap + whole->change));
  finding.limit = fmt::format("{} gap in all", look.fine(gap));
  finding.value = whole->change.mm();
  finding.limit_value = gap.mm();
  finding.unit = "mm";
  finding.source = wood::print(whole->from);
  finding.remedy = fmt::format(
      "fit it for the day: at the shop's {:.1f} % it will still swell {}, "
      "so leave at least {} above it",
      moisture.shop.count(),
      look.fine(swell->change),
      look.fine(swell->change + gap / 4));
  finding.parts = {index};
  finding.from = front.from;
  findings.push_back(std::move(finding));
}

/// Two solid parts glued so that their grain crosses move against each other.
void check_cross_grain(const Inspection& look,
                       const piece::Joint& joint,
                       std::vector<Finding>& findings) {
  const Part& a = look.part(joint.a);
  const Part& b = look.part(joint.b);
  const bool bonded =
      joint.glued &&
      (joint.kind == piece::JointKind::kEdgeGlue || joint.kind == piece::JointKind::kFaceGlue ||
       joint.kind == piece::JointKind::kHousing || joint.kind == piece::JointKind::kRabbet);
  if (!bonded || (a.material != piece::Material::kSolid && b.material != piece::Material::kSolid)) {
    return;
  }
  const auto moisture = look.moisture();
  for (const Axis axis : {Axis::kX, Axis::kY, Axis::kZ}) {
    const Length bonded_length = joint.contact.size[axis];
    if (axis == joint.home.axis || bonded_length < Length::from_mm(50)) {
      continue;
    }
    const auto move_a = change_along(look, a, axis, bonded_length, moisture.dry, moisture.damp);
    const auto move_b = change_along(look, b, axis, bonded_length, moisture.dry, moisture.damp);
    const Length difference =
        absolute((move_a ? move_a->change : Length{}) - (move_b ? move_b->change : Length{}));
    const Length limit = Length::from_mm(0.8);  // common practice, no source
    if (difference <= limit) {
      continue;
    }
    Finding finding;
    finding.id = fmt::format("cross_grain.{}", a.path);
    finding.kind = "movement";
    finding.severity = difference > limit * 3 ? Severity::kFails : Severity::kPoor;
    finding.title = fmt::format("{} and {} are glued across each other's grain", a.name, b.name);
    finding.figure = fmt::format(
        "they move {} against each other over {}", look.fine(difference), look.size(bonded_length));
    finding.limit = look.fine(limit);
    finding.value = difference.mm();
    finding.limit_value = limit.mm();
    finding.unit = "mm";
    finding.source = fmt::format("common practice, no source; movement {}",
                                 wood::print((move_a ? move_a : move_b)->from));
    finding.remedy = "glue a hand's width at one place only and let the rest slide";
    finding.parts = {joint.a, joint.b};
    finding.from = a.from;
    findings.push_back(std::move(finding));
  }
}

/// Wood that comes from the shop's air into the room's dries or swells on arrival.
void check_acclimatising(const Inspection& look, std::vector<Finding>& findings) {
  const auto moisture = look.moisture();
  const double outside = std::max(moisture.dry.count() - moisture.shop.count(),
                                  moisture.shop.count() - moisture.damp.count());
  if (outside <= 0.5) {
    return;
  }
  Finding finding;
  finding.id = "movement.shop_air";
  finding.kind = "movement";
  finding.severity = Severity::kPoor;
  finding.title = "The shop's air is outside what the room will see";
  finding.figure = fmt::format("wood comes to {:.1f} % in the shop", moisture.shop.count());
  finding.limit =
      fmt::format("{:.1f} to {:.1f} % in the room", moisture.dry.count(), moisture.damp.count());
  finding.value = moisture.shop.count();
  finding.limit_value = moisture.damp.count();
  finding.unit = "percent";
  finding.source = "Hailwood-Horrobin equation, Wood Handbook (WH5, verified against the table)";
  finding.remedy = "let the stock and the parts rest in air like the room's";
  findings.push_back(std::move(finding));
}

}  // namespace

void check_movement(const Inspection& look, std::vector<Finding>& findings) {
  for (PartIndex i = 0; i < look.piece.parts.size(); ++i) {
    if (look.part(i).thickness_axis == Axis::kZ &&
        look.part(i).material == piece::Material::kSolid) {
      check_top(look, i, findings);
    }
  }
  for (const piece::Joint& joint : look.piece.joints) {
    check_panel(look, joint, findings);
    check_cross_grain(look, joint, findings);
  }
  for (const piece::Drawer& drawer : look.piece.drawers) {
    check_front(look, drawer, findings);
  }
  check_acclimatising(look, findings);
}

}  // namespace plankwright::checks
