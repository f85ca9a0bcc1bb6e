#pragma once
// The user's own words inside a message.

#include <string>
#include <string_view>

namespace plankwright::base {

/// `text` between back ticks, on one line, and cut after 60 bytes or a little before (never inside
/// a character) with `...` for the rest: a message is read in one look whatever was typed.
std::string quote(std::string_view text);

}  // namespace plankwright::base
