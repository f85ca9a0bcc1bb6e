#pragma once
// The plan as a maker reads it on a terminal.

#include <string>

#include "plan/plan.h"

namespace plankwright::cli {

/// Two screens of plain text: the piece, what goes wrong, what to buy, the hours, the price, and
/// each choice side by side. No colours, at most 100 columns.
std::string summary(const plan::Plan& plan);

/// The findings only, with figure, limit, source and remedy.
std::string findings_text(const plan::Plan& plan);

/// Every combination of choices: price, hours and risk, the undominated ones marked.
std::string combinations_text(const std::vector<plan::Combination>& all, const plan::Plan& plan);

}  // namespace plankwright::cli
