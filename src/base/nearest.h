#pragma once
// The right word for a mistyped one.

#include <span>
#include <string>
#include <string_view>

namespace plankwright::base {

/// The word of `words` nearest to `typed` by edit distance (a swap of neighbours counts one), or an
/// empty string when none is near enough to be what was meant (more than a third of the letters
/// differ). Ties go to the first.
std::string nearest_word(std::string_view typed, std::span<const std::string_view> words);
std::string nearest_word(std::string_view typed, std::span<const std::string> words);

/// `a, b or c`, for "expected ..." messages.
std::string list_words(std::span<const std::string_view> words);
std::string list_words(std::span<const std::string> words);

}  // namespace plankwright::base
