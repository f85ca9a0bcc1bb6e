#pragma once
// Where a figure comes from, and how far it can be trusted.

#include <string>
#include <string_view>
#include <utility>

#include "base/csv.h"

namespace plankwright::wood {

/// How well a figure is known, best first.
enum class Mark {
  kVerified,  // seen in the source named
  kMemory,    // recalled, not seen in the source named
  kPractice   // common practice of the trade, no source
};

/// The word for a mark in the tables: `verified`, `memory`, `practice`.
std::string_view word(Mark mark);

/// The mark of a figure worked out from two others.
constexpr Mark weaker(Mark a, Mark b) {
  return a < b ? b : a;
}

/// Where a figure comes from.
struct Provenance {
  Mark mark = Mark::kPractice;
  std::string source;  // keys of the source table, `;` between several; empty for common practice
  std::string how;     // how it was worked out; empty when it stands in the source as it is
  friend bool operator==(const Provenance&, const Provenance&) = default;
};

/// `how (WH3, verified)`, `(GTR135, from memory)`, `(common practice, no source)`.
std::string print(const Provenance& from);

/// A figure with its provenance.
template <class T>
struct Cited {
  T value{};
  Provenance from;
};

/// Reads the mark and source cells that belong to a figure. Complains of a mark that is not one,
/// and of a published figure without a source.
Provenance read_provenance(const base::CsvRow& row,
                           std::string_view mark_column = "mark",
                           std::string_view source_column = "src");

}  // namespace plankwright::wood
