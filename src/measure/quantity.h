#pragma once
// Measured numbers other than lengths. Each type is named after its unit, so that `count()` can be
// read without looking anything up and no bare double with a unit crosses a header.

#include <compare>

namespace plankwright::measure {

/// A number of one unit. Sums and comparisons stay inside the unit; scaling takes plain numbers.
template <class Unit>
class Quantity {
 public:
  constexpr Quantity() = default;
  explicit constexpr Quantity(double count) : count_{count} {}
  constexpr double count() const { return count_; }

  constexpr Quantity& operator+=(Quantity b) {
    count_ += b.count_;
    return *this;
  }
  constexpr Quantity& operator-=(Quantity b) {
    count_ -= b.count_;
    return *this;
  }
  friend constexpr Quantity operator+(Quantity a, Quantity b) {
    return Quantity{a.count_ + b.count_};
  }
  friend constexpr Quantity operator-(Quantity a, Quantity b) {
    return Quantity{a.count_ - b.count_};
  }
  friend constexpr Quantity operator*(Quantity a, double n) { return Quantity{a.count_ * n}; }
  friend constexpr Quantity operator*(double n, Quantity a) { return Quantity{a.count_ * n}; }
  friend constexpr Quantity operator/(Quantity a, double n) { return Quantity{a.count_ / n}; }
  friend constexpr double operator/(Quantity a, Quantity b) { return a.count_ / b.count_; }
  friend constexpr auto operator<=>(Quantity a, Quantity b) = default;

 private:
  double count_ = 0;
};

using Minutes = Quantity<struct MinutesUnit>;
using Kilograms = Quantity<struct KilogramsUnit>;
using KilogramsPerCubicMetre = Quantity<struct KilogramsPerCubicMetreUnit>;
using SquareMillimetres = Quantity<struct SquareMillimetresUnit>;
using CubicMillimetres = Quantity<struct CubicMillimetresUnit>;
using Megapascals = Quantity<struct MegapascalsUnit>;
using Newtons = Quantity<struct NewtonsUnit>;
using NewtonsPerMillimetre = Quantity<struct NewtonsPerMillimetreUnit>;
using Celsius = Quantity<struct CelsiusUnit>;
/// Of angle; a full turn is Degrees{360}.
using Degrees = Quantity<struct DegreesUnit>;
/// 35 % is Percent{35}.
using Percent = Quantity<struct PercentUnit>;

constexpr double square_metres(SquareMillimetres a) {
  return a.count() / 1e6;
}
constexpr double square_feet(SquareMillimetres a) {
  return a.count() / 92'903.04;
}
constexpr double cubic_metres(CubicMillimetres v) {
  return v.count() / 1e9;
}
/// One board foot is 144 cubic inches.
constexpr double board_feet(CubicMillimetres v) {
  return v.count() / (144.0 * 16'387.064);
}
constexpr double hours(Minutes m) {
  return m.count() / 60.0;
}

}  // namespace plankwright::measure
