#include "solid/solid.h"

#include <cmath>
#include <numbers>

#include <gmock/gmock.h>
#include <gtest/gtest.h>
#include <rapidcheck/gtest.h>

#include "solid/box_body.h"
#include "solid/shapes.h"

namespace plankwright::solid {
namespace {

using measure::Axis;
using testing::HasSubstr;

Solid made(const Body& body) {
  auto solid = Solid::make(body);
  EXPECT_TRUE(solid.ok()) << (solid.ok() ? "" : solid.error().message);
  return std::move(solid).value();
}

// The area between a chord and its arc, from the chord and the rise: r = (c^2 / 4 + h^2) / (2 h),
// A = r^2 acos(1 - h / r) - (r - h) c / 2 (school geometry).
double segment_area(double chord, double rise) {
  const double r = (chord * chord / 4 + rise * rise) / (2 * rise);
  return r * r * std::acos(1 - rise / r) - (r - rise) * chord / 2;
}

Extrusion arched_rail() {
  // 1000 long, 100 high, the lower edge arched 40 over 800.
  return {.outline = {.edges = {{.to = at(100, 0)},
                                {.to = at(900, 0), .through = at(500, 40)},
                                {.to = at(1000, 0)},
                                {.to = at(1000, 100)},
                                {.to = at(0, 100)},
                                {.to = at(0, 0)}}},
          .along = Axis::kY,
          .from = mm(10),
          .length = mm(22)};
}

TEST(Solid, BoardHasTheVolumeAndMiddleOfItsBox) {
  const Solid board = made({.wood = {box(10, 20, 30, 600, 200, 18)}});
  EXPECT_NEAR(board.volume().count(), 600.0 * 200 * 18, 1e-3);
  EXPECT_EQ(board.centre_of_mass(), (measure::Point{mm(310), mm(120), mm(39)}));
  EXPECT_EQ(board.bounds(), box(10, 20, 30, 600, 200, 18));
  EXPECT_EQ(board.pieces(), 1);
  EXPECT_TRUE(board.valid());
}

TEST(Solid, MortisesWithRoundEndsTakeTheirVolume) {
  // A leg with two mortises 8 wide, 60 long, 40 deep.
  const Body leg{.wood = {box(0, 0, 0, 80, 80, 700)},
                 .cuts = {Extrusion{slot(at(36, 620), at(44, 680)), Axis::kX, mm(50), mm(30)},
                          Extrusion{slot(at(36, 620), at(44, 680)), Axis::kY, mm(0), mm(30)}}};
  const double mortise = (52.0 * 8 + std::numbers::pi * 4 * 4) * 30;
  const Solid solid = made(leg);
  EXPECT_NEAR(solid.volume().count(), 80.0 * 80 * 700 - 2 * mortise, 1e-2);
  EXPECT_TRUE(solid.valid());
}

TEST(Solid, TaperedLegBalancesWhereATrapezoidDoes) {
  // Centroid of a trapezoid from its wide end: h (a + 2 b) / (3 (a + b)) (school geometry).
  const Body leg{
      .wood = {Extrusion{
          polygon({at(0, 0), at(30, 0), at(40, 600), at(0, 600)}), Axis::kY, mm(0), mm(40)}}};
  const Solid solid = made(leg);
  EXPECT_NEAR(solid.volume().count(), (30 + 40) / 2.0 * 600 * 40, 1e-3);
  EXPECT_NEAR(solid.centre_of_mass().z.mm(), 600 * (30 + 2 * 40.0) / (3 * (30 + 40.0)), 1e-5);
  EXPECT_NEAR(solid.centre_of_mass().y.mm(), 20, 1e-5);
}

TEST(Solid, ArchTakesTheCircleSegmentAway) {
  const Solid rail = made({.wood = {arched_rail()}});
  const double face = 1000.0 * 100 - segment_area(800, 40);
  EXPECT_NEAR(rail.volume().count(), face * 22, 0.5);
  EXPECT_NEAR(rail.bounds().size.z.mm(), 100, 1e-5);
  EXPECT_EQ(rail.bounds().at.y, mm(10));
}

TEST(Solid, OutlinesLieTheSameWayAlongEveryAxis) {
  const auto outline = polygon({at(1, 2), at(5, 2), at(5, 4)});
  const Solid x = made({.wood = {Extrusion{outline, Axis::kX, mm(10), mm(7)}}});
  const Solid y = made({.wood = {Extrusion{outline, Axis::kY, mm(10), mm(7)}}});
  const Solid z = made({.wood = {Extrusion{outline, Axis::kZ, mm(10), mm(7)}}});
  EXPECT_EQ(x.bounds(), box(10, 1, 2, 7, 4, 2));
  EXPECT_EQ(y.bounds(), box(1, 10, 2, 4, 7, 2));
  EXPECT_EQ(z.bounds(), box(1, 2, 10, 4, 2, 7));
  for (const Solid& solid : {x, y, z}) {
    EXPECT_NEAR(solid.volume().count(), 28, 1e-6);
  }
}

TEST(Solid, ACutRightThroughLeavesTwoPieces) {
  EXPECT_EQ(
      made({.wood = {box(0, 0, 0, 100, 10, 10)}, .cuts = {box(40, -1, -1, 3, 12, 12)}}).pieces(),
      2);
}

TEST(Solid, MovedSolidIsTheSameElsewhere) {
  const Solid rail = made({.wood = {arched_rail()}});
  const Solid there = rail.moved({mm(5), mm(-7), mm(11)});
  EXPECT_NEAR(there.volume().count(), rail.volume().count(), 1e-6);
  EXPECT_EQ(there.bounds().at.x, mm(5));
  EXPECT_EQ(there.bounds().at.y, mm(3));
  EXPECT_EQ(rail.bounds().at.x, mm(0));
}

struct BadBody {
  const char* why;
  Body body;
  const char* message;
};

TEST(Solid, RefusesWhatHasNoSizeOrCrossesItself) {
  const Outline bow = polygon({at(0, 0), at(10, 10), at(10, 0), at(0, 10)});
  const Outline straight_arc{
      .edges = {{.to = at(10, 0), .through = at(5, 0)}, {.to = at(5, 9)}, {.to = at(0, 0)}}};
  const BadBody cases[] = {
      {"nothing", {}, "at least one"},
      {"no thickness", {.wood = {box(0, 0, 0, 10, 0, 10)}}, "wood 1: a box has no size"},
      {"cut turned round",
       {.wood = {box(0, 0, 0, 9, 9, 9)}, .cuts = {box(0, 0, 0, 1, 1, 1), box(5, 5, 5, -2, 1, 1)}},
       "cut 2: a box has no size"},
      {"no length",
       {.wood = {Extrusion{circle(at(0, 0), mm(5)), Axis::kX, mm(0), mm(0)}}},
       "over no length"},
      {"crossing outline", {.wood = {Extrusion{bow, Axis::kZ, mm(0), mm(5)}}}, "crosses"},
      {"arc in line", {.wood = {Extrusion{straight_arc, Axis::kZ, mm(0), mm(5)}}}, "in line"},
      {"point twice",
       {.wood = {Extrusion{polygon({at(0, 0), at(0, 0), at(5, 5)}), Axis::kZ, mm(0), mm(5)}}},
       "no length"},
      {"one edge", {.wood = {Extrusion{polygon({at(0, 0)}), Axis::kZ, mm(0), mm(5)}}}, "two edges"},
      {"flat outline",
       {.wood = {Extrusion{polygon({at(0, 0), at(9, 0), at(4, 0)}), Axis::kZ, mm(0), mm(5)}}},
       "crosses or touches itself"},
      {"all cut away",
       {.wood = {box(0, 0, 0, 9, 9, 9)}, .cuts = {box(-1, -1, -1, 11, 11, 11)}},
       "leave no wood"}};
  for (const BadBody& c : cases) {
    SCOPED_TRACE(c.why);
    const auto solid = Solid::make(c.body);
    ASSERT_FALSE(solid.ok());
    EXPECT_THAT(solid.error().message, HasSubstr(c.message));
  }
}

TEST(Interference, TenonInItsMortiseSharesNothingAndATightOneDoes) {
  const Solid leg =
      made({.wood = {box(0, 0, 0, 80, 80, 700)}, .cuts = {box(40, 36, 620, 40, 8, 60)}});
  const Solid fits = made({.wood = {box(80, 30, 600, 500, 20, 100), box(40, 36, 620, 40, 8, 60)}});
  const Solid thick =
      made({.wood = {box(80, 30, 600, 500, 20, 100), box(40, 35, 620, 40, 10, 60)}});
  EXPECT_NEAR(interference(leg, fits).count(), 0, 1e-6);
  EXPECT_NEAR(interference(leg, thick).count(), 2.0 * 40 * 60, 1e-3);
  EXPECT_EQ(interference(leg, fits.moved({mm(1000), mm(0), mm(0)})).count(), 0);
}

constexpr int kRoom = 6;

rc::Gen<GridBody> grid_body() {
  return rc::gen::map(rc::gen::tuple(grid_box(kRoom), few_boxes(kRoom, 2), few_boxes(kRoom, 2)),
                      [](auto t) {
                        auto [first, wood, cuts] = t;
                        wood.push_back(first);
                        return GridBody{wood, cuts};
                      });
}

RC_GTEST_PROP(Solid, VolumeIsWhatCountingCubesGives, ()) {
  const GridBody grid = *grid_body();
  const int cubes =
      count_cubes(kRoom, [&](int x, int y, int z) { return grid.holds_wood(x, y, z); });
  const auto solid = Solid::make(grid.body());
  RC_ASSERT(solid.ok() == (cubes > 0));
  if (solid.ok()) {
    RC_ASSERT(std::abs(solid.value().volume().count() - cubes) < 1e-6);
    RC_ASSERT(solid.value().valid());
  }
}

RC_GTEST_PROP(BoxBody, VolumesAreWhatCountingCubesGives, ()) {
  const GridBody a = *grid_body();
  const GridBody b = *grid_body();
  const int own = count_cubes(kRoom, [&](int x, int y, int z) { return a.holds_wood(x, y, z); });
  const int shared = count_cubes(
      kRoom, [&](int x, int y, int z) { return a.holds_wood(x, y, z) && b.holds_wood(x, y, z); });
  RC_ASSERT(std::abs(volume_of_boxes(a.body()).count() - own) < 1e-9);
  RC_ASSERT(std::abs(shared_volume_of_boxes(a.body(), b.body()).count() - shared) < 1e-9);
}

// The same through the geometry library, with the second body's wood as an outline drawn out.
RC_GTEST_PROP(Interference, OfOutlinesIsWhatCountingSharedCubesGives, ()) {
  const GridBody a = *grid_body();
  const GridBox g = *grid_box(kRoom);
  const Body b{
      .wood = {Extrusion{polygon({at(g[1], g[2]), at(g[4], g[2]), at(g[4], g[5]), at(g[1], g[5])}),
                         Axis::kX,
                         mm(g[0]),
                         mm(g[3] - g[0])}}};
  const int cubes = count_cubes(
      kRoom, [&](int x, int y, int z) { return a.holds_wood(x, y, z) && holds(g, x, y, z); });
  const auto shared = interference(a.body(), b);
  if (shared.ok()) {
    RC_ASSERT(std::abs(shared.value().count() - cubes) < 1e-6);
  } else {
    RC_ASSERT(volume_of_boxes(a.body()).count() == 0);
  }
}

}  // namespace
}  // namespace plankwright::solid
