#include "main/wrapped.h"

#include <fmt/format.h>

namespace plankwright::cli {

std::string wrapped(std::string_view text, std::size_t indent) {
  constexpr std::size_t kColumns = 96;
  std::string out;
  std::size_t column = indent;
  while (!text.empty()) {
    const std::size_t space = text.find(' ');
    const std::string_view word = text.substr(0, space);
    text = space == std::string_view::npos ? std::string_view{} : text.substr(space + 1);
    if (column + word.size() > kColumns && column > indent) {
      out += fmt::format("\n{:{}}", "", indent);
      column = indent;
    } else if (column > indent) {
      out += ' ';
      ++column;
    }
    out += word;
    column += word.size();
  }
  return out;
}

}  // namespace plankwright::cli
