#pragma once
// The most valuable set of parts from one bar.

#include <cstdint>
#include <vector>

namespace plankwright::solve {

/// What fills a bar best: how often each type, and the value, which is exact when `exact` and an
/// upper bound that nothing may reach otherwise.
struct BarFilling {
  std::vector<std::int64_t> counts;
  std::int64_t value = 0;
  std::int64_t bound = 0;
};

/// Fills a bar of `capacity` with parts of the given lengths and values, each at most `most` times.
/// By dynamic programming when the table is small, otherwise by branch and bound on exact sizes
/// (Martello & Toth 1990), which gives up after a number of nodes and then says so by bound >
/// value. `work` is raised by what was spent, in about nanoseconds.
BarFilling fill_bar(const std::vector<std::int64_t>& lengths,
                    const std::vector<std::int64_t>& values,
                    const std::vector<std::int64_t>& most,
                    std::int64_t capacity,
                    std::int64_t& work);

}  // namespace plankwright::solve
