#include "wood/moisture.h"

#include <fmt/format.h>

namespace plankwright::wood {

using measure::Celsius;
using measure::Percent;

base::Result<Percent> equilibrium_moisture(Celsius temperature, Percent relative_humidity) {
  constexpr double kColdest = (30.0 - 32.0) / 1.8 - 1e-9;
  constexpr double kHottest = (200.0 - 32.0) / 1.8 + 1e-9;
  const double t = temperature.count();
  const double humidity = relative_humidity.count();
  // Written so that a value that is not a number is refused too.
  if (!(t >= kColdest && t <= kHottest)) {
    return base::Error{.code = base::ErrorCode::kOutOfTable,
                       .message = fmt::format("{:.1f} C is outside the table of equilibrium "
                                              "moisture, which runs from -1.1 to 93.3 C",
                                              t)};
  }
  if (!(humidity >= 5.0 && humidity <= 95.0)) {
    return base::Error{.code = base::ErrorCode::kOutOfTable,
                       .message = fmt::format("{:.1f} % relative humidity is outside the table of "
                                              "equilibrium moisture, which runs from 5 to 95 %",
                                              humidity)};
  }
  const double w = 349.0 + 1.29 * t + 0.0135 * t * t;
  const double k = 0.805 + 0.000736 * t - 0.00000273 * t * t;
  const double k1 = 6.27 - 0.00938 * t - 0.000303 * t * t;
  const double k2 = 1.91 + 0.0407 * t - 0.000293 * t * t;
  const double kh = k * humidity / 100.0;
  const double hydrated = (k1 * kh + 2.0 * k1 * k2 * kh * kh) / (1.0 + k1 * kh + k1 * k2 * kh * kh);
  const double dissolved = kh / (1.0 - kh);
  return Percent{1800.0 / w * (dissolved + hydrated)};
}

}  // namespace plankwright::wood
