#pragma once
// What is bought and how it is cut, as JSON: a part of docs/plan.schema.json.

#include <nlohmann/json.hpp>

#include "plan/plan.h"

namespace plankwright::papers {

/// Needs with their layouts, the rack and the purchases.
nlohmann::ordered_json stock_json(const plan::Plan& plan);

/// What a small change would save.
nlohmann::ordered_json nudges_json(const plan::Plan& plan);

}  // namespace plankwright::papers
