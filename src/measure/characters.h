#pragma once
// Text as characters rather than bytes, because columns count characters.

#include <cstddef>
#include <string>
#include <string_view>
#include <vector>

namespace plankwright::measure {

/// UTF-8 text taken apart. Characters that makers use for the same thing are made one: curly and
/// straight foot and inch marks, the minus sign, multiplication and fraction signs, all spaces. A
/// byte that is no UTF-8 becomes U+FFFD.
class Characters {
 public:
  explicit Characters(std::string_view text);
  std::size_t size() const { return codes_.size(); }
  /// The character at `i`, or 0 behind the end.
  char32_t operator[](std::size_t i) const { return i < codes_.size() ? codes_[i] : 0; }
  /// Characters `begin` to before `end` as they were written.
  std::string written(std::size_t begin, std::size_t end) const;

 private:
  std::string_view text_;
  std::vector<char32_t> codes_;
  std::vector<std::size_t> starts_;  // byte of each character, and one behind the last
};

bool is_digit(char32_t c);
/// A letter of any script, or `_`.
bool is_letter(char32_t c);
/// A letter, a digit, `_` or `.`: what a name goes on with.
bool is_name_part(char32_t c);

/// `½` is 1 over 2; {0, 0} for every other character.
struct VulgarFraction {
  int top = 0;
  int under = 0;
};
VulgarFraction vulgar_fraction(char32_t c);

}  // namespace plankwright::measure
