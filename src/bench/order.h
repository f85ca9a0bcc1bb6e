#pragma once
// What comes before what, and the order of work.

#include <vector>

#include "bench/batches.h"

namespace plankwright::bench {

/// For each batch, the batches that must be done before it: everything of an earlier stage on the
/// same parts or on parts it waits for, and what stands before it in its own chain. Only direct
/// ones: what follows from others is left out.
std::vector<std::vector<std::size_t>> predecessors(const Tasks& tasks,
                                                   const std::vector<Batch>& batches);

/// The batches in working order. A step that may spoil a piece is taken as soon as what must
/// precede it is done, the likeliest for its cost first; the rest goes stage by stage, staying at
/// one machine as long as there is work for it, wide settings before narrow ones.
std::vector<std::size_t> working_order(const Tasks& tasks,
                                       const std::vector<Batch>& batches,
                                       const std::vector<std::vector<std::size_t>>& before);

}  // namespace plankwright::bench
