#include "solid/camera.h"

#include <cmath>

#include <gtest/gtest.h>

#include "solid/shapes.h"

namespace plankwright::solid {
namespace {

TEST(Camera, PinholeMovesPlacesByTheRuleOfThree) {
  // Eye 2000 in front of the target: what is halfway looks twice as large.
  const Camera camera = perspective_view({mm(0), mm(-2000), mm(0)}, {mm(0), mm(0), mm(0)});
  const ViewPoint p = project(camera, {100, -1000, 50});
  EXPECT_NEAR(p.x, 200, 1e-9);
  EXPECT_NEAR(p.y, 100, 1e-9);
  const ViewPoint far = project(camera, {100, 2000, 50});
  EXPECT_NEAR(far.x, 50, 1e-9);
  EXPECT_NEAR(depth(camera, {100, -1000, 50}), 1000, 1e-9);
}

TEST(Camera, LinesIntoTheDepthMeetInOnePoint) {
  const Camera camera = perspective_view({mm(800), mm(-2600), mm(1500)}, {mm(0), mm(0), mm(400)});
  const ViewPoint a = project(camera, {0, 1e9, 0});
  const ViewPoint b = project(camera, {700, 1e9, 900});
  EXPECT_NEAR(a.x, b.x, 0.01);
  EXPECT_NEAR(a.y, b.y, 0.01);
}

TEST(Camera, VerticalsStayUpright) {
  for (const Camera& camera :
       {isometric_view(), axonometric_view(20, 35), axonometric_view(-60, 5)}) {
    const ViewPoint foot = project(camera, {300, 200, 0});
    const ViewPoint head = project(camera, {300, 200, 100});
    EXPECT_NEAR(foot.x, head.x, 1e-9);
    EXPECT_GT(head.y, foot.y);
  }
}

TEST(Camera, IsometricShortensAllAxesBySqrtTwoThirds) {
  // ISO 5456-3 (from memory): axes at 30 degrees, all shortened by sqrt(2/3) = 0.816.
  const Camera camera = isometric_view();
  const ViewPoint x = project(camera, {1, 0, 0});
  const ViewPoint y = project(camera, {0, 1, 0});
  const ViewPoint z = project(camera, {0, 0, 1});
  for (const ViewPoint p : {x, y, z}) {
    EXPECT_NEAR(std::hypot(p.x, p.y), std::sqrt(2.0 / 3), 1e-12);
  }
  EXPECT_NEAR(x.y / x.x, -std::tan(std::acos(-1.0) / 6), 1e-12);
  EXPECT_NEAR(y.y / y.x, std::tan(std::acos(-1.0) / 6), 1e-12);
}

TEST(Camera, ATurnToTheRightShowsTheRightSide) {
  // Seen from the right front, the front right corner is nearer than the front left one.
  const Camera camera = axonometric_view(30, 20);
  EXPECT_GT(depth(camera, {100, 0, 0}), depth(camera, {0, 0, 0}));
  EXPECT_GT(depth(camera, {0, 0, 100}), depth(camera, {0, 0, 0}));
}

}  // namespace
}  // namespace plankwright::solid
