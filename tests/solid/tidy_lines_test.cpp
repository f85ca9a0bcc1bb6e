#include "solid/tidy_lines.h"

#include <cmath>

#include <gtest/gtest.h>
#include <rapidcheck/gtest.h>

namespace plankwright::solid {
namespace {

View with(std::vector<ViewLine> visible, std::vector<ViewLine> hidden = {}) {
  return tidied({.name = "front", .visible = std::move(visible), .hidden = std::move(hidden)});
}

TEST(TidyLines, LinesOfOneSolidRunOnAndThoseOfTwoStayApart) {
  const View one = with({{1, {{0, 0}, {10, 0}}}, {1, {{20, 0}, {10, 0}}}, {1, {{30, 0}, {40, 0}}}});
  EXPECT_EQ(one.visible, (std::vector<ViewLine>{{1, {{0, 0}, {20, 0}}}, {1, {{30, 0}, {40, 0}}}}));
  const View two = with({{2, {{0, 0}, {10, 0}}}, {1, {{10, 0}, {20, 0}}}});
  EXPECT_EQ(two.visible, (std::vector<ViewLine>{{2, {{0, 0}, {10, 0}}}, {1, {{10, 0}, {20, 0}}}}));
}

TEST(TidyLines, SeenCoversHiddenAndEarlierCoversLater) {
  const View view = with({{1, {{10, 5}, {20, 5}}}, {2, {{15, 5}, {30, 5}}}},
                         {{3, {{0, 5}, {40, 5}}}, {4, {{35, 5}, {45, 5}}}});
  EXPECT_EQ(view.visible,
            (std::vector<ViewLine>{{1, {{10, 5}, {20, 5}}}, {2, {{20, 5}, {30, 5}}}}));
  EXPECT_EQ(view.hidden,
            (std::vector<ViewLine>{
                {3, {{0, 5}, {10, 5}}}, {3, {{30, 5}, {40, 5}}}, {4, {{40, 5}, {45, 5}}}}));
}

TEST(TidyLines, ParallelLinesNearEachOtherAreTwo) {
  EXPECT_EQ(with({{1, {{0, 0}, {10, 0}}}, {1, {{0, 0.01}, {10, 0.01}}}}).visible.size(), 2U);
}

TEST(TidyLines, AHiddenCurveUnderASeenOneIsNotDrawn) {
  ViewLine arc{1, {}};
  ViewLine other{2, {}};
  for (int i = 0; i <= 20; ++i) {
    arc.points.push_back({100 * std::cos(i * 0.05), 100 * std::sin(i * 0.05)});
    other.points.push_back({100 * std::cos(0.3 + i * 0.05), 100 * std::sin(0.3 + i * 0.05)});
  }
  const View view = with({arc}, {other});
  EXPECT_EQ(view.visible.size(), 1U);
  ASSERT_EQ(view.hidden.size(), 1U);  // only what goes on past the end of the seen one
  EXPECT_NEAR(
      std::atan2(view.hidden[0].points.front().y, view.hidden[0].points.front().x), 1.0, 0.06);
}

struct Stretch {
  int from = 0, to = 0, solid = 0;
  bool hidden = false;
};

// On one line of whole steps: each step is drawn by the class and solid that come first.
RC_GTEST_PROP(TidyLines, DrawEachStepOnceByTheFirstThatHasIt, ()) {
  const auto stretches = *rc::gen::container<std::vector<Stretch>>(
      rc::gen::map(rc::gen::tuple(rc::gen::inRange(0, 20),
                                  rc::gen::inRange(1, 8),
                                  rc::gen::inRange(0, 3),
                                  rc::gen::arbitrary<bool>()),
                   [](auto t) {
                     const auto [from, length, solid, hidden] = t;
                     return Stretch{from, from + length, solid, hidden};
                   }));
  // A slanting line, and for the order of solids one far-off line each.
  const auto place = [](double step) { return ViewPoint{3 * step, 4 * step}; };
  View view;
  for (int solid = 0; solid < 3; ++solid) {
    view.visible.push_back({solid, {{1000.0 + solid, 0}, {1000.0 + solid, 1}}});
  }
  for (const Stretch& s : stretches) {
    (s.hidden ? view.hidden : view.visible).push_back({s.solid, {place(s.from), place(s.to)}});
  }
  const View tidy = tidied(view);
  for (int step = 0; step < 28; ++step) {
    std::optional<std::pair<bool, int>> expected;
    for (const Stretch& s : stretches) {
      const std::pair turn{s.hidden, s.solid};
      if (s.from <= step && step < s.to && (!expected || turn < *expected)) {
        expected = turn;
      }
    }
    std::vector<std::pair<bool, int>> drawn;
    for (const auto* lines : {&tidy.visible, &tidy.hidden}) {
      for (const ViewLine& l : *lines) {
        const double x = 3 * (step + 0.5);
        if (l.points[0].x < x && x < l.points[1].x && l.points[0].x < 999) {
          drawn.emplace_back(lines == &tidy.hidden, l.solid);
        }
      }
    }
    RC_ASSERT(drawn == (expected ? std::vector{*expected} : std::vector<std::pair<bool, int>>{}));
  }
}

}  // namespace
}  // namespace plankwright::solid
