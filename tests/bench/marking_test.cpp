#include "bench/marking.h"

#include <algorithm>
#include <set>

#include <gmock/gmock.h>
#include <gtest/gtest.h>

#include "bench_fixture.h"
#include "piece/joint_layout.h"

namespace plankwright::bench {
namespace {

using piece::Feature;
using piece::FeatureKind;
using piece::Hand;
using piece::Part;
using piece::PartIndex;
using piece::Piece;
using ::testing::ElementsAre;

Part part_of(const std::string& name,
             const measure::Box& body,
             Axis length,
             Axis thickness,
             Hand hand = Hand::kNone) {
  Part part;
  part.name = name;
  part.body = body;
  part.length_axis = length;
  part.thickness_axis = thickness;
  part.hand = hand;
  part.finished = {body.size[length], body.size[part.width_axis()], body.size[thickness]};
  return part;
}

Feature cut(FeatureKind kind,
            Direction face,
            const measure::Box& place,
            Length depth,
            Length across,
            Length along,
            int count = 1) {
  Feature feature;
  feature.kind = kind;
  feature.face = face;
  feature.place = place;
  feature.depth = depth;
  feature.across = across;
  feature.along = along;
  feature.count = count;
  return feature;
}

/// Legs 80 mm square in the corners of a table, rails 27 mm thick and 100 mm high set back 6 mm,
/// with tenons 12 x 88 mm.
Piece four_legs() {
  Piece piece;
  for (const bool right : {false, true}) {
    for (const bool back : {false, true}) {
      const measure::Point at{right ? 1920_mm : 100_mm, back ? 800_mm : 70_mm, 0_mm};
      Part leg = part_of("leg", {at, {80_mm, 80_mm, 718_mm}}, Axis::kZ, Axis::kY);
      leg.code = "A1";
      const Length y = at.y + (back ? 47_mm : 6_mm);
      const Length x = at.x + (right ? 47_mm : 6_mm);
      leg.features = {cut(FeatureKind::kMortise,
                          {Axis::kX, right ? -1 : 1},
                          {{at.x + (right ? 0_mm : 40_mm), y, 618_mm}, {40_mm, 27_mm, 100_mm}},
                          40_mm,
                          12_mm,
                          88_mm),
                      cut(FeatureKind::kMortise,
                          {Axis::kY, back ? -1 : 1},
                          {{x, at.y + (back ? 0_mm : 40_mm), 618_mm}, {27_mm, 40_mm, 100_mm}},
                          40_mm,
                          12_mm,
                          88_mm)};
      piece.parts.push_back(leg);
    }
  }
  return piece;
}

// The tenon stands in the middle of the rail: 6 + (27 - 12) / 2 = 13.5 mm from the outer face and
// 618 + (100 - 88) / 2 = 624 mm from the floor, on all four legs (arithmetic).
TEST(Marking, GivesAllLegsOneSetOfFiguresAndTwoOfThemAsMirrorImages) {
  const Marking marking = mark_out(four_legs());
  ASSERT_EQ(marking.families.size(), 1U);
  const MarkedFamily& legs = marking.families[0];
  EXPECT_EQ(legs.parts.size(), 4U);
  EXPECT_EQ(legs.mirrored.size(), 2U);
  EXPECT_EQ(legs.end, "lower end");
  EXPECT_EQ(legs.edge, "left edge");
  EXPECT_EQ(legs.face, "front face");
  ASSERT_EQ(legs.marks.size(), 2U);
  for (const Mark& mark : legs.marks) {
    EXPECT_EQ(mark.what, "mortise");
    EXPECT_THAT(mark.from_end, ElementsAre(624_mm, 712_mm));
    EXPECT_THAT(mark.on == "back face" ? mark.from_edge : mark.from_face,
                ElementsAre(Length::from_mm(13.5), Length::from_mm(25.5)));
    EXPECT_EQ(mark.depth, 40_mm);
  }
  ASSERT_EQ(marking.settings.size(), 2U);  // on edges by the fence, on faces by their marks
  EXPECT_EQ(marking.settings[0].count + marking.settings[1].count, 8);
}

TEST(Marking, KeepsALegApartThatIsMarkedDifferently) {
  Piece piece = four_legs();
  piece.parts[3].features[0].place.at.z += 1_mm;
  const Marking marking = mark_out(piece);
  ASSERT_EQ(marking.families.size(), 2U);
  EXPECT_EQ(marking.families[0].parts.size(), 3U);
  EXPECT_EQ(marking.families[1].parts.size(), 1U);
}

TEST(Marking, MeasuresHousingsCumulativelyAndLeavesOutWhatRunsThrough) {
  Piece piece;
  for (const bool right : {false, true}) {
    Part side = part_of("side",
                        {{right ? 1000_mm : 0_mm, 0_mm, 100_mm}, {18_mm, 400_mm, 700_mm}},
                        Axis::kZ,
                        Axis::kX,
                        right ? Hand::kRight : Hand::kLeft);
    side.show_faces = {{Axis::kX, right ? 1 : -1}, {Axis::kY, -1}};
    for (const Length z : {300_mm, 550_mm}) {
      side.features.push_back(cut(FeatureKind::kHousing,
                                  {Axis::kX, right ? -1 : 1},
                                  {{right ? 1000_mm : 12_mm, 0_mm, z}, {6_mm, 400_mm, 18_mm}},
                                  6_mm,
                                  18_mm,
                                  400_mm));
    }
    piece.parts.push_back(side);
  }
  const Marking marking = mark_out(piece);
  ASSERT_EQ(marking.families.size(), 1U);
  EXPECT_THAT(marking.families[0].mirrored, ElementsAre(1U));
  EXPECT_EQ(marking.families[0].face, "left face");
  ASSERT_EQ(marking.families[0].marks.size(), 2U);
  EXPECT_THAT(marking.families[0].marks[0].from_end, ElementsAre(200_mm, 218_mm));
  EXPECT_THAT(marking.families[0].marks[1].from_end, ElementsAre(450_mm, 468_mm));
  EXPECT_TRUE(marking.families[0].marks[0].from_edge.empty());
  ASSERT_EQ(marking.settings.size(), 1U);
  EXPECT_EQ(marking.settings[0].wide, 18_mm);
  EXPECT_EQ(marking.settings[0].count, 4);
}

// Shoulders are measured on the part as it is cut, tenons included.
TEST(Marking, MeasuresShouldersFromTheEndOfTheTenon) {
  Piece piece;
  Part rail = part_of("rail", {{100_mm, 0_mm, 0_mm}, {500_mm, 20_mm, 80_mm}}, Axis::kX, Axis::kY);
  for (const int sign : {-1, 1}) {
    rail.features.push_back(cut(FeatureKind::kTenon,
                                {Axis::kX, sign},
                                {{sign < 0 ? 70_mm : 600_mm, 0_mm, 0_mm}, {30_mm, 20_mm, 80_mm}},
                                30_mm,
                                8_mm,
                                60_mm));
    piece.joints.push_back(
        testing::joint(piece::JointKind::kMortiseTenon, 0, sign < 0 ? 1 : 2, {Axis::kX, sign}));
    piece.joints.back().depth = 30_mm;
  }
  piece.parts = {
      rail,
      part_of("stile", {{20_mm, 0_mm, 0_mm}, {80_mm, 20_mm, 400_mm}}, Axis::kZ, Axis::kY),
      part_of("stile", {{600_mm, 0_mm, 0_mm}, {80_mm, 20_mm, 400_mm}}, Axis::kZ, Axis::kY)};
  const Marking marking = mark_out(piece);
  ASSERT_EQ(marking.families.size(), 1U);
  EXPECT_EQ(marking.families[0].length, 560_mm);
  std::set<std::vector<Length>> shoulders;
  for (const Mark& mark : marking.families[0].marks) {
    shoulders.insert(mark.from_end);
    EXPECT_THAT(mark.from_face, ElementsAre(6_mm, 14_mm));
    EXPECT_THAT(mark.from_edge, ElementsAre(10_mm, 70_mm));
  }
  EXPECT_EQ(shoulders, (std::set<std::vector<Length>>{{0_mm, 30_mm}, {530_mm, 560_mm}}));
}

// A rail meets a stile with two loose tenons: both halves in one setting, 10 mm from the face.
TEST(Marking, PutsMatesInOneSetting) {
  Piece piece;
  const measure::Box meets{{500_mm, 0_mm, 100_mm}, {0_mm, 20_mm, 80_mm}};
  Part rail = part_of("rail", {{0_mm, 0_mm, 100_mm}, {500_mm, 20_mm, 80_mm}}, Axis::kX, Axis::kY);
  Part stile = part_of("stile", {{500_mm, 0_mm, 0_mm}, {80_mm, 20_mm, 400_mm}}, Axis::kZ, Axis::kY);
  rail.code = "A1";
  stile.code = "A2";
  rail.features = {cut(FeatureKind::kLooseMortise, {Axis::kX, 1}, meets, 25_mm, 8_mm, 30_mm, 2)};
  stile.features = {cut(FeatureKind::kLooseMortise, {Axis::kX, -1}, meets, 25_mm, 8_mm, 30_mm, 2)};
  piece.parts = {rail, stile};
  piece.joints = {testing::joint(piece::JointKind::kLooseTenon, 0, 1, {Axis::kX, 1})};
  piece.joints[0].contact = meets;
  const Marking marking = mark_out(piece);
  ASSERT_EQ(marking.settings.size(), 1U);
  EXPECT_EQ(marking.settings[0].from_face, 10_mm);
  EXPECT_EQ(marking.settings[0].count, 4);  // a mortise each side of each tenon
  EXPECT_TRUE(marking.settings[0].mates);
  EXPECT_THAT(marking.settings[0].codes, ElementsAre("A1", "A2"));
  // 80 mm for two: 20 and 60 mm along the joint, so 120 and 160 mm up the stile.
  EXPECT_THAT(marking.families[0].marks[0].from_edge, ElementsAre(20_mm, 60_mm));
  EXPECT_THAT(marking.families[1].marks[0].from_end, ElementsAre(120_mm, 160_mm));
}

// Half-pins no narrower than 6 mm, tails in 1 to 8 (JN9; common practice); pins and tails add up to
// the height, on the board with the tails and on the one with the sockets alike.
TEST(Marking, LaysTailsAndTheirSocketsAlike) {
  const testing::Worked cabinet = testing::work("hall_cabinet.yaml");
  int corners = 0;
  for (const MarkedFamily& family : cabinet.bench.marking.families) {
    for (const Mark& mark : family.marks) {
      if (mark.slope == 0) {
        continue;
      }
      ++corners;
      EXPECT_EQ(mark.slope, 8);
      ASSERT_EQ(mark.from_edge.size(), 2U * static_cast<std::size_t>(mark.count));
      EXPECT_GE(mark.from_edge.front(), 6_mm);
      EXPECT_GE(family.width - mark.from_edge.back(), 6_mm);
      EXPECT_NEAR((mark.from_edge.front() - (family.width - mark.from_edge.back())).mm(), 0, 1e-4);
      EXPECT_TRUE(std::ranges::is_sorted(mark.from_edge));
    }
  }
  EXPECT_GT(corners, 0);
}

class Marked : public ::testing::TestWithParam<const char*> {};

TEST_P(Marked, StandsOnItsPartAndInOneFamily) {
  const testing::Worked worked = testing::work(GetParam());
  std::multiset<PartIndex> listed;
  for (const MarkedFamily& family : worked.bench.marking.families) {
    listed.insert(family.parts.begin(), family.parts.end());
    EXPECT_FALSE(family.marks.empty());
    for (const Mark& mark : family.marks) {
      SCOPED_TRACE(worked.piece.parts[family.parts.front()].path + " " + mark.what);
      for (const auto& [list, most] : {std::pair{&mark.from_end, family.length},
                                       {&mark.from_edge, family.width},
                                       {&mark.from_face, family.thickness}}) {
        EXPECT_TRUE(std::ranges::is_sorted(*list));
        EXPECT_TRUE(list->empty() || list->front() >= Length{});
        EXPECT_TRUE(list->empty() || list->back() <= most);
      }
      EXPECT_FALSE(mark.from_end.empty() && mark.from_edge.empty() && mark.from_face.empty() &&
                   mark.depth <= Length{});
    }
  }
  EXPECT_EQ(listed.size(), std::set<PartIndex>(listed.begin(), listed.end()).size());
  EXPECT_FALSE(worked.bench.marking.settings.empty());
}

INSTANTIATE_TEST_SUITE_P(Examples,
                         Marked,
                         ::testing::Values("hall_cabinet.yaml",
                                           "dining_table.yaml",
                                           "study_wall.yaml"));

TEST(Marking, OfAnEmptyPieceIsEmpty) {
  EXPECT_TRUE(mark_out(Piece{}).families.empty());
}

}  // namespace
}  // namespace plankwright::bench
