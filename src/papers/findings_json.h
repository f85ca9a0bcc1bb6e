#pragma once
// The findings as JSON: a part of docs/plan.schema.json.

#include <nlohmann/json.hpp>

#include "plan/plan.h"

namespace plankwright::papers {

/// `open` and `dismissed`, worst first, each with the written values that may end it.
nlohmann::ordered_json findings_json(const plan::Plan& plan);

}  // namespace plankwright::papers
