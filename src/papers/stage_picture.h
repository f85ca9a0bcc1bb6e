#pragma once
// How the parts of a glue-up are drawn apart: the same on paper and on a screen.

#include <vector>

#include "bench/stage_cards.h"
#include "measure/box.h"
#include "piece/piece.h"

namespace plankwright::papers {

/// How far each of `card.parts`, in their order, is moved from where it stands in the piece, so
/// that one sees what goes into what. Only the joints that the stage closes count.
std::vector<measure::Point> pulled_out(const piece::Piece& piece, const bench::StageCard& card);

}  // namespace plankwright::papers
