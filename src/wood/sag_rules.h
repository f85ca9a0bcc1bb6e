#pragma once
// What a shelf is loaded with, how the sag grows in time, and how much is too much.

#include <optional>
#include <string>
#include <string_view>

#include "base/result.h"
#include "measure/length.h"
#include "measure/quantity.h"
#include "wood/provenance.h"
#include "wood/table.h"

namespace plankwright::wood {

/// How far a span may sag.
struct SagLimit {
  std::string id;    // "shelf_target"
  std::string what;  // "aim for the sag of a shelf"
  double span_per_sag = 0;
  std::optional<measure::Length> at_most;
  Provenance from;
};
using SagLimitTable = Table<SagLimit>;

/// Reads data/limits.csv. Errors with place.
base::Result<SagLimitTable> read_sag_limits(std::string_view csv_text, const std::string& file);

/// The sag that `limit` allows over `span`.
measure::Length allowed_sag(const SagLimit& limit, measure::Length span);

/// How many times the sag at once the lasting sag is.
struct Creep {
  std::string id;    // "ec5_fibreboard"; panels name theirs
  std::string what;  // "hardboard and fibreboard in a dry room"
  double factor = 1;
  Provenance from;
};
using CreepTable = Table<Creep>;

/// Reads data/creep.csv. Errors with place.
base::Result<CreepTable> read_creep(std::string_view csv_text, const std::string& file);

/// What a shelf or top must carry. One of the three ways it is spread is not zero.
struct Load {
  std::string id;    // "books"
  std::string what;  // "average books"
  measure::Megapascals area;
  measure::NewtonsPerMillimetre line;
  measure::Newtons point;
  std::optional<measure::Newtons> at_most;  // on one shelf
  Provenance from;
};
using LoadTable = Table<Load>;

/// Reads data/loads.csv. Errors with place.
base::Result<LoadTable> read_loads(std::string_view csv_text, const std::string& file);

/// The load along a shelf `depth` deep and `span` long: an area load over its depth or a line load
/// as it is, never over what the table puts on one shelf. A point load gives zero.
measure::NewtonsPerMillimetre line_load(const Load& load,
                                        measure::Length depth,
                                        measure::Length span);

}  // namespace plankwright::wood
