#pragma once
// Distances, exact.

#include <compare>
#include <cstdint>

namespace plankwright::measure {

/// A distance, exact in nanometres: 1/64 in is 396 875 nm and 0.1 mm is 100 000 nm, so neither an
/// inch drawing nor a metric one is rounded on the way in. There is no Length * Length.
class Length {
 public:
  constexpr Length() = default;
  static constexpr Length from_nm(std::int64_t nm) { return Length{nm}; }
  /// The nearest whole nanometre, halves away from zero.
  static constexpr Length from_mm(double mm) {
    return Length{static_cast<std::int64_t>(mm * 1e6 + (mm < 0 ? -0.5 : 0.5))};
  }
  static constexpr Length from_inches(double inches) { return from_mm(inches * 25.4); }
  constexpr std::int64_t nm() const { return nm_; }
  constexpr double mm() const { return static_cast<double>(nm_) / 1e6; }
  constexpr double metres() const { return static_cast<double>(nm_) / 1e9; }
  constexpr double inches() const { return static_cast<double>(nm_) / 25.4e6; }
  constexpr double feet() const { return inches() / 12.0; }

  constexpr Length& operator+=(Length b) {
    nm_ += b.nm_;
    return *this;
  }
  constexpr Length& operator-=(Length b) {
    nm_ -= b.nm_;
    return *this;
  }
  friend constexpr Length operator+(Length a, Length b) { return Length{a.nm_ + b.nm_}; }
  friend constexpr Length operator-(Length a, Length b) { return Length{a.nm_ - b.nm_}; }
  friend constexpr Length operator-(Length a) { return Length{-a.nm_}; }
  friend constexpr Length operator*(Length a, std::int64_t n) { return Length{a.nm_ * n}; }
  friend constexpr Length operator*(std::int64_t n, Length a) { return Length{a.nm_ * n}; }
  /// An equal share, cut down to the nanometre.
  friend constexpr Length operator/(Length a, std::int64_t n) { return Length{a.nm_ / n}; }
  friend constexpr double operator/(Length a, Length b) {
    return static_cast<double>(a.nm_) / static_cast<double>(b.nm_);
  }
  friend constexpr auto operator<=>(Length a, Length b) = default;

 private:
  explicit constexpr Length(std::int64_t nm) : nm_{nm} {}
  std::int64_t nm_ = 0;
};

/// `a` scaled by a plain number, to the nearest nanometre.
constexpr Length scaled(Length a, double factor) {
  return Length::from_mm(a.mm() * factor);
}

consteval Length operator""_mm(long double v) {
  return Length::from_nm(static_cast<std::int64_t>(v * 1e6L + 0.5L));
}
consteval Length operator""_mm(unsigned long long v) {
  return Length::from_nm(static_cast<std::int64_t>(v) * 1'000'000);
}
consteval Length operator""_in(long double v) {
  return Length::from_nm(static_cast<std::int64_t>(v * 25.4e6L + 0.5L));
}
consteval Length operator""_in(unsigned long long v) {
  return Length::from_nm(static_cast<std::int64_t>(v) * 25'400'000);
}

}  // namespace plankwright::measure
