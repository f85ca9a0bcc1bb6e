#include "base/result.h"

#include <fmt/format.h>

namespace plankwright::base {
namespace {

/// Line `number` (from 1) of `source`, without its line end; empty when there is no such line.
std::string_view line_of(std::string_view source, int number) {
  for (int line = 1; line < number; ++line) {
    const auto end = source.find('\n');
    if (end == std::string_view::npos) {
      return {};
    }
    source.remove_prefix(end + 1);
  }
  source = source.substr(0, source.find('\n'));
  if (!source.empty() && source.back() == '\r') {
    source.remove_suffix(1);
  }
  return source;
}

/// The white space that puts a caret under character `column` of `line`; tabs stay tabs, and the
/// later bytes of a UTF-8 character take no room.
std::string indent_to(std::string_view line, int column) {
  std::string indent;
  int at = 1;
  for (const char c : line) {
    const bool starts_character = (static_cast<unsigned char>(c) & 0xC0U) != 0x80U;
    if (!starts_character) {
      continue;
    }
    if (at++ >= column) {
      return indent;
    }
    indent += c == '\t' ? '\t' : ' ';
  }
  for (; at < column; ++at) {
    indent += ' ';
  }
  return indent;
}

}  // namespace

std::string describe(const Error& error, std::string_view source) {
  const std::string offer =
      error.nearest.empty() ? "" : fmt::format("; did you mean `{}`?", error.nearest);
  if (!error.at) {
    return fmt::format("error: {}{}\n", error.message, offer);
  }
  std::string text = fmt::format("{}:{}:{}: error: {}{}\n",
                                 error.at->file,
                                 error.at->line,
                                 error.at->column,
                                 error.message,
                                 offer);
  constexpr std::size_t kLongestShown = 160;
  const std::string_view line = line_of(source, error.at->line);
  if (!line.empty() && line.size() <= kLongestShown) {
    text += fmt::format("  {}\n  {}^\n", line, indent_to(line, error.at->column));
  }
  return text;
}

}  // namespace plankwright::base
