#include "checks/checks.h"

#include <algorithm>
#include <cmath>
#include <set>

#include <fmt/format.h>

#include "base/nearest.h"
#include "checks/report.h"

namespace plankwright::checks {
namespace {

/// How far over its limit a finding is; the worst of equal severity comes first.
double excess(const Finding& finding) {
  if (finding.limit_value <= 0 || finding.value <= 0) {
    return 1;
  }
  const double ratio = finding.value / finding.limit_value;
  return std::max(ratio, 1 / ratio);
}

bool matches(const commission::Dismissal& dismissal, const Finding& finding) {
  return finding.id == dismissal.finding || finding.id.starts_with(dismissal.finding + ".");
}

/// Sets aside what the maker has seen and accepted; a dismissal of nothing is a mistake.
void dismiss(Findings& findings, const std::vector<commission::Dismissal>& dismissals) {
  std::vector<std::string> ids;
  for (const Finding& finding : findings.open) {
    ids.push_back(finding.id);
  }
  for (const commission::Dismissal& dismissal : dismissals) {
    bool used = false;
    for (Finding& finding : findings.open) {
      if (matches(dismissal, finding)) {
        finding.dismissed = dismissal.reason;
        used = true;
      }
    }
    if (!used) {
      findings.errors.push_back(
          {base::ErrorCode::kBadInput,
           fmt::format("there is no finding `{}` to dismiss", dismissal.finding),
           dismissal.at,
           base::nearest_word(dismissal.finding, std::span<const std::string>{ids})});
    }
  }
  const auto gone = std::ranges::stable_partition(
      findings.open, [](const Finding& finding) { return finding.dismissed.empty(); });
  findings.dismissed.assign(gone.begin(), gone.end());
  findings.open.erase(gone.begin(), gone.end());
}

}  // namespace

Findings check_piece(const piece::Piece& piece,
                     const commission::Commission& commission,
                     const shop::Shop& shop,
                     const wood::Reference& reference) {
  const Inspection look{piece, commission, shop, reference};
  Findings findings;
  for (const auto check : {check_movement,
                           check_sag,
                           check_tip_over,
                           check_way_in,
                           check_body_measures,
                           check_contacts,
                           check_sheets,
                           check_machines,
                           check_joints}) {
    check(look, findings.open);
  }
  merge_like(findings.open);
  std::ranges::stable_sort(findings.open, [](const Finding& a, const Finding& b) {
    return a.severity != b.severity ? a.severity < b.severity : excess(a) > excess(b);
  });
  dismiss(findings, commission.dismissals);
  return findings;
}

std::string_view word(Severity severity) {
  switch (severity) {
    case Severity::kDanger:
      return "danger";
    case Severity::kFails:
      return "fails";
    case Severity::kPoor:
      return "poor";
    case Severity::kNote:
      return "note";
  }
  return "note";
}

}  // namespace plankwright::checks
