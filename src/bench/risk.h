#pragma once
// Steps that may spoil a piece: what they cost on average, in which order to take them, and when a
// spare is worth making.

#include <vector>

#include "bench/batches.h"

namespace plankwright::bench {

/// A step on one piece: what it costs each time, and how likely it spoils the piece.
struct RiskyStep {
  double cost = 0;   // minutes or money
  double fails = 0;  // chance, 0 .. below 1
};

/// Cost on average until the piece is done, when each failure means to start from the first step:
/// the sum over steps i of cost_i / product over j >= i of (1 - fails_j).
double expected_cost(const std::vector<RiskyStep>& steps);

/// The cheapest order of steps that may be taken in any order: by descending chance of failure for
/// its cost. Indices into `steps`; equal ones stay as they are.
std::vector<std::size_t> cheapest_order(const std::vector<RiskyStep>& steps);

/// Chance that at least one of `pieces` is spoiled.
double chance_of_one(double fails, int pieces);

/// Chance that a batch spoils one of its pieces, and what it takes to make that piece anew: every
/// setting again up to the step that spoiled it, or only that step when a spare lies ready.
struct Rework {
  double chance = 0;
  measure::Minutes minutes;
};
Rework rework_of(const Batch& batch, const Tasks& tasks);

/// Parts of which one spare blank is milled, the first of each line of the list: where the chance
/// that one is spoiled times what it costs to make a new one afterwards (a blank, and every machine
/// set again up to the step that spoiled it) is more than the spare costs now.
std::vector<PartIndex> spares_worth_making(const Tasks& tasks, const Job& job);

}  // namespace plankwright::bench
