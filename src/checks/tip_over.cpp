// A free-standing piece with everything open and a child hanging on it must not come down. These
// are moments about the front foot line, not a test to the standard: an anchor is always the safe
// answer.

#include <algorithm>
#include <limits>

#include <fmt/format.h>

#include "checks/report.h"
#include "wood/stability.h"

namespace plankwright::checks {
namespace {

/// The line of the front feet: the front of the lowest parts.
Length front_foot_line(const piece::Piece& piece) {
  Length front = piece.overall.size.y;
  for (const Part& part : piece.parts) {
    if (part.body.begin(Axis::kZ) <= Length::from_mm(1)) {
      front = std::min(front, part.body.begin(Axis::kY));
    }
  }
  return front;
}

measure::Kilograms mass_of(const piece::Piece& piece, const std::vector<PartIndex>& parts) {
  measure::Kilograms mass;
  for (const PartIndex i : parts) {
    mass += piece.parts[i].mass;
  }
  return mass;
}

/// Everything that bears down with all drawers out and full, and all doors wide open.
struct OpenPiece {
  std::vector<wood::Bearing> loads;
  Length furthest_front;  // of the drawer that comes out furthest, ahead of the foot line
  Length height_of_furthest;
  measure::CubicMillimetres enclosed;
  bool opens = false;
};

void add_drawers(const Inspection& look, Length foot, OpenPiece& open, std::vector<bool>& moves) {
  const double density = look.wood.storage_rule.contents_density.value.count();
  for (const piece::Drawer& drawer : look.piece.drawers) {
    const measure::Kilograms contents{measure::cubic_metres(measure::volume(drawer.inside)) *
                                      density};
    const measure::Kilograms all = mass_of(look.piece, drawer.parts) + contents;
    const measure::Point centre = drawer.inside.centre();
    open.loads.push_back(
        {drawer.path, wood::weight(all), foot - (centre.y - drawer.travel), centre.z});
    open.enclosed += measure::volume(drawer.inside);
    Length front = drawer.inside.at.y;
    for (const PartIndex i : drawer.parts) {
      front = std::min(front, look.part(i).body.begin(Axis::kY));
      moves[i] = true;
    }
    const Length ahead = foot - (front - drawer.travel);
    if (ahead > open.furthest_front) {
      open.furthest_front = ahead;
      open.height_of_furthest = centre.z;
    }
    open.opens = true;
  }
}

void add_doors(const Inspection& look, Length foot, OpenPiece& open, std::vector<bool>& moves) {
  for (const piece::Door& door : look.piece.doors) {
    const Length reach = door.leaf.size.x / 2;
    open.loads.push_back({door.path,
                          wood::weight(mass_of(look.piece, door.parts)),
                          foot - door.leaf.at.y + reach,
                          door.leaf.centre().z});
    for (const PartIndex i : door.parts) {
      moves[i] = true;
    }
    open.opens = true;
  }
}

OpenPiece open_everything(const Inspection& look, Length foot) {
  OpenPiece open;
  std::vector<bool> moves(look.piece.parts.size(), false);
  add_drawers(look, foot, open, moves);
  add_doors(look, foot, open, moves);
  for (PartIndex i = 0; i < look.piece.parts.size(); ++i) {
    if (!moves[i]) {
      const Part& part = look.part(i);
      open.loads.push_back(
          {part.path, wood::weight(part.mass), foot - part.centre.y, part.centre.z});
    }
  }
  return open;
}

Finding finding_of(const std::string& id, Severity severity, const wood::Balance& balance) {
  Finding finding;
  finding.id = id;
  finding.kind = "tip_over";
  finding.severity = severity;
  finding.figure = fmt::format("holds {:.0f} Nm against {:.0f} Nm that tip it: {:.2f}",
                               balance.steadying.count() / 1000,
                               balance.tipping.count() / 1000,
                               balance.margin);
  finding.limit = "1.0, better 1.5";
  finding.value = balance.margin;
  finding.limit_value = 1.0;
  finding.unit = "ratio";
  finding.remedy =
      "anchor it to the wall, and tell the client in writing that it must stay anchored";
  return finding;
}

}  // namespace

void check_tip_over(const Inspection& look, std::vector<Finding>& findings) {
  if (look.piece.fixed_to_building) {
    return;
  }
  const Length foot = front_foot_line(look.piece);
  const OpenPiece open = open_everything(look, foot);
  if (!open.opens) {
    return;
  }
  const wood::StorageRule& rule = look.wood.storage_rule;
  const bool in_scope =
      wood::is_in_scope(rule, look.piece.overall.size.z, look.piece.mass, open.enclosed);
  const std::string note = in_scope ? "; if it is meant for clothing it falls under the rule: have "
                                      "it tested to the current standard"
                                    : "";
  const wood::Balance standing = wood::balance(open.loads);
  if (standing.margin < 1.5) {
    Finding finding = finding_of(
        "tip_over.open", standing.margin < 1 ? Severity::kDanger : Severity::kFails, standing);
    finding.title = "It tips, or nearly, with everything open and full";
    finding.source = fmt::format("statics about the front feet; contents {}{}",
                                 wood::print(rule.contents_density.from),
                                 note);
    findings.push_back(std::move(finding));
  }
  if (open.furthest_front > Length{}) {
    std::vector<wood::Bearing> loads = open.loads;
    loads.push_back({"a child on the furthest drawer",
                     wood::weight(rule.child_mass.value),
                     open.furthest_front,
                     open.height_of_furthest});
    const wood::Balance pulled = wood::balance(loads);
    if (pulled.margin < 1.0) {
      Finding finding = finding_of("tip_over.pull", Severity::kDanger, pulled);
      finding.title = fmt::format("It tips when a child of {} hangs on an open drawer",
                                  look.mass(rule.child_mass.value));
      finding.source =
          fmt::format("statics about the front feet, no test to the standard; child {}{}",
                      wood::print(rule.child_mass.from),
                      note);
      findings.push_back(std::move(finding));
    }
  }
}

}  // namespace plankwright::checks
