#include <algorithm>
#include <map>

#include <gmock/gmock.h>
#include <gtest/gtest.h>
#include <rapidcheck/gtest.h>

#include "stock/parts.h"
#include "stock/small_shop.h"
#include "stock/stock.h"
#include "stock/yard.h"

namespace plankwright::stock {
namespace {

using namespace measure;  // NOLINT(google-build-using-namespace): length literals
using ::testing::HasSubstr;
using ::testing::IsEmpty;
using ::testing::SizeIs;

shop::Shop rack_shop() {
  shop::Shop shop = sheet_and_board_shop();
  shop.allowances.offcut_width = 150_mm;
  return shop;
}

shop::RackPiece on_rack(const std::string& label,
                        const std::string& stock,
                        Length length,
                        Length width,
                        double value,
                        int count = 1) {
  const auto kind = stock == "ash" ? shop::RackKind::kBoard : shop::RackKind::kSheet;
  return {label, stock, kind, length, width, count, "", Money::from_major(value), {}};
}

// Two doors of 2000 x 600 lie side by side on a sheet of 2420 x 1200 only without a kerf: the
// second needs another sheet, or the offcut.
piece::Piece two_doors() {
  piece::Piece piece;
  add(piece, "board", 2000_mm, 600_mm, 2);
  return piece;
}

TEST(Rack, SavesASheetForTheValueOfAnOffcut) {
  shop::Shop shop = rack_shop();
  EXPECT_EQ(plan_stock(two_doors(), shop, "").sheet_price, Money::from_major(200));
  shop.rack = {on_rack("A3", "board", 2010_mm, 610_mm, 18)};
  const Stock stock = plan_stock(two_doors(), shop, "");
  EXPECT_EQ(stock.sheet_price, Money::from_major(100));
  EXPECT_EQ(stock.rack_price, Money::from_major(18));
  ASSERT_THAT(stock.from_rack, SizeIs(1));
  EXPECT_EQ(stock.from_rack[0].label, "A3");
  EXPECT_THAT(stock.from_rack[0].parts, SizeIs(1));
  ASSERT_THAT(stock.purchases, SizeIs(1));
  EXPECT_EQ(stock.purchases[0].quantity, "1 sheet");
  const SheetNeed& need = stock.sheets[0];
  EXPECT_EQ(need.sheets, 2);
  EXPECT_EQ(need.rack_pieces, 1);
  EXPECT_EQ(need.layouts.back().rack, "A3");
  EXPECT_EQ(need.layouts.back().length, 2010_mm);
  EXPECT_EQ(need.layouts.back().pieces[0].x, 0_mm);  // its edges are sawn already
}

struct RackCase {
  const char* why;
  Length length, width;
  double value;
  bool used;
};

TEST(Rack, IsUsedOnlyWhereItIsCheaper) {
  const RackCase cases[] = {{"cheaper than a sheet", 2010_mm, 610_mm, 60, true},
                            {"as dear as a sheet", 2010_mm, 610_mm, 101, false},
                            {"too short by a millimetre", 1999_mm, 700_mm, 1, false},
                            {"the grain would run across", 610_mm, 2010_mm, 1, false}};
  for (const RackCase& c : cases) {
    SCOPED_TRACE(c.why);
    shop::Shop shop = rack_shop();
    shop.rack = {on_rack("A", "board", c.length, c.width, c.value)};
    EXPECT_EQ(plan_stock(two_doors(), shop, "").from_rack.size(), c.used ? 1U : 0U);
  }
}

TEST(Rack, NothingIsBoughtWhenItHoldsEverything) {
  shop::Shop shop = rack_shop();
  shop.rack = {on_rack("A", "board", 2700_mm, 610_mm, 10, 3)};
  const Stock stock = plan_stock(two_doors(), shop, "");
  EXPECT_THAT(stock.purchases, IsEmpty());
  ASSERT_THAT(stock.from_rack, SizeIs(1));
  EXPECT_EQ(stock.from_rack[0].count, 2);
  EXPECT_EQ(stock.rack_price, Money::from_major(20));
  ASSERT_THAT(stock.to_rack, SizeIs(1));  // 2700 - 2000 - 4
  EXPECT_EQ(stock.to_rack[0].length, 696_mm);
  EXPECT_EQ(stock.to_rack[0].count, 2);
  EXPECT_EQ(stock.to_rack[0].from, "A");
  // Its share of the value in the rack: 10 x 696 x 610 (or 600) / (2700 x 610).
  EXPECT_GT(stock.to_rack[0].value, Money::from_major(2.5));
  EXPECT_LE(stock.to_rack[0].value, Money::from_major(2.58));
}

RC_GTEST_PROP(Rack, NeverMakesSheetsDearer, ()) {
  piece::Piece piece;
  const int kinds = *rc::gen::inRange(1, 5);
  for (int i = 0; i < kinds; ++i) {
    add(piece,
        "board",
        Length::from_mm(*rc::gen::inRange(100, 2400)),
        Length::from_mm(*rc::gen::inRange(50, 1190)),
        *rc::gen::inRange(1, 4));
  }
  shop::Shop shop = rack_shop();
  shop.sheets[0].grain = *rc::gen::inRange(0, 2) == 0;
  const SheetNeed bare = sheet_need(piece, shop, shop.sheets[0], 0.1);
  const int pieces = *rc::gen::inRange(1, 5);
  for (int i = 0; i < pieces; ++i) {
    shop.rack.push_back(on_rack("R" + std::to_string(i),
                                "board",
                                Length::from_mm(*rc::gen::inRange(100, 2440)),
                                Length::from_mm(*rc::gen::inRange(100, 1220)),
                                *rc::gen::inRange(0, 60),
                                *rc::gen::inRange(1, 3)));
  }
  const SheetNeed need = sheet_need(piece, shop, shop.sheets[0], 0.1);
  RC_ASSERT(need.price + need.rack_value - need.offcut_value <= bare.price - bare.offcut_value);
  std::vector<int> cut(piece.parts.size(), 0);
  std::map<std::string, int> taken;
  for (const SheetLayout& layout : need.layouts) {
    ++taken[layout.rack];
    const Length trim = layout.rack.empty() ? 10_mm : 0_mm;
    for (std::size_t i = 0; i < layout.pieces.size(); ++i) {
      const SheetPiece& a = layout.pieces[i];
      ++cut[a.part];
      RC_ASSERT(a.x >= trim && a.x + a.length <= layout.length - trim);
      RC_ASSERT(a.y >= trim && a.y + a.width <= layout.width - trim);
      for (std::size_t j = 0; j < i; ++j) {
        const SheetPiece& b = layout.pieces[j];
        RC_ASSERT(a.x + a.length + 4_mm <= b.x || b.x + b.length + 4_mm <= a.x ||
                  a.y + a.width + 4_mm <= b.y || b.y + b.width + 4_mm <= a.y);
      }
    }
  }
  RC_ASSERT(std::ranges::all_of(cut, [](int count) { return count == 1; }));
  for (const shop::RackPiece& rack : shop.rack) {
    RC_ASSERT(taken[rack.label] <= rack.count);
  }
}

// 72 x 6 inches is 3 board feet at 4/4: 24 new, 31.20 with the loss that comes with it. The board
// holds the longer part or the shorter one.
TEST(Rack, GivesBoardsForTheirValue) {
  piece::Piece piece;
  add(piece, "ash", 72_in, 6_in, 1, 1_in);
  add(piece, "ash", 48_in, 6_in, 1, 1_in);
  shop::Shop shop = rack_shop();
  shop.rack = {on_rack("K1", "ash", 100_in, 6.5_in, 9)};
  const Stock stock = plan_stock(piece, shop, "");
  ASSERT_THAT(stock.from_rack, SizeIs(1));
  EXPECT_EQ(stock.from_rack[0].parts, std::vector<PartIndex>{0});
  const SolidNeed& need = stock.solids[0];
  EXPECT_NEAR(need.rough_board_feet, 5, 1e-9);
  EXPECT_NEAR(need.rack_board_feet, 3, 1e-9);
  EXPECT_EQ(need.boards[0].rack, "K1");
  EXPECT_GT(need.buy_board_feet, 2);  // the shorter part only
  EXPECT_LT(need.buy_board_feet, 5);
  ASSERT_THAT(stock.to_rack, SizeIs(1));  // 100 - 72 in, less the kerf
  EXPECT_EQ(stock.to_rack[0].length, 28_in - 3.2_mm);
  EXPECT_EQ(stock.to_rack[0].from, "K1");
}

TEST(Rack, HoldsAllBoardsSometimes) {
  piece::Piece piece;
  add(piece, "ash", 72_in, 6_in, 2, 1_in);
  shop::Shop shop = rack_shop();
  shop.rack = {on_rack("K1", "ash", 74_in, 7_in, 9, 2)};
  const Stock stock = plan_stock(piece, shop, "");
  EXPECT_THAT(stock.purchases, IsEmpty());
  EXPECT_EQ(stock.solid_price, Money{});
  EXPECT_EQ(stock.rack_price, Money::from_major(18));
  EXPECT_THAT(stock.solids[0].asks, IsEmpty());
  const auto yard = look_in_the_yard(piece, shop, stock, {});
  ASSERT_THAT(yard, SizeIs(1));
  EXPECT_THAT(yard[0].missing, IsEmpty());
}

RC_GTEST_PROP(Rack, LaysEveryStripOfASolidPartOnce, ()) {
  piece::Piece piece;
  const int kinds = *rc::gen::inRange(1, 6);
  for (int i = 0; i < kinds; ++i) {
    add(piece,
        "ash",
        Length::from_mm(*rc::gen::inRange(100, 2600)),
        Length::from_mm(*rc::gen::inRange(20, 400)),
        *rc::gen::inRange(1, 3),
        1_in);
    piece.parts.back().strips = *rc::gen::inRange(1, 4);
  }
  shop::Shop shop = rack_shop();
  const int boards = *rc::gen::inRange(1, 4);
  for (int i = 0; i < boards; ++i) {
    shop.rack.push_back(on_rack("K" + std::to_string(i),
                                "ash",
                                Length::from_mm(*rc::gen::inRange(400, 3000)),
                                Length::from_mm(*rc::gen::inRange(60, 300)),
                                *rc::gen::inRange(0, 30),
                                *rc::gen::inRange(1, 3)));
  }
  const SolidNeed need = solid_need(piece, shop, shop.solids[0]);
  std::vector<int> found(piece.parts.size(), 0);
  std::map<std::string, int> taken;
  for (const BoardLayout& board : need.boards) {
    ++taken[board.rack];
    for (std::size_t i = 0; i < board.pieces.size(); ++i) {
      const BoardPiece& a = board.pieces[i];
      ++found[a.part];
      RC_ASSERT(a.x + a.length <= board.length);
      RC_ASSERT(a.y + a.width <= board.width);
      for (std::size_t j = 0; j < i; ++j) {
        const BoardPiece& b = board.pieces[j];
        RC_ASSERT(a.x + a.length <= b.x || b.x + b.length <= a.x || a.y + a.width <= b.y ||
                  b.y + b.width <= a.y);
      }
    }
  }
  for (std::size_t i = 0; i < found.size(); ++i) {
    RC_ASSERT(found[i] == std::max(1, piece.parts[i].strips));
  }
  for (const shop::RackPiece& rack : shop.rack) {
    RC_ASSERT(taken[rack.label] <= rack.count);
  }
  RC_ASSERT(need.rack_board_feet <= need.rough_board_feet + 1e-4);
}

}  // namespace
}  // namespace plankwright::stock
