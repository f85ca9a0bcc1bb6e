#include "document/source_lines.h"

#include <algorithm>

namespace plankwright::document {

bool is_white(char c) {
  return c == ' ' || c == '\t';
}

SourceLines::SourceLines(std::string_view text) {
  constexpr std::string_view kByteOrderMark = "\xEF\xBB\xBF";
  if (text.starts_with(kByteOrderMark)) {
    text.remove_prefix(kByteOrderMark.size());
  }
  while (!text.empty()) {
    const auto end = std::min(text.find('\n'), text.size());
    std::string_view line = text.substr(0, end);
    if (line.ends_with('\r')) {
      line.remove_suffix(1);
    }
    lines_.push_back(line);
    text.remove_prefix(std::min(end + 1, text.size()));
  }
}

int SourceLines::column(std::size_t line, std::size_t byte) const {
  if (line != last_line_ || byte < last_byte_) {
    last_line_ = line;
    last_byte_ = 0;
    last_column_ = 1;
  }
  const std::string_view text = line < lines_.size() ? lines_[line] : std::string_view{};
  for (; last_byte_ < byte; ++last_byte_) {
    const bool inside = last_byte_ + 1 < text.size() &&
                        (static_cast<unsigned char>(text[last_byte_ + 1]) & 0xC0U) == 0x80U;
    last_column_ += inside ? 0 : 1;
  }
  return last_column_;
}

std::size_t indent_of(std::string_view line) {
  return std::min(line.find_first_not_of(' '), line.size());
}

bool is_blank(std::string_view line) {
  return std::ranges::all_of(line, is_white);
}

}  // namespace plankwright::document
