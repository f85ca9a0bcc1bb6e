// Corridor corners, arcs and body measures against plane geometry and published dimensions.

#include <cmath>
#include <numbers>

#include <gtest/gtest.h>

#include "wood/arc.h"
#include "wood/read_data.h"
#include "wood/way_in.h"

namespace plankwright::wood {
namespace {

using measure::Length;
using measure::operator""_mm;
using measure::operator""_in;
using testing::reference;

// Plane geometry: for equal corridors the tightest place is at 45 degrees, 2 sqrt2 a - 2w.
TEST(GeometryOfCorners, ClosedFormForEqualCorridors) {
  for (const double a : {700.0, 860.0, 1200.0}) {
    for (const double w : {0.0, 32.0, 300.0, 600.0}) {
      const double closed = 2 * std::sqrt(2.0) * a - 2 * w;
      const CornerLimit limit =
          longest_round_corner(Length::from_mm(a), Length::from_mm(a), Length::from_mm(w));
      EXPECT_NEAR(limit.longest.mm(), std::max(closed, a), 1e-3);
      EXPECT_NEAR(limit.tightest.count(), 45, 0.01);
    }
  }
}

// Plane geometry: a pole without width, the ladder problem: (a^2/3 + b^2/3)^3/2.
TEST(GeometryOfCorners, LadderForUnequalCorridors) {
  for (const double a : {600.0, 900.0, 2400.0}) {
    for (const double b : {700.0, 1100.0}) {
      const double ladder = std::pow(std::cbrt(a * a) + std::cbrt(b * b), 1.5);
      const CornerLimit limit =
          longest_round_corner(Length::from_mm(a), Length::from_mm(b), Length{});
      EXPECT_NEAR(limit.longest.mm(), ladder, 1e-3);
    }
  }
}

// Our own dining table: top on edge and assembled base round a corner of two corridors 860 wide.
TEST(GeometryOfCorners, OfTheDiningTable) {
  EXPECT_NEAR(longest_round_corner(860_mm, 860_mm, 32_mm).longest.mm(), 2368, 0.5);
  EXPECT_NEAR(longest_round_corner(860_mm, 860_mm, 718_mm).longest.mm(), 996, 0.5);
}

// Numeric minimisation written apart: the formula for the reach in the form of two corridors and a
// width, tried at every thousandth of a degree.
TEST(GeometryOfCorners, BruteForce) {
  const double cases[][3] = {{860, 860, 718}, {700, 1200, 450}, {1500, 800, 799}, {950, 900, 10}};
  for (const auto& [a, b, w] : cases) {
    double least = 1e9;
    for (int i = 1; i < 90'000; ++i) {
      const double angle = i * std::numbers::pi / 180'000;
      least =
          std::min(least, a / std::cos(angle) + b / std::sin(angle) - 2 * w / std::sin(2 * angle));
    }
    const CornerLimit limit =
        longest_round_corner(Length::from_mm(a), Length::from_mm(b), Length::from_mm(w));
    EXPECT_NEAR(limit.longest.mm(), std::max({least, a, b}), 0.01);
  }
}

// Plane geometry: the centre found from the chord and the rise is as far from all three points.
TEST(GeometryOfArcs, ThreePointsOnACircle) {
  const double cases[][2] = {{1016, 44.45}, {300, 5}, {600, 300}, {2000, 700}};
  for (const auto& [span, rise] : cases) {
    const Arc arc = arc_from_rise(Length::from_mm(span), Length::from_mm(rise)).value();
    const double centre_below_chord = arc.radius.mm() - rise;
    EXPECT_NEAR(std::hypot(span / 2, centre_below_chord), arc.radius.mm(), 1e-4);
    // angle at the centre times radius
    const double angle = 2 * std::atan2(span / 2, centre_below_chord);
    EXPECT_NEAR(arc.length.mm(), angle * arc.radius.mm(), 1e-3);
    EXPECT_NEAR(arc.end_slope.count(), angle / 2 * 180 / std::numbers::pi, 1e-4);
  }
}

struct PrintedSize {
  std::string id;
  double least_mm, most_mm;  // as printed beside the inches; 0: open
  double within_mm;
};

// Printed in millimetres beside the inches. AD1, AD2, AD4, verified (rounded there to 5 mm).
// ER1 and ER2, verified (printed in whole centimetres).
TEST(PublishedSizes, MetricFiguresAgree) {
  const PrintedSize sizes[] = {{"accessible_top_height", 710, 865, 2.5},
                               {"accessible_knee_height", 685, 0, 2.5},
                               {"accessible_knee_width", 760, 0, 2.5},
                               {"accessible_knee_depth", 205, 0, 2.5},
                               {"accessible_child_top_height", 660, 760, 2.5},
                               {"accessible_child_knee_height", 610, 0, 2.5},
                               {"dining_table_height", 710, 760, 5},
                               {"seat_height", 430, 480, 5},
                               {"seat_to_apron", 250, 300, 5},
                               {"desk_height", 705, 735, 0.1},
                               {"desk_knee_height", 620, 0, 0.1}};
  for (const PrintedSize& printed : sizes) {
    SCOPED_TRACE(printed.id);
    const UsualSize size = reference().usual_sizes.find(printed.id).value();
    EXPECT_NEAR(size.least->mm(), printed.least_mm, printed.within_mm);
    ASSERT_EQ(size.most.has_value(), printed.most_mm > 0);
    if (size.most) {
      EXPECT_NEAR(size.most->mm(), printed.most_mm, printed.within_mm);
    }
  }
}

// CP1 and CP2, verified: 686 mm, 13.6 kg, 90.6 dm3.
TEST(PublishedSizes, StorageRule) {
  const StorageRule& rule = reference().storage_rule;
  EXPECT_NEAR(rule.scope_height.value.mm(), 686, 0.5);
  EXPECT_NEAR(rule.scope_mass.value.count(), 13.6, 0.05);
  EXPECT_NEAR(rule.scope_volume.value.count() / 1e6, 90.6, 0.05);
}

}  // namespace
}  // namespace plankwright::wood
