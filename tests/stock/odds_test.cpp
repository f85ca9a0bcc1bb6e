#include "stock/odds.h"

#include <fstream>
#include <sstream>

#include <gmock/gmock.h>
#include <gtest/gtest.h>

#include "stock/parts.h"

namespace plankwright::stock {
namespace {

using namespace measure;  // NOLINT(google-build-using-namespace): length literals
using ::testing::SizeIs;

const wood::BoardFaultTable& faults() {
  static const wood::BoardFaultTable kTable = [] {
    std::ostringstream text;
    text << std::ifstream{PLANKWRIGHT_SOURCE_DIR "/data/board_faults.csv"}.rdbuf();
    return wood::read_board_faults(text.str(), "board_faults.csv").value();
  }();
  return kTable;
}

shop::Shop cherry_shop(const std::string& grade) {
  shop::Shop shop;
  shop.unit = LengthUnit::kInch;
  shop.hour.cost = Money::from_major(62);
  shop::LabourStandard trip;
  trip.id = "buy_trip";
  trip.setup = Minutes{75};
  trip.per_unit = Minutes{20};
  shop.standards = {trip};
  shop::SolidStock cherry;
  cherry.id = "cherry";
  cherry.name = "cherry 4/4";
  cherry.rough_thickness = 1_in;
  cherry.surfaced_thickness = 0.8125_in;
  cherry.grade = grade;
  cherry.price = Money::from_major(8.40);
  cherry.board_length = 96_in;
  cherry.board_width = 7.5_in;
  cherry.buy_factor = 1.3;
  shop.solids = {cherry};
  shop.allowances.saw_kerf = 3.2_mm;
  shop.allowances.rough_width = 6_mm;
  shop.allowances.offcut_value = Percent{60};
  return shop;
}

piece::Piece stiles_and_rails(int of_each) {
  piece::Piece piece;
  for (int i = 0; i < of_each; ++i) {
    for (const Length length : {26_in, 18_in, 12_in}) {
      piece::Part part;
      part.name = part.path = "p" + std::to_string(piece.parts.size());
      part.stock = "cherry";
      part.finished = part.cut = part.rough = {length, 2.5_in, 1_in};
      piece.parts.push_back(part);
    }
  }
  return piece;
}

BuyingOdds odds_for(const std::string& grade, int of_each, const OddsLimits& limits = {}) {
  const shop::Shop shop = cherry_shop(grade);
  const piece::Piece piece = stiles_and_rails(of_each);
  const SolidNeed need = solid_need(piece, shop, shop.solids[0]);
  return odds_of_buying(piece, shop, shop.solids[0], faults(), need, limits);
}

// A trip of 95 minutes at 62 an hour is 98; a foot of 8.40 that keeps 60 % of its price loses 3.36;
// the last foot is worth having up to 98 / (98 + 3.36) = 0.967 (worked example, from memory).
TEST(BuyingOdds, WeighATripAgainstWhatIsLeftOver) {
  EXPECT_NEAR(critical_ratio(98, 3.36), 0.967, 0.0005);
  const BuyingOdds odds = odds_for("FAS", 3);
  EXPECT_NEAR(odds.trip.major(), 98.17, 0.01);
  EXPECT_NEAR(odds.left_over.major(), 3.36, 0.001);
}

// The mean size of a standard normal is sqrt(2 / pi) = 0.79788 (any table of the half-normal
// distribution), so at a spread of 25 % boards run over by 9.97 %.
TEST(BuyingOdds, KnowHowFarBoardsRunOverTheirAsk) {
  EXPECT_NEAR(mean_over_ask(Percent{25}), 1.09974, 1e-5);
  EXPECT_EQ(mean_over_ask(Percent{0}), 1.0);
  const shop::Shop shop = cherry_shop("FAS");
  const SolidNeed exact = solid_need(stiles_and_rails(4), shop, shop.solids[0]);
  const SolidNeed over = solid_need(stiles_and_rails(4), shop, shop.solids[0], 1.0, {}, faults());
  EXPECT_NEAR(over.asked_board_feet / exact.asked_board_feet, 1.09974 * 1.07979, 1e-4);
}

// What a spare board is for: the same purchases hold everything more often.
TEST(BuyingOdds, RiseWithASpareBoard) {
  const piece::Piece piece = stiles_and_rails(6);
  double last = -1;
  for (const int spare : {0, 1}) {
    shop::Shop shop = cherry_shop("FAS one face");
    shop.allowances.spare_boards = spare;
    const SolidNeed need = solid_need(piece, shop, shop.solids[0], 1.0, {}, faults());
    const BuyingOdds odds = odds_of_buying(piece, shop, shop.solids[0], faults(), need);
    EXPECT_GT(odds.planned_odds, last) << spare;
    last = odds.planned_odds;
  }
  EXPECT_GT(last, 0.9);
}

// Ten purchases that need 10, 11 .. 19. A trip worth 2 and a foot worth 1: another foot is bought
// for all those below while it saves one trip in ten, so up to the second: 11 costs 0.1 + 8 x 0.2.
TEST(BuyingOdds, FindTheQuantityThatCostsLeast) {
  std::vector<double> wanted;
  for (int i = 0; i < 10; ++i) {
    wanted.push_back(10 + i);
  }
  EXPECT_EQ(least_costly_quantity(wanted, 1, 2), 11);
  EXPECT_EQ(least_costly_quantity(wanted, 1, 100), 19);
  EXPECT_EQ(least_costly_quantity(wanted, 100, 1), 10);
}

TEST(BuyingOdds, RiseWithTheQuantityAndFallWithTheGrade) {
  const BuyingOdds fine = odds_for("FAS", 6);
  ASSERT_THAT(fine.enough, SizeIs(3));
  EXPECT_LE(fine.enough[0].board_feet, fine.enough[1].board_feet);
  EXPECT_LE(fine.enough[1].board_feet, fine.enough[2].board_feet);
  const BuyingOdds poor = odds_for("No. 3A common", 6);
  EXPECT_GT(poor.enough[1].board_feet, fine.enough[1].board_feet);
  EXPECT_LE(poor.planned_odds, fine.planned_odds);
  // Never less than the parts themselves take.
  EXPECT_GT(fine.enough[0].board_feet, 6 * (26 + 18 + 12) * 2.5 / 144);
}

TEST(BuyingOdds, AreTheSameForTheSameSeed) {
  OddsLimits limits;
  limits.purchases = 40;
  limits.seed = 5;
  const BuyingOdds once = odds_for("FAS", 4, limits);
  const BuyingOdds again = odds_for("FAS", 4, limits);
  for (std::size_t i = 0; i < once.enough.size(); ++i) {
    EXPECT_EQ(once.enough[i].board_feet, again.enough[i].board_feet);
  }
  EXPECT_EQ(once.best_board_feet, again.best_board_feet);
}

// What 95 % of 150 purchases found enough suffices for about as many of 400 others.
TEST(BuyingOdds, HoldForPurchasesThatWereNotDrawn) {
  OddsLimits limits;
  limits.purchases = 150;
  const double enough = odds_for("FAS one face", 4, limits).enough[1].board_feet;
  const shop::Shop shop = cherry_shop("FAS one face");
  const piece::Piece piece = stiles_and_rails(4);
  SolidNeed need = solid_need(piece, shop, shop.solids[0]);
  need.buy_sold = enough;
  limits.purchases = 400;
  limits.seed = 77'000'000;
  const BuyingOdds fresh = odds_of_buying(piece, shop, shop.solids[0], faults(), need, limits);
  EXPECT_GE(fresh.planned_odds, 0.88);  // three standard errors of both samples
  EXPECT_LE(fresh.planned_odds, 1.0);
}

TEST(BuyingOdds, SayWhenTheGradeIsNotInTheTable) {
  EXPECT_THAT(odds_for("cabinetmaker's best", 2).from, ::testing::HasSubstr("not in the table"));
  EXPECT_THAT(odds_for("fas ONE face", 2).from, ::testing::HasSubstr("FAS one face"));
}

}  // namespace
}  // namespace plankwright::stock
