#pragma once
// The kinds of solve_instances that order, stage and schedule.

#include <string>

#include "run_options.h"

namespace plankwright::bench_tool {

/// Whether the word names one of them: order, staging, schedule.
bool is_order_kind(const std::string& kind);

/// Runs a kind over files and prints one JSON line an instance and a summary, as the other kinds
/// do. A file is an instance (.sop, .sm, .mm), lines of staging instances (.jsonl), or the table of
/// a folder (values.csv) with the names and best known values of the instances beside it.
int run_order_kind(const std::string& kind, const RunOptions& options);

}  // namespace plankwright::bench_tool
