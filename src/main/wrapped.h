#pragma once
// Text on a terminal.

#include <cstddef>
#include <string>
#include <string_view>

namespace plankwright::cli {

/// `text` broken at spaces for a terminal of 100 columns, each line after the first indented by
/// `indent`.
std::string wrapped(std::string_view text, std::size_t indent);

}  // namespace plankwright::cli
