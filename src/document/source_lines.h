#pragma once
// A text as lines.

#include <cstddef>
#include <string_view>
#include <vector>

namespace plankwright::document {

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

bool is_white(char c);
/// How many spaces a line begins with, and whether it holds nothing but white space.
std::size_t indent_of(std::string_view line);
bool is_blank(std::string_view line);

}  // namespace plankwright::document
