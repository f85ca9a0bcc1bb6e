#include "wood/way_in.h"

#include <cmath>
#include <numbers>

#include <gtest/gtest.h>
#include <rapidcheck.h>

namespace plankwright::wood {
namespace {

using measure::Axis;
using measure::Length;
using measure::Point;
using measure::operator""_mm;

// The oracle turns a real rectangle round a real corner: its outer corners slide along the outer
// walls x = 0 and y = 0, the inner corner of the walls is at (b, a) and must not lie inside it.
bool turns_round(double a, double b, double w, double longest) {
  constexpr int kSteps = 4000;
  for (int i = 1; i < kSteps; ++i) {
    const double angle = i * (std::numbers::pi / 2) / kSteps;
    // Outer long side from (longest cos, 0) to (0, longest sin); the inner side is w further in.
    // Distance of the inner corner from the outer side must be at least w.
    const double distance =
        b * std::sin(angle) + a * std::cos(angle) - longest * std::sin(angle) * std::cos(angle);
    if (distance < w) {
      return false;
    }
  }
  return true;
}

double longest_by_trial(double a, double b, double w) {
  double fits = 0;
  double stuck = 4 * (a + b);
  for (int i = 0; i < 50; ++i) {
    const double middle = (fits + stuck) / 2;
    (turns_round(a, b, w, middle) ? fits : stuck) = middle;
  }
  return fits;
}

TEST(RoundCorner, AgreesWithATurnedRectangle) {
  EXPECT_TRUE(rc::check([] {
    const double a = *rc::gen::inRange(500, 1800);
    const double b = *rc::gen::inRange(500, 1800);
    const double w = std::min(a, b) * *rc::gen::inRange(0, 101) / 100.0;
    const CornerLimit limit =
        longest_round_corner(Length::from_mm(a), Length::from_mm(b), Length::from_mm(w));
    const double turned = longest_by_trial(a, b, w);
    const double longest = std::max(turned, std::max(a, b));
    RC_ASSERT(std::abs(limit.longest.mm() - longest) < 0.5);
    RC_ASSERT(limit.slides || std::abs(limit.longest.mm() - turned) < 0.5);
  }));
}

TEST(RoundCorner, DoesNotMindTheDirection) {
  EXPECT_TRUE(rc::check([] {
    const Length a = Length::from_mm(*rc::gen::inRange(500, 1800));
    const Length b = Length::from_mm(*rc::gen::inRange(500, 1800));
    const Length w = Length::from_mm(*rc::gen::inRange(0, 1000));
    const CornerLimit there = longest_round_corner(a, b, w);
    const CornerLimit back = longest_round_corner(b, a, w);
    RC_ASSERT(std::abs((there.longest - back.longest).mm()) < 1e-3);
    RC_ASSERT(there.slides == back.slides);
    if (there.longest > Length{}) {
      RC_ASSERT(std::abs(there.tightest.count() + back.tightest.count() - 90) < 0.2);
    }
  }));
}

TEST(RoundCorner, LetsNothingWiderThanTheCorridorThrough) {
  EXPECT_EQ(longest_round_corner(860_mm, 700_mm, 701_mm).longest, Length{});
  EXPECT_EQ(longest_round_corner(860_mm, 700_mm, Length{} - 1_mm).longest, Length{});
  // As wide as the corridor it cannot turn, but a square slides round.
  const CornerLimit square = longest_round_corner(860_mm, 860_mm, 860_mm);
  EXPECT_TRUE(square.slides);
  EXPECT_EQ(square.longest, 860_mm);
}

TEST(RoundCorner, PicksTheBestWayToCarry) {
  // A table top goes on edge.
  const Carry top = best_round_corner({2100_mm, 950_mm, 32_mm}, 860_mm, 860_mm, 2000_mm);
  EXPECT_EQ(top.upright, Axis::kY);
  EXPECT_NEAR(top.to_spare.mm(), 268, 0.5);  // 2368 - 2100
  // The assembled base does not, whichever way it is turned under a ceiling of 2.4 m.
  const Carry base = best_round_corner({1900_mm, 810_mm, 718_mm}, 860_mm, 860_mm, 1800_mm);
  EXPECT_LT(base.to_spare, Length{});
  // Stood on end it would go round if the ceiling let it.
  const Carry on_end = best_round_corner({1900_mm, 810_mm, 718_mm}, 860_mm, 860_mm, 2400_mm);
  EXPECT_EQ(on_end.upright, Axis::kX);
  EXPECT_GT(on_end.to_spare, Length{});
}

TEST(ThroughDoor, TakesTheSmallestFace) {
  const Carry cabinet = best_through_door({1270_mm, 457_mm, 864_mm}, 820_mm, 2000_mm);
  EXPECT_EQ(cabinet.to_spare, 363_mm);  // 457 across a door 820 wide
  EXPECT_EQ(best_through_door({900_mm, 900_mm, 900_mm}, 820_mm, 2000_mm).to_spare,
            Length{} - 80_mm);
  // A low opening: the flat side must go down.
  EXPECT_EQ(best_through_door({900_mm, 300_mm, 700_mm}, 800_mm, 500_mm).to_spare, 100_mm);
  EXPECT_EQ(best_through_door({900_mm, 300_mm, 700_mm}, 800_mm, Length{}).to_spare, 500_mm);
}

TEST(StandingUp, NeedsTheDiagonal) {
  EXPECT_NEAR(standing_up_height(2100_mm, 600_mm).mm(), 2184, 0.5);
}

TEST(OverPitch, IsSquareToTheStair) {
  EXPECT_NEAR(clearance_over_pitch(2000_mm, 200_mm, 200_mm).mm(), 2000 / std::sqrt(2.0), 1e-3);
  EXPECT_EQ(clearance_over_pitch(2000_mm, Length{}, 250_mm), 2000_mm);
}

}  // namespace
}  // namespace plankwright::wood
