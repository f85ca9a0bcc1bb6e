#include "stock/nudges.h"

#include <gmock/gmock.h>
#include <gtest/gtest.h>
#include <rapidcheck/gtest.h>

#include "stock/small_shop.h"

namespace plankwright::stock {
namespace {

using namespace measure;  // NOLINT(google-build-using-namespace): length literals
using ::testing::ElementsAre;
using ::testing::IsEmpty;
using ::testing::SizeIs;

shop::Shop small_shop() {
  shop::Shop shop = sheet_and_board_shop();
  shop::BarStock batten;
  batten.id = "batten";
  batten.name = "oak batten";
  batten.lengths = {{2400_mm, Money::from_major(10)}};
  shop.bars = {batten};
  shop.solids[0].board_length = 2400_mm;
  shop.solids[0].board_width = 150_mm;
  shop.allowances.saw_kerf = 3_mm;
  return shop;
}

piece::Piece parts(const std::string& stock, Length length, Length width, int count) {
  piece::Piece piece;
  add(piece, stock, length, width, count, 1_in);
  return piece;
}

std::vector<Nudge> nudges_of(const piece::Piece& piece, int tries = 60) {
  const shop::Shop shop = small_shop();
  return part_nudges(piece, shop, plan_stock(piece, shop, ""), 1.0, {}, {}, tries);
}

struct NudgeCase {
  const char* why;
  std::string stock;
  Length length, width;
  int count;
  std::vector<std::string> says;  // what, from, to, saves
};

// By hand. Sheets give 2420 x 1200 after trimming: 4 x 300 + 3 x 4 = 1212 does not go across, and
// 4 x 297 + 12 = 1200 does, so 8 strips take two sheets and not three. Bars: 2 x 1200 + 3 > 2400,
// and 2 x 1198 + 3 fits. Boards: 2 x 1200 + 3 likewise.
TEST(PartNudges, AreTheSmallestChangesThatSave) {
  const NudgeCase cases[] = {{"one more strip to the sheet",
                              "board",
                              2400_mm,
                              300_mm,
                              8,
                              {"width of part", "300", "297", "1 sheet of board 18 mm"}},
                             {"one more strip, but no sheet less", "board", 2400_mm, 300_mm, 3, {}},
                             {"2 % are not enough", "board", 2400_mm, 304_mm, 8, {}},
                             {"two from a bar",
                              "batten",
                              1200_mm,
                              45_mm,
                              4,
                              {"length of part", "1200", "1198", "2 bars of oak batten"}},
                             {"bars that fit already", "batten", 1190_mm, 45_mm, 4, {}},
                             {"two from a board",
                              "ash",
                              1200_mm,
                              140_mm,
                              4,
                              {"length of part", "1200", "1198", "2 boards of ash 4/4"}}};
  for (const NudgeCase& c : cases) {
    SCOPED_TRACE(c.why);
    const std::vector<Nudge> nudges = nudges_of(parts(c.stock, c.length, c.width, c.count));
    if (c.says.empty()) {
      EXPECT_THAT(nudges, IsEmpty());
      continue;
    }
    ASSERT_THAT(nudges, SizeIs(1));
    EXPECT_EQ(nudges[0].what, c.says[0]);
    EXPECT_EQ(print(nudges[0].from, LengthUnit::kMillimetre), c.says[1]);
    EXPECT_EQ(print(nudges[0].to, LengthUnit::kMillimetre), c.says[2]);
    EXPECT_THAT(nudges[0].saves, ElementsAre(c.says[3]));
    EXPECT_GT(nudges[0].money, Money{});
    EXPECT_THAT(nudges[0].parts, SizeIs(c.count));
  }
}

TEST(PartNudges, StopWhenTheTriesAreSpent) {
  EXPECT_THAT(nudges_of(parts("board", 2400_mm, 300_mm, 8), 0), IsEmpty());
}

TEST(NearbySizes, AreWholeStepsWithinTwoPercent) {
  EXPECT_THAT(nearby_sizes(299.4_mm, LengthUnit::kMillimetre, -1),
              ElementsAre(299_mm, 298_mm, 297_mm, 296_mm, 295_mm, 294_mm));
  EXPECT_THAT(nearby_sizes(100_mm, LengthUnit::kMillimetre, 1), ElementsAre(101_mm, 102_mm));
  EXPECT_THAT(nearby_sizes(8_in, LengthUnit::kInch, -1), ElementsAre(7.9375_in, 7.875_in));
  EXPECT_THAT(nearby_sizes(20_mm, LengthUnit::kMillimetre, -1), IsEmpty());
}

RC_GTEST_PROP(PartNudges, SaveWhatTheySay, ()) {
  piece::Piece piece;
  for (int i = *rc::gen::inRange(1, 4); i > 0; --i) {
    const piece::Piece more = parts("board",
                                    Length::from_mm(*rc::gen::inRange(300, 2400)),
                                    Length::from_mm(*rc::gen::inRange(100, 700)),
                                    *rc::gen::inRange(1, 8));
    piece.parts.insert(piece.parts.end(), more.parts.begin(), more.parts.end());
  }
  const shop::Shop shop = small_shop();
  const Stock before = plan_stock(piece, shop, "", 0.2);
  for (const Nudge& nudge : part_nudges(piece, shop, before, 0.2, {}, {}, 20)) {
    RC_ASSERT(nudge.to < nudge.from);
    RC_ASSERT((nudge.from - nudge.to) / nudge.from <= kMostChange + 1e-9);
    piece::Piece changed = piece;
    for (const PartIndex i : nudge.parts) {
      piece::Size& cut = changed.parts[i].cut;
      (nudge.what.starts_with("width") ? cut.width : cut.length) = nudge.to;
    }
    const Stock after = plan_stock(changed, shop, "", 0.2);
    RC_ASSERT(before.sheet_price - after.sheet_price == nudge.money);
  }
}

}  // namespace
}  // namespace plankwright::stock
