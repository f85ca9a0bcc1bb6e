#include "shop/rack.h"

#include <gmock/gmock.h>
#include <gtest/gtest.h>
#include <rapidcheck/gtest.h>

#include "shop/shop_files.h"

namespace plankwright::shop {
namespace {

using measure::operator""_mm;
using test::read;
using test::said;
using ::testing::HasSubstr;
using ::testing::IsEmpty;
using ::testing::SizeIs;

constexpr const char* kOn = "based_on: bench.yaml\n";
constexpr const char* kBars =
    "bars:\n"
    "  batten: {name: oak batten, species: oak_white, width: 45, thickness: 20, "
    "lengths: [{length: 2400, price: 9.60}, {length: 3600, price: 14}]}\n";

Shop shop_with_bars() {
  const ReadShop read_shop = read(std::string{kOn} + kBars);
  EXPECT_EQ(said(read_shop.errors), "");
  return read_shop.shop;
}

TEST(Rack, ReadsBoardsSheetsAndBars) {
  const ReadRack rack = read_rack(
      "# by the door\n"
      "A1, ply_18, 1150, 620, value 14.50\n"
      "B2, oak_5_4, 2100, 140, x2, lot brown   # two alike\r\n"
      "C3, batten, 1400\n",
      "my.rack",
      shop_with_bars());
  ASSERT_THAT(rack.errors, IsEmpty());
  ASSERT_THAT(rack.pieces, SizeIs(3));
  EXPECT_EQ(rack.pieces[0].kind, RackKind::kSheet);
  EXPECT_EQ(rack.pieces[0].value, Money::from_major(14.50));
  EXPECT_EQ(rack.pieces[1].kind, RackKind::kBoard);
  EXPECT_EQ(rack.pieces[1].count, 2);
  EXPECT_EQ(rack.pieces[1].lot, "brown");
  EXPECT_EQ(rack.pieces[1].at.line, 3);
  EXPECT_EQ(rack.pieces[2].kind, RackKind::kBar);
  EXPECT_EQ(rack.pieces[2].width, 45_mm);
}

// 610 x 1220 is a quarter of 2440 x 1220: 80 / 4 at 40 % is 8. 1800 mm of the bar that is cheapest
// by the metre (14 for 3.6 m) are 7 new, 2.80 in the rack.
TEST(Rack, ValuesAPieceByTheShopsOwnRule) {
  Shop shop = shop_with_bars();
  shop.allowances.offcut_value = Percent{40};
  EXPECT_EQ(rack_value(shop, "ply_18", 610_mm, 1220_mm), Money::from_major(8));
  EXPECT_EQ(rack_value(shop, "batten", 1800_mm, 45_mm), Money::from_major(2.80));
  EXPECT_EQ(rack_value(shop, "nothing", 1800_mm, 45_mm), Money{});
}

struct BadLine {
  const char* text;
  int line, column;
  const char* says;
};

TEST(Rack, SaysWhereALineIsWrong) {
  const Shop shop = shop_with_bars();
  const BadLine cases[] = {
      {"A, ply_81, 1150, 620", 1, 4, "found `ply_81`, expected a rough board, a sheet or a bar"},
      {"A, ply_18, 1150", 1, 16, "expected a length and a width"},
      {"A", 1, 2, "expected a label, a stock, a length and a width"},
      {"A, batten", 1, 10, "expected the length of the bar"},
      {"A, batten, 1400, 45", 1, 18, "a bar has no width here"},
      {", ply_18, 1150, 620", 1, 1, "expected the label"},
      {"A, ply_18, 0, 620", 1, 12, "found a length of 0"},
      {"A, ply_18, 1150, -3", 1, 18, "width"},
      {"A, ply_18, 1150, 620, x0", 1, 23, "expected a count such as x3"},
      {"A, ply_18, 1150, 620, value ten", 1, 23, "value: "},
      {"A, ply_18, 1150, 620, value -4", 1, 23, "a value of nothing or more"},
      {"A, ply_18, 1150, 620, good", 1, 23, "expected x3 for three alike"},
      {"A, ply_18, 1150, 620, ", 1, 22, "found nothing between two commas"},
      {"A, oak_5_4, 140, 2100", 1, 18, "wider than it is long"},
      {"A, ply_18, 1150, 620\nA, ply_18, 900, 300", 2, 1, "the label `A` stands twice"}};
  for (const BadLine& c : cases) {
    SCOPED_TRACE(c.text);
    const ReadRack rack = read_rack(c.text, "my.rack", shop);
    ASSERT_FALSE(rack.errors.empty());
    EXPECT_THAT(rack.errors[0].message, HasSubstr(c.says));
    EXPECT_EQ(rack.errors[0].at->line, c.line);
    EXPECT_EQ(rack.errors[0].at->column, c.column);
    EXPECT_EQ(rack.errors[0].at->file, "my.rack");
  }
}

TEST(Rack, ReportsEveryMistakeAtOnce) {
  const ReadRack rack = read_rack(
      "A, ply_81, 1, 1\nB, batten, long\nC, ply_18, 900, 300, x0\n", "my.rack", shop_with_bars());
  EXPECT_THAT(rack.errors, SizeIs(3));
  EXPECT_THAT(rack.pieces, IsEmpty());
  EXPECT_EQ(rack.errors[0].nearest, "ply_18");
}

RC_GTEST_PROP(Rack, SurvivesGarbage, (const std::string& text)) {
  const Shop shop = shop_with_bars();
  const ReadRack rack = read_rack(text, "my.rack", shop);
  for (const RackPiece& piece : rack.pieces) {
    RC_ASSERT(piece.length > Length{} && piece.count > 0 && piece.value >= Money{});
  }
}

RC_GTEST_PROP(Rack, SurvivesBrokenLines, ()) {
  static const Shop kShop = shop_with_bars();
  std::string line = "A1, ply_18, 1150, 620, x2, lot brown, value 14.50";
  const auto at = *rc::gen::inRange<std::size_t>(0, line.size());
  line[at] = *rc::gen::arbitrary<char>();
  const ReadRack rack = read_rack(line, "my.rack", kShop);
  RC_ASSERT(rack.pieces.size() + rack.errors.size() >= 1U || line[0] == '#' || line[0] == '\n');
}

TEST(Rack, StandsInAFileTheShopNames) {
  const std::string text = std::string{kOn} + kBars + "rack: my.rack\n";
  const ReadShop mine = read(text, {{"my.rack", "A1, ply_18, 1150, 620\n"}});
  ASSERT_EQ(said(mine.errors), "");
  ASSERT_THAT(mine.shop.rack, SizeIs(1));
  const ReadShop wrong = read(text, {{"my.rack", "A1, ply_18, 1150\nA2, oak, 3, 4\n"}});
  ASSERT_THAT(wrong.errors, SizeIs(2));
  EXPECT_EQ(wrong.errors[0].at->file, "my.rack");
  const ReadShop missing = read(text);
  ASSERT_THAT(missing.errors, SizeIs(1));
  EXPECT_EQ(missing.errors[0].at->file, "my.yaml");
}

TEST(Rack, ForgetsWhatTheShopNoLongerHas) {
  const ReadShop mine = read("based_on: other.yaml\nwithout: [ply_18]\n",
                             {{"other.yaml", std::string{kOn} + "rack: my.rack\n"},
                              {"my.rack", "A1, ply_18, 1150, 620\nB1, oak_5_4, 2100, 140\n"}});
  ASSERT_EQ(said(mine.errors), "");
  ASSERT_THAT(mine.shop.rack, SizeIs(1));
  EXPECT_EQ(mine.shop.rack[0].label, "B1");
}

// ---- Bars ---------------------------------------------------------------------------------------

TEST(Bars, AreReadWithTheirLengths) {
  const Shop shop = shop_with_bars();
  const BarStock* bar = shop.bar("batten");
  ASSERT_NE(bar, nullptr);
  ASSERT_THAT(bar->lengths, SizeIs(2));
  EXPECT_EQ(bar->lengths[1].length, 3600_mm);
  EXPECT_EQ(bar->lengths[1].price, Money::from_major(14));
  EXPECT_THAT(shop.stock_ids(), ::testing::Contains("batten"));
}

TEST(Bars, TakeTheMoneyOfTheOtherShop) {
  const ReadShop mine = read("based_on: other.yaml\ncurrency: GBP\nexchange: 0.5\n",
                             {{"other.yaml", std::string{kOn} + kBars + "rack: my.rack\n"},
                              {"my.rack", "C1, batten, 1400, value 4\n"}});
  ASSERT_EQ(said(mine.errors), "");
  EXPECT_EQ(mine.shop.bar("batten")->lengths[0].price, Money::from_major(4.80));
  EXPECT_EQ(mine.shop.rack.at(0).value, Money::from_major(2));
}

struct BadBar {
  const char* fields;
  const char* says;
};

TEST(Bars, SayWhatIsWrong) {
  const BadBar cases[] = {
      {"name: b, width: 45, thickness: 20, kg_per_metre: 1", "lengths"},
      {"name: b, width: 45, thickness: 20, kg_per_metre: 1, lengths: []", "at least one length"},
      {"name: b, width: 20, thickness: 45, kg_per_metre: 1, lengths: [{length: 2400, price: 9}]",
       "the larger side is its width"},
      {"name: b, width: 45, thickness: 20, lengths: [{length: 2400, price: 9}]", "kg_per_metre"},
      {"name: b, species: oak_whit, width: 45, thickness: 20, lengths: [{length: 2400, price: 9}]",
       "oak_whit"},
      {"name: b, width: 45, thickness: 20, kg_per_metre: 1, end_trim: 1200, lengths: [{length: "
       "2400, price: 9}]",
       "is trimmed by 1200 mm at each end"},
      {"name: b, width: 45, thickness: 20, kg_per_metre: 1, lengths: [{length: 2400, price: 9}, "
       "{length: 2400, price: 8}]",
       "stands twice"},
      {"name: b, width: 45, thickness: 20, kg_per_metre: 1, lengths: [{length: 2400}]", "price"}};
  for (const BadBar& c : cases) {
    SCOPED_TRACE(c.fields);
    const ReadShop mine = read(std::string{kOn} + "bars:\n  b: {" + c.fields + "}\n");
    EXPECT_THAT(said(mine.errors), HasSubstr(c.says));
  }
}

TEST(Bands, AreSoldByTheMetreByTheRollOrInStrips) {
  const ReadShop strips = read(std::string{kOn} +
                               "bands: {s: {name: s, thickness: 2, width: 22, "
                               "strips: [{length: 2600, price: 4}]}}\n");
  EXPECT_EQ(said(strips.errors), "");
  EXPECT_THAT(strips.shop.band("s")->strips, SizeIs(1));
  const ReadShop neither =
      read(std::string{kOn} + "bands: {s: {name: s, thickness: 2, width: 22}}\n");
  EXPECT_THAT(said(neither.errors), HasSubstr("needs its `price_per_metre` or the `strips`"));
  const ReadShop both = read(std::string{kOn} +
                             "bands: {s: {name: s, thickness: 2, width: 22, roll: 50 m, "
                             "strips: [{length: 2600, price: 4}]}}\n");
  EXPECT_THAT(said(both.errors), HasSubstr("not both"));
}

}  // namespace
}  // namespace plankwright::shop
