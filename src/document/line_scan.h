#pragma once
// A look at each line of a document before its grammar: the mistakes makers make most, explained in
// their words, and the text mended so that the grammar can be looked at all the same.

#include <cstddef>
#include <string>
#include <string_view>
#include <vector>

#include "base/result.h"

namespace plankwright::document {

/// No list of errors grows longer; nobody reads on.
constexpr std::size_t kMostErrors = 100;

/// The lines of a text, without line ends and without a byte order mark.
class SourceLines {
 public:
  explicit SourceLines(std::string_view text);
  std::size_t size() const { return lines_.size(); }
  std::string_view operator[](std::size_t line) const { return lines_[line]; }
  /// The character, from 1, that holds byte `byte` of line `line`, both from 0. Quick when asked
  /// for in the order of the text, as a parser does.
  int column(std::size_t line, std::size_t byte) const;

 private:
  std::vector<std::string_view> lines_;
  mutable std::size_t last_line_ = 0;
  mutable std::size_t last_byte_ = 0;
  mutable int last_column_ = 1;
};

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

/// How many spaces a line begins with, and whether it holds nothing but white space.
std::size_t indent_of(std::string_view line);
bool is_blank(std::string_view line);

}  // namespace plankwright::document
