#pragma once
// What comes out of the rack, what goes back, how good the cutting of bars is and what a small
// change would save, in a maker's words; for the papers and the command line.

#include <string>

#include "plan/plan.h"

namespace plankwright::papers {

/// `2400 × 45`; a bar only by its length. Along the grain first.
std::string rack_size(const plan::Plan& plan,
                      shop::RackKind kind,
                      measure::Length length,
                      measure::Length width);

/// Bars laid out against what no cutting can beat, in bars and in money.
std::string bar_bound_text(const plan::Plan& plan, const stock::BarNeed& need);

/// `3 × 2400 mm`, one for each length bought; `nothing new` when all comes out of the rack.
std::string bars_bought(const plan::Plan& plan, const stock::BarNeed& need);

/// `297 instead of 299.4 mm`.
std::string nudge_change(const plan::Plan& plan, const stock::Nudge& nudge);

/// `width of the shelves: 297 instead of 299.4 mm saves 1 sheet of oak board, 128 EUR`.
std::string nudge_text(const plan::Plan& plan, const stock::Nudge& nudge);

}  // namespace plankwright::papers
