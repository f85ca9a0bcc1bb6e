#include "measure/characters.h"

#include <algorithm>

namespace plankwright::measure {
namespace {

constexpr char32_t kNoCharacter = 0xFFFD;

/// How many bytes the character starting with `first` takes, or 0 when none starts so.
std::size_t bytes_of(unsigned char first) {
  return first < 0x80   ? 1
         : first < 0xC2 ? 0
         : first < 0xE0 ? 2
         : first < 0xF0 ? 3
         : first < 0xF5 ? 4
                        : 0;
}

struct Decoded {
  char32_t code = kNoCharacter;
  std::size_t bytes = 1;
};

Decoded decode(std::string_view text) {
  const auto first = static_cast<unsigned char>(text[0]);
  const std::size_t bytes = bytes_of(first);
  if (bytes == 0 || bytes > text.size()) {
    return {};
  }
  char32_t code = bytes == 1 ? first : first & (0x7FU >> bytes);
  for (std::size_t i = 1; i < bytes; ++i) {
    const auto next = static_cast<unsigned char>(text[i]);
    if ((next & 0xC0U) != 0x80U) {
      return {};
    }
    code = (code << 6U) | (next & 0x3FU);
  }
  return {code, bytes};
}

/// One character for all that a maker means by it.
char32_t plain(char32_t c) {
  switch (c) {
    case U'\t':
    case U'\n':
    case U'\r':
    case 0x00A0:
    case 0x2009:
    case 0x202F:
      return U' ';
    case 0x2032:
    case 0x2019:
      return U'\'';
    case 0x2033:
    case 0x201D:
      return U'"';
    case 0x2212:
      return U'-';
    case 0x00D7:
      return U'*';
    case 0x00F7:
    case 0x2044:
    case 0x2215:
      return U'/';
    default:
      return c;
  }
}

}  // namespace

Characters::Characters(std::string_view text) : text_{text} {
  for (std::size_t at = 0; at < text.size();) {
    const Decoded next = decode(text.substr(at));
    codes_.push_back(plain(next.code));
    starts_.push_back(at);
    at += next.bytes;
  }
  starts_.push_back(text.size());
}

std::string Characters::written(std::size_t begin, std::size_t end) const {
  begin = std::min(begin, codes_.size());
  end = std::clamp(end, begin, codes_.size());
  return std::string{text_.substr(starts_[begin], starts_[end] - starts_[begin])};
}

bool is_digit(char32_t c) {
  return c >= U'0' && c <= U'9';
}

bool is_letter(char32_t c) {
  const bool latin = (c >= U'a' && c <= U'z') || (c >= U'A' && c <= U'Z') || c == U'_';
  const bool symbol = c < 0xC0 || (c >= 0x2000 && c < 0x2C00) || c >= kNoCharacter;
  return latin || !symbol;
}

bool is_name_part(char32_t c) {
  return is_letter(c) || is_digit(c) || c == U'.';
}

VulgarFraction vulgar_fraction(char32_t c) {
  switch (c) {
    case U'¼':
      return {1, 4};
    case U'½':
      return {1, 2};
    case U'¾':
      return {3, 4};
    case U'⅓':
      return {1, 3};
    case U'⅔':
      return {2, 3};
    case U'⅕':
      return {1, 5};
    case U'⅖':
      return {2, 5};
    case U'⅗':
      return {3, 5};
    case U'⅘':
      return {4, 5};
    case U'⅙':
      return {1, 6};
    case U'⅚':
      return {5, 6};
    case U'⅛':
      return {1, 8};
    case U'⅜':
      return {3, 8};
    case U'⅝':
      return {5, 8};
    case U'⅞':
      return {7, 8};
    default:
      return {};
  }
}

}  // namespace plankwright::measure
