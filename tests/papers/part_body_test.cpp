#include "papers/part_body.h"

#include <cmath>

#include <gtest/gtest.h>

#include "piece/sizes.h"
#include "planned_example.h"
#include "solid/solid.h"

namespace plankwright::papers {
namespace {

using measure::Axis;
using measure::Length;
using piece::Part;
using namespace measure;  // NOLINT(google-build-using-namespace): 80_mm

double volume(const Part& part) {
  return solid::Solid::make(part_body(part)).value().volume().count();
}

Part leg() {
  Part part;
  part.body = {{100_mm, 70_mm, 0_mm}, {80_mm, 80_mm, 718_mm}};
  part.length_axis = Axis::kZ;
  part.thickness_axis = Axis::kY;
  return part;
}

TEST(PartBody, IsItsBox) {
  EXPECT_NEAR(volume(leg()), 80.0 * 80 * 718, 1);
}

TEST(PartBody, TakesAWedgeOffForATaper) {
  for (const piece::Direction side : {piece::Direction{Axis::kX, 1},
                                      piece::Direction{Axis::kX, -1},
                                      piece::Direction{Axis::kY, 1},
                                      piece::Direction{Axis::kY, -1}}) {
    Part part = leg();
    part.tapers = {{side, 118_mm, 50_mm}};
    // A triangle 30 wide at the foot, from 118 below the top over 600.
    EXPECT_NEAR(volume(part), 80.0 * 80 * 718 - 0.5 * 30 * 600 * 80, 1);
    const measure::Box bounds = solid::Solid::make(part_body(part)).value().bounds();
    EXPECT_NEAR(bounds.size.z.mm(), 718, 1e-3);
  }
}

TEST(PartBody, TapersOfTwoFacesMeetInTheCorner) {
  Part part = leg();
  part.tapers = {{{Axis::kX, 1}, 118_mm, 50_mm}, {{Axis::kY, 1}, 118_mm, 50_mm}};
  // Below the start the section shrinks from 80 to 50 both ways: the frustum of a pyramid.
  const double frustum = 600.0 / 3 * (80.0 * 80 + 50 * 50 + 80 * 50);
  EXPECT_NEAR(volume(part), 80.0 * 80 * 118 + frustum, 1);
}

TEST(PartBody, OppositeTapersShareWhatIsTakenOff) {
  Part part = leg();
  part.tapers = {{{Axis::kX, 1}, 118_mm, 50_mm}, {{Axis::kX, -1}, 118_mm, 50_mm}};
  EXPECT_NEAR(volume(part), 80.0 * 80 * 718 - 0.5 * 30 * 600 * 80, 1);
}

TEST(PartBody, AnArchTakesOffTheSegmentOfItsCircle) {
  Part part;
  part.body = {{0_mm, 0_mm, 50_mm}, {1130_mm, 22_mm, 100_mm}};
  part.length_axis = Axis::kX;
  part.thickness_axis = Axis::kY;
  part.arch = piece::Arch{{Axis::kZ, -1}, 1000_mm, 45_mm, false};
  // Radius and angle from chord and rise; segment = r^2 (angle - sin angle) / 2.
  const double r = (1000.0 * 1000 / 4 + 45.0 * 45) / (2 * 45);
  const double angle = 2 * std::asin(500 / r);
  const double segment = r * r * (angle - std::sin(angle)) / 2;
  EXPECT_NEAR(volume(part), (1130.0 * 100 - segment) * 22, 1);
}

TEST(PartBody, HasTheWoodThatTheMassesAreReckonedFrom) {
  // Two ways to the same wood: the solid as drawn, and the formula behind the masses. Tenons and
  // site allowances stand in the finished size only, so only parts without them are compared.
  for (const char* example : kExamples) {
    int compared = 0;
    for (const Part& part : example_plan(example).piece.parts) {
      const bool as_drawn = part.finished.length == part.body.size[part.length_axis] &&
                            part.finished.thickness == part.body.size[part.thickness_axis] &&
                            part.finished.width == part.body.size[part.width_axis()];
      if (as_drawn && part.material != piece::Material::kBoughtIn) {
        const double reckoned = piece::volume_of(part).count();
        EXPECT_NEAR(volume(part), reckoned, 1e-6 * reckoned) << part.path;
        ++compared;
      }
    }
    EXPECT_GT(compared, 4) << example;
  }
}

TEST(Pulls, SitOnTheirFrontsAndStandOutAsFarAsTheListSays) {
  for (const char* example : {"hall_cabinet", "study_wall"}) {
    const plan::Plan& plan = example_plan(example);
    const auto pulls = pulls_of(plan.piece, plan.shop);
    EXPECT_EQ(pulls.size(), 6U);
    for (const DrawnPull& pull : pulls) {
      const measure::Box bounds = solid::Solid::make(pull.body).value().bounds();
      const measure::Box& front = plan.piece.parts[pull.front].body;
      EXPECT_NEAR(bounds.end(Axis::kY).mm(), front.begin(Axis::kY).mm(), 0.01);
      EXPECT_GE(bounds.begin(Axis::kX), front.begin(Axis::kX));
      EXPECT_LE(bounds.end(Axis::kX), front.end(Axis::kX));
      EXPECT_GE(bounds.begin(Axis::kZ), front.begin(Axis::kZ));
      EXPECT_LE(bounds.end(Axis::kZ), front.end(Axis::kZ));
      const double projection = example == std::string{"hall_cabinet"} ? 1.125 * 25.4 : 32;
      EXPECT_NEAR(bounds.size.y.mm(), projection, 0.01);
    }
  }
}

}  // namespace
}  // namespace plankwright::papers
