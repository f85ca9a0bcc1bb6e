// What a part asks of the machines, and what they can take.

#include <set>
#include <string>

#include <fmt/format.h>
#include <fmt/ranges.h>

#include "checks/report.h"

namespace plankwright::checks {
namespace {

/// Parts that ask too much of one machine, as one finding that names them all.
struct TooMuch {
  std::vector<PartIndex> parts;
  std::set<std::string> names;
  Length worst;

  void add(const Inspection& look, PartIndex index, Length size, bool larger_is_worse) {
    const bool worse = larger_is_worse ? size > worst : size < worst;
    worst = parts.empty() || worse ? size : worst;
    parts.push_back(index);
    names.insert(look.part(index).name);
  }
  std::string list() const { return fmt::format("{}", fmt::join(names, ", ")); }
};

Finding machine_finding(const Inspection& look,
                        const TooMuch& too_much,
                        const std::string& what,
                        const shop::Machine& machine,
                        Length limit) {
  Finding finding;
  finding.id = fmt::format("machine.{}.{}", machine.id, what);
  finding.kind = "machine";
  finding.limit = fmt::format("{} at the {}", look.size(limit), machine.name);
  finding.value = too_much.worst.mm();
  finding.limit_value = limit.mm();
  finding.unit = "mm";
  finding.source = "the shop's machine list";
  finding.parts = too_much.parts;
  finding.from = look.part(too_much.parts.front()).from;
  return finding;
}

void check_wide(const Inspection& look,
                const shop::Machine& planer,
                std::vector<Finding>& findings) {
  TooMuch wide;
  for (PartIndex i = 0; i < look.piece.parts.size() && planer.widest; ++i) {
    const Part& part = look.part(i);
    if (part.material == piece::Material::kSolid && part.strips > 1 &&
        part.finished.width > *planer.widest) {
      wide.add(look, i, part.finished.width, true);
    }
  }
  if (wide.parts.empty()) {
    return;
  }
  Finding finding = machine_finding(look, wide, "wide", planer, *planer.widest);
  finding.severity = Severity::kNote;
  finding.title = "Panels wider than the planer";
  finding.figure = fmt::format("{}; the widest {}", wide.list(), look.size(wide.worst));
  finding.remedy =
      "glue each in two halves that pass the planer, then one joint by hand; or flatten it by "
      "hand: "
      "the hours allow for that";
  findings.push_back(std::move(finding));
}

/// A part shorter than the feed rollers are apart is thrown. Nobody planes it alone.
void check_short(const Inspection& look,
                 const shop::Machine& planer,
                 std::vector<Finding>& findings) {
  TooMuch small;
  for (PartIndex i = 0; i < look.piece.parts.size() && planer.shortest; ++i) {
    const Part& part = look.part(i);
    const bool planed = part.material == piece::Material::kSolid &&
                        look.shop.bar(part.stock) == nullptr;  // bars come planed
    if (planed && part.rough.length < *planer.shortest) {
      small.add(look, i, part.rough.length, false);
    }
  }
  if (small.parts.empty()) {
    return;
  }
  Finding finding = machine_finding(look, small, "short", planer, *planer.shortest);
  finding.severity = Severity::kPoor;
  finding.title = "Parts too short to plane by themselves";
  finding.figure = fmt::format("{}; the shortest {} rough", small.list(), look.size(small.worst));
  finding.remedy =
      "plane each as part of a longer blank and cut it off afterwards; never feed it alone";
  findings.push_back(std::move(finding));
}

}  // namespace

void check_machines(const Inspection& look, std::vector<Finding>& findings) {
  if (const shop::Machine* planer = look.shop.machine("planer")) {
    check_wide(look, *planer, findings);
    check_short(look, *planer, findings);
  }
}

}  // namespace plankwright::checks
