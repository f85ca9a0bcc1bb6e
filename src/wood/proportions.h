#pragma once
// Customary proportions of joints and bends.

#include <optional>
#include <string>
#include <string_view>

#include "base/result.h"
#include "wood/provenance.h"
#include "wood/table.h"

namespace plankwright::wood {

/// A ratio of two sizes. An absent bound leaves that side open.
struct Proportion {
  std::string id;    // "tenon_thickness"
  std::string what;  // "tenon thickness to the thickness of the stock"
  std::optional<double> least, most;
  std::string note;
  Provenance from;
};

using ProportionTable = Table<Proportion>;

/// Reads data/proportions.csv. Errors with place.
base::Result<ProportionTable> read_proportions(std::string_view csv_text, const std::string& file);

}  // namespace plankwright::wood
