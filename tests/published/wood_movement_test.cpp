// Wood movement against published worked examples. A further published set (millimetres a metre
// from 90 to 60 % humidity) is for woods and older shrinkages that our table does not hold.

#include <gtest/gtest.h>

#include "wood/moisture.h"
#include "wood/movement.h"
#include "wood/read_data.h"

namespace plankwright::wood {
namespace {

using measure::Length;
using measure::Percent;
using measure::operator""_mm;
using measure::operator""_in;
using testing::species;

double small_mm(Length size, double from, double to, double coefficient) {
  return small_size_change(size, Percent{from}, Percent{to}, coefficient).value().mm();
}

// WH4, verified: white fir, flat-grained, 232 mm (9.15 in) wide, 8 to 11 %; the 8 % and the
// tangential coefficient are from memory and give the printed answer.
TEST(PublishedMovement, WhiteFir) {
  const auto fir = movement(
      species("fir_white"), Side::kWidth, Cut::kFlatSawn, 232.0_mm, Percent{8}, Percent{11});
  EXPECT_NEAR(fir.value().change.mm(), 1.7, 0.05);
  EXPECT_NEAR(232 + fir.value().change.mm(), 233.7, 0.05);
  const auto inches = movement(
      species("fir_white"), Side::kWidth, Cut::kFlatSawn, 9.15_in, Percent{8}, Percent{11});
  EXPECT_NEAR(inches.value().change.inches(), 0.067, 0.0005);
}

// FLR1, verified: mesquite strip 5 in, 6 to 9 %, coefficient 0.00129.
TEST(PublishedMovement, MesquiteStrip) {
  EXPECT_NEAR(small_mm(5_in, 6, 9, 0.00129) / 25.4, 0.019, 0.0005);
}

// MV1, verified: red alder 8 in wide, 6 points, coefficient taken as 0.0026.
TEST(PublishedMovement, RedAlder) {
  EXPECT_NEAR(small_mm(8_in, 6, 12, 0.0026) / 25.4, 0.1248, 0.00005);
}

// MV2, verified: joist 13.25 in deep, 19 to 10 %, reckoned at 6 % shrinkage spread over 30 points:
// 0.2385 in. That starts from the size at 19 % instead of green, so the handbook's wider formula
// comes out 2 % more; the small-change formula refuses 19 %.
TEST(PublishedMovement, JoistOutsideTheSmallRange) {
  EXPECT_FALSE(small_size_change(13.25_in, Percent{19}, Percent{10}, 0.002).ok());
  const auto wide = wide_size_change(13.25_in, Percent{19}, Percent{10}, Percent{6}, Percent{30});
  EXPECT_NEAR(wide.value().inches(), -0.2385, 0.03 * 0.2385);
}

struct TradeCase {
  std::string id;
  Cut cut;
  double sixty_fourths;
};

// MV3, verified: trade table, 12 in wide, 10 to 5 %, in 64ths of an inch. It runs 5 to 30 % under
// the handbook for plain-sawn stock and a little over for quarter-sawn red oak: a test of
// plausibility.
TEST(PublishedMovement, TradeTableIsNear) {
  const TradeCase cases[] = {{"ash_white", Cut::kFlatSawn, 10},
                             {"basswood", Cut::kFlatSawn, 10},
                             {"beech_american", Cut::kFlatSawn, 14},
                             {"butternut", Cut::kFlatSawn, 8},
                             {"cherry_black", Cut::kFlatSawn, 9},
                             {"maple_sugar", Cut::kFlatSawn, 12},
                             {"hickory_pecan", Cut::kFlatSawn, 11},
                             {"oak_northern_red", Cut::kFlatSawn, 11},
                             {"oak_white", Cut::kFlatSawn, 11},
                             {"oak_northern_red", Cut::kQuarterSawn, 7},
                             {"oak_white", Cut::kQuarterSawn, 7},
                             {"maple_silver", Cut::kFlatSawn, 9},
                             {"walnut_black", Cut::kFlatSawn, 10},
                             {"birch_yellow", Cut::kFlatSawn, 12},
                             {"yellow_poplar", Cut::kFlatSawn, 9}};
  for (const TradeCase& c : cases) {
    SCOPED_TRACE(c.id);
    // 10 to 5 % reaches below the small range; 11 to 6 % is the same five points.
    const auto moved = movement(species(c.id), Side::kWidth, c.cut, 12_in, Percent{11}, Percent{6});
    const double sixty_fourths = -moved.value().change.inches() * 64;
    EXPECT_GT(sixty_fourths, 0.85 * c.sixty_fourths);
    EXPECT_LT(sixty_fourths, 1.45 * c.sixty_fourths);
  }
}

// Reckoned here from the handbook's formulas (WH4 verified, GTR133 from memory); no published
// answer.
TEST(ReckonedMovement, FollowsTheFormulas) {
  EXPECT_NEAR(small_mm(900_mm, 6, 12, 0.00369), 19.93, 0.005);
  EXPECT_NEAR(small_mm(900_mm, 6, 12, 0.00158), 8.53, 0.005);
  EXPECT_NEAR(small_mm(300_mm, 8, 11, 0.00248), 2.23, 0.005);
  EXPECT_NEAR(small_mm(24_in, 7, 10, 0.00274) / 25.4, 0.1973, 0.00005);
  EXPECT_NEAR(
      wide_size_change(500_mm, Percent{20}, Percent{8}, Percent{9.9}, Percent{30}).value().mm(),
      -20.48,
      0.005);
}

// Reckoned by hand for our own dining table: white oak 950 wide from 35 to 65 % humidity at 21 C,
// which is 6.9 to 12.0 % by the printed table (WH5). Its rounding to 0.1 % twice is worth 0.35 mm
// flat-sawn.
TEST(ReckonedMovement, OfAnOakTop) {
  const measure::Celsius room{21.1};
  const Percent dry = equilibrium_moisture(room, Percent{35}).value();
  const Percent wet = equilibrium_moisture(room, Percent{65}).value();
  const auto change = [&](Cut cut) {
    return movement(species("oak_white"), Side::kWidth, cut, 950_mm, dry, wet).value().change.mm();
  };
  EXPECT_NEAR(change(Cut::kFlatSawn), 17.7, 0.35);
  EXPECT_NEAR(change(Cut::kQuarterSawn), 8.7, 0.175);
}

}  // namespace
}  // namespace plankwright::wood
