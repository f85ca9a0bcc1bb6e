#pragma once
// What is read beside a glue-up: parts in their order, clamps, diagonals, times.

#include <string>
#include <vector>

#include "bench/clamps.h"
#include "measure/quantity.h"
#include "piece/piece.h"

namespace plankwright::bench {

/// One glue-up as it is done.
struct StageCard {
  std::string name;                     // "case, stage 2 of 3"
  std::size_t operation = 0;            // in Bench::operations
  std::vector<piece::PartIndex> parts;  // in the order in which they go together
  std::vector<std::size_t> joints;      // in the order in which they close
  int glued = 0;
  int people = 1;
  bool flat = false;  // no thicker than its thickest part: a frame, glued before a box
  measure::Minutes spread, assemble, square;  // with these people
  measure::Minutes takes;                     // all three
  measure::Minutes has;  // of the glue's open and closed time; zero when nobody knows it
  std::vector<ClampLine> clamps;
  int cauls = 0;             // a pair for every row of clamps on a wide joint
  measure::Length diagonal;  // both, over the outer corners, when it is square; zero for one joint
  measure::Minutes clamps_off;          // after the last clamp went on
  measure::Minutes worked;              // before it may be planed, cut or carry a load
  std::vector<piece::PartIndex> reach;  // their inner faces are sanded and finished before
  std::vector<std::string> warnings;    // what keeps it from closing in time, and what helps
};

}  // namespace plankwright::bench
