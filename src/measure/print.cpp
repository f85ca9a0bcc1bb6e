#include <cstdlib>
#include <numeric>

#include <fmt/format.h>

#include "measure/expression.h"

namespace plankwright::measure {
namespace {

constexpr std::int64_t kInchNm = 25'400'000;
constexpr std::int64_t kParts = 32;                 // of an inch, what a maker reads off a rule
constexpr std::int64_t kPartNm = kInchNm / kParts;  // 793 750: exact
constexpr std::int64_t kTenthNm = 100'000;          // 0.1 mm
// Shares of a size are cut to whole nanometres; a sign for that would only trouble the reader.
constexpr std::int64_t kNotWorthASignNm = 1'000;

/// `size` in whole steps, halves away from zero.
std::int64_t nearest(std::int64_t size, std::int64_t step) {
  const std::int64_t whole = size / step;
  const std::int64_t rest = std::abs(size % step);
  return rest * 2 < step ? whole : whole + (size < 0 ? -1 : 1);
}

std::string print_inches(std::int64_t nm) {
  const std::int64_t parts = nearest(nm, kPartNm);
  const std::int64_t off = nm - parts * kPartNm;
  const std::int64_t size = std::abs(parts);
  const std::int64_t top = size % kParts;
  const std::int64_t common = std::gcd(top, kParts);
  std::string text = parts < 0 ? "-" : "";
  if (size >= kParts || top == 0) {
    text += fmt::format("{}", size / kParts);
  }
  if (top != 0) {
    text += fmt::format("{}{}/{}", size >= kParts ? " " : "", top / common, kParts / common);
  }
  return text + (off > kNotWorthASignNm ? "+" : off < -kNotWorthASignNm ? "-" : "");
}

std::string print_millimetres(std::int64_t nm) {
  const std::int64_t tenths = nearest(nm, kTenthNm);
  const std::int64_t size = std::abs(tenths);
  std::string text = fmt::format("{}{}", tenths < 0 ? "-" : "", size / 10);
  return size % 10 == 0 ? text : text + fmt::format(".{}", size % 10);
}

}  // namespace

std::string print(Length length, LengthUnit unit) {
  return unit == LengthUnit::kInch ? print_inches(length.nm()) : print_millimetres(length.nm());
}

std::string print_with_unit(Length length, LengthUnit unit) {
  return print(length, unit) + (unit == LengthUnit::kInch ? " in" : " mm");
}

}  // namespace plankwright::measure
