#pragma once
// Measuring rough hardwood: thickness classes, surface measure, board feet.

#include <string>
#include <string_view>

#include "base/result.h"
#include "measure/length.h"
#include "wood/provenance.h"
#include "wood/table.h"

namespace plankwright::wood {

/// A nominal thickness in quarters of an inch.
struct ThicknessClass {
  std::string id;            // "5/4"
  measure::Length rough;     // as bought
  measure::Length surfaced;  // what planing both faces leaves
  Provenance from;
};

using ThicknessTable = Table<ThicknessClass>;

/// Reads data/thickness_classes.csv, thinnest first. Errors with place.
base::Result<ThicknessTable> read_thickness_classes(std::string_view csv_text,
                                                    const std::string& file);

/// The thinnest class that planes to `finished`. Error kDoesNotFit when none does.
base::Result<ThicknessClass> class_for(const ThicknessTable& table, measure::Length finished);

/// Surface measure in whole square feet: width with its fraction times length in whole feet, over
/// 12, to the nearest whole number, a half going up. Zero for a board without size. Source: NH3
/// (method), NH4 (a half goes up); verified.
int surface_measure(measure::Length width, measure::Length length);

/// Board feet of one board on a tally: surface measure times nominal thickness, of which anything
/// under 1 in counts as 1 in. Source: NHLA, from memory; LS3, verified (under 1 in).
double tally_board_feet(measure::Length width, measure::Length length, measure::Length nominal);

/// Board feet without rounding to a tally: thickness x width x length / 144 cubic inches, thickness
/// under 1 in counted as 1 in. Source: LS2, LS3, verified.
double board_feet(measure::Length width, measure::Length length, measure::Length nominal);

}  // namespace plankwright::wood
