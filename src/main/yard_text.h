#pragma once
// What a maker reads while standing in the yard.

#include <string>

#include "plan/plan.h"

namespace plankwright::cli {

/// For every stock of a plan with a tally: what is covered, what is still missing and what to ask
/// for; then which parts come out of which board.
std::string yard_text(const plan::Plan& plan);

}  // namespace plankwright::cli
