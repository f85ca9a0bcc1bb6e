#pragma once
// What comes before what, and the order of work.

#include <cstdint>
#include <vector>

#include "bench/batches.h"
#include "bench/setting_order.h"

namespace plankwright::bench {

/// For each batch, the batches that must be done before it: everything of an earlier stage on the
/// same parts or on parts it waits for, and what stands before it in its own chain. Only direct
/// ones: what follows from others is left out.
std::vector<std::vector<std::size_t>> predecessors(const Tasks& tasks,
                                                   const std::vector<Batch>& batches);

/// The same, and a step that may spoil a piece before all work that could be done then as well: as
/// soon as its own stages are done, before what is not needed for it. Where two of them may change
/// places, the likeliest for its cost comes first.
std::vector<std::vector<std::size_t>> risky_steps_early(
    const Tasks& tasks,
    const std::vector<Batch>& batches,
    const std::vector<std::vector<std::size_t>>& before);

/// The batches stage by stage, as the drawing lists what asks for them.
std::vector<std::size_t> by_stage(const Tasks& tasks, const std::vector<Batch>& batches);

struct OrderedWork {
  std::vector<std::size_t> batches;  // in working order
  SettingOrder cost;
};

/// The batches in working order: machines are set, changed and fed with new piles in as few minutes
/// as can be within `before` (which lists no circle), wide settings before narrow ones where it is
/// the same. `work` is what may be spent on the search, about a nanosecond each; 0 for an order
/// that only goes on with what takes least. Method: the sequential ordering problem of solve/order,
/// apart for each stretch of work between operations that everything else comes before or after.
OrderedWork working_order(const Tasks& tasks,
                          const std::vector<Batch>& batches,
                          const std::vector<std::vector<std::size_t>>& before,
                          const Limits& limits,
                          std::int64_t work);

}  // namespace plankwright::bench
