#pragma once
// What the single checks share: what they look at, and how a finding is put into words.

#include <string>
#include <vector>

#include "checks/checks.h"
#include "commission/commission.h"
#include "measure/expression.h"
#include "piece/piece.h"
#include "shop/shop.h"
#include "wood/reference.h"

namespace plankwright::checks {

using measure::Axis;
using measure::Length;
using piece::Part;
using piece::PartIndex;

/// Everything a check may look at.
struct Inspection {
  const piece::Piece& piece;
  const commission::Commission& commission;
  const shop::Shop& shop;
  const wood::Reference& wood;

  const Part& part(PartIndex i) const { return piece.parts[i]; }
  /// A size with its unit, in the unit of the commission. Movements and sags are small: in
  /// millimetres to 0.1, in inches to 0.001, so that 0.09 in does not become "3/32-".
  std::string size(Length length) const;
  std::string fine(Length length) const;
  std::string mass(measure::Kilograms mass) const;
  /// The next size that is read off a rule, not below or not above `length`: 1/32 in or 0.5 mm.
  Length rule_above(Length length) const;
  Length rule_below(Length length) const;
  /// Moisture that wood comes to in the shop, and in the client's room at its driest and dampest.
  struct Moisture {
    measure::Percent shop, dry, damp;
  };
  Moisture moisture() const;
};

/// `shelf` for one part, `9 shelves` for several.
std::string counted(std::size_t count, const std::string& name);

/// Findings that say the same of like parts become one that names them all.
void merge_like(std::vector<Finding>& findings);

void check_movement(const Inspection& look, std::vector<Finding>& findings);
void check_sag(const Inspection& look, std::vector<Finding>& findings);
void check_tip_over(const Inspection& look, std::vector<Finding>& findings);
void check_way_in(const Inspection& look, std::vector<Finding>& findings);
void check_body_measures(const Inspection& look, std::vector<Finding>& findings);
void check_contacts(const Inspection& look, std::vector<Finding>& findings);
void check_sheets(const Inspection& look, std::vector<Finding>& findings);
void check_machines(const Inspection& look, std::vector<Finding>& findings);
void check_joints(const Inspection& look, std::vector<Finding>& findings);

}  // namespace plankwright::checks
