#pragma once
// Settings that differ by less than the shop minds become one.

#include "bench/batches.h"

namespace plankwright::bench {

/// Fences and stops of one kind of work that lie no more than `within` apart are set once, where
/// most pieces want them (the wider or longer where it is even): parts change by up to `within`,
/// which only the shop may allow. Nothing happens when `within` is zero. As few settings as can be:
/// the settings are taken by length, and each group is filled before the next is begun.
void merge_settings(Tasks& tasks, Length within);

}  // namespace plankwright::bench
