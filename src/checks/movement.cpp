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

/// How a top is held to what is below it.
struct Hold {
  bool fast = false;
  bool loose = false;
  Length play;  // each way, the least of all loose fastenings
};

/// The play of a clip in its slot when the joint does not say: from the fitting, else what slots
/// are usually made to, 6 mm each way (common practice, no source).
Length play_of(const Inspection& look, const piece::Joint& joint) {
  if (joint.play > Length{}) {
    return joint.play;
  }
  const shop::Hardware* fitting = look.shop.fitting(joint.hardware);
  if (fitting != nullptr) {
    const auto written = fitting->sizes.find("play");
    if (written != fitting->sizes.end()) {
      return written->second;
    }
  }
  return Length::from_mm(6);
}

/// A button is screwed to the top and slides in the rail: the top's screw holds nothing fast.
const piece::Joint* button_joint(const Inspection& look, PartIndex button) {
  const auto found = std::ranges::find_if(look.piece.joints, [&](const piece::Joint& joint) {
    return joint.kind == piece::JointKind::kButton && joint.a == button;
  });
  return found == look.piece.joints.end() ? nullptr : &*found;
}

Hold hold_of(const Inspection& look, PartIndex top) {
  Hold hold;
  const auto loosely = [&](Length play) {
    hold.play = hold.loose ? std::min(hold.play, play) : play;
    hold.loose = true;
  };
  for (const piece::Joint& joint : look.piece.joints) {
    if ((joint.a != top && joint.b != top) || joint.home.axis != Axis::kZ) {
      continue;
    }
    const piece::Joint* button = button_joint(look, joint.a == top ? joint.b : joint.a);
    if (button != nullptr) {
      loosely(button->play);
    } else if (joint.kind == piece::JointKind::kClip || joint.kind == piece::JointKind::kButton) {
      loosely(play_of(look, joint));
    } else if (joint.kind == piece::JointKind::kScrew || joint.glued) {
      hold.fast = true;
    }
  }
  return hold;
}

/// A top on clips or buttons moves both ways from where it is held; half of it at each side.
void check_top(const Inspection& look, PartIndex index, std::vector<Finding>& findings) {
  const Part& top = look.part(index);
  const Hold hold = hold_of(look, index);
  const Length play = hold.play;
  const auto moisture = look.moisture();
  const auto moved =
      change_along(look, top, top.width_axis(), top.finished.width, moisture.dry, moisture.damp);
  constexpr double kNarrow = 300;  // mm: below that, movement is lost in the fit of any fastening
  if (!moved || (!hold.loose && !hold.fast) || top.finished.width.mm() < kNarrow) {
    return;
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
  if (hold.fast && !hold.loose) {
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
    const Length play = look.rule_above(swell->change / 2);
    finding.mends.push_back({panel.from,
                             {"panel_play"},
                             joint.play,
                             play,
                             fmt::format("{} of play at each side", look.size(play))});
    findings.push_back(std::move(finding));
  } else if (shrinks > joint.depth * 2) {
    finding.severity = Severity::kPoor;
    finding.title = fmt::format("The {} will come out of its grooves in dry air", panel.name);
    finding.figure = fmt::format("shrinks {}", look.fine(shrinks));
    finding.limit = fmt::format("{} hold in both grooves", look.fine(joint.depth * 2));
    finding.value = shrinks.mm();
    finding.limit_value = joint.depth.mm() * 2;
    finding.remedy = "deeper grooves, or a narrower panel";
    const Length depth = look.rule_above(shrinks / 2);
    finding.mends.push_back({panel.from,
                             {"tongue"},
                             joint.depth,
                             depth,
                             fmt::format("grooves {} deep", look.size(depth))});
    findings.push_back(std::move(finding));
  }
}

/// The gap above and below a front together: what is left between its neighbours. Nothing when it
/// has no neighbour above or below, as an overlay front.
std::optional<Length> gap_around(const Inspection& look, PartIndex index) {
  const measure::Box& front = look.part(index).body;
  std::optional<Length> ceiling;
  std::optional<Length> floor;
  for (PartIndex i = 0; i < look.piece.parts.size(); ++i) {
    const measure::Box& other = look.part(i).body;
    const measure::Box shared = measure::intersection(front, other);
    if (i == index || shared.size.x <= Length{} || shared.size.y <= Length{}) {
      continue;
    }
    if (other.begin(Axis::kZ) >= front.end(Axis::kZ)) {
      ceiling = std::min(ceiling.value_or(other.begin(Axis::kZ)), other.begin(Axis::kZ));
    } else if (other.end(Axis::kZ) <= front.begin(Axis::kZ)) {
      floor = std::max(floor.value_or(other.end(Axis::kZ)), other.end(Axis::kZ));
    }
  }
  return ceiling && floor ? std::optional{*ceiling - *floor - front.size.z} : std::nullopt;
}

/// An inset front in its opening, and how it moves there.
struct MovingFront {
  PartIndex index = 0;
  Length gap;
  wood::Movement whole;  // from the driest to the dampest
  Length swell;          // from the shop's moisture to the dampest
};

/// The front when its movement takes more than half of the gap around it.
std::optional<MovingFront> tight_front(const Inspection& look, PartIndex index) {
  const Part& front = look.part(index);
  const std::optional<Length> gap = gap_around(look, index);
  if (!gap || *gap <= Length{} || front.width_axis() != Axis::kZ) {
    return std::nullopt;
  }
  const auto moisture = look.moisture();
  const auto change = [&](measure::Percent from) {
    return change_along(look, front, Axis::kZ, front.finished.width, from, moisture.damp);
  };
  const auto whole = change(moisture.dry);
  const auto swell = change(moisture.shop);
  if (!whole || !swell || whole->change * 2 < *gap) {
    return std::nullopt;
  }
  return MovingFront{index, *gap, *whole, swell->change};
}

/// Inset fronts with their grain across the opening move in height. The tightest one is reported.
void check_fronts(const Inspection& look, std::vector<Finding>& findings) {
  std::vector<MovingFront> tight;
  for (const piece::Drawer& drawer : look.piece.drawers) {
    if (const auto front =
            drawer.parts.empty() ? std::nullopt : tight_front(look, drawer.parts.front())) {
      tight.push_back(*front);
    }
  }
  if (tight.empty()) {
    return;
  }
  const MovingFront& worst = *std::ranges::max_element(
      tight, {}, [](const MovingFront& f) { return f.whole.change / f.gap; });
  const auto moisture = look.moisture();
  const Length change = worst.whole.change;
  Finding finding;
  finding.id = fmt::format("movement.{}", look.part(worst.index).path);
  finding.kind = "movement";
  finding.severity = change >= worst.gap ? Severity::kFails : Severity::kPoor;
  finding.title = tight.size() == 1
                      ? "The gap at an inset front closes and opens with the seasons"
                      : fmt::format("The gaps at {} inset fronts close and open with the seasons",
                                    tight.size());
  finding.figure = fmt::format(
      "{}: {} between {:.1f} and {:.1f} % moisture; built dry its gap closes to {}, built wet it "
      "opens to {}",
      look.part(worst.index).name,
      look.fine(change),
      moisture.dry.count(),
      moisture.damp.count(),
      look.fine(worst.gap - change),
      look.fine(worst.gap + change));
  finding.limit = fmt::format("{} gap in all", look.fine(worst.gap));
  finding.value = change.mm();
  finding.limit_value = worst.gap.mm();
  finding.unit = "mm";
  finding.source = wood::print(worst.whole.from);
  finding.remedy = fmt::format(
      "fit each for the day: from the shop's {:.1f} % it will still swell {}, so leave at least {} "
      "above it",
      moisture.shop.count(),
      look.fine(worst.swell),
      look.fine(worst.swell + worst.gap / 4));
  const Length reveal = worst.gap / 2;
  // Tight is a front whose movement takes half of its gap.
  const Length wider = look.rule_above(change + Length::from_nm(1));
  finding.mends.push_back({look.part(worst.index).from,
                           {"reveal"},
                           reveal,
                           wider,
                           fmt::format("a reveal of {} all round", look.size(wider))});
  for (const MovingFront& front : tight) {
    finding.parts.push_back(front.index);
  }
  finding.from = look.part(worst.index).from;
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
    if (look.part(i).kit == "slab" && look.part(i).thickness_axis == Axis::kZ) {
      check_top(look, i, findings);
    }
  }
  for (const piece::Joint& joint : look.piece.joints) {
    check_panel(look, joint, findings);
    check_cross_grain(look, joint, findings);
  }
  check_fronts(look, findings);
  check_acclimatising(look, findings);
}

}  // namespace plankwright::checks
