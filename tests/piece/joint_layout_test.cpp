#include "piece/joint_layout.h"

#include <gmock/gmock.h>
#include <gtest/gtest.h>
#include <rapidcheck/gtest.h>

namespace plankwright::piece {
namespace {

using namespace measure;  // NOLINT(google-build-using-namespace): 6_mm
using ::testing::ElementsAre;
using ::testing::IsEmpty;

// By hand: 152 less two half pins is filled by four tails and three pins; half a pin of the even
// steps is 152 / 32 = 4.75, so it is widened to 6, and 140 / 15 = 9.333 is a pin.
TEST(Dovetails, HaveNoHalfPinUnderSixMillimetres) {
  const std::vector<Tail> tails = dovetail_tails(152_mm, 4, 16_mm);
  ASSERT_EQ(tails.size(), 4U);
  EXPECT_EQ(tails[0].from, 6_mm);
  EXPECT_EQ(tails[0].to, 34_mm);
  EXPECT_NEAR(tails[1].from.mm(), 6 + 4 * 140.0 / 15, 1e-5);
  EXPECT_EQ(tails[3].to, 146_mm);
}

// 1:8 in hardwood (JN9): a tail 16 long leans in by 2 on each side.
TEST(Dovetails, LeanOneInEight) {
  const Tail tail = dovetail_tails(152_mm, 4, 16_mm).front();
  EXPECT_EQ(tail.base_from - tail.from, 2_mm);
  EXPECT_EQ(tail.to - tail.base_to, 2_mm);
}

TEST(Dovetails, AreNoneWhereThereIsNoRoom) {
  EXPECT_THAT(dovetail_tails(30_mm, 6, 20_mm), IsEmpty());
  EXPECT_THAT(dovetail_tails(100_mm, 0, 20_mm), IsEmpty());
  EXPECT_THAT(dovetail_tails(10_mm, 1, 5_mm), IsEmpty());
}

RC_GTEST_PROP(Dovetails, FillTheHeightTheSameFromBothEdges, ()) {
  const Length height = Length::from_nm(*rc::gen::inRange(40'000'000, 900'000'000));
  const int count = *rc::gen::inRange(1, 12);
  const std::vector<Tail> tails = dovetail_tails(height, count, 12_mm);
  RC_PRE(!tails.empty());
  RC_ASSERT(tails.size() == static_cast<std::size_t>(count));
  RC_ASSERT(tails.front().from >= 6_mm);
  for (std::size_t i = 0; i < tails.size(); ++i) {
    const Tail& mirrored = tails[tails.size() - 1 - i];
    RC_ASSERT(std::abs((tails[i].from + mirrored.to - height).nm()) <= 2);
    RC_ASSERT(tails[i].from < tails[i].base_from && tails[i].base_from < tails[i].base_to);
    RC_ASSERT(i == 0 || tails[i - 1].to < tails[i].from);
  }
}

TEST(Fixings, StandEvenlyAndNearTheEnds) {
  EXPECT_THAT(fixings_in_row(400_mm, 3), ElementsAre(40_mm, 200_mm, 360_mm));
  EXPECT_THAT(fixings_in_row(100_mm, 2), ElementsAre(25_mm, 75_mm));
  EXPECT_THAT(fixings_in_row(90_mm, 1), ElementsAre(45_mm));
  EXPECT_THAT(fixings_in_row(90_mm, 0), IsEmpty());
}

}  // namespace
}  // namespace plankwright::piece
