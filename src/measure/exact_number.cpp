#include "measure/exact_number.h"

#include <cmath>
#include <limits>

namespace plankwright::measure {

ExactNumber ExactNumber::rough(double value) {
  ExactNumber number;
  number.under_ = 0;
  number.rough_ = value;
  return number;
}

// Products of two 64-bit numbers and the sum of two of them fit into 128 bits, so nothing here can
// overflow before it is reduced.
ExactNumber ExactNumber::reduced(Wide top, Wide under) {
  if (under < 0) {
    top = -top;
    under = -under;
  }
  Wide a = top < 0 ? -top : top;
  Wide b = under;
  while (b != 0) {
    const Wide rest = a % b;
    a = b;
    b = rest;
  }
  constexpr Wide kMost = std::numeric_limits<std::int64_t>::max();
  const Wide small_top = top / a;
  const Wide small_under = under / a;
  if (small_top > kMost || small_top < -kMost || small_under > kMost) {
    return rough(static_cast<double>(small_top) / static_cast<double>(small_under));
  }
  ExactNumber number;
  number.top_ = static_cast<std::int64_t>(small_top);
  number.under_ = static_cast<std::int64_t>(small_under);
  return number;
}

ExactNumber ExactNumber::fraction(std::int64_t top, std::int64_t under) {
  return reduced(top, under);
}

ExactNumber ExactNumber::from_double(double value) {
  constexpr double kParts = 1 << 20;
  const double parts = value * kParts;
  if (std::abs(parts) < 9e15 && std::floor(parts) == parts) {
    return reduced(static_cast<std::int64_t>(parts), static_cast<std::int64_t>(kParts));
  }
  return rough(value);
}

double ExactNumber::value() const {
  return exact() ? static_cast<double>(top_) / static_cast<double>(under_) : rough_;
}

bool ExactNumber::finite() const {
  return exact() || std::isfinite(rough_);
}

ExactNumber ExactNumber::rounded() const {
  if (!exact()) {
    return rough(std::round(rough_));
  }
  const Wide size = top_ < 0 ? -Wide{top_} : Wide{top_};
  const Wide nearest = (2 * size + under_) / (2 * Wide{under_});
  return reduced(top_ < 0 ? -nearest : nearest, 1);
}

ExactNumber operator+(const ExactNumber& a, const ExactNumber& b) {
  using Wide = ExactNumber::Wide;
  if (a.exact() && b.exact()) {
    return ExactNumber::reduced(Wide{a.top_} * b.under_ + Wide{b.top_} * a.under_,
                                Wide{a.under_} * b.under_);
  }
  return ExactNumber::rough(a.value() + b.value());
}

ExactNumber operator-(const ExactNumber& a) {
  ExactNumber negative = a;
  negative.top_ = -a.top_;
  negative.rough_ = -a.rough_;
  return negative;
}

ExactNumber operator-(const ExactNumber& a, const ExactNumber& b) {
  return a + -b;
}

ExactNumber operator*(const ExactNumber& a, const ExactNumber& b) {
  using Wide = ExactNumber::Wide;
  if (a.exact() && b.exact()) {
    return ExactNumber::reduced(Wide{a.top_} * b.top_, Wide{a.under_} * b.under_);
  }
  return ExactNumber::rough(a.value() * b.value());
}

ExactNumber operator/(const ExactNumber& a, const ExactNumber& b) {
  using Wide = ExactNumber::Wide;
  if (a.exact() && b.exact() && b.top_ != 0) {
    return ExactNumber::reduced(Wide{a.top_} * b.under_, Wide{a.under_} * b.top_);
  }
  return ExactNumber::rough(a.value() / b.value());
}

std::partial_ordering operator<=>(const ExactNumber& a, const ExactNumber& b) {
  using Wide = ExactNumber::Wide;
  if (a.exact() && b.exact()) {
    const Wide left = Wide{a.top_} * b.under_;
    const Wide right = Wide{b.top_} * a.under_;
    return left < right   ? std::partial_ordering::less
           : left > right ? std::partial_ordering::greater
                          : std::partial_ordering::equivalent;
  }
  return a.value() <=> b.value();
}

}  // namespace plankwright::measure
