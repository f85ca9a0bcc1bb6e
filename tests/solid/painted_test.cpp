#include "solid/painted.h"

#include <cmath>
#include <optional>

#include <gtest/gtest.h>
#include <rapidcheck/gtest.h>

#include "solid/shapes.h"
#include "solid/sight.h"

namespace plankwright::solid {
namespace {

using measure::Axis;

DrawnSolid drawn(int id, const Body& body, std::optional<Axis> grain = std::nullopt) {
  auto solid = Solid::make(body);
  EXPECT_TRUE(solid.ok());
  return {.id = id, .solid = std::move(solid).value(), .grain = grain};
}

// Odd number of crossings to the right.
bool inside(ViewPoint p, const PaintedFace& face) {
  bool odd = false;
  for (const auto& loop : face.loops) {
    for (std::size_t i = 0; i < loop.size(); ++i) {
      const ViewPoint a = loop[i];
      const ViewPoint b = loop[(i + 1) % loop.size()];
      if ((a.y > p.y) != (b.y > p.y) && p.x < a.x + (b.x - a.x) * (p.y - a.y) / (b.y - a.y)) {
        odd = !odd;
      }
    }
  }
  return odd;
}

const PaintedFace* top_face(ViewPoint p, const std::vector<PaintedFace>& faces) {
  const PaintedFace* top = nullptr;
  for (const PaintedFace& face : faces) {
    if (inside(p, face)) {
      top = &face;
    }
  }
  return top;
}

constexpr int kRoom = 12;

// The box first met on the way from the eye through `p`, or nothing; no answer where it is close.
struct FirstMet {
  std::optional<int> box;
  bool close = false;
};

FirstMet first_met(ViewPoint p, const std::vector<GridBox>& boxes, const Camera& camera) {
  const Vector up = cross(camera.to_eye, camera.right);
  const Vector place = camera.target + camera.right * p.x + up * p.y;
  const Vector away = to_eye_from(camera, place) * -1;
  FirstMet met;
  double nearest = 1e300;
  for (std::size_t i = 0; i < boxes.size(); ++i) {
    const auto shrunk = crossing(boxes[i], place, away, -0.01);
    const auto grown = crossing(boxes[i], place, away, 0.01);
    if (shrunk.has_value() != grown.has_value()) {
      met.close = true;
    }
    if (shrunk && shrunk->first < nearest) {
      nearest = shrunk->first;
      met.box = static_cast<int>(i);
    }
  }
  return met;
}

RC_GTEST_PROP(PaintedView, ShowsTheNearestSolidEverywhere, ()) {
  const auto boxes = apart(*few_boxes(kRoom, 9));
  const int turn = *rc::gen::inRange(-80, 80);
  const int lift = *rc::gen::inRange(-60, 70);
  const Camera camera = *rc::gen::arbitrary<bool>()
                            ? axonometric_view(turn, lift)
                            : perspective_view(box(0, 0, 0, kRoom, kRoom, kRoom), turn, lift);
  std::vector<DrawnSolid> solids;
  for (const GridBox& b : boxes) {
    solids.push_back(drawn(static_cast<int>(solids.size()), {.wood = {to_box(b)}}));
  }
  const auto faces = painted_view(solids, camera, mm(0));
  RC_ASSERT(faces.ok());
  for (int i = -25; i <= 25; ++i) {
    for (int j = -25; j <= 25; ++j) {
      const ViewPoint p{i * 0.613 + (camera.eye_distance ? 0.0137 : 4.0137), j * 0.587 + 0.0191};
      const FirstMet met = first_met(p, boxes, camera);
      if (!met.close) {
        const PaintedFace* face = top_face(p, faces.value());
        const std::optional<int> shown = face ? std::optional{face->solid} : std::nullopt;
        RC_ASSERT(shown == met.box);
      }
    }
  }
}

TEST(PaintedView, HolesAreHolesAndRoundWallsAreSeenThroughThem) {
  // A board standing up with a hole of 100 through it: behind the hole stands another board.
  const Body holed{.wood = {box(0, 0, 0, 400, 20, 400)},
                   .cuts = {Extrusion{circle(at(200, 200), mm(50)), Axis::kY, mm(-1), mm(30)}}};
  const std::vector<DrawnSolid> solids{drawn(1, holed),
                                       drawn(2, {.wood = {box(0, 100, 0, 400, 20, 400)}})};
  const auto front = painted_view(solids, front_view(), mm(0));
  ASSERT_TRUE(front.ok());
  EXPECT_EQ(top_face({200, 200}, front.value())->solid, 2);
  EXPECT_EQ(top_face({200, 248}, front.value())->solid, 2);
  EXPECT_EQ(top_face({200, 252}, front.value())->solid, 1);
  // From above, the lower half of the hole's wall is seen.
  const auto lifted = painted_view(solids, axonometric_view(0, 45), mm(0));
  ASSERT_TRUE(lifted.ok());
  const ViewPoint wall = project(axonometric_view(0, 45), {200, 10, 150.5});
  EXPECT_EQ(top_face(wall, lifted.value())->solid, 1);
}

TEST(PaintedView, TopIsLighterThanFrontAndFrontLighterThanTheRightSide) {
  const auto faces = painted_view(
      {{drawn(1, {.wood = {box(0, 0, 0, 100, 100, 100)}})}}, axonometric_view(30, 30), mm(0));
  ASSERT_TRUE(faces.ok());
  ASSERT_EQ(faces.value().size(), 3U);
  const Camera camera = axonometric_view(30, 30);
  const double top = top_face(project(camera, {50, 50, 100}), faces.value())->light;
  const double front = top_face(project(camera, {50, 0, 50}), faces.value())->light;
  const double right = top_face(project(camera, {100, 50, 50}), faces.value())->light;
  EXPECT_GT(top, front);
  EXPECT_GT(front, right);
  EXPECT_GE(right, 0);
  EXPECT_LE(top, 1);
}

TEST(PaintedView, GrainRunsAlongThePartAndStaysOnIt) {
  const Camera camera = axonometric_view(30, 30);
  const auto faces =
      painted_view({{drawn(4, {.wood = {box(0, 0, 0, 900, 120, 30)}}, Axis::kX)}}, camera, mm(12));
  ASSERT_TRUE(faces.ok());
  const ViewPoint x = project(camera, {1, 0, 0});
  int ends = 0;
  std::size_t strokes = 0;
  for (const PaintedFace& face : faces.value()) {
    ends += face.end_grain ? 1 : 0;
    strokes += face.grain.size();
    EXPECT_TRUE(!face.end_grain || face.grain.empty());
    for (const auto& [a, b] : face.grain) {
      EXPECT_NEAR((b.x - a.x) * x.y - (b.y - a.y) * x.x, 0, 1e-6);  // along x
      EXPECT_TRUE(inside({(a.x + b.x) / 2, (a.y + b.y) / 2}, face));
    }
  }
  EXPECT_EQ(ends, 1);
  EXPECT_GT(strokes, 20U);
}

}  // namespace
}  // namespace plankwright::solid
