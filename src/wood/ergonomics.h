#pragma once
// Body measures, and sizes that furniture usually has because people have theirs.

#include <optional>
#include <string>
#include <string_view>

#include "base/result.h"
#include "measure/length.h"
#include "wood/provenance.h"
#include "wood/table.h"

namespace plankwright::wood {

/// A body measure or usual size. An absent bound leaves that side open.
struct UsualSize {
  std::string id;    // "dining_knee_height"
  std::string what;  // "clear height for thighs below an apron"
  std::optional<measure::Length> least, most;
  std::string note;
  Provenance from;
};

using UsualSizeTable = Table<UsualSize>;

/// Reads data/ergonomics.csv. Errors with place.
base::Result<UsualSizeTable> read_usual_sizes(std::string_view csv_text, const std::string& file);

/// How far `size` is outside: negative below the least, positive above the most, zero when it fits.
measure::Length outside_by(const UsualSize& usual, measure::Length size);

}  // namespace plankwright::wood
