#include "measure/length.h"

#include <gtest/gtest.h>

#include "measure/box.h"
#include "measure/quantity.h"

namespace plankwright::measure {
namespace {

// NIST Handbook 44, appendix C: one inch is 2.54 cm, one foot 12 inches, one yard 0.9144 m,
// exactly.
TEST(LengthOf, AnInchIsExact) {
  EXPECT_EQ((1_in).nm(), 25'400'000);
  EXPECT_EQ((1_in / 64).nm() * 64, (1_in).nm());
  EXPECT_EQ(36_in, 914.4_mm);
  EXPECT_DOUBLE_EQ((6_in).feet(), 0.5);
}

TEST(LengthOf, GoesToTheNearestNanometre) {
  EXPECT_EQ(Length::from_mm(0.1).nm(), 100'000);
  EXPECT_EQ(Length::from_mm(-0.1).nm(), -100'000);
  EXPECT_EQ(scaled(3_mm, 1.0 / 3), 1_mm);
  EXPECT_EQ((10_mm / 3).nm(), 3'333'333);
}

// A board foot is 144 cubic inches (NIST PS 20-20, American Softwood Lumber Standard).
TEST(Quantities, ConvertToTheUnitsOfTheTimberTrade) {
  EXPECT_NEAR(board_feet(CubicMillimetres{25.4 * 304.8 * 304.8}), 1, 1e-12);
  EXPECT_NEAR(square_feet(SquareMillimetres{304.8 * 304.8}), 1, 1e-12);
  EXPECT_NEAR(cubic_metres(CubicMillimetres{1000.0 * 1000 * 18}), 0.018, 1e-12);
  EXPECT_NEAR(hours(Minutes{90}), 1.5, 1e-12);
}

Box box(int x, int y, int z, int dx, int dy, int dz) {
  return {{1_mm * x, 1_mm * y, 1_mm * z}, {1_mm * dx, 1_mm * dy, 1_mm * dz}};
}

TEST(Boxes, MeetInTheirSharedPart) {
  EXPECT_EQ(intersection(box(0, 0, 0, 10, 10, 10), box(5, 6, 7, 10, 10, 10)),
            box(5, 6, 7, 5, 4, 3));
  EXPECT_TRUE(intersection(box(0, 0, 0, 10, 10, 10), box(10, 0, 0, 5, 5, 5)).empty());
  EXPECT_EQ(intersection(box(0, 0, 0, 10, 10, 10), box(12, 0, 0, 5, 5, 5)).size.x, -(2_mm));
  EXPECT_EQ(hull(box(0, 0, 0, 1, 1, 1), box(4, 5, 6, 1, 1, 1)), box(0, 0, 0, 5, 6, 7));
  EXPECT_EQ(box(0, 0, 0, 10, 20, 30).centre(), (Point{5_mm, 10_mm, 15_mm}));
}

}  // namespace
}  // namespace plankwright::measure
