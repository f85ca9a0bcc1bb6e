#pragma once
// Plain numbers that stay exact as long as they can, for sizes that are halved and added up again.

#include <compare>
#include <cstdint>

namespace plankwright::measure {

/// A number as a fraction of 64-bit whole numbers in lowest terms, so that 64 x 1/64 is 1; one that
/// leaves 64 bits becomes the nearest double and stays one. Never undefined: too large a number
/// ends as an infinity, which finite() tells.
class ExactNumber {
 public:
  constexpr ExactNumber() = default;
  static ExactNumber whole(std::int64_t n) { return fraction(n, 1); }
  /// `top` over `under`; `under` must not be zero.
  static ExactNumber fraction(std::int64_t top, std::int64_t under);
  /// Exact when the double is a whole number or a fraction such as 0.875; else as it is.
  static ExactNumber from_double(double value);

  double value() const;
  bool finite() const;
  bool is_zero() const { return value() == 0; }
  /// The nearest whole number, halves away from zero.
  ExactNumber rounded() const;

  friend ExactNumber operator+(const ExactNumber& a, const ExactNumber& b);
  friend ExactNumber operator-(const ExactNumber& a, const ExactNumber& b);
  friend ExactNumber operator-(const ExactNumber& a);
  friend ExactNumber operator*(const ExactNumber& a, const ExactNumber& b);
  /// `b` must not be zero.
  friend ExactNumber operator/(const ExactNumber& a, const ExactNumber& b);
  friend std::partial_ordering operator<=>(const ExactNumber& a, const ExactNumber& b);
  friend bool operator==(const ExactNumber& a, const ExactNumber& b) { return std::is_eq(a <=> b); }

 private:
  __extension__ using Wide = __int128;
  static ExactNumber reduced(Wide top, Wide under);
  static ExactNumber rough(double value);
  bool exact() const { return under_ != 0; }

  std::int64_t top_ = 0;
  std::int64_t under_ = 1;  // 0 when only rough_ is known
  double rough_ = 0;
};

}  // namespace plankwright::measure
