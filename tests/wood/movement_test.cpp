#include "wood/movement.h"

#include <cmath>
#include <numbers>

#include <gtest/gtest.h>
#include <rapidcheck.h>

#include "wood/read_data.h"

namespace plankwright::wood {
namespace {

using measure::Degrees;
using measure::Length;
using measure::Percent;
using measure::operator""_mm;
using testing::species;

constexpr Percent kDry{7};
constexpr Percent kWet{12};

TEST(Movement, TakesTheSmallFormulaInsideItsRange) {
  const auto cherry =
      movement(species("cherry_black"), Side::kWidth, Cut::kFlatSawn, 457.2_mm, kDry, kWet);
  ASSERT_TRUE(cherry.ok());
  EXPECT_EQ(cherry.value().formula, MovementFormula::kSmallChange);
  EXPECT_NEAR(cherry.value().change.mm(), 457.2 * 0.00248 * 5, 1e-6);
  EXPECT_EQ(
      print(cherry.value().from),
      "Cherry, black: 0.00248 tangential per 1 % moisture, equation 13-2 (WH3;WH4, verified)");
}

TEST(Movement, TakesTheWideFormulaOutsideIt) {
  const auto maple = movement(
      species("maple_sugar"), Side::kWidth, Cut::kFlatSawn, 500.0_mm, Percent{20}, Percent{8});
  ASSERT_TRUE(maple.ok());
  EXPECT_EQ(maple.value().formula, MovementFormula::kWideChange);
  EXPECT_EQ(maple.value().from.mark, Mark::kMemory);
  EXPECT_EQ(print(maple.value().from),
            "Maple, sugar (hard): 9.9 % tangential shrinkage from green to oven-dry, equation 13-3 "
            "(GTR43;GTR133, from memory)");
}

TEST(Movement, FallsBackOnShrinkageWhereNoCoefficientIsPublished) {
  const auto sapele =
      movement(species("sapele"), Side::kWidth, Cut::kFlatSawn, 300.0_mm, kDry, kWet);
  ASSERT_TRUE(sapele.ok());
  EXPECT_EQ(sapele.value().formula, MovementFormula::kWideChange);
  // jarrah has a tangential coefficient only
  EXPECT_EQ(movement(species("jarrah"), Side::kWidth, Cut::kFlatSawn, 300.0_mm, kDry, kWet)
                .value()
                .formula,
            MovementFormula::kSmallChange);
  EXPECT_EQ(movement(species("jarrah"), Side::kWidth, Cut::kQuarterSawn, 300.0_mm, kDry, kWet)
                .value()
                .formula,
            MovementFormula::kWideChange);
}

TEST(Movement, FollowsTheRings) {
  const Species oak = species("oak_white");
  const auto change = [&](Side side, Degrees angle) {
    return movement(oak, side, angle, 1000.0_mm, kDry, kWet).value().change.mm();
  };
  EXPECT_NEAR(change(Side::kWidth, Degrees{0}), 1000 * 0.00365 * 5, 1e-6);
  EXPECT_NEAR(change(Side::kWidth, Degrees{90}), 1000 * 0.00180 * 5, 1e-6);
  EXPECT_NEAR(change(Side::kWidth, Degrees{45}), 1000 * (0.00365 + 0.00180) / 2 * 5, 1e-6);
  EXPECT_NEAR(change(Side::kThickness, Degrees{0}), change(Side::kWidth, Degrees{90}), 1e-6);
  EXPECT_NEAR(change(Side::kThickness, Degrees{30}), change(Side::kWidth, Degrees{60}), 1e-6);
}

// The blend is plane geometry of strain: move the four corners of a board cut at an angle out of a
// sheet that swells differently both ways, and measure the side again. Swelling is small, so that
// second-order terms stay under one part in a thousand of the change.
TEST(Movement, BlendAgreesWithGeometry) {
  EXPECT_TRUE(rc::check([] {
    const double angle = *rc::gen::inRange(0, 91);
    const double t = 1e-4 * *rc::gen::inRange(10, 100);
    const double r = 1e-4 * *rc::gen::inRange(5, 50);
    const double a = angle * std::numbers::pi / 180;
    // A board whose width makes `angle` with the rings; rings run along x.
    const double x = 100 * std::cos(a) * (1 + t * 1e-2);
    const double y = 100 * std::sin(a) * (1 + r * 1e-2);
    const double grown = std::hypot(x, y) - 100;

    Species wood = species("oak_white");
    wood.tangential_coefficient->value = t * 1e-2;
    wood.radial_coefficient->value = r * 1e-2;
    const auto change =
        movement(wood, Side::kWidth, Degrees{angle}, 100.0_mm, Percent{8}, Percent{9});
    RC_ASSERT(std::abs(change.value().change.mm() - grown) < 1e-3 * grown + 1e-6);
  }));
}

TEST(Movement, IsNearlyNothingAlongTheGrain) {
  const auto along =
      movement(species("oak_white"), Side::kLength, Cut::kFlatSawn, 2100.0_mm, kDry, kWet);
  ASSERT_TRUE(along.ok());
  EXPECT_NEAR(along.value().change.mm(), 2100 * 0.002 * 5 / 30, 0.01);
  EXPECT_EQ(along.value().from.source, "WDB;GTR133");
}

TEST(Movement, RefusesWhatTheFormulasDoNotHold) {
  const Species teak = species("teak");
  const auto change = [&](double from, double to, double angle) {
    return movement(teak, Side::kWidth, Degrees{angle}, 100.0_mm, Percent{from}, Percent{to});
  };
  EXPECT_TRUE(change(0, 22, 0).ok());
  const auto above = change(8, 23, 0);
  ASSERT_FALSE(above.ok());
  EXPECT_EQ(above.error().message, "23.0 % moisture is outside 0 to 22 %");
  EXPECT_FALSE(change(-1, 8, 0).ok());
  const auto angle = change(8, 10, 91);
  ASSERT_FALSE(angle.ok());
  EXPECT_EQ(angle.error().message, "growth rings at 91.0 degrees to the face, expected 0 to 90");
  EXPECT_EQ(small_size_change(100.0_mm, Percent{5.9}, Percent{8}, 0.003).error().message,
            "5.9 % moisture is outside 6 to 14 %");
}

TEST(Movement, ComesBackWhenTheMoistureDoes) {
  EXPECT_TRUE(rc::check([] {
    const auto& all = testing::reference().species.rows();
    const Species& wood = all[*rc::gen::inRange<std::size_t>(0, all.size())];
    const Percent from{*rc::gen::inRange(0, 220) / 10.0};
    const Percent to{*rc::gen::inRange(0, 220) / 10.0};
    const Length size = Length::from_mm(*rc::gen::inRange(1, 3000));
    const Cut cut = *rc::gen::element(Cut::kFlatSawn, Cut::kQuarterSawn, Cut::kRiftSawn);
    const Length there = movement(wood, Side::kWidth, cut, size, from, to).value().change;
    const Length back = movement(wood, Side::kWidth, cut, size + there, to, from).value().change;
    // The wide formula is exact there and back; the small one is off by its own square.
    RC_ASSERT(std::abs((there + back).mm()) <= 0.002 * size.mm());
    RC_ASSERT((there > Length{}) == (to > from && there != Length{}));
  }));
}

// Both formulas describe the same wood: inside 6 to 14 % they must agree for woods whose
// coefficients and shrinkage come from the same generation of tables (cherry: 29 points of
// shrinkage a point of C).
TEST(Movement, FormulasAgreeWhereBothHold) {
  for (const char* id :
       {"cherry_black", "walnut_black", "maple_sugar", "oak_white", "redcedar_western"}) {
    const Species wood = species(id);
    const double small =
        small_size_change(1000.0_mm, kDry, kWet, wood.tangential_coefficient->value).value().mm();
    const double wide =
        wide_size_change(
            1000.0_mm, kDry, kWet, wood.tangential_shrinkage.value, wood.fibre_saturation.value)
            .value()
            .mm();
    EXPECT_NEAR(wide, small, 0.07 * small) << id;
  }
}

TEST(Cut, IsReadByItsTradeName) {
  for (const Cut cut : {Cut::kFlatSawn, Cut::kQuarterSawn, Cut::kRiftSawn}) {
    EXPECT_EQ(parse_cut(word(cut)).value(), cut);
  }
  const auto wrong = parse_cut("quatersawn");
  ASSERT_FALSE(wrong.ok());
  EXPECT_EQ(
      base::describe(wrong.error()),
      "error: `quatersawn` is no way of sawing, expected flat_sawn, quarter_sawn or rift_sawn; "
      "did you mean `quarter_sawn`?\n");
}

}  // namespace
}  // namespace plankwright::wood
