#pragma once
// Glues by generic type: how long one has, how long the clamps stay, and how hard they press.

#include <optional>
#include <string>
#include <string_view>

#include "base/result.h"
#include "measure/length.h"
#include "measure/quantity.h"
#include "wood/provenance.h"
#include "wood/table.h"

namespace plankwright::wood {

/// A generic type of glue at about 20 C and middling humidity. Warmth shortens every time, cold and
/// damp lengthen them; the maker's data sheet always wins. A figure nobody gives is absent.
struct Adhesive {
  std::string id;                                            // "pva_yellow"
  std::string name;                                          // "yellow PVA glue"
  std::optional<Cited<measure::Minutes>> open;               // from spreading to joining
  std::optional<Cited<measure::Minutes>> closed;             // from joining to pressing
  std::optional<Cited<measure::Minutes>> clamp;              // pressed before it may be handled
  std::optional<Cited<measure::Minutes>> cure;               // before it may be loaded or machined
  std::optional<Cited<measure::Celsius>> least_temperature;  // of glue, wood and shop
  std::optional<Cited<double>> grams_per_square_metre;       // of a single glue line
  std::string note;
};

using AdhesiveTable = Table<Adhesive>;

/// Reads data/adhesives.csv. Errors with place.
base::Result<AdhesiveTable> read_adhesives(std::string_view csv_text, const std::string& file);

/// Pressure on a glue line for woods of a range of density.
struct ClampPressure {
  std::string id;
  std::string name;  // "dense hardwoods"
  measure::KilogramsPerCubicMetre density_from, density_below;
  measure::Megapascals least, most;
  Provenance from;
};

using ClampPressureTable = Table<ClampPressure>;

/// Reads data/clamp_pressure.csv. Errors with place.
base::Result<ClampPressureTable> read_clamp_pressures(std::string_view csv_text,
                                                      const std::string& file);

/// The row for a wood. Error kOutOfTable when no row covers its density.
base::Result<ClampPressure> pressure_for(const ClampPressureTable& table,
                                         measure::KilogramsPerCubicMetre density);

/// Force on all clamps together to press a glue line.
measure::Newtons clamp_force(measure::SquareMillimetres glue_line, measure::Megapascals pressure);

/// Clamps needed for a force when each gives `each`: rounded up (AH4, verified). Error kBadInput
/// when `each` is not positive, kDoesNotFit when it would take over 1000.
base::Result<int> clamps_for_force(measure::Newtons force, measure::Newtons each);

/// Clamps needed along a glue line so that their pressure, which spreads at 45 degrees, meets at
/// the line: one every two distances from clamp pad to glue line, and one more (common practice).
/// Errors as above.
base::Result<int> clamps_for_spread(measure::Length glue_line, measure::Length pad_to_line);

}  // namespace plankwright::wood
