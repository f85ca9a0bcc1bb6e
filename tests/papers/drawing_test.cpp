#include "papers/drawing.h"

#include <cmath>

#include <fmt/format.h>
#include <gmock/gmock.h>
#include <gtest/gtest.h>
#include <rapidcheck/gtest.h>

#include "papers/hatch.h"
#include "papers/page_output.h"
#include "papers/paper_tools.h"
#include "solid/hidden_lines.h"

namespace plankwright::papers {
namespace {

using measure::LengthUnit;

solid::ViewBox view_box(double x, double y, double width, double height) {
  return {.low = {x, y}, .high = {x + width, y + height}};
}

struct ScaleCase {
  double width, height;
  LengthUnit unit;
  const char* name;
};

TEST(DrawingScale, IsTheLargestThatFits) {
  // In a room of 170 x 240 mm.
  const ScaleCase cases[] = {
      {170, 240, LengthUnit::kMillimetre, "1:1"},
      {171, 10, LengthUnit::kMillimetre, "1:2"},
      {850, 100, LengthUnit::kMillimetre, "1:5"},
      {100, 2400, LengthUnit::kMillimetre, "1:10"},
      {1701, 900, LengthUnit::kMillimetre, "1:15"},  // 170.1 wide at 1:10
      {2551, 900, LengthUnit::kMillimetre, "1:20"},  // 170.07 wide at 1:15
      {17001, 900, LengthUnit::kMillimetre, "not to scale"},
      {6 * 25.4, 9 * 25.4, LengthUnit::kInch, "full size"},
      {50 * 25.4, 34 * 25.4, LengthUnit::kInch, "1 1/2\" = 1'"},  // 6.25 in of 6.69 in wide
      {60 * 25.4, 34 * 25.4, LengthUnit::kInch, "1\" = 1'"},
      {24 * 25.4, 30 * 25.4, LengthUnit::kInch, "3\" = 1'"},
  };
  for (const ScaleCase& c : cases) {
    const DrawingScale scale = fitting_scale(c.width, c.height, {0, 0, 170, 240}, c.unit);
    EXPECT_EQ(scale.name, c.name) << c.width << " x " << c.height;
    EXPECT_LE(scale.factor * c.width, 170 + 1e-9);
    EXPECT_LE(scale.factor * c.height, 240 + 1e-9);
  }
}

TEST(DrawingScale, NamesSayWhatTheFactorIs) {
  for (const DrawingScale& s : drawing_scales(LengthUnit::kMillimetre)) {
    EXPECT_NEAR(1 / s.factor, std::stod(s.name.substr(2)), 1e-9) << s.name;
  }
  // Three inches on paper for a foot is a quarter of full size.
  for (const DrawingScale& s : drawing_scales(LengthUnit::kInch)) {
    if (s.name == "3\" = 1'") {
      EXPECT_DOUBLE_EQ(s.factor, 0.25);
    }
    if (s.name == "3/4\" = 1'") {
      EXPECT_DOUBLE_EQ(s.factor, 1.0 / 16);
    }
  }
}

double length(const std::vector<std::pair<PagePoint, PagePoint>>& lines) {
  double sum = 0;
  for (const auto& [a, b] : lines) {
    sum += std::hypot(b.x - a.x, b.y - a.y);
  }
  return sum;
}

RC_GTEST_PROP(Hatch, LinesTimesPitchIsTheArea, ()) {
  // A rectangle with a hole, at any angle: lines one pitch apart cover their share of the area.
  const double angle = *rc::gen::inRange(0, 180);
  const double pitch = 0.1 + 0.01 * *rc::gen::inRange(0, 20);
  const std::vector<std::vector<PagePoint>> loops{{{10, 10}, {70, 10}, {70, 50}, {10, 50}},
                                                  {{30, 20}, {50, 20}, {50, 40}, {30, 40}}};
  const double area = 60.0 * 40 - 20 * 20;
  // A line more or less at each of the edges.
  RC_ASSERT(std::abs(length(hatch_lines(loops, angle, pitch)) * pitch - area) < 4 * 80 * pitch);
}

TEST(Hatch, RunsAtItsAngle) {
  for (const auto& [a, b] : hatch_lines({{{0, 0}, {20, 0}, {20, 10}, {0, 10}}}, 30, 2)) {
    EXPECT_NEAR((a.y - b.y) / (b.x - a.x), std::tan(std::acos(-1.0) / 6), 1e-9);
  }
}

constexpr PageSize kSheet{297, 210};

// A board of 1200 x 600 drawn 1:10 in the middle of a sheet.
struct Board {
  Page page{kSheet};
  Placement placement = centred(view_box(0, 0, 1200, 600), 0.1, page.area());
  void draw(Drawing& drawing) const {
    drawing.polygon({{0, 0}, {1200, 0}, {1200, 600}, {0, 600}}, std::nullopt);
  }
};

std::vector<TextMark> figures(const Page& page) {
  return texts_of(page);
}

TEST(Drawing, DimensionStandsOutsideAndIsReadFromBelowOrTheRight) {
  Board board;
  {
    Drawing drawing{board.page, board.page.area(), board.placement};
    board.draw(drawing);
    drawing.overall(Side::kBelow, "1200");
    drawing.overall(Side::kLeft, "600");
  }
  const auto texts = figures(board.page);
  ASSERT_EQ(texts.size(), 2U);
  EXPECT_EQ(texts[0].place.turn, 0);
  EXPECT_EQ(texts[1].place.turn, 90);
  const PagePoint low = board.placement.at({0, 0});
  EXPECT_GT(text_box(texts[0]).y, low.y);
  EXPECT_NEAR(text_box(texts[0]).centre().x, board.placement.at({600, 0}).x, 1e-6);
  EXPECT_LT(text_box(texts[1]).right(), low.x);
  EXPECT_NEAR(text_box(texts[1]).centre().y, board.placement.at({0, 300}).y, 1e-6);
}

TEST(Drawing, NeighboursShareARowAndTheWholeStandsOutsideThem) {
  Board board;
  {
    Drawing drawing{board.page, board.page.area(), board.placement};
    board.draw(drawing);
    drawing.dimensions({{{0, 0}, {1200, 0}, Side::kBelow, "1200"},
                        {{0, 0}, {500, 0}, Side::kBelow, "500"},
                        {{500, 0}, {1200, 0}, Side::kBelow, "700"}});
  }
  const auto texts = figures(board.page);
  ASSERT_EQ(texts.size(), 3U);
  EXPECT_EQ(texts[0].text, "500");
  EXPECT_DOUBLE_EQ(texts[0].at.y, texts[1].at.y);
  EXPECT_GT(texts[2].at.y, texts[0].at.y + 2.5);
}

TEST(Drawing, AFigureWithoutRoomGoesOutPastTheNearerEnd) {
  Board board;
  {
    Drawing drawing{board.page, board.page.area(), board.placement};
    board.draw(drawing);
    drawing.dimensions({{{0, 0}, {19, 0}, Side::kBelow, "19"},
                        {{1181, 0}, {1200, 0}, Side::kBelow, "19"},
                        {{19, 0}, {1181, 0}, Side::kBelow, "1162"}});
  }
  const auto texts = figures(board.page);
  ASSERT_EQ(texts.size(), 3U);
  // The two short ones are set first, in either order.
  const auto [left, right] = std::minmax({text_box(texts[0]), text_box(texts[1])},
                                         [](const auto& a, const auto& b) { return a.x < b.x; });
  EXPECT_LT(left.right(), board.placement.at({0, 0}).x);
  EXPECT_GT(right.x, board.placement.at({1200, 0}).x);
  EXPECT_DOUBLE_EQ(texts[0].at.y, texts[2].at.y);
}

RC_GTEST_PROP(Drawing, DimensionFiguresNeverLieOverEachOther, ()) {
  Board board;
  {
    Drawing drawing{board.page, board.page.area(), board.placement};
    board.draw(drawing);
    std::vector<Dimension> wanted;
    const int count = *rc::gen::inRange(1, 12);
    for (int i = 0; i < count; ++i) {
      const int side = *rc::gen::inRange(0, 4);
      const int from = *rc::gen::inRange(0, 550);
      const int to = from + *rc::gen::inRange(5, 600 - from + 1);
      const bool level = side < 2;
      const double across = side == 0 ? 600 : side == 3 ? 1200 : 0;
      const auto place = [&](double t) {
        return level ? ViewPoint{2 * t, across} : ViewPoint{across, t};
      };
      wanted.push_back(
          {place(from), place(to), static_cast<Side>(side), std::to_string(to - from)});
    }
    drawing.dimensions(wanted);
  }
  const auto boxes = text_boxes(board.page);
  for (std::size_t i = 0; i < boxes.size(); ++i) {
    for (std::size_t j = 0; j < i; ++j) {
      RC_ASSERT(!boxes[i].overlaps(boxes[j]));
    }
  }
}

RC_GTEST_PROP(Drawing, RunningFiguresKeepTheirOrderAndTheirDistance, ()) {
  Board board;
  const auto places =
      *rc::gen::nonEmpty(rc::gen::container<std::vector<int>>(rc::gen::inRange(1, 600)));
  {
    Drawing drawing{board.page, board.page.area(), board.placement};
    board.draw(drawing);
    std::vector<RunningPlace> wanted;
    for (const int p : places) {
      wanted.push_back({{0, static_cast<double>(p)}, std::to_string(p)});
    }
    drawing.running_dimensions(Side::kLeft, {0, 0}, wanted);
  }
  const auto texts = figures(board.page);
  RC_ASSERT(texts.size() == places.size());
  for (std::size_t i = 1; i < texts.size(); ++i) {
    // Up the page, so from the largest to the smallest.
    RC_ASSERT(std::stoi(texts[i].text) <= std::stoi(texts[i - 1].text));
    RC_ASSERT(texts[i].at.y - texts[i - 1].at.y > texts[i].style.letter_height);
  }
}

RC_GTEST_PROP(Drawing, LabelsKeepClearOfEachOtherAndInTheFrame, ()) {
  Board board;
  const Rectangle frame = board.page.area().inset(10);
  Drawing drawing{board.page, frame, board.placement};
  board.draw(drawing);
  const int count = *rc::gen::inRange(1, 14);
  bool all_free = true;
  for (int i = 0; i < count; ++i) {
    const ViewPoint at{static_cast<double>(*rc::gen::inRange(0, 1200)),
                       static_cast<double>(*rc::gen::inRange(0, 600))};
    const std::string text = fmt::format("A{}", i);
    switch (*rc::gen::inRange(0, 3)) {
      case 0:
        all_free = drawing.label(at, text + " rail") && all_free;
        break;
      case 1:
        all_free = drawing.note(at, "note on " + text) && all_free;
        break;
      default:
        all_free = drawing.balloon(at, text) && all_free;
    }
  }
  RC_ASSERT(all_free);  // fourteen have room enough
  const auto boxes = text_boxes(board.page);
  RC_ASSERT(boxes.size() == static_cast<std::size_t>(count));
  for (std::size_t i = 0; i < boxes.size(); ++i) {
    RC_ASSERT(frame.contains(boxes[i]));
    for (std::size_t j = 0; j < i; ++j) {
      RC_ASSERT(!boxes[i].overlaps(boxes[j]));
    }
  }
}

TEST(Drawing, SaysWhenThereIsNoRoomForALabel) {
  Page page{{30, 30}};
  Drawing drawing{page, page.area().inset(5), Placement{1, {15, 15}}};
  bool free = true;
  for (int i = 0; i < 30; ++i) {
    free = drawing.label({0, 0}, "rail 17") && free;
  }
  EXPECT_FALSE(free);
}

TEST(Drawing, ViewAndPaintLandWhereThePlacementSays) {
  auto body = solid::Solid::make({.wood = {measure::Box{{},
                                                        {measure::Length::from_mm(600),
                                                         measure::Length::from_mm(100),
                                                         measure::Length::from_mm(200)}}}});
  ASSERT_TRUE(body.ok());
  const std::vector<solid::DrawnSolid> solids{
      {.id = 5, .solid = body.value(), .grain = measure::Axis::kX}};
  const auto views = solid::hidden_line_views(solids, {{solid::front_view()}});
  const auto faces = solid::painted_view(solids, solid::front_view(), measure::Length::from_mm(20));
  ASSERT_TRUE(views.ok() && faces.ok());
  Page page{{100, 100}};
  int asked = 0;
  Drawing drawing{page, page.area(), Placement{0.1, {20, 80}}};
  drawing.painted(faces.value(), [&](int solid) {
    asked += solid;
    return Colour{0.6, 0.4, 0.2};
  });
  drawing.view(views.value().front());
  EXPECT_EQ(asked, 5);
  EXPECT_NEAR(drawing.drawn().x, 20, 1e-9);
  EXPECT_NEAR(drawing.drawn().y, 60, 1e-9);
  EXPECT_NEAR(drawing.drawn().width, 60, 1e-9);
  EXPECT_NEAR(drawing.drawn().height, 20, 1e-9);
}

}  // namespace
}  // namespace plankwright::papers
