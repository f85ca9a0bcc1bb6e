#pragma once
// The kinds sheets, sheet_value, sheets_value and bars of the bench: one instance a line of JSON.

#include <string>

#include "run_options.h"

namespace plankwright::bench_tool {

bool is_layout_kind(const std::string& kind);

/// Solves and checks every instance: a line of JSON each to standard output, a summary to standard
/// error. Returns what main returns.
int run_layout_kind(const std::string& kind, const RunOptions& options);

}  // namespace plankwright::bench_tool
