#pragma once
// From a line of JSON to a job for the solvers of sheets and bars.

#include <string>

#include <nlohmann/json.hpp>

#include "solve/bars.h"
#include "solve/sheet_value.h"
#include "solve/sheets.h"

namespace plankwright::bench_tool {

/// One equal sheet as in the open sets, or kinds with prices, kerf, trim and grain as in shop
/// orders. `variant` says whether parts may turn (`_rot`) and whether two stages must do.
/// Throws nlohmann::json::exception for a line of another shape.
solve::SheetJob sheet_job(const nlohmann::json& instance, const std::string& variant);

/// The most valuable parts of one sheet, or of several; `unconstrained` variants know no most.
solve::ValueJob value_job(const nlohmann::json& instance, const std::string& variant);

solve::BarJob bar_job(const nlohmann::json& instance);

}  // namespace plankwright::bench_tool
