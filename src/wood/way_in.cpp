#include "wood/way_in.h"

#include <algorithm>
#include <cmath>
#include <cstdint>
#include <limits>
#include <numbers>
#include <utility>

namespace plankwright::wood {
namespace {

using measure::Axis;
using measure::Degrees;
using measure::Length;
using measure::Point;

/// Distance between the outer walls along the long side of a box that touches the inner corner.
double reach(double a, double b, double w, double angle) {
  return (a * std::sin(angle) + b * std::cos(angle) - w) / (std::sin(angle) * std::cos(angle));
}

struct Tightest {
  double reach = 0;
  double angle = 0;
};

// Golden section alone wants a single valley. Stepping through the whole quarter turn first saves
// proving that there is one for every width, and costs nothing that anyone would notice.
Tightest tightest_turn(double a, double b, double w) {
  constexpr int kSteps = 512;
  constexpr double kStep = std::numbers::pi / 2.0 / kSteps;
  Tightest best{reach(a, b, w, kStep), kStep};
  for (int i = 2; i < kSteps; ++i) {
    const double here = reach(a, b, w, i * kStep);
    if (here < best.reach) {
      best = {here, i * kStep};
    }
  }
  double low = std::max(best.angle - kStep, 1e-6);
  double high = std::min(best.angle + kStep, std::numbers::pi / 2.0 - 1e-6);
  constexpr double kGolden = 1.0 / std::numbers::phi;
  for (int i = 0; i < 60; ++i) {
    const double left = high - kGolden * (high - low);
    const double right = low + kGolden * (high - low);
    (reach(a, b, w, left) < reach(a, b, w, right) ? high : low) =
        reach(a, b, w, left) < reach(a, b, w, right) ? right : left;
  }
  const double angle = (low + high) / 2.0;
  return {reach(a, b, w, angle), angle};
}

/// The two axes that are not `upright`, the longer side of the box first.
std::pair<Length, Length> in_plan(const Point& size, Axis upright) {
  Length sides[2];
  std::size_t n = 0;
  for (const Axis axis : {Axis::kX, Axis::kY, Axis::kZ}) {
    if (axis != upright) {
      sides[n++] = size[axis];
    }
  }
  return {std::max(sides[0], sides[1]), std::min(sides[0], sides[1])};
}

/// The way with most to spare; `to_spare_in_plan` is asked with the longer and the shorter side in
/// plan.
template <class InPlan>
Carry best_carry(const Point& size, Length height, const InPlan& to_spare_in_plan) {
  Carry best{.upright = Axis::kZ,
             .to_spare = Length::from_nm(std::numeric_limits<std::int64_t>::min())};
  for (const Axis upright : {Axis::kZ, Axis::kY, Axis::kX}) {
    const auto [longer, shorter] = in_plan(size, upright);
    Length to_spare = to_spare_in_plan(longer, shorter);
    if (height > Length{}) {
      to_spare = std::min(to_spare, height - size[upright]);
    }
    if (to_spare > best.to_spare) {
      best = {.upright = upright, .to_spare = to_spare};
    }
  }
  return best;
}

}  // namespace

CornerLimit longest_round_corner(Length a, Length b, Length w) {
  if (w > std::min(a, b) || w < Length{}) {
    return {};
  }
  const Tightest turn = tightest_turn(a.mm(), b.mm(), w.mm());
  const Length turning = Length::from_mm(turn.reach);
  const Length sliding = std::max(a, b);
  return {.longest = std::max(turning, sliding),
          .tightest = Degrees{turn.angle * 180.0 / std::numbers::pi},
          .slides = sliding > turning};
}

Carry best_round_corner(const Point& size, Length a, Length b, Length height) {
  return best_carry(size, height, [&](Length longer, Length shorter) {
    const Length narrower = std::min(a, b);
    return shorter > narrower ? narrower - shorter
                              : longest_round_corner(a, b, shorter).longest - longer;
  });
}

Carry best_through_door(const Point& size, Length width, Length height) {
  return best_carry(size, height, [&](Length, Length shorter) { return width - shorter; });
}

Length standing_up_height(Length height, Length depth) {
  return Length::from_mm(std::hypot(height.mm(), depth.mm()));
}

Length clearance_over_pitch(Length headroom, Length rise, Length going) {
  const double pitch = std::atan2(rise.mm(), going.mm());
  return measure::scaled(headroom, std::cos(pitch));
}

}  // namespace plankwright::wood
