// Proportions that keep joints and curved parts in one piece.

#include <algorithm>

#include <fmt/format.h>

#include "checks/report.h"
#include "wood/arc.h"
#include "wood/proportions.h"

namespace plankwright::checks {
namespace {

Finding joint_finding(const piece::Joint& joint, const Part& part, const wood::Proportion& usual) {
  Finding finding;
  finding.kind = "joint";
  finding.severity = Severity::kPoor;
  finding.source = wood::print(usual.from);
  finding.parts = {joint.a, joint.b};
  finding.from = part.from;
  finding.unit = "ratio";
  return finding;
}

void check_housing(const Inspection& look,
                   const piece::Joint& joint,
                   std::vector<Finding>& findings) {
  const wood::Proportion* usual = look.wood.proportions.get("housing_depth");
  const Part& into = look.part(joint.b);
  const Length thickness = into.body.size[joint.home.axis];
  if (usual == nullptr || !usual->most || thickness <= Length{} ||
      joint.depth / thickness <= *usual->most + 1e-4) {
    return;
  }
  Finding finding = joint_finding(joint, into, *usual);
  finding.severity = joint.depth * 3 > thickness * 2 ? Severity::kPoor : Severity::kNote;
  finding.id = fmt::format("joint.housing.{}", into.path);
  finding.title = fmt::format("The housing in the {} is deep", into.name);
  finding.figure = fmt::format("{} of {}", look.size(joint.depth), look.size(thickness));
  finding.limit = fmt::format("a third: {}", look.size(thickness / 3));
  finding.value = joint.depth / thickness;
  finding.limit_value = *usual->most;
  finding.remedy = "a shallower housing: the depth only locates, the glue and the load hold";
  const Length shallower = look.rule_below(thickness / 3);
  finding.mends.push_back({joint.from,
                           {"tenon_length", "joint_depth", "depth"},
                           joint.depth,
                           shallower,
                           fmt::format("{} deep", look.size(shallower))});
  findings.push_back(std::move(finding));
}

void check_tenon(const Inspection& look,
                 const piece::Joint& joint,
                 std::vector<Finding>& findings) {
  const wood::Proportion* usual = look.wood.proportions.get("tenon_thickness");
  const Part& rail = look.part(joint.a);
  const Length thickness = rail.finished.thickness;
  if (usual == nullptr || joint.tongue_thickness <= Length{} || thickness <= Length{}) {
    return;
  }
  constexpr double kThinnest = 0.25;  // below a quarter it breaks before the glue line
  constexpr double kThickest = 0.5;   // "up to 1/2 with machines", the row's note
  const double ratio = joint.tongue_thickness / thickness;
  if (ratio >= kThinnest - 1e-6 && ratio <= kThickest + 1e-6) {
    return;
  }
  Finding finding = joint_finding(joint, rail, *usual);
  finding.id = fmt::format("joint.tenon.{}", rail.path);
  finding.title =
      fmt::format("The tenon of the {} is {}", rail.name, ratio < kThinnest ? "thin" : "thick");
  finding.figure = fmt::format("{} of {}", look.size(joint.tongue_thickness), look.size(thickness));
  finding.limit = fmt::format("a third: {}", look.size(thickness / 3));
  finding.value = ratio;
  finding.limit_value = ratio < kThinnest ? kThinnest : kThickest;
  finding.remedy = "take the cutter nearest to a third of the stock";
  const Length third = look.rule_below(thickness / 3);
  finding.mends.push_back({joint.from,
                           {"tenon/thickness"},
                           joint.tongue_thickness,
                           third,
                           fmt::format("tenon {} thick", look.size(third))});
  findings.push_back(std::move(finding));
}

void check_arch(const Inspection& look, PartIndex index, std::vector<Finding>& findings) {
  const Part& rail = look.part(index);
  if (!rail.arch || rail.arch->bent) {
    return;
  }
  const auto arc = wood::arc_from_rise(rail.arch->span, rail.arch->rise);
  constexpr double kCarries = 6;  // common practice, no source
  if (!arc.ok() || arc.value().run_out >= kCarries) {
    return;
  }
  Finding finding;
  finding.id = "run_out." + rail.path;
  finding.kind = "run_out";
  finding.severity = Severity::kNote;
  finding.title = fmt::format("Short grain at the ends of the arch in the {}", rail.name);
  finding.figure = fmt::format("the grain runs out 1 in {:.1f} (radius {}, {:.1f} degrees)",
                               arc.value().run_out,
                               look.size(arc.value().radius),
                               arc.value().end_slope.count());
  finding.limit = "1 in 6 where it carries a load";
  finding.value = arc.value().run_out;
  finding.limit_value = kCarries;
  finding.unit = "1 in";
  finding.source = "geometry of the arc; limit common practice, no source";
  finding.remedy =
      "good enough for a rail that only closes the front; otherwise bend it or raise "
      "the springing";
  finding.parts = {index};
  finding.from = rail.from;
  findings.push_back(std::move(finding));
}

}  // namespace

void check_joints(const Inspection& look, std::vector<Finding>& findings) {
  for (const piece::Joint& joint : look.piece.joints) {
    if (joint.kind == piece::JointKind::kHousing) {
      check_housing(look, joint, findings);
    } else if (joint.kind == piece::JointKind::kMortiseTenon) {
      check_tenon(look, joint, findings);
    }
  }
  for (PartIndex i = 0; i < look.piece.parts.size(); ++i) {
    check_arch(look, i, findings);
  }
}

}  // namespace plankwright::checks
