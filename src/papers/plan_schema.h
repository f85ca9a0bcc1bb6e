#pragma once
// The JSON Schema of plan.json: the text of docs/plan.schema.json, built into the program.

#include <string_view>

namespace plankwright::papers {

std::string_view plan_schema();

}  // namespace plankwright::papers
