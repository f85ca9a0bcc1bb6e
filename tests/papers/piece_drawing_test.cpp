#include "papers/piece_drawing.h"

#include <set>

#include <gtest/gtest.h>

#include "papers/key_sizes.h"
#include "papers/part_body.h"
#include "planned_example.h"

namespace plankwright::papers {
namespace {

using measure::Axis;

std::vector<double> inches(const std::vector<Span>& spans) {
  std::vector<double> sizes;
  for (const Span& span : spans) {
    sizes.push_back((span.to - span.from).inches());
  }
  return sizes;
}

std::vector<double> millimetres(const std::vector<Span>& spans) {
  std::vector<double> sizes;
  for (const Span& span : spans) {
    sizes.push_back((span.to - span.from).mm());
  }
  return sizes;
}

// The chains of sizes that the three pieces were designed with.
TEST(KeySizes, AreTheChainsOfTheHallCabinet) {
  const piece::Piece& piece = example_plan("hall_cabinet").piece;
  EXPECT_EQ(inches(unit_heights(piece)), (std::vector{6.0, 27.125, 0.875}));
  EXPECT_EQ(inches(widths_across(piece)), (std::vector{14.625, 16.25, 14.625}));
  // From below; each an opening less an eighth.
  EXPECT_EQ(inches(drawer_fronts(piece)), (std::vector{7.125, 6.125, 5.25, 4.375}));
}

TEST(KeySizes, AreTheChainsOfTheDiningTable) {
  const piece::Piece& piece = example_plan("dining_table").piece;
  EXPECT_EQ(millimetres(unit_heights(piece)), (std::vector{718.0, 32.0}));
  EXPECT_EQ(millimetres(widths_across(piece)), (std::vector{1740.0}));
  EXPECT_EQ(millimetres(clear_height(piece)), (std::vector{618.0}));
  EXPECT_EQ(millimetres(unit_depths(piece)), (std::vector{810.0}));
  EXPECT_TRUE(drawer_fronts(piece).empty());
}

TEST(KeySizes, AreTheChainsOfTheStudyWall) {
  const piece::Piece& piece = example_plan("study_wall").piece;
  EXPECT_EQ(millimetres(unit_heights(piece)), (std::vector{90.0, 720.0, 36.0, 1560.0, 74.0}));
  EXPECT_EQ(millimetres(widths_across(piece)), (std::vector{30.0, 860.0, 860.0, 860.0, 30.0}));
  EXPECT_EQ(millimetres(unit_depths(piece)), (std::vector{400.0, 300.0}));
}

TEST(KeySizes, UnitsAreTheFirstWordsOfPaths) {
  EXPECT_EQ(unit_of("case.left.door.panel"), "case");
  EXPECT_EQ(unit_of("case.left.door.panel", 2), "case.left");
  EXPECT_EQ(unit_of("case"), "case");
  EXPECT_EQ(unit_of("case.left", 5), "case.left");
}

class ExampleDrawings : public testing::TestWithParam<const char*> {
 protected:
  const plan::Plan& plan() const { return example_plan(GetParam()); }
};

INSTANTIATE_TEST_SUITE_P(All,
                         ExampleDrawings,
                         testing::ValuesIn(kExamples),
                         [](const auto& example) { return std::string{example.param}; });

TEST_P(ExampleDrawings, ShowEveryPartAtItsOverallSize) {
  const auto made = picture_of(plan());
  ASSERT_TRUE(made.ok()) << made.error().message;
  const PiecePicture& picture = made.value();
  const std::size_t pulls = pulls_of(plan().piece, plan().shop).size();
  EXPECT_EQ(picture.solids.size(), plan().piece.parts.size() + pulls);
  const measure::Point size = plan().piece.overall.size;
  // Pulls stand out in front, never to the side or above.
  EXPECT_NEAR(picture.front.bounds.width(), size.x.mm(), 0.01);
  EXPECT_NEAR(picture.front.bounds.height(), size.z.mm(), 0.01);
  EXPECT_NEAR(picture.side.bounds.height(), size.z.mm(), 0.01);
  EXPECT_NEAR(picture.top.bounds.width(), size.x.mm(), 0.01);
  EXPECT_GE(picture.side.bounds.width(), size.y.mm() - 0.01);
}

TEST_P(ExampleDrawings, PaintOnlySolidsThatAreThereAndDrawGrainOnWood) {
  const auto made = picture_of(plan());
  ASSERT_TRUE(made.ok());
  std::set<int> painted;
  std::size_t strokes = 0;
  for (const solid::PaintedFace& face : made.value().painted) {
    painted.insert(face.solid);
    strokes += face.grain.size();
  }
  ASSERT_FALSE(painted.empty());
  EXPECT_GE(*painted.begin(), 0);
  EXPECT_LT(static_cast<std::size_t>(*painted.rbegin()), made.value().part_of.size());
  EXPECT_GT(strokes, 100U);
}

/// No part is drawn that no other part touches: nothing hangs in the air.
TEST_P(ExampleDrawings, NothingFloats) {
  const auto& parts = plan().piece.parts;
  for (const piece::Part& part : parts) {
    bool touches = false;
    for (const piece::Part& other : parts) {
      const measure::Point shared = measure::intersection(part.body, other.body).size;
      const bool near = shared.x >= measure::Length{} && shared.y >= measure::Length{} &&
                        shared.z >= measure::Length{};
      touches = touches || (&part != &other && near);
    }
    // What slides or stands on pins is a little off what carries it.
    const bool carried = part.kit == "drawer_bank" || part.kit == "shelves" ||
                         part.kit == "panel_door" || part.kit == "slab_door";
    EXPECT_TRUE(touches || carried) << part.path;
  }
}

TEST(WoodColour, TellsWoodsApart) {
  piece::Part cherry;
  cherry.species = "cherry_black";
  piece::Part maple;
  maple.species = "maple_sugar";
  piece::Part plain;
  plain.material = piece::Material::kSheet;
  EXPECT_FALSE(wood_colour(cherry) == wood_colour(maple));
  EXPECT_FALSE(wood_colour(plain) == wood_colour(maple));
  EXPECT_GT(wood_colour(cherry).red, wood_colour(cherry).blue);
}

}  // namespace
}  // namespace plankwright::papers
