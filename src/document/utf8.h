#pragma once
// Whether bytes are text.

#include <cstddef>
#include <string_view>

namespace plankwright::document {

/// How many bytes the first character of `text` takes, or 0 when they are not UTF-8 as RFC 3629 has
/// it: no longer forms than needed, no surrogates, nothing above U+10FFFF. `text` is not empty.
std::size_t utf8_length(std::string_view text);

}  // namespace plankwright::document
