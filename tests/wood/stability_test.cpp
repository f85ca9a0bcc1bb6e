#include "wood/stability.h"

#include <cmath>
#include <numbers>

#include <gtest/gtest.h>
#include <rapidcheck.h>

#include "wood/read_data.h"

namespace plankwright::wood {
namespace {

using measure::CubicMillimetres;
using measure::Degrees;
using measure::Kilograms;
using measure::Length;
using measure::Newtons;
using measure::operator""_mm;
using measure::operator""_in;

Bearing bearing(double force, double ahead, double height = 0) {
  return {.what = "load",
          .force = Newtons{force},
          .ahead = Length::from_mm(ahead),
          .height = Length::from_mm(height)};
}

TEST(Balance, WeighsWhatIsBehindAgainstWhatIsAhead) {
  const Bearing loads[] = {bearing(500, -200), bearing(100, 250)};
  const Balance still = balance(loads);
  EXPECT_EQ(still.steadying, NewtonMillimetres{100'000});
  EXPECT_EQ(still.tipping, NewtonMillimetres{25'000});
  EXPECT_DOUBLE_EQ(still.margin, 4);
  const Pull pulls[] = {{.what = "pull", .force = Newtons{50}, .height = 1000_mm}};
  EXPECT_DOUBLE_EQ(balance(loads, pulls).margin, 100.0 / 75.0);
  EXPECT_TRUE(std::isinf(balance({loads, 1}).margin));
}

// Our own hall cabinet, inch pounds: 867 steadying against 354 of loaded open drawers stands; a
// child of 60 lb at 14.4 in ahead of the feet brings it over.
TEST(Balance, AnswersForTheHallCabinet) {
  const auto pounds = [](double inch_pounds, double inches) {
    return Bearing{.what = "load",
                   .force = weight(Kilograms{inch_pounds / std::abs(inches) * 0.45359237}),
                   .ahead = Length::from_inches(inches),
                   .height = {}};
  };
  const Bearing open[] = {pounds(867, -6.3), pounds(354, 8)};
  EXPECT_NEAR(balance(open).margin, 2.45, 0.005);
  const Bearing with_child[] = {open[0], open[1], pounds(60 * 14.4, 14.4)};
  EXPECT_NEAR(balance(with_child).margin, 0.71, 0.005);
}

// A box tips by itself when its centre comes over the foot line: at the tilt atan(behind / height).
TEST(Balance, TipsABoxWhenItsCentrePassesTheFeet) {
  EXPECT_TRUE(rc::check([] {
    const double behind = *rc::gen::inRange(50, 500);
    const double height = *rc::gen::inRange(200, 1500);
    const double limit = std::atan2(behind, height) * 180 / std::numbers::pi;
    const Bearing box[] = {bearing(300, -behind, height)};
    RC_ASSERT(balance(box, {}, Degrees{limit * 0.999}).tipping.count() == 0);
    RC_ASSERT(balance(box, {}, Degrees{limit * 1.001}).steadying.count() == 0);
  }));
}

TEST(TiltOf, IsTheSlopeUnderTheFeet) {
  EXPECT_NEAR(tilt_of(0.43_in, 16_in).count(), 1.54, 0.005);
  EXPECT_NEAR(tilt_of(100_mm, 100_mm).count(), 45, 1e-9);
}

TEST(StorageRule, KnowsWhatItAppliesTo) {
  const StorageRule& rule = testing::reference().storage_rule;
  const CubicMillimetres large{100e6};
  EXPECT_TRUE(is_in_scope(rule, 27_in, Kilograms{13.7}, large));
  EXPECT_FALSE(is_in_scope(rule, 26.9_in, Kilograms{40}, large));
  EXPECT_FALSE(is_in_scope(rule, 40_in, Kilograms{13.5}, large));
  EXPECT_FALSE(is_in_scope(rule, 40_in, Kilograms{40}, CubicMillimetres{90e6}));
  EXPECT_EQ(rule.scope_height.from.mark, Mark::kVerified);
  EXPECT_EQ(rule.contents_density.from.mark, Mark::kMemory);
  EXPECT_NEAR(rule.contents_density.value.count(), 136.2, 0.1);
  EXPECT_NEAR(rule.pull_force.value.count(), 44.48, 0.01);
}

TEST(ReadStorageRule, MissesNoFigure) {
  std::string text = testing::data_text("storage_rule.csv").value();
  text.replace(text.find("rear_raise,0.43,in"), 18, "rear_raise,0.43,mm");
  const auto rule = read_storage_rule(text, "storage_rule.csv");
  ASSERT_FALSE(rule.ok());
  EXPECT_EQ(base::describe(rule.error()),
            "storage_rule.csv:1:1: error: expected a row `rear_raise` in in\n");
}

}  // namespace
}  // namespace plankwright::wood
