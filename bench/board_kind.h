#pragma once
// The kind `boards` of solve_instances.

#include <string>
#include <vector>

namespace plankwright::bench_tool {

/// Runs every cutting bill of the files on every set of boards of the files (board_instances.h),
/// and prints one JSON line an instance and a summary as the other kinds do; `value` and `bound`
/// are areas. `words`: files, --variant yield|money, --seconds S, --cpu S (processor seconds, on a
/// machine that others use too), --first N, --set NAME (names that contain it).
int run_board_kind(const std::vector<std::string>& words);

}  // namespace plankwright::bench_tool
