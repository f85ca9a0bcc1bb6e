#pragma once
// What boards of a grade are like: how many faults, how large, how far their sizes spread.

#include <string>
#include <string_view>
#include <vector>

#include "base/result.h"
#include "measure/length.h"
#include "measure/quantity.h"
#include "wood/provenance.h"
#include "wood/table.h"

namespace plankwright::wood {

/// Boards of one grade as they were counted. Shares are of all faults.
struct BoardFaults {
  std::string id;  // of the grade
  std::vector<std::string> names;
  double per_square_foot = 0;
  measure::Length length;  // of a fault, on average
  measure::Length width;
  measure::Percent both_faces;
  measure::Percent upper_face;  // on the upper face only
  measure::Percent at_edge;     // reaching an edge or an end of the board
  measure::Percent sound;
  measure::Percent width_spread;  // standard deviation of the boards' widths
  measure::Percent length_spread;
  Provenance from;
};

using BoardFaultTable = Table<BoardFaults>;

/// Reads data/board_faults.csv. Errors with place.
base::Result<BoardFaultTable> read_board_faults(std::string_view csv_text, const std::string& file);

/// The row for a grade as a shop writes it ("FAS one face", "no. 1 common"), whatever its capitals;
/// nullptr when no row is called so.
const BoardFaults* faults_of_grade(const BoardFaultTable& table, std::string_view grade);

}  // namespace plankwright::wood
