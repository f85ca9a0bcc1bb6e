#pragma once
// Cards from stages: helpers of plan_bench.

#include <string>
#include <vector>

#include "bench/items.h"
#include "bench/stage_cards.h"
#include "bench/staging.h"

namespace plankwright::bench {

/// The card of one stage; `item` is the stage as work. `operation` is left to the caller.
StageCard stage_card_of(const Job& job, const GlueStage& stage, const Item& item);

/// Joints that keep each other from closing, by the names of their parts, and what helps.
std::string describe_blocked(const piece::Piece& piece, const std::vector<std::size_t>& joints);

}  // namespace plankwright::bench
