#include "solid/hidden_lines.h"

#include <chrono>
#include <cmath>

#include <gmock/gmock.h>
#include <gtest/gtest.h>
#include <rapidcheck/gtest.h>

#include "solid/shapes.h"
#include "solid/sight.h"

namespace plankwright::solid {
namespace {

using measure::Axis;

DrawnSolid drawn(int id, const Body& body) {
  auto solid = Solid::make(body);
  EXPECT_TRUE(solid.ok());
  return {.id = id, .solid = std::move(solid).value()};
}

View view_of(const std::vector<DrawnSolid>& solids, const Camera& camera) {
  auto views = hidden_line_views(solids, {{camera}});
  EXPECT_TRUE(views.ok()) << (views.ok() ? "" : views.error().message);
  return std::move(views).value().front();
}

bool same(ViewPoint a, ViewPoint b) {
  return std::hypot(a.x - b.x, a.y - b.y) < 1e-6;
}

testing::AssertionResult has_line(const std::vector<ViewLine>& lines, ViewPoint a, ViewPoint b) {
  const bool found = std::ranges::any_of(lines, [&](const ViewLine& l) {
    return l.points.size() == 2 && ((same(l.points[0], a) && same(l.points[1], b)) ||
                                    (same(l.points[0], b) && same(l.points[1], a)));
  });
  return found ? testing::AssertionSuccess()
               : testing::AssertionFailure()
                     << "no line from " << a.x << "," << a.y << " to " << b.x << "," << b.y;
}

TEST(HiddenLines, FrontOfABoxIsItsOutlineOnce) {
  const View view = view_of({drawn(7, {.wood = {box(10, 0, 5, 600, 200, 18)}})}, front_view());
  EXPECT_EQ(view.name, "front");
  ASSERT_EQ(view.visible.size(), 4U);
  EXPECT_TRUE(view.hidden.empty());  // the back edges lie under the front ones
  EXPECT_TRUE(has_line(view.visible, {10, 5}, {610, 5}));
  EXPECT_TRUE(has_line(view.visible, {10, 5}, {10, 23}));
  EXPECT_EQ(view.visible.front().solid, 7);
  EXPECT_NEAR(view.bounds.width(), 600, 1e-9);
  EXPECT_NEAR(view.bounds.height(), 18, 1e-9);
}

TEST(HiddenLines, EachAxisViewTurnsThePieceTheRightWay) {
  // A small block at the left, front and bottom of a large one tells the views apart.
  const std::vector<DrawnSolid> piece{drawn(1, {.wood = {box(0, 0, 0, 100, 80, 60)}})};
  struct Case {
    Camera camera;
    ViewPoint low, high;
  };
  const Case cases[] = {{front_view(), {0, 0}, {100, 60}},
                        {back_view(), {-100, 0}, {0, 60}},
                        {left_view(), {-80, 0}, {0, 60}},
                        {right_view(), {0, 0}, {80, 60}},
                        {top_view(), {0, 0}, {100, 80}},
                        {bottom_view(), {0, -80}, {100, 0}}};
  for (const Case& c : cases) {
    SCOPED_TRACE(c.camera.name);
    const View view = view_of(piece, c.camera);
    EXPECT_TRUE(same(view.bounds.low, c.low)) << view.bounds.low.x << "," << view.bounds.low.y;
    EXPECT_TRUE(same(view.bounds.high, c.high));
  }
}

TEST(HiddenLines, ShelfBehindADoorIsHiddenAndSaysWhoseItIs) {
  const std::vector<DrawnSolid> cabinet{drawn(1, {.wood = {box(0, 0, 0, 400, 18, 600)}}),
                                        drawn(2, {.wood = {box(20, 18, 300, 360, 250, 20)}})};
  const View view = view_of(cabinet, front_view());
  EXPECT_EQ(view.visible.size(), 4U);
  ASSERT_EQ(view.hidden.size(), 4U);
  EXPECT_TRUE(has_line(view.hidden, {20, 300}, {380, 300}));
  EXPECT_EQ(view.hidden.front().solid, 2);

  std::vector<DrawnSolid> quiet = cabinet;
  quiet[1].show_hidden = false;
  EXPECT_TRUE(view_of(quiet, front_view()).hidden.empty());
}

TEST(HiddenLines, TenonShowsNoSeamAndLinesRunOn) {
  // Rail with a full-height tenon as thick as the rail: one straight outline, no line between.
  const Body rail{.wood = {box(40, 0, 0, 500, 20, 80), box(0, 0, 0, 40, 20, 80)}};
  EXPECT_EQ(view_of({drawn(1, rail)}, front_view()).visible.size(), 4U);
  // Two boards flush end to end keep the joint between them, and their edges stay their own.
  const View flush = view_of({drawn(1, {.wood = {box(0, 0, 0, 100, 20, 80)}}),
                              drawn(2, {.wood = {box(100, 0, 0, 100, 20, 80)}})},
                             front_view());
  EXPECT_EQ(flush.visible.size(), 7U);
  EXPECT_TRUE(has_line(flush.visible, {100, 0}, {100, 80}));
}

TEST(HiddenLines, AnOverlappedEdgeIsCutWhereItGoesOutOfSight) {
  const std::vector<DrawnSolid> two{drawn(1, {.wood = {box(0, 100, 20, 200, 20, 20)}}),
                                    drawn(2, {.wood = {box(150, 0, 0, 100, 20, 100)}})};
  const View view = view_of(two, front_view());
  EXPECT_TRUE(has_line(view.visible, {0, 20}, {150, 20}));
  EXPECT_TRUE(has_line(view.hidden, {150, 20}, {200, 20}));
}

TEST(HiddenLines, ArchIsACurveInParallelViewsAndTrueInPerspective) {
  const Extrusion rail{.outline = {.edges = {{.to = at(100, 0)},
                                             {.to = at(900, 0), .through = at(500, 40)},
                                             {.to = at(1000, 0)},
                                             {.to = at(1000, 100)},
                                             {.to = at(0, 100)},
                                             {.to = at(0, 0)}}},
                       .along = Axis::kY,
                       .from = mm(0),
                       .length = mm(22)};
  const double radius = (400.0 * 400 + 40 * 40) / (2 * 40.0);
  const std::vector<DrawnSolid> solids{drawn(1, {.wood = {rail}})};
  const View front = view_of(solids, front_view());
  int on_arc = 0;
  for (const ViewLine& line : front.visible) {
    for (const ViewPoint p : line.points) {
      if (line.points.size() > 2) {
        EXPECT_NEAR(std::hypot(p.x - 500, p.y - (40 - radius)), radius, 1e-6);
        ++on_arc;
      }
    }
  }
  EXPECT_GT(on_arc, 10);

  // Back through the eye into the plane of the front face, a curve whose ends are on the circle
  // must stay on it.
  const Camera eye = perspective_view({mm(200), mm(-2500), mm(900)}, {mm(500), mm(11), mm(50)});
  const Vector from{200, -2500, 900};
  const Vector up = cross(eye.to_eye, eye.right);
  const auto off_circle = [&](ViewPoint p) {
    const Vector on_picture = eye.target + eye.right * p.x + up * p.y;
    const Vector hit = from + (on_picture - from) * (-from.y / (on_picture.y - from.y));
    return std::abs(std::hypot(hit.x - 500, hit.z - (40 - radius)) - radius);
  };
  // 800 mm in fourteen chords of one circle: each rises c^2 / (8 r) over its middle.
  const double rise = (806.0 / 14) * (806.0 / 14) / (8 * radius);
  int checked = 0;
  for (const ViewLine& line : view_of(solids, eye).visible) {
    if (line.points.size() > 2 && off_circle(line.points.front()) < 0.01 &&
        off_circle(line.points.back()) < 0.01) {
      checked += static_cast<int>(line.points.size());
      for (const ViewPoint p : line.points) {
        EXPECT_LT(off_circle(p), 1.1 * rise);
      }
    }
  }
  EXPECT_GT(checked, 10);
}

TEST(HiddenLines, SameInputGivesTheSameLines) {
  std::vector<DrawnSolid> solids;
  for (int i = 0; i < 6; ++i) {
    solids.push_back(drawn(
        i,
        {.wood = {box(i * 30, i % 2 * 25, 0, 40, 25, 200)},
         .cuts = {Extrusion{circle(at(i * 30 + 20, 100), mm(6)), Axis::kY, mm(-1), mm(100)}}}));
  }
  const Camera cameras[] = {front_view(), isometric_view()};
  const auto first = hidden_line_views(solids, cameras);
  const auto second = hidden_line_views(solids, cameras);
  ASSERT_TRUE(first.ok() && second.ok());
  for (std::size_t i = 0; i < 2; ++i) {
    EXPECT_EQ(first.value()[i].visible, second.value()[i].visible);
    EXPECT_EQ(first.value()[i].hidden, second.value()[i].hidden);
    EXPECT_FALSE(first.value()[i].visible.empty());
  }
}

TEST(HiddenLines, AnEyeInsideThePieceIsRefused) {
  const std::vector<DrawnSolid> solids{drawn(3, {.wood = {box(0, 0, 0, 1000, 400, 800)}})};
  const Camera inside = perspective_view({mm(500), mm(100), mm(400)}, {mm(500), mm(200), mm(400)});
  const auto views = hidden_line_views(solids, {{inside}});
  ASSERT_FALSE(views.ok());
  EXPECT_EQ(views.error().message, "the eye of view perspective is too near to solid 3");
}

double distance(ViewPoint p, const ViewLine& line) {
  double best = 1e300;
  for (std::size_t i = 1; i < line.points.size(); ++i) {
    const ViewPoint a = line.points[i - 1];
    const ViewPoint b = line.points[i];
    const double l2 = (b.x - a.x) * (b.x - a.x) + (b.y - a.y) * (b.y - a.y);
    const double t =
        std::clamp(((p.x - a.x) * (b.x - a.x) + (p.y - a.y) * (b.y - a.y)) / l2, 0.0, 1.0);
    best = std::min(best, std::hypot(p.x - a.x - t * (b.x - a.x), p.y - a.y - t * (b.y - a.y)));
  }
  return best;
}

bool on_any(ViewPoint p, const std::vector<ViewLine>& lines) {
  return std::ranges::any_of(lines, [&](const ViewLine& l) { return distance(p, l) < 0.005; });
}

constexpr int kRoom = 12;

void describe(const Camera& c) {
  RC_LOG() << c.name << " to eye " << c.to_eye.x << " " << c.to_eye.y << " " << c.to_eye.z << "\n";
}

rc::Gen<Camera> camera_somewhere() {
  return rc::gen::map(
      rc::gen::tuple(rc::gen::inRange(-80, 80), rc::gen::inRange(-60, 70), rc::gen::inRange(0, 6)),
      [](auto t) {
        const auto [turn, lift, kind] = t;
        switch (kind) {
          case 0:
            return front_view();
          case 1:
            return left_view();
          case 2:
            return top_view();
          case 3:
            return perspective_view(box(0, 0, 0, kRoom, kRoom, kRoom), turn, lift);
          default:
            return axonometric_view(turn, lift);
        }
      });
}

std::vector<std::pair<ViewPoint, Sight>> dense_edges(const std::vector<GridBox>& boxes,
                                                     const Camera& camera) {
  std::vector<std::pair<ViewPoint, Sight>> edges;
  for (const GridBox& b : boxes) {
    for (const Vector p : edge_points(b, 400)) {
      edges.emplace_back(project(camera, p), sight(camera, boxes, p));
    }
  }
  return edges;
}

RC_GTEST_PROP(HiddenLines, AgreeWithFollowingRays, ()) {
  auto some = *few_boxes(kRoom, 7);
  some.push_back(*grid_box(kRoom));
  const auto boxes = apart(some);
  const Camera camera = *camera_somewhere();
  describe(camera);
  std::vector<DrawnSolid> solids;
  for (const GridBox& b : boxes) {
    solids.push_back(drawn(static_cast<int>(solids.size()), {.wood = {to_box(b)}}));
  }
  const View view = view_of(solids, camera);
  for (const GridBox& b : boxes) {
    for (const Vector p : edge_points(b, 5)) {
      const Sight s = sight(camera, boxes, p);
      const ViewPoint q = project(camera, p);
      RC_ASSERT(s != Sight::kSeen || on_any(q, view.visible));
      RC_ASSERT(s != Sight::kHidden || on_any(q, view.visible) || on_any(q, view.hidden));
    }
  }
  // And the other way: every line is where some edge is, seen or hidden as it says.
  const auto edges = dense_edges(boxes, camera);
  for (const auto* lines : {&view.visible, &view.hidden}) {
    const Sight wrong = lines == &view.visible ? Sight::kHidden : Sight::kSeen;
    for (const ViewLine& line : *lines) {
      const ViewPoint q{line.points[0].x * 0.59 + line.points[1].x * 0.41,
                        line.points[0].y * 0.59 + line.points[1].y * 0.41};
      RC_ASSERT(std::ranges::any_of(edges, [&](const auto& e) {
        return e.second != wrong && std::hypot(e.first.x - q.x, e.first.y - q.y) < 0.05;
      }));
    }
  }
}

}  // namespace
}  // namespace plankwright::solid
