#pragma once
// The documents that the figures were taken from.

#include <string>
#include <string_view>

#include "wood/provenance.h"
#include "wood/table.h"

namespace plankwright::wood {

struct Source {
  std::string id;  // the key that tables use
  std::string document;
  std::string where;    // in the document
  std::string address;  // empty when none is known
};

using SourceTable = Table<Source>;

/// Reads data/sources.csv. Errors with place.
base::Result<SourceTable> read_sources(std::string_view csv_text, const std::string& file);

/// The provenance with its keys spelled out, for papers:
/// `Wood Handbook FPL-GTR-190, table 13-5 (verified)`. A key that is not in the table stays a key.
std::string spell_out(const Provenance& from, const SourceTable& sources);

/// The single keys of `from`.
std::vector<std::string> keys_of(const Provenance& from);

}  // namespace plankwright::wood
