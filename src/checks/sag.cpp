// Shelves and rails sag at once under load, and more in time. A strip glued along the edge stiffens
// a shelf as a beam of its own.

#include <algorithm>
#include <cmath>
#include <optional>

#include <fmt/format.h>

#include "checks/report.h"
#include "wood/sag_rules.h"
#include "wood/section.h"
#include "wood/stiffness.h"

namespace plankwright::checks {
namespace {

std::optional<measure::Megapascals> stiffness_of(const Inspection& look, const Part& part) {
  if (const shop::SolidStock* solid = look.shop.solid(part.stock)) {
    const wood::Species* species = look.wood.species.get(solid->species);
    return species != nullptr ? std::optional{species->stiffness.value} : std::nullopt;
  }
  if (const shop::SheetStock* sheet = look.shop.sheet(part.stock)) {
    const wood::Panel* panel = look.wood.panels.get(sheet->panel);
    return panel != nullptr ? std::optional{panel->stiffness.value} : std::nullopt;
  }
  if (const shop::BarStock* bar = look.shop.bar(part.stock)) {
    const wood::Species* species = look.wood.species.get(bar->species);
    return species != nullptr ? std::optional{species->stiffness.value} : std::nullopt;
  }
  return std::nullopt;
}

bool is_shelf(const Inspection& look, PartIndex index) {
  const Part& part = look.part(index);
  return part.thickness_axis == Axis::kZ && part.name.find("shelf") != std::string::npos &&
         part.name.find("nosing") == std::string::npos &&
         part.name.find("lipping") == std::string::npos;
}

/// The shelf and what is glued along its edges, as strips of one section seen from the end.
std::vector<wood::Strip> strips_of(const Inspection& look, PartIndex shelf) {
  std::vector<PartIndex> members = {shelf};
  for (const piece::Joint& joint : look.piece.joints) {
    if (joint.kind == piece::JointKind::kEdgeGlue && (joint.a == shelf || joint.b == shelf)) {
      members.push_back(joint.a == shelf ? joint.b : joint.a);
    }
  }
  Length top = look.part(shelf).body.end(Axis::kZ);
  for (const PartIndex member : members) {
    top = std::max(top, look.part(member).body.end(Axis::kZ));
  }
  const Axis across = look.part(shelf).width_axis();
  std::vector<wood::Strip> strips;
  for (const PartIndex member : members) {
    const Part& part = look.part(member);
    if (const auto stiffness = stiffness_of(look, part)) {
      strips.push_back({part.name,
                        part.body.size[across],
                        part.body.size.z,
                        top - part.body.end(Axis::kZ),
                        *stiffness});
    }
  }
  return strips;
}

/// Sag at once of these strips over `span`; nothing when a size is missing.
std::optional<Length> sag_of(const std::vector<wood::Strip>& strips,
                             Length span,
                             measure::NewtonsPerMillimetre load) {
  const auto section = wood::composed_section(strips);
  if (!section.ok()) {
    return std::nullopt;
  }
  const auto sag =
      wood::sag_under_even_load(wood::Ends::kSimple, load, span, section.value().rigidity);
  return sag.ok() ? std::optional{sag.value()} : std::nullopt;
}

measure::NewtonsPerMillimetre load_on(const Inspection& look, const Part& shelf) {
  if (shelf.load.count() > 0) {
    return shelf.load;
  }
  if (look.commission.use.shelf_load) {
    return *look.commission.use.shelf_load;
  }
  const wood::Load* usual = look.wood.loads.get("casework_shelf");
  return usual != nullptr
             ? wood::line_load(
                   *usual, shelf.body.size[shelf.width_axis()], shelf.body.size[shelf.length_axis])
             : measure::NewtonsPerMillimetre{};
}

/// The lowest nosing, in steps, that brings the lasting sag under its limit.
std::optional<Length> nosing_that_passes(const std::vector<wood::Strip>& shelf,
                                         Length span,
                                         measure::NewtonsPerMillimetre load,
                                         Length limit,
                                         double creep,
                                         Length step) {
  std::vector<wood::Strip> strips = {shelf.front()};
  constexpr double kHardwood =
      11'000;  // MPa, a usual hardwood; the check repeats with the real one
  wood::Strip nosing{
      "nosing", Length::from_mm(22), Length{}, Length{}, measure::Megapascals{kHardwood}};
  strips.push_back(nosing);
  for (int i = 1; i <= 40; ++i) {
    strips.back().thickness = shelf.front().thickness + step * i;
    const auto sag = sag_of(strips, span, load);
    if (sag && measure::scaled(*sag, creep) <= limit) {
      return strips.back().thickness;
    }
  }
  return std::nullopt;
}

std::string remedy_for(const Inspection& look,
                       const std::vector<wood::Strip>& strips,
                       std::optional<Length> nosing,
                       Length span,
                       measure::NewtonsPerMillimetre load,
                       Length limit,
                       double creep) {
  const auto section = wood::composed_section(strips);
  std::string text;
  if (nosing) {
    text = fmt::format("a solid nosing {} x {} along the front, top flush",
                       look.size(Length::from_mm(22)),
                       look.size(*nosing));
  }
  if (section.ok()) {
    const auto longest = wood::longest_span(
        wood::Ends::kSimple, load * creep, section.value().rigidity, span / limit);
    if (longest.ok()) {
      text += fmt::format("{}a span of {} at most as it is",
                          text.empty() ? "" : ", or ",
                          look.size(longest.value()));
    }
  }
  return text;
}

/// How thick or high something must be that gives way by `sag` at `size` and may by `limit`: what
/// it resists grows with the third power.
Length stiff_enough(const Inspection& look, Length size, Length sag, Length limit) {
  return look.rule_above(measure::scaled(size, std::cbrt(sag / limit)));
}

/// A thicker board where the shelf is one of solid wood, a higher nosing where it has one.
std::vector<Mend> mends_of(const Inspection& look,
                           const Part& shelf,
                           const std::vector<wood::Strip>& strips,
                           Length in_time,
                           Length limit,
                           std::optional<Length> nosing) {
  std::vector<Mend> mends;
  if (strips.size() == 1 && shelf.material == piece::Material::kSolid) {
    const Length thicker = stiff_enough(look, shelf.body.size.z, in_time, limit);
    mends.push_back({shelf.from,
                     {"thickness"},
                     shelf.body.size.z,
                     thicker,
                     fmt::format("shelf {} thick", look.size(thicker))});
  }
  if (strips.size() > 1 && nosing) {
    const Length now = std::ranges::max(strips, {}, &wood::Strip::thickness).thickness;
    mends.push_back({shelf.from,
                     {"nosing/height"},
                     now,
                     look.rule_above(*nosing),
                     fmt::format("nosing {} high", look.size(look.rule_above(*nosing)))});
  }
  return mends;
}

void check_shelf(const Inspection& look, PartIndex index, std::vector<Finding>& findings) {
  const Part& shelf = look.part(index);
  const Length span = shelf.body.size[shelf.length_axis];
  const measure::NewtonsPerMillimetre load = load_on(look, shelf);
  const std::vector<wood::Strip> strips = strips_of(look, index);
  const auto sag = strips.empty() ? std::nullopt : sag_of(strips, span, load);
  const wood::SagLimit* target = look.wood.sag_limits.get("shelf_target");
  const wood::SagLimit* visible = look.wood.sag_limits.get("visible");
  const wood::Creep* creep = look.wood.creep.get("shelf_practice");
  if (!sag || target == nullptr || visible == nullptr || creep == nullptr) {
    return;
  }
  const Length limit = wood::allowed_sag(*target, span);
  const Length in_time = measure::scaled(*sag, creep->factor);
  if (in_time <= limit) {
    return;
  }
  Finding finding;
  finding.id = "sag." + shelf.path;
  finding.kind = "sag";
  finding.severity =
      in_time > wood::allowed_sag(*visible, span) ? Severity::kFails : Severity::kPoor;
  finding.title = fmt::format("The {} sags under its load", shelf.name);
  finding.figure = fmt::format("{} at once, {} in time, over {} under {:.2f} N/mm ({:.0f} kg/m)",
                               look.fine(*sag),
                               look.fine(in_time),
                               look.size(span),
                               load.count(),
                               load.count() * 1000 / 9.80665);
  finding.limit = fmt::format("{} (span / {:.0f})", look.fine(limit), target->span_per_sag);
  finding.value = in_time.mm();
  finding.limit_value = limit.mm();
  finding.unit = "mm";
  finding.source = fmt::format("5wL4/384EI (BM1, verified); limit {}; in time x {:g} {}",
                               wood::print(target->from),
                               creep->factor,
                               wood::print(creep->from));
  const bool inches = look.commission.unit() == measure::LengthUnit::kInch;
  const Length step = inches ? Length::from_inches(0.125) : Length::from_mm(2);
  const auto nosing = nosing_that_passes(strips, span, load, limit, creep->factor, step);
  finding.remedy = remedy_for(look, strips, nosing, span, load, limit, creep->factor);
  finding.mends = mends_of(look, shelf, strips, in_time, limit, nosing);
  finding.parts = {index};
  finding.from = shelf.from;
  findings.push_back(std::move(finding));
}

/// A person sits down on the edge of a table: the rail under it bends.
void check_rail(const Inspection& look, PartIndex index, std::vector<Finding>& findings) {
  const Part& rail = look.part(index);
  const wood::Load* person = look.wood.loads.get("person_on_edge");
  const wood::SagLimit* limit = look.wood.sag_limits.get("fine_work");
  const auto stiffness = stiffness_of(look, rail);
  if (!stiffness || person == nullptr || limit == nullptr ||
      look.commission.use.what.find("table") == std::string::npos) {
    return;
  }
  const Length span = rail.body.size[rail.length_axis];
  const auto section =
      wood::plain_section(rail.body.size[rail.thickness_axis], rail.body.size.z, *stiffness);
  if (!section.ok()) {
    return;
  }
  const auto sag = wood::sag_under_point_load(
      wood::Ends::kSimple, person->point, span, section.value().rigidity);
  if (!sag.ok() || sag.value() <= wood::allowed_sag(*limit, span)) {
    return;
  }
  Finding finding;
  finding.id = "sag." + rail.path;
  finding.kind = "sag";
  finding.severity = Severity::kPoor;
  finding.title = fmt::format("The {} gives way when someone sits on the edge", rail.name);
  finding.figure = fmt::format(
      "{} over {} under {:.0f} N", look.fine(sag.value()), look.size(span), person->point.count());
  finding.limit = fmt::format(
      "{} (span / {:.0f})", look.fine(wood::allowed_sag(*limit, span)), limit->span_per_sag);
  finding.value = sag.value().mm();
  finding.limit_value = wood::allowed_sag(*limit, span).mm();
  finding.unit = "mm";
  finding.source = fmt::format("PL3/48EI (BM2, verified); load {}; limit {}",
                               wood::print(person->from),
                               wood::print(limit->from));
  finding.remedy = "a higher rail: half as high again bends a third as much";
  const Length higher =
      stiff_enough(look, rail.body.size.z, sag.value(), wood::allowed_sag(*limit, span));
  finding.mends.push_back({rail.from,
                           {"height"},
                           rail.body.size.z,
                           higher,
                           fmt::format("rail {} high", look.size(higher))});
  finding.parts = {index};
  finding.from = rail.from;
  findings.push_back(std::move(finding));
}

}  // namespace

void check_sag(const Inspection& look, std::vector<Finding>& findings) {
  for (PartIndex i = 0; i < look.piece.parts.size(); ++i) {
    const Part& part = look.part(i);
    if (is_shelf(look, i)) {
      check_shelf(look, i, findings);
    } else if (part.name.find("rail") != std::string::npos && part.kit == "leg_and_rail_frame" &&
               part.length_axis != Axis::kZ) {
      check_rail(look, i, findings);
    }
  }
}

}  // namespace plankwright::checks
