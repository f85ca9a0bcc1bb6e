#pragma once
// The whole plan as JSON, for other programs and the pages. The schema is docs/plan.schema.json.

#include <string>

#include "plan/plan.h"

namespace plankwright::papers {

/// Lengths are in millimetres as numbers (exact to 1e-6) beside their printed form, money in minor
/// units, times in minutes or hours as the key says.
std::string plan_json(const plan::Plan& plan);

}  // namespace plankwright::papers
