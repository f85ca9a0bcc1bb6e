// What a part asks of the machines, and what they can take.

#include <fmt/format.h>

#include "checks/report.h"

namespace plankwright::checks {
namespace {

Finding machine_finding(const Inspection& look,
                        PartIndex index,
                        const shop::Machine& machine,
                        Length size,
                        Length limit) {
  const Part& part = look.part(index);
  Finding finding;
  finding.id = fmt::format("machine.{}", part.path);
  finding.kind = "machine";
  finding.figure = look.size(size);
  finding.limit = fmt::format("{} at the {}", look.size(limit), machine.name);
  finding.value = size.mm();
  finding.limit_value = limit.mm();
  finding.unit = "mm";
  finding.source = "the shop's machine list";
  finding.parts = {index};
  finding.from = part.from;
  return finding;
}

void check_planer(const Inspection& look,
                  PartIndex index,
                  const shop::Machine& planer,
                  std::vector<Finding>& findings) {
  const Part& part = look.part(index);
  if (planer.widest && part.finished.width > *planer.widest && part.strips > 1) {
    Finding finding = machine_finding(look, index, planer, part.finished.width, *planer.widest);
    finding.severity = Severity::kNote;
    finding.title = fmt::format("The {} is wider than the planer", part.name);
    finding.remedy =
        "glue it in two halves that pass the planer, then one joint by hand; or flatten "
        "it by hand: the hours allow for that";
    findings.push_back(std::move(finding));
  }
  if (planer.shortest && part.rough.length < *planer.shortest) {
    Finding finding = machine_finding(look, index, planer, part.rough.length, *planer.shortest);
    finding.severity = Severity::kDanger;
    finding.title = fmt::format("The {} is too short to plane alone", part.name);
    finding.remedy = "plane it as part of a longer blank and cut it off afterwards";
    findings.push_back(std::move(finding));
  }
}

}  // namespace

void check_machines(const Inspection& look, std::vector<Finding>& findings) {
  const shop::Machine* planer = look.shop.machine("planer");
  for (PartIndex i = 0; i < look.piece.parts.size(); ++i) {
    if (planer != nullptr && look.part(i).material == piece::Material::kSolid) {
      check_planer(look, i, *planer, findings);
    }
  }
}

}  // namespace plankwright::checks
