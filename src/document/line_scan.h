#pragma once
// A look at each line of a document before its grammar: the mistakes makers make most, explained in
// their words, and the text mended so that the grammar can be looked at all the same.

#include <cstddef>
#include <string>
#include <vector>

#include "base/result.h"
#include "document/source_lines.h"

namespace plankwright::document {

/// No list of errors grows longer; nobody reads on.
constexpr std::size_t kMostErrors = 100;

struct LineScan {
  base::Errors errors;
  std::vector<std::string> mended;  // the lines with the mistakes taken out, columns as they were
  bool hopeless = false;            // not a text, or its indentation cannot be known
};

/// Finds bytes that are no text, tabs as indentation, quotes that do not end on their line,
/// brackets without partner, values that begin with a sign YAML keeps for itself (anchors, aliases
/// and tags among them), text behind a closing quote, a second `name:` in one line, a line indented
/// under a value that is complete, `name:value` without a space, and a second document.
LineScan scan_lines(const SourceLines& lines, const std::string& file);

}  // namespace plankwright::document
