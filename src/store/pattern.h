#pragma once
// Patterns: commissions with places left open, to begin a piece from.

#include <filesystem>
#include <map>
#include <string>
#include <vector>

#include "base/result.h"

namespace plankwright::store {

/// An overall size that is asked for.
struct PatternSize {
  std::string name;   // "width"
  std::string label;  // "Length of the top"
  std::string value;  // what is offered: "1800 mm"
};

/// A way to pick the stock of the whole piece: the words that go into the open places.
struct PatternStock {
  std::string id;    // "oak"
  std::string says;  // "White oak"
  std::vector<std::pair<std::string, std::string>> sets;
};

struct Pattern {
  std::string id;    // "dining_table"
  std::string name;  // "Dining table"
  std::string says;
  std::vector<PatternSize> sizes;
  std::vector<PatternStock> stocks;
  std::string text;  // with `{{width}}` and the like in the open places
};

struct ReadPattern {
  Pattern pattern;
  base::Errors errors;
};

/// Reads a pattern document. Errors of its grammar, and a place of the text that nothing fills.
ReadPattern read_pattern(const std::string& text, const std::string& id, const std::string& file);

/// The patterns of a folder, by name of file; those with errors are left out.
std::vector<Pattern> patterns_in(const std::filesystem::path& folder);

/// What was picked for a new commission.
struct PatternPicks {
  std::string name;                          // of the commission
  std::map<std::string, std::string> sizes;  // as typed; those left out are as offered
  std::string stock;                         // "" for the first
};

/// The text of a new commission. Errors: a size that cannot be read, or is none of the pattern's; a
/// stock it does not offer.
base::Result<std::string> fill_pattern(const Pattern& pattern, const PatternPicks& picks);

/// A commission with nothing in it yet, and where to read on.
std::string empty_commission(const std::string& name);

}  // namespace plankwright::store
