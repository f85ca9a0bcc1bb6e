#pragma once
// JSON Schemas of the written documents and of the plan, for editors and other programs.

#include <string>
#include <string_view>
#include <vector>

#include "base/result.h"

namespace plankwright::papers {

/// "commission", "shop", "plan".
std::vector<std::string> schema_names();

/// JSON Schema (draft 2020-12). Error with the nearest name when there is none of that name.
base::Result<std::string> schema(std::string_view name);

}  // namespace plankwright::papers
