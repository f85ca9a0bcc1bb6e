#pragma once
// The kind `boards` of solve_instances.

#include "run_options.h"

namespace plankwright::bench_tool {

/// Runs every cutting bill of the files on every set of boards of the files (board_instances.h),
/// and prints one JSON line an instance and a summary as the other kinds do; `value` and `bound`
/// are areas (variant yield) or money (variant money).
int run_board_kind(const RunOptions& options);

}  // namespace plankwright::bench_tool
