#include "base/quote.h"

#include <algorithm>

namespace plankwright::base {

std::string quote(std::string_view text) {
  constexpr std::size_t kLongest = 60;
  std::size_t end = std::min(text.size(), kLongest);
  while (end > 0 && end < text.size() && (static_cast<unsigned char>(text[end]) & 0xC0U) == 0x80U) {
    --end;
  }
  std::string quoted{'`'};
  for (const char c : text.substr(0, end)) {
    quoted += c == '\n' || c == '\r' ? ' ' : c;
  }
  quoted += end < text.size() ? "...`" : "`";
  return quoted;
}

}  // namespace plankwright::base
