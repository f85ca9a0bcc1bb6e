#include "wood/stiffness.h"

#include <cmath>

namespace plankwright::wood {
namespace {

using base::Error;
using base::ErrorCode;
using base::Result;
using measure::Length;
using measure::Newtons;
using measure::NewtonsPerMillimetre;

double even_divisor(Ends ends) {
  switch (ends) {
    case Ends::kSimple:
      return 384.0 / 5.0;
    case Ends::kFixed:
      return 384.0;
    case Ends::kCantilever:
      return 8.0;
    case Ends::kPropped:
    case Ends::kTwoSpans:  // by symmetry the middle support holds the slope at zero
      break;
  }
  return 185.0;
}

double point_divisor(Ends ends) {
  switch (ends) {
    case Ends::kSimple:
      return 48.0;
    case Ends::kFixed:
      return 192.0;
    case Ends::kCantilever:
      return 3.0;
    case Ends::kPropped:
    case Ends::kTwoSpans:
      break;
  }
  return 48.0 * std::sqrt(5.0);
}

Result<Length> checked_length(double mm) {
  constexpr double kOneKilometre = 1e6;
  if (!(std::abs(mm) <= kOneKilometre)) {
    return Error{.code = ErrorCode::kOutOfTable, .message = "the beam formula gives over 1 km"};
  }
  return Length::from_mm(mm);
}

Error not_positive() {
  return Error{.message = "span, stiffness, load and limit of a beam must be more than zero"};
}

}  // namespace

Result<Length> sag_under_even_load(Ends ends,
                                   NewtonsPerMillimetre load,
                                   Length span,
                                   Rigidity rigidity) {
  if (span <= Length{} || !(rigidity.count() > 0)) {
    return not_positive();
  }
  const double length = span.mm();
  return checked_length(load.count() * std::pow(length, 4) /
                        (even_divisor(ends) * rigidity.count()));
}

Result<Length> sag_under_point_load(Ends ends, Newtons load, Length span, Rigidity rigidity) {
  if (span <= Length{} || !(rigidity.count() > 0)) {
    return not_positive();
  }
  return checked_length(load.count() * std::pow(span.mm(), 3) /
                        (point_divisor(ends) * rigidity.count()));
}

Result<Length> sag_under_two_loads(Newtons each, Length from_end, Length span, Rigidity rigidity) {
  if (span <= Length{} || !(rigidity.count() > 0)) {
    return not_positive();
  }
  if (from_end < Length{} || 2 * from_end > span) {
    return Error{.message = "two equal loads must stand between the ends and the middle"};
  }
  const double a = from_end.mm();
  const double length = span.mm();
  return checked_length(each.count() * a * (3.0 * length * length - 4.0 * a * a) /
                        (24.0 * rigidity.count()));
}

// sag = w L4 / (k EI) = L / n gives L3 = k EI / (n w).
Result<Length> longest_span(Ends ends,
                            NewtonsPerMillimetre load,
                            Rigidity rigidity,
                            double span_per_sag) {
  if (!(load.count() > 0) || !(rigidity.count() > 0) || !(span_per_sag > 0)) {
    return not_positive();
  }
  return checked_length(
      std::cbrt(even_divisor(ends) * rigidity.count() / (span_per_sag * load.count())));
}

}  // namespace plankwright::wood
