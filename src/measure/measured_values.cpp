// Measured values other than lengths, as they stand in documents. Conversions from NIST Special
// Publication 811 (2008), appendix B: one pound is 0.453 592 37 kg, one foot 0.3048 m, standard
// gravity 9.806 65 m/s2, all exact.
#include <array>
#include <span>

#include <fmt/format.h>

#include "base/quote.h"
#include "measure/expression.h"
#include "measure/tokens.h"

namespace plankwright::measure {
namespace {

using base::Error;
using base::Result;

constexpr double kPound = 0.453'592'37;
constexpr double kGravity = 9.806'65;
constexpr double kFoot = 0.3048;

/// A unit and what one of it is in the unit of the result; `zero` is taken off before (Fahrenheit).
struct Scale {
  std::string_view word;
  double one;
  double zero = 0;
};

constexpr std::array<Scale, 1> kPercents{{{"%", 1}}};
constexpr std::array<Scale, 8> kTimes{{{"min", 1},
                                       {"mins", 1},
                                       {"minute", 1},
                                       {"minutes", 1},
                                       {"h", 60},
                                       {"hr", 60},
                                       {"hour", 60},
                                       {"hours", 60}}};
constexpr std::array<Scale, 4> kTemperatures{
    {{"C", 1}, {"°C", 1}, {"F", 5.0 / 9.0, 32}, {"°F", 5.0 / 9.0, 32}}};
constexpr std::array<Scale, 4> kMasses{{{"kg", 1}, {"g", 0.001}, {"lb", kPound}, {"lbs", kPound}}};
constexpr std::array<Scale, 6> kLineLoads{{{"kg/m", kGravity / 1000},
                                           {"lb/ft", kPound* kGravity / kFoot / 1000},
                                           {"lbs/ft", kPound* kGravity / kFoot / 1000},
                                           {"N/mm", 1},
                                           {"N/m", 0.001},
                                           {"kN/m", 1}}};

/// What a kind of value is called and how it is written.
struct Wanted {
  std::string_view what;
  std::span<const Scale> scales;
  bool negative = false;
};
constexpr Wanted kMinutes{"minutes such as `45 min` or `1 h 30 min`", kTimes};
constexpr Wanted kPercent{"percent such as `35 %`", kPercents, true};
constexpr Wanted kCelsius{"a temperature such as `20 C` or `68 F`", kTemperatures, true};
constexpr Wanted kKilograms{"a weight such as `30 kg` or `60 lb`", kMasses};
constexpr Wanted kLineLoad{"a load such as `30 kg/m` or `20 lb/ft`", kLineLoads};

std::string_view trimmed(std::string_view text) {
  const auto first = text.find_first_not_of(" \t");
  return first == std::string_view::npos
             ? std::string_view{}
             : text.substr(first, text.find_last_not_of(" \t") + 1 - first);
}

Error unlike(std::string_view text, const Wanted& wanted) {
  return Error{.message =
                   text.empty()
                       ? fmt::format("found nothing, expected {}", wanted.what)
                       : fmt::format("found {}, expected {}", base::quote(text), wanted.what)};
}

const Scale* scale_of(std::string_view word, const Wanted& wanted) {
  for (const Scale& scale : wanted.scales) {
    if (scale.word == word) {
      return &scale;
    }
  }
  return nullptr;
}

/// A sign (where the value may be negative), an amount and a unit.
Result<double> parse_one(std::string_view text, const Wanted& wanted) {
  const std::string_view whole = trimmed(text);
  const bool minus = wanted.negative && whole.starts_with('-');
  const auto amount = leading_amount(whole.substr(minus ? 1 : 0));
  if (!amount.ok()) {
    return unlike(whole, wanted);
  }
  const Scale* scale = scale_of(trimmed(amount.value().rest), wanted);
  if (scale == nullptr) {
    return unlike(whole, wanted);
  }
  const double number = amount.value().number.value() * (minus ? -1 : 1);
  return (number - scale->zero) * scale->one;
}

}  // namespace

Result<double> parse_minutes(std::string_view text) {
  // Hours and minutes stand behind one another, so the first unit ends at the second number.
  const std::string_view whole = trimmed(text);
  const auto hours = leading_amount(whole);
  if (hours.ok()) {
    const std::string_view rest = hours.value().rest;
    const auto second = rest.find_first_of("0123456789");
    const Scale* scale = second == std::string_view::npos
                             ? nullptr
                             : scale_of(trimmed(rest.substr(0, second)), kMinutes);
    if (scale != nullptr && scale->one == 60) {
      const auto minutes = leading_amount(rest.substr(second));
      const Scale* last =
          minutes.ok() ? scale_of(trimmed(minutes.value().rest), kMinutes) : nullptr;
      return last != nullptr && last->one == 1 ? Result<double>{hours.value().number.value() * 60 +
                                                                minutes.value().number.value()}
                                               : Result<double>{unlike(whole, kMinutes)};
    }
  }
  return parse_one(text, kMinutes);
}

Result<double> parse_percent(std::string_view text) {
  return parse_one(text, kPercent);
}

Result<double> parse_celsius(std::string_view text) {
  return parse_one(text, kCelsius);
}

Result<double> parse_kilograms(std::string_view text) {
  return parse_one(text, kKilograms);
}

Result<double> parse_line_load(std::string_view text) {
  return parse_one(text, kLineLoad);
}

}  // namespace plankwright::measure
