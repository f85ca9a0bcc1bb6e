#include "wood/arc.h"

#include <algorithm>
#include <cmath>
#include <numbers>

namespace plankwright::wood {
namespace {

using base::Error;
using base::ErrorCode;
using base::Result;
using measure::Degrees;
using measure::Length;

Arc arc_of(Length span, Length rise, double radius) {
  const double half_angle = std::asin(std::min(1.0, span.mm() / 2.0 / radius));
  return {.span = span,
          .rise = rise,
          .radius = Length::from_mm(radius),
          .length = Length::from_mm(2.0 * radius * half_angle),
          .end_slope = Degrees{half_angle * 180.0 / std::numbers::pi},
          .run_out = 1.0 / std::tan(half_angle)};
}

}  // namespace

Result<Arc> arc_from_rise(Length span, Length rise) {
  if (span <= Length{} || rise <= Length{}) {
    return Error{.message = "span and rise of an arc must be more than zero"};
  }
  if (2 * rise > span) {
    return Error{.message = "the rise of an arc must not be over half its span"};
  }
  const double s = rise.mm();
  const double c = span.mm();
  return arc_of(span, rise, c * c / (8.0 * s) + s / 2.0);
}

Result<Arc> arc_from_radius(Length span, Length radius) {
  if (span <= Length{} || radius <= Length{}) {
    return Error{.message = "span and radius of an arc must be more than zero"};
  }
  if (span > 2 * radius) {
    return Error{.message = "the span of an arc must not be over twice its radius"};
  }
  const double r = radius.mm();
  const double half = span.mm() / 2.0;
  // r - sqrt(r2 - half2), written so that a flat arc keeps its digits
  const double rise = half * half / (r + std::sqrt(std::max(0.0, r * r - half * half)));
  return arc_of(span, Length::from_mm(rise), r);
}

Length height_over_chord(const Arc& arc, Length from_middle) {
  const double x = from_middle.mm();
  if (std::abs(x) >= arc.span.mm() / 2.0) {
    return {};
  }
  const double r = arc.radius.mm();
  return arc.rise - Length::from_mm(x * x / (r + std::sqrt(std::max(0.0, r * r - x * x))));
}

Result<BentLamination> bent_lamination(Length thickness, Length radius, double radius_to_ply) {
  if (thickness <= Length{} || radius <= Length{} || !(radius_to_ply > 0)) {
    return Error{.message = "thickness, radius and ply ratio of a bend must be more than zero"};
  }
  constexpr double kMostPlies = 200;
  constexpr double kRoundingSlack = 1e-9;
  const double plies =
      std::max(2.0, std::ceil(thickness / radius * radius_to_ply - kRoundingSlack));
  if (plies > kMostPlies) {
    return Error{.code = ErrorCode::kDoesNotFit,
                 .message = "this bend is too tight for its thickness: over 200 plies"};
  }
  const double springback = 1.0 / (plies * plies);
  return BentLamination{.plies = static_cast<int>(plies),
                        .ply_thickness = measure::scaled(thickness, 1.0 / plies),
                        .form_radius = measure::scaled(radius, 1.0 - springback),
                        .springback = springback};
}

}  // namespace plankwright::wood
