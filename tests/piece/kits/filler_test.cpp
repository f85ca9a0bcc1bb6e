#include <fmt/format.h>
#include <gmock/gmock.h>
#include <gtest/gtest.h>
#include <rapidcheck/gtest.h>

#include "piece/kits/test_shop.h"

namespace plankwright::piece::test {
namespace {

using namespace measure;  // NOLINT(google-build-using-namespace): length literals
using ::testing::ElementsAre;

// Sizes worked out by hand: a gap of 2640 x 74 closed by two strips, 20 + 6 left for the ceiling.
TEST(Filler, ClosesTheHeadOfTheStudyWall) {
  const BuiltPiece built = build_kit(
      "2640",
      "300",
      "74",
      "filler: {stock: oak_board_18, pieces: 2, site_length: 20, site_height: 6, face: front}");
  expect_sound(built);
  EXPECT_EQ(part_lines(built.piece).size(), 1U);
  const Part& left = part_at(built.piece, "unit.filler_1");
  EXPECT_EQ(left.finished, (Size{1320_mm, 74_mm, 18_mm}));
  EXPECT_EQ(left.cut, (Size{1330_mm, 80_mm, 18_mm}));
  EXPECT_EQ(left.body.at, Point{});
}

TEST(Filler, ClosesAGapFromBelow) {
  const BuiltPiece built =
      build_kit("900", "300", "74", "filler: {stock: oak_board_18, face: below}");
  expect_sound(built);
  const Part& lid = part_at(built.piece, "unit.filler");
  EXPECT_EQ(lid.finished, (Size{900_mm, 300_mm, 18_mm}));
  EXPECT_TRUE(lid.shows({Axis::kZ, -1}));
}

TEST(Filler, SaysWhatDoesNotFit) {
  EXPECT_THAT(messages(build_kit("900", "15", "74", "filler: {stock: oak_board_18}").errors),
              ElementsAre("a filler 18 mm thick does not fit a gap of 15 mm"));
  EXPECT_THAT(
      messages(build_kit("900", "100", "74", "filler: {stock: oak_board_18, pieces: 0}").errors),
      ElementsAre("found `0`, expected more than zero"));
  EXPECT_THAT(
      messages(build_kit("900", "100", "74", "filler: {stock: oak_board_18, pieces: 51}").errors),
      ElementsAre("found 51, expected at most 50"));
}

RC_GTEST_PROP(FillerProperty, FillsItsWidthWithoutAGap, ()) {
  const int pieces = *rc::gen::inRange(1, 12);
  const BuiltPiece built =
      build_kit(std::to_string(*rc::gen::inRange(500, 5000)),
                "100",
                "74",
                fmt::format("filler: {{stock: oak_board_18, pieces: {}}}", pieces));
  RC_ASSERT(messages(built.errors) == std::vector<std::string>{});
  RC_ASSERT(static_cast<int>(built.piece.parts.size()) == pieces);
  RC_ASSERT(in_the_way(built.piece).empty());
  RC_ASSERT(afloat(built.piece).empty());
  RC_ASSERT(whole(built.piece).size.x == built.piece.overall.size.x);
  RC_ASSERT(static_cast<int>(contacts(built.piece).size()) == pieces - 1);
}

}  // namespace
}  // namespace plankwright::piece::test
