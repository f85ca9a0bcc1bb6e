#pragma once
// Money, in whole minor units of one currency.

#include <compare>
#include <cstdint>
#include <string>
#include <string_view>
#include <vector>

#include "base/result.h"

namespace plankwright::measure {

/// A sum of money in minor units (cents). The currency belongs to the document that is planned, not
/// to each amount: a plan has one currency, named by its shop, and printing asks for it.
class Money {
 public:
  constexpr Money() = default;
  static constexpr Money from_minor(std::int64_t minor) { return Money{minor}; }
  /// The nearest minor unit, halves away from zero: the one place where money is rounded.
  static constexpr Money from_major(double major) {
    return Money{static_cast<std::int64_t>(major * 100.0 + (major < 0 ? -0.5 : 0.5))};
  }
  constexpr std::int64_t minor() const { return minor_; }
  constexpr double major() const { return static_cast<double>(minor_) / 100.0; }

  constexpr Money& operator+=(Money b) {
    minor_ += b.minor_;
    return *this;
  }
  constexpr Money& operator-=(Money b) {
    minor_ -= b.minor_;
    return *this;
  }
  friend constexpr Money operator+(Money a, Money b) { return Money{a.minor_ + b.minor_}; }
  friend constexpr Money operator-(Money a, Money b) { return Money{a.minor_ - b.minor_}; }
  friend constexpr Money operator-(Money a) { return Money{-a.minor_}; }
  friend constexpr Money operator*(Money a, std::int64_t n) { return Money{a.minor_ * n}; }
  friend constexpr auto operator<=>(Money a, Money b) = default;

 private:
  explicit constexpr Money(std::int64_t minor) : minor_{minor} {}
  std::int64_t minor_ = 0;
};

/// `a` times a plain number, rounded once.
constexpr Money scaled(Money a, double factor) {
  return Money::from_major(a.major() * factor);
}

/// ISO 4217 code of a currency with two decimals, such as EUR, GBP or USD.
struct Currency {
  std::string code = "EUR";
  friend bool operator==(const Currency&, const Currency&) = default;
};

/// `120`, `120.50`, `1,250.5`, `-30`: no currency, at most two decimals. The error has no place.
base::Result<Money> parse_money(std::string_view text);

/// `1,234.50 EUR`; `print_whole` leaves out the minor part when it is zero.
std::string print(Money amount, const Currency& currency);
std::string print_whole(Money amount, const Currency& currency);

/// `amount` up to the next whole multiple of `step` (a step of zero changes nothing).
Money round_up(Money amount, Money step);

/// `amount` split by `percents`; the odd minor units go to the first shares, so that the shares add
/// up to `amount` again when the percents add up to 100.
std::vector<Money> split(Money amount, const std::vector<double>& percents);

}  // namespace plankwright::measure
