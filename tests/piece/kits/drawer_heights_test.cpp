#include "piece/kits/drawer_heights.h"

#include <numeric>

#include <gmock/gmock.h>
#include <gtest/gtest.h>
#include <rapidcheck/gtest.h>

namespace plankwright::piece {
namespace {

using namespace measure;  // NOLINT(google-build-using-namespace): length literals
using ::testing::ElementsAre;

constexpr Length kThirtySecond = 0.03125_in;

// By hand: four openings in 23 3/8, each 7/8 higher than the one above. The highest is
// 23 3/8 / 4 - 7/8 x 3/2 = 4 17/32.
TEST(GradedHeights, StepByStep) {
  const auto heights =
      graded_heights({Grading::kArithmetic, 4, 0.875_in}, 23.375_in, kThirtySecond);
  ASSERT_TRUE(heights.ok());
  EXPECT_THAT(heights.value(), ElementsAre(4.53125_in, 5.40625_in, 6.28125_in, 7.15625_in));
}

// By hand: 700 / 3 = 233.33: two cut down to half millimetres, the lowest takes the rest.
TEST(GradedHeights, GiveTheOddBitToTheLowest) {
  const auto heights = graded_heights({Grading::kEqual, 3}, 700_mm, 0.5_mm);
  ASSERT_TRUE(heights.ok());
  EXPECT_THAT(heights.value(), ElementsAre(233_mm, 233_mm, 234_mm));
}

// By hand: 100, 120, 144, 172.8 add up to 536.8.
TEST(GradedHeights, TimeAfterTime) {
  const auto heights =
      graded_heights({.grading = Grading::kGeometric, .count = 4, .ratio = 1.2}, 536.8_mm, 0.5_mm);
  ASSERT_TRUE(heights.ok());
  EXPECT_THAT(heights.value(), ElementsAre(100_mm, 120_mm, 144_mm, 172.8_mm));
}

TEST(GradedHeights, RefuseWhatLeavesNothing) {
  const HeightRule rules[] = {{Grading::kArithmetic, 3, 200_mm},
                              {.grading = Grading::kGeometric, .count = 40, .ratio = 1e9},
                              {.grading = Grading::kGeometric, .count = 3, .ratio = 1e-9},
                              {.grading = Grading::kEqual, .count = 0}};
  for (const HeightRule& rule : rules) {
    EXPECT_FALSE(graded_heights(rule, 500_mm, 0.5_mm).ok());
  }
  EXPECT_FALSE(graded_heights({}, 0_mm, 0.5_mm).ok());
  EXPECT_FALSE(graded_heights({}, -5 * 1_mm, 0.5_mm).ok());
}

RC_GTEST_PROP(GradedHeights, CloseExactlyAndFollowTheirRule, ()) {
  const Length mark = *rc::gen::element(kThirtySecond, 0.5_mm);
  const Length available =
      Length::from_nm(*rc::gen::inRange<std::int64_t>(300'000'000, 2'000'000'000));
  HeightRule rule;
  rule.grading = *rc::gen::element(Grading::kEqual, Grading::kArithmetic, Grading::kGeometric);
  rule.count = *rc::gen::inRange(1, 9);
  rule.step = Length::from_mm(*rc::gen::inRange(0, 8));
  rule.ratio = *rc::gen::inRange(100, 130) / 100.0;
  const auto heights = graded_heights(rule, available, mark);
  RC_ASSERT(heights.ok());
  const std::vector<Length>& h = heights.value();
  RC_ASSERT(std::accumulate(h.begin(), h.end(), Length{}) == available);
  for (std::size_t i = 0; i + 1 < h.size(); ++i) {
    RC_ASSERT(h[i].nm() % mark.nm() == 0);
    const bool to_lowest = i + 2 == h.size();  // which may be as many marks too high as there are
    const double slack = mark.mm() * (to_lowest ? rule.count : 1) + 1e-6;
    const double expected = rule.grading == Grading::kGeometric    ? h[i].mm() * rule.ratio
                            : rule.grading == Grading::kArithmetic ? h[i].mm() + rule.step.mm()
                                                                   : h[i].mm();
    RC_ASSERT(std::abs(h[i + 1].mm() - expected) <= slack * 1.3);
  }
}

}  // namespace
}  // namespace plankwright::piece
