#pragma once
// The settings at the machines, to be read on a terminal.

#include <string>

#include "plan/plan.h"

namespace plankwright::cli {

/// A line for each setting, machine by machine in the order of work, and what the order comes to.
/// Empty when no machine is set.
std::string settings_text(const plan::Plan& plan);

}  // namespace plankwright::cli
