#pragma once
// How sure a purchase of boards is, in a maker's words; for the papers and the command line.

#include <string>

#include "plan/plan.h"

namespace plankwright::papers {

/// Whole boards laid out against the least any layout could do with. Empty when nothing is laid on
/// usual boards.
std::string board_bound_text(const plan::Plan& plan, const stock::SolidNeed& need);

/// `enough 80 times in 100: 49 board feet (9 boards); 95 times: 54 (10); ...`, the odds of what the
/// plan buys, and what costs least on average. Empty without odds.
std::string odds_text(const plan::Plan& plan, const stock::SolidNeed& need);

}  // namespace plankwright::papers
