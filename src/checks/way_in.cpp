// Whether what leaves the shop comes into the room, and who can carry it.

#include "wood/way_in.h"

#include <algorithm>
#include <cmath>
#include <numbers>

#include <fmt/format.h>

#include "checks/report.h"

namespace plankwright::checks {
namespace {

std::string box_text(const Inspection& look, const measure::Point& size) {
  return fmt::format("{} x {} x {}", look.size(size.x), look.size(size.y), look.size(size.z));
}

wood::Carry carry_through(const commission::Passage& passage, const measure::Point& size) {
  if (passage.kind == "corner" || passage.kind == "stair") {
    return wood::best_round_corner(size, passage.width, passage.beyond, passage.height);
  }
  return wood::best_through_door(size, passage.width, passage.height);
}

void check_passage(const Inspection& look,
                   const piece::Package& package,
                   const commission::Passage& passage,
                   std::vector<Finding>& findings) {
  const wood::Carry carry = carry_through(passage, package.box.size);
  constexpr double kHandsMm = 20;  // fingers and a wobble, common practice
  if (carry.to_spare.mm() >= kHandsMm) {
    return;
  }
  const bool stuck = carry.to_spare < Length{};
  Finding finding;
  finding.id = fmt::format("passage.{}", package.name);
  finding.kind = "passage";
  finding.severity = stuck ? Severity::kFails : Severity::kPoor;
  finding.title = fmt::format("The {} {} the {}",
                              package.name,
                              stuck ? "does not come through" : "barely comes through",
                              passage.name.empty() ? passage.kind : passage.name);
  finding.figure = fmt::format("{}, {} {}",
                               box_text(look, package.box.size),
                               look.size(stuck ? -carry.to_spare : carry.to_spare),
                               stuck ? "too long" : "to spare");
  finding.limit = passage.kind == "door" ? fmt::format("{} clear", look.size(passage.width))
                                         : fmt::format("from {} round a corner into {}",
                                                       look.size(passage.width),
                                                       look.size(passage.beyond));
  finding.value = carry.to_spare.mm();
  finding.limit_value = 0;
  finding.unit = "mm to spare";
  finding.source =
      "plane geometry of a box in a right-angled corner or an opening, all holds tried";
  finding.remedy = "make it come apart: bolts or connectors instead of glue between its units";
  finding.parts = package.parts;
  finding.from = passage.at;
  findings.push_back(std::move(finding));
}

void check_ceiling(const Inspection& look,
                   const piece::Package& package,
                   std::vector<Finding>& findings) {
  const auto& ceiling = look.commission.room.ceiling;
  const auto& size = package.box.size;
  if (!ceiling || size.z < Length::from_mm(1500)) {
    return;
  }
  const Length needed = wood::standing_up_height(size.z, std::min(size.x, size.y));
  if (needed <= *ceiling) {
    return;
  }
  Finding finding;
  finding.id = "passage.ceiling." + package.name;
  finding.kind = "passage";
  finding.severity = Severity::kFails;
  finding.title = fmt::format("The {} cannot be stood up under the ceiling", package.name);
  finding.figure = look.size(needed) + " across its corners";
  finding.limit = look.size(*ceiling) + " ceiling";
  finding.value = needed.mm();
  finding.limit_value = ceiling->mm();
  finding.unit = "mm";
  finding.source = "plane geometry: the diagonal of its side";
  finding.remedy = "carry it in standing, or build it in two";
  finding.parts = package.parts;
  finding.from = look.commission.room.at;
  findings.push_back(std::move(finding));
}

/// All packages that one person should not lift alone, the heaviest first.
void check_weights(const Inspection& look, std::vector<Finding>& findings) {
  constexpr double kOnePerson = 25;  // kg, common practice, no source
  std::vector<const piece::Package*> heavy;
  for (const piece::Package& package : look.piece.packages) {
    if (package.mass.count() > kOnePerson) {
      heavy.push_back(&package);
    }
  }
  if (heavy.empty()) {
    return;
  }
  std::ranges::stable_sort(heavy, [](const auto* a, const auto* b) { return a->mass > b->mass; });
  const piece::Package& worst = *heavy.front();
  const int people = static_cast<int>(std::ceil(worst.mass.count() / kOnePerson));
  Finding finding;
  finding.id = "weight";
  finding.kind = "weight";
  finding.severity = people > 2 ? Severity::kPoor : Severity::kNote;
  finding.title = fmt::format("The {} takes {} people to lift", worst.name, people);
  finding.figure = look.mass(worst.mass);
  for (std::size_t i = 1; i < std::min<std::size_t>(heavy.size(), 4); ++i) {
    finding.figure += fmt::format("; {} {}", heavy[i]->name, look.mass(heavy[i]->mass));
  }
  finding.limit = look.mass(measure::Kilograms{kOnePerson}) + " each";
  finding.value = worst.mass.count();
  finding.limit_value = kOnePerson;
  finding.unit = "kg";
  finding.source = "common practice, no source; local rules on lifting come first";
  finding.remedy = people > 2 ? "take drawers, doors and tops off, or use a trolley" : "";
  finding.parts = worst.parts;
  finding.from = look.commission.piece.at;
  findings.push_back(std::move(finding));
}

}  // namespace

void check_way_in(const Inspection& look, std::vector<Finding>& findings) {
  for (const piece::Package& package : look.piece.packages) {
    for (const commission::Passage& passage : look.commission.way_in) {
      check_passage(look, package, passage, findings);
    }
    check_ceiling(look, package, findings);
  }
  check_weights(look, findings);
}

}  // namespace plankwright::checks
