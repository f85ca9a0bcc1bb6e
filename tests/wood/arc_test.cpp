#include "wood/arc.h"

#include <cmath>
#include <numbers>

#include <gtest/gtest.h>
#include <rapidcheck.h>

namespace plankwright::wood {
namespace {

using measure::Length;
using measure::operator""_mm;
using measure::operator""_in;

// Our own arched rail: 1 3/4 in rise over 40 in.
TEST(Arc, OfTheHallCabinet) {
  const Arc arc = arc_from_rise(40_in, 1.75_in).value();
  EXPECT_NEAR(arc.radius.inches(), 115.16, 0.005);
  EXPECT_NEAR(arc.end_slope.count(), 10.0, 0.05);
  EXPECT_NEAR(arc.run_out, 5.7, 0.05);
}

TEST(Arc, ComesBackFromItsRadius) {
  EXPECT_TRUE(rc::check([] {
    const double span = *rc::gen::inRange(10, 3000);
    const double rise = span * *rc::gen::inRange(1, 501) / 1000.0;
    const Arc arc = arc_from_rise(Length::from_mm(span), Length::from_mm(rise)).value();
    const auto back = arc_from_radius(arc.span, arc.radius + Length::from_nm(2));
    RC_ASSERT(back.ok());
    // Near the half circle the rise is ill-conditioned in the radius: a square root of a nanometre.
    RC_ASSERT(std::abs((back.value().rise - arc.rise).mm()) < 0.01);
  }));
}

// The drawn curve itself as oracle: many short chords between offsets over the chord.
TEST(Arc, IsAsLongAsItsChords) {
  EXPECT_TRUE(rc::check([] {
    const double span = *rc::gen::inRange(100, 3000);
    const double rise = span * *rc::gen::inRange(5, 300) / 1000.0;
    const Arc arc = arc_from_rise(Length::from_mm(span), Length::from_mm(rise)).value();
    constexpr int kChords = 4000;
    double length = 0;
    for (int i = 0; i < kChords; ++i) {
      const double x = span * (i / static_cast<double>(kChords) - 0.5);
      const double next = x + span / kChords;
      length += std::hypot(next - x,
                           (height_over_chord(arc, Length::from_mm(next)) -
                            height_over_chord(arc, Length::from_mm(x)))
                               .mm());
    }
    RC_ASSERT(std::abs(length - arc.length.mm()) < 1e-3 * span);
    RC_ASSERT(height_over_chord(arc, Length{}) == arc.rise);
    RC_ASSERT(height_over_chord(arc, Length::from_mm(span)) == Length{});
  }));
}

TEST(Arc, IsAHalfCircleAtMost) {
  const Arc half = arc_from_rise(200_mm, 100_mm).value();
  EXPECT_NEAR(half.radius.mm(), 100, 1e-6);
  EXPECT_NEAR(half.end_slope.count(), 90, 1e-6);
  EXPECT_NEAR(half.length.mm(), std::numbers::pi * 100, 1e-5);
  EXPECT_FALSE(arc_from_rise(200_mm, 101_mm).ok());
  EXPECT_FALSE(arc_from_rise(200_mm, Length{}).ok());
  EXPECT_FALSE(arc_from_rise(Length{}, 10_mm).ok());
  EXPECT_FALSE(arc_from_radius(201_mm, 100_mm).ok());
  EXPECT_TRUE(arc_from_radius(200_mm, 100_mm).ok());
}

TEST(BentLamination, SpringsBackLessWithMorePlies) {
  // common practice, no source: 7 plies lose about 2 % of the curvature, 5 plies 4 %
  const BentLamination seven = bent_lamination(21_mm, 300_mm, 100).value();
  EXPECT_EQ(seven.plies, 7);
  EXPECT_EQ(seven.ply_thickness, 3_mm);
  EXPECT_NEAR(seven.springback, 0.020, 0.0005);
  EXPECT_NEAR(seven.form_radius.mm(), 300 * (1 - 1 / 49.0), 1e-3);
  const BentLamination five = bent_lamination(15_mm, 300_mm, 100).value();
  EXPECT_EQ(five.plies, 5);
  EXPECT_NEAR(five.springback, 0.04, 1e-9);
}

TEST(BentLamination, NeverTakesThickerPliesThanItMay) {
  EXPECT_TRUE(rc::check([] {
    const double thickness = *rc::gen::inRange(30, 400) / 10.0;
    const double radius = *rc::gen::inRange(100, 5000);
    const auto bend = bent_lamination(Length::from_mm(thickness), Length::from_mm(radius), 100);
    if (!bend.ok()) {
      RC_ASSERT(thickness / radius * 100 > 200);
      return;
    }
    RC_ASSERT(bend.value().plies >= 2);
    RC_ASSERT(bend.value().ply_thickness.mm() <= radius / 100 + 1e-6);
    // One ply fewer would be too thick, or there are only two.
    RC_ASSERT(bend.value().plies == 2 || thickness / (bend.value().plies - 1) > radius / 100);
    RC_ASSERT(bend.value().form_radius.mm() < radius);
  }));
}

TEST(BentLamination, RefusesNonsense) {
  EXPECT_FALSE(bent_lamination(Length{}, 300_mm, 100).ok());
  EXPECT_FALSE(bent_lamination(20_mm, 300_mm, 0).ok());
  EXPECT_EQ(bent_lamination(300_mm, 100_mm, 100).error().code, base::ErrorCode::kDoesNotFit);
}

}  // namespace
}  // namespace plankwright::wood
