#pragma once
// The building itself in plan.json: hours, operations, settings, glue-ups.

#include <nlohmann/json.hpp>

#include "plan/plan.h"

namespace plankwright::papers {

/// The value of the key `bench` (docs/plan.schema.json).
nlohmann::ordered_json bench_json(const plan::Plan& plan);

}  // namespace plankwright::papers
