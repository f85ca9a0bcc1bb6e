#include "stock/tally.h"

#include <string>

#include <gmock/gmock.h>
#include <gtest/gtest.h>
#include <rapidcheck/gtest.h>

#include "stock/parts.h"
#include "stock/yard.h"

namespace plankwright::stock {
namespace {

using namespace measure;  // NOLINT(google-build-using-namespace): length literals
using ::testing::ElementsAre;
using ::testing::HasSubstr;
using ::testing::IsEmpty;
using ::testing::SizeIs;

shop::Shop shop_in(LengthUnit unit) {
  shop::Shop shop;
  shop.unit = unit;
  shop::SolidStock ash;
  ash.id = "ash_5_4";
  ash.name = "ash 5/4";
  ash.quarters = 5;
  ash.rough_thickness = 1.25_in;
  ash.surfaced_thickness = 1.0625_in;
  ash.price = Money::from_major(8);
  ash.board_length = 96_in;
  ash.board_width = 7_in;
  shop.solids = {ash};
  shop.allowances.saw_kerf = 3.2_mm;
  return shop;
}

TEST(Tally, ReadsSizesInEitherUnit) {
  const ReadTally read = read_tally(
      "# first stack\n"
      "ash_5_4, 8' 2\", 7 1/2\n"
      "\n"
      "  ash_5_4, 2440 mm, 190 mm, 5/4, x3, lot brown stack   # heavy\r\n"
      "ash_5_4, 96, 6, 1 1/4 in",
      "yard.tally",
      shop_in(LengthUnit::kInch));
  EXPECT_THAT(read.errors, IsEmpty());
  ASSERT_THAT(read.boards, SizeIs(3));
  EXPECT_EQ(read.boards[0].length, 98_in);
  EXPECT_EQ(read.boards[0].width, 7.5_in);
  EXPECT_EQ(read.boards[0].at.line, 2);
  EXPECT_EQ(read.boards[1].length, 2440_mm);
  EXPECT_EQ(read.boards[1].count, 3);
  EXPECT_EQ(read.boards[1].lot, "brown stack");
  EXPECT_EQ(read.boards[1].at.column, 3);
  EXPECT_EQ(read.boards[2].width, 6_in);
  const ReadTally metric =
      read_tally("ash_5_4, 2500, 160", "yard.tally", shop_in(LengthUnit::kMillimetre));
  ASSERT_THAT(metric.boards, SizeIs(1));
  EXPECT_EQ(metric.boards[0].length, 2500_mm);
}

struct BadLine {
  std::string_view line;
  int column;
  std::string_view says;
};

TEST(Tally, SaysWhereALineIsWrong) {
  const BadLine cases[] = {
      {"ash_5_5, 96, 7", 1, "found `ash_5_5`, expected a rough board the shop has"},
      {"ash_5_4, 96", 12, "expected a stock, a length and a width"},
      {"ash_5_4, long, 7", 10, "length: "},
      {"ash_5_4, 96, 7 1//2", 16, "width: "},
      {"ash_5_4, 96, 0", 14, "found a width of 0 in"},
      {"ash_5_4, 7, 96", 13, "wider than it is long"},
      {"ash_5_4, 96, 7, 4/4", 17, "a board 4/4 thick does not plane to the 1 1/16 in of ash 5/4"},
      {"ash_5_4, 96, 7, 20 mm", 17, "does not plane"},
      {"ash_5_4, 96, 7, x0", 17, "expected a count such as x3"},
      {"ash_5_4, 96, 7, thick", 17, "expected a thickness such as 5/4"},
      {"ash_5_4, 96, 7,", 16, "found nothing between two commas"}};
  for (const BadLine& c : cases) {
    SCOPED_TRACE(c.line);
    const ReadTally read =
        read_tally("# heading\n" + std::string{c.line}, "yard.tally", shop_in(LengthUnit::kInch));
    ASSERT_THAT(read.errors, SizeIs(1));
    ASSERT_TRUE(read.errors[0].at);
    EXPECT_EQ(read.errors[0].at->file, "yard.tally");
    EXPECT_EQ(read.errors[0].at->line, 2);
    EXPECT_EQ(read.errors[0].at->column, c.column);
    EXPECT_THAT(read.errors[0].message, HasSubstr(std::string{c.says}));
    EXPECT_THAT(read.boards, IsEmpty());
  }
  const ReadTally near = read_tally("ash_5_5, 96, 7", "t", shop_in(LengthUnit::kInch));
  EXPECT_EQ(near.errors[0].nearest, "ash_5_4");
}

RC_GTEST_PROP(Tally, SurvivesGarbage, (const std::string& text)) {
  const ReadTally read = read_tally(text, "t", shop_in(LengthUnit::kInch));
  RC_ASSERT(read.errors.size() <= 100U);
}

RC_GTEST_PROP(Tally, SurvivesLinesThatAreNearlyRight, ()) {
  std::string text;
  for (int i = *rc::gen::inRange(1, 30); i > 0; --i) {
    text += *rc::gen::element<std::string>(
        "ash_5_4", ",", " 96", "7 1/2", "\n", "x3", "5/4", "#", "lot ", "'", "\xC3\xA4", "-", "mm");
  }
  const ReadTally read = read_tally(text, "t", shop_in(LengthUnit::kInch));
  for (const TallyBoard& board : read.boards) {
    RC_ASSERT(board.length >= board.width && board.width > Length{} && board.count >= 1);
  }
}

piece::Part part(const std::string& name, Length length, Length width) {
  piece::Part made;
  made.name = name;
  made.path = name;
  made.stock = "ash_5_4";
  made.finished = made.cut = made.rough = {length, width, 1_in};
  return made;
}

// By hand: a rail 60 x 4 and a stile 30 x 4 lie end to end in 96 x 4 (60 + 1/8 + 30); a second rail
// does not.
TEST(Yard, SaysWhatIsCoveredAndWhatIsMissing) {
  const shop::Shop shop = shop_in(LengthUnit::kInch);
  piece::Piece piece;
  piece.parts = {part("rail", 60_in, 4_in), part("stile", 30_in, 4_in), part("rail", 60_in, 4_in)};
  const Tally tally = read_tally("ash_5_4, 96, 4\nash_5_4, 20, 5", "t", shop).boards;
  Stock stock;
  stock.solids = {solid_need(piece, shop, shop.solids[0], 1.0, tally)};
  const auto yard = look_in_the_yard(piece, shop, stock, tally);
  ASSERT_THAT(yard, SizeIs(1));
  EXPECT_EQ(yard[0].tallied, 2);
  EXPECT_EQ(yard[0].used, 1);
  EXPECT_NEAR(yard[0].tallied_board_feet, (96 * 4 + 20 * 5) * 1.25 / 144, 1e-6);
  EXPECT_THAT(yard[0].covered, SizeIs(2));
  EXPECT_THAT(yard[0].missing, SizeIs(1));
  ASSERT_THAT(yard[0].asks, SizeIs(1));
  EXPECT_EQ(yard[0].asks[0].length, 60_in);
  EXPECT_EQ(yard[0].asks[0].width, 4_in);
  // What is seen is bought as it is: 96 x 4, and the 60 x 4 still to be found.
  EXPECT_NEAR(stock.solids[0].buy_board_feet, (96 + 60) * 4 * 1.25 / 144, 1e-6);
  ASSERT_THAT(yard[0].spare, SizeIs(1));
  EXPECT_EQ(yard[0].spare[0].at.line, 2);
}

// Show parts before hidden ones, even when a hidden one would use more of the board.
TEST(Yard, GivesShowPartsTheirBoardFirst) {
  const shop::Shop shop = shop_in(LengthUnit::kInch);
  piece::Piece piece;
  piece.parts = {part("cleat", 60_in, 4_in), part("front", 40_in, 4_in)};
  piece.parts[1].show_faces = {{Axis::kY, 1}};
  const Tally tally = read_tally("ash_5_4, 62, 4", "t", shop).boards;
  Stock stock;
  stock.solids = {solid_need(piece, shop, shop.solids[0], 1.0, tally)};
  const auto yard = look_in_the_yard(piece, shop, stock, tally);
  EXPECT_THAT(yard[0].covered, ElementsAre(1U));
  EXPECT_THAT(yard[0].missing, ElementsAre(0U));
}

// A top 20 wide that was meant to be four boards comes out of three wider ones of one lot, and
// never of two lots.
TEST(Yard, GluesATopFromTheWidthsThatAreThere) {
  const shop::Shop shop = shop_in(LengthUnit::kInch);
  piece::Piece piece;
  piece.parts = {part("top", 50_in, 20_in)};
  piece.parts[0].strips = 4;
  Stock stock;
  const auto missing = [&](const std::string& text) {
    const Tally tally = read_tally(text, "t", shop).boards;
    stock.solids = {solid_need(piece, shop, shop.solids[0], 1.0, tally)};
    return look_in_the_yard(piece, shop, stock, tally)[0].missing.size();
  };
  EXPECT_EQ(missing("ash_5_4, 52, 7, x3"), 0U);
  EXPECT_EQ(missing("ash_5_4, 52, 7, x2, lot a\nash_5_4, 52, 7, lot b"), 1U);
  EXPECT_EQ(missing("ash_5_4, 48, 7, x9"), 1U);
}

}  // namespace
}  // namespace plankwright::stock
