#pragma once
// Clamps on a glue-up: where they press, how many, how far they reach.

#include <cstdint>
#include <limits>
#include <vector>

#include "measure/quantity.h"
#include "piece/piece.h"
#include "shop/shop.h"

namespace plankwright::bench {

using measure::Length;

/// Clamps side by side that press one part home in one direction.
struct ClampLine {
  piece::PartIndex part = 0;  // that goes home
  measure::Axis axis = measure::Axis::kX;
  int count = 0;
  Length span;                     // over all that stands between the jaws
  Length reach;                    // of the clamps taken; zero when none reaches so far
  measure::Newtons force;          // that each gives
  std::vector<measure::Point> at;  // of each, in the middle between its jaws; see place_clamps
};

/// What one stage may use.
struct StageRoom {
  int most_joints = std::numeric_limits<int>::max();  // with glue
  std::vector<shop::ClampSet> clamps;                 // by reach, shortest first; none: no bound
  Length spacing;                                     // of clamps along a joint
};

/// One line a part and axis, for joints that are glued and that no screw pulls together: a clamp
/// every `spacing` along the longest of them, at least one. One clamp presses both ends of a rail.
std::vector<ClampLine> clamp_lines(const piece::Piece& piece,
                                   const std::vector<std::size_t>& joints,
                                   const StageRoom& room);

/// Says where each clamp of `lines` presses: evenly along the longest joint its part goes home by,
/// a half of the spacing from either end.
void place_clamps(const piece::Piece& piece,
                  const std::vector<std::size_t>& joints,
                  std::vector<ClampLine>& lines);

/// Clamps of set `from` and of all that reach farther.
std::int64_t clamps_from(const std::vector<shop::ClampSet>& clamps, std::size_t from);

/// For each set, what must come from it or from longer ones. What no clamp reaches is left out.
std::vector<std::int64_t> clamps_used(const std::vector<ClampLine>& lines, const StageRoom& room);

}  // namespace plankwright::bench
