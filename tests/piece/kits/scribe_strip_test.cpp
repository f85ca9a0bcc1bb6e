#include <gmock/gmock.h>
#include <gtest/gtest.h>

#include "piece/kits/test_shop.h"

namespace plankwright::piece::test {
namespace {

using namespace measure;  // NOLINT(google-build-using-namespace): length literals
using ::testing::ElementsAre;

// Sizes worked out by hand: 30 wide and 1560 high in place, cut 60 wide and 40 longer.
TEST(ScribeStrip, IsLeftOverWideAndLong) {
  const BuiltPiece built = build_kit(
      "30", "300", "1560", "scribe_strip: {stock: oak_board_18, site_width: 30, site_length: 40}");
  expect_sound(built);
  const Part& strip = part_at(built.piece, "unit.strip");
  EXPECT_EQ(strip.finished, (Size{1560_mm, 30_mm, 18_mm}));
  EXPECT_EQ(strip.cut, (Size{1600_mm, 60_mm, 18_mm}));
  EXPECT_EQ(strip.body, (Box{{}, {30_mm, 18_mm, 1560_mm}}));
  EXPECT_TRUE(strip.shows({Axis::kY, -1}));
}

TEST(ScribeStrip, StandsBackWhenAsked) {
  const BuiltPiece built =
      build_kit("30", "300", "720", "scribe_strip: {stock: oak_5_4, thickness: 20, setback: 25}");
  EXPECT_EQ(part_at(built.piece, "unit.strip").body,
            (Box{{0_mm, 25_mm, 0_mm}, {30_mm, 20_mm, 720_mm}}));
}

TEST(ScribeStrip, SaysWhatDoesNotFit) {
  EXPECT_THAT(
      messages(
          build_kit("30", "40", "720", "scribe_strip: {stock: oak_board_18, setback: 25}").errors),
      ElementsAre("a strip 18 mm thick and set back by 25 mm does not fit a depth of 40 mm"));
  EXPECT_THAT(messages(build_kit("30", "40", "720", "scribe_strip: {stock: oak_board_19}").errors),
              ElementsAre("`oak_board_19` is not a stock of the shop"));
  EXPECT_THAT(
      messages(
          build_kit("30", "40", "720", "scribe_strip: {stock: oak_5_4, site_width: -3}").errors),
      ElementsAre("found `-3`, expected zero or more"));
}

}  // namespace
}  // namespace plankwright::piece::test
