#include <fmt/format.h>
#include <gmock/gmock.h>
#include <gtest/gtest.h>
#include <rapidcheck/gtest.h>

#include "piece/kits/door_leaf.h"
#include "piece/kits/test_shop.h"

namespace plankwright::piece::test {
namespace {

using namespace measure;  // NOLINT(google-build-using-namespace): length literals
using ::testing::ElementsAre;
using ::testing::IsEmpty;

const std::string kFrame =
    "stock: cherry_4_4, thickness: 3/4, stile: 2 1/4, rail: 2 1/4, tongue: 1/2, hinge: "
    "butt_hinge_2_1_2";
const std::string kSolidPanel =
    ", panel_thickness: 1/2, panel_play: 1/8, panel_end_play: 1/16, reveal: 3/32";

/// One bay of a hall cabinet: 14 5/8 wide and 25 5/8 high.
BuiltPiece hall_bay(const std::string& door) {
  return build_kit("16 1/8",
                   "16 1/2",
                   "27 1/8",
                   "carcase: {stock: cherry_4_4, thickness: 3/4, joint: housed, top: panel, "
                   "panel_door: {" +
                       door + "}}",
                   LengthUnit::kInch);
}

int features(const Part& part, FeatureKind kind) {
  return static_cast<int>(
      std::ranges::count_if(part.features, [&](const Feature& f) { return f.kind == kind; }));
}

// Sizes worked out by hand: 25 5/8 - 2 x 3/32; 14 7/16 - 2 x 2 1/4 + 2 x 1/2; the panel is the
// inside with its grooves less the play at each side.
TEST(PanelDoor, GivesThePartsOfTheHallCabinet) {
  const BuiltPiece built =
      hall_bay(kFrame + kSolidPanel + ", hinges: 2, pull: knob_turned, catch: catch_touch");
  expect_sound(built);
  expect_parts(built.piece,
               {{"unit.door.stile_left", {25.4375_in, 2.25_in, 0.75_in}},
                {"unit.door.stile_right", {25.4375_in, 2.25_in, 0.75_in}},
                {"unit.door.rail_top", {10.9375_in, 2.25_in, 0.75_in}},
                {"unit.door.rail_bottom", {10.9375_in, 2.25_in, 0.75_in}},
                {"unit.door.panel", {21.8125_in, 10.6875_in, 0.5_in}}});
  EXPECT_EQ(part_at(built.piece, "unit.door.stile_left").hand, Hand::kLeft);
  EXPECT_EQ(part_at(built.piece, "unit.door.stile_right").hand, Hand::kRight);
  EXPECT_TRUE(part_at(built.piece, "unit.door.panel").moves_free);
  EXPECT_EQ(count_fittings(built.piece, "butt_hinge_2_1_2"), 2);
  EXPECT_EQ(count_fittings(built.piece, "knob_turned"), 1);
  EXPECT_EQ(count_fittings(built.piece, "catch_touch"), 1);
  ASSERT_EQ(built.piece.doors.size(), 1U);
  const Door& door = built.piece.doors.front();
  EXPECT_EQ(door.path, "unit.door");
  EXPECT_TRUE(door.hinged_left);
  EXPECT_EQ(door.parts.size(), 5U);
  EXPECT_EQ(door.leaf.size, (Point{14.4375_in, 0.75_in, 25.4375_in}));
}

TEST(PanelDoor, LeavesThePanelFree) {
  const BuiltPiece built = hall_bay(kFrame + kSolidPanel);
  int grooves = 0;
  for (const Joint& joint : built.piece.joints) {
    if (joint.kind == JointKind::kGroove) {
      ++grooves;
      EXPECT_FALSE(joint.glued);
      EXPECT_EQ(joint.play, joint.home.axis == Axis::kX ? 0.125_in : 0.0625_in);
      EXPECT_EQ(joint.depth + joint.play, 0.5_in);
    }
  }
  EXPECT_EQ(grooves, 4);
}

// A butt hinge of 2 1/2 stands its own length from the end: middles 3 3/4 from both ends.
TEST(PanelDoor, LetsButtHingesIntoDoorAndCase) {
  for (const bool left : {true, false}) {
    const BuiltPiece built = hall_bay(kFrame + kSolidPanel + (left ? "" : ", hinged: right"));
    const Part& stile =
        part_at(built.piece, left ? "unit.door.stile_left" : "unit.door.stile_right");
    const Part& side = part_at(built.piece, left ? "unit.side_left" : "unit.side_right");
    const Part& other =
        part_at(built.piece, left ? "unit.door.stile_right" : "unit.door.stile_left");
    EXPECT_EQ(features(stile, FeatureKind::kHingeMortise), 2);
    EXPECT_EQ(features(side, FeatureKind::kHingeMortise), 2);
    EXPECT_EQ(features(other, FeatureKind::kHingeMortise), 0);
    const auto mortise = std::ranges::find_if(
        stile.features, [](const Feature& f) { return f.kind == FeatureKind::kHingeMortise; });
    ASSERT_NE(mortise, stile.features.end());
    EXPECT_EQ(mortise->place.centre().z, stile.body.at.z + 3.75_in);
    EXPECT_EQ(mortise->face, (Direction{Axis::kX, left ? -1 : 1}));
    EXPECT_EQ(mortise->depth, 0.09375_in);
    // In the edge of the door, not beside it.
    const Box shared = intersection(mortise->place, stile.body);
    EXPECT_EQ(shared, mortise->place);
    EXPECT_EQ(built.piece.doors.front().hinged_left, left);
  }
}

// Common practice, no source.
TEST(PanelDoor, HangsHighDoorsOnMoreHinges) {
  EXPECT_EQ(usual_hinges(1000_mm), 2);
  EXPECT_EQ(usual_hinges(1000.1_mm), 3);
  EXPECT_EQ(usual_hinges(1600_mm), 3);
  EXPECT_EQ(usual_hinges(2000_mm), 4);
}

TEST(PanelDoor, ComesInPairs) {
  const BuiltPiece built = hall_bay(kFrame + kSolidPanel + ", leaves: 2, gap: 1/8");
  expect_sound(built);
  // (14 5/8 - 2 x 3/32 - 1/8) / 2
  ASSERT_EQ(built.piece.doors.size(), 2U);
  EXPECT_EQ(built.piece.doors[0].leaf.size.x, 7.15625_in);
  EXPECT_EQ(built.piece.doors[1].leaf.size.x, 7.15625_in);
  EXPECT_EQ(built.piece.doors[1].leaf.at.x - built.piece.doors[0].leaf.end(Axis::kX), 0.125_in);
  EXPECT_TRUE(built.piece.doors[0].hinged_left);
  EXPECT_FALSE(built.piece.doors[1].hinged_left);
  EXPECT_EQ(built.piece.doors[1].path, "unit.door_right");
}

// Half of a side of 3/4 on each side, less the reveal: 14 5/8 + 2 x (3/8 - 3/32).
TEST(PanelDoor, CoversHalfOfWhatBoundsIt) {
  const BuiltPiece built = hall_bay(kFrame + kSolidPanel + ", fit: overlay");
  expect_sound(built);
  EXPECT_EQ(built.piece.doors.front().leaf.size.x, 15.1875_in);
  EXPECT_LT(built.piece.doors.front().leaf.end(Axis::kY), 0_in);
  const BuiltPiece written = hall_bay(kFrame + kSolidPanel + ", fit: overlay, overlay: 1/2");
  EXPECT_EQ(written.piece.doors.front().leaf.size.x, 15.625_in);
}

// Inside 25 7/16 - 2 1/4 - 3 = 20 3/16; two panels with a rail of 2 between them: 9 3/32 each, and
// 2 x 7/16 in the grooves.
TEST(PanelDoor, HasMidRails) {
  const BuiltPiece built =
      hall_bay(kFrame + kSolidPanel + ", bottom_rail: 3, mid_rails: 1, mid_rail: 2");
  expect_sound(built);
  expect_parts(built.piece,
               {{"unit.door.rail_bottom", {10.9375_in, 3_in, 0.75_in}},
                {"unit.door.mid_rail", {10.9375_in, 2_in, 0.75_in}},
                {"unit.door.panel", {9.09375_in + 0.875_in, 10.6875_in, 0.5_in}},
                {"unit.door.panel_2", {9.09375_in + 0.875_in, 10.6875_in, 0.5_in}}});
}

TEST(PanelDoor, TakesASheetPanelWithoutPlay) {
  const BuiltPiece built = hall_bay(kFrame + ", reveal: 3/32, panel_stock: cherry_ply_1_4");
  expect_sound(built);
  expect_parts(built.piece, {{"unit.door.panel", {21.9375_in, 10.9375_in, 0.25_in}}});
}

struct JointCase {
  std::string_view joint;
  JointKind kind;
  Length rail;
};

TEST(PanelDoor, JoinsItsFrameInThreeWays) {
  const JointCase cases[] = {
      {"stub_tenon", JointKind::kStubTenon, 9.9375_in + 2 * 0.5_in},
      {"mortise_and_tenon", JointKind::kMortiseTenon, 9.9375_in + 2 * 1.5_in},  // 2/3 of the stile
      {"loose_tenon", JointKind::kLooseTenon, 9.9375_in}};
  for (const JointCase& c : cases) {
    SCOPED_TRACE(c.joint);
    const BuiltPiece built = hall_bay(kFrame + kSolidPanel + fmt::format(", joint: {}", c.joint));
    expect_sound(built);
    EXPECT_EQ(part_at(built.piece, "unit.door.rail_top").finished.length, c.rail);
    EXPECT_EQ(std::ranges::count_if(built.piece.joints,
                                    [&](const Joint& joint) { return joint.kind == c.kind; }),
              4);
  }
}

struct BadDoor {
  std::string_view why;
  std::string door;
  std::vector<std::string> said;
};

TEST(PanelDoor, SaysWhatDoesNotFit) {
  const BadDoor cases[] = {
      {"three leaves", kFrame + ", leaves: 3", {"found 3 leaves, expected 1 or 2"}},
      {"reveals wider than the opening",
       kFrame + ", reveal: 7 5/16",
       {"the reveals leave nothing of an opening 14 5/8 in wide and 25 5/8 in high"}},
      {"stiles that meet",
       "stock: cherry_4_4, thickness: 3/4, stile: 8, rail: 2, tongue: 1/2, hinge: butt_hinge_2_1_2",
       {"two stiles of 8 in leave nothing of a door 14 1/2 in wide"}},
      {"rails that meet",
       "stock: cherry_4_4, thickness: 3/4, stile: 2, rail: 13, tongue: 1/2, hinge: "
       "butt_hinge_2_1_2",
       {"the rails leave no panel in a door 25 1/2 in high"}},
      {"too many mid rails",
       kFrame + ", mid_rails: 10",
       {"the rails leave no panel in a door 25 1/2 in high"}},
      {"play as deep as the groove",
       kFrame + ", panel_play: 1/2",
       {"with 1/2 in of play nothing holds the panel in a groove 1/2 in deep"}},
      {"a groove as wide as the frame",
       kFrame + ", groove: 3/4",
       {"a groove 3/4 in wide leaves nothing of a frame 3/4 in thick"}},
      {"a groove through the stile",
       "stock: cherry_4_4, thickness: 3/4, stile: 2, rail: 2, tongue: 2, hinge: butt_hinge_2_1_2",
       {"a groove 2 in deep leaves nothing of a rail or stile 2 in wide"}},
      {"a panel thicker than its frame",
       kFrame + ", panel_thickness: 1",
       {"the panel is 1 in thick, its frame only 3/4 in"}},
      {"a tenon through the stile",
       kFrame + ", joint: mortise_and_tenon, tenon: 2 1/4",
       {"a tenon 2 1/4 in long comes out of a stile 2 1/4 in wide"}},
      {"a pair hinged on one side",
       kFrame + ", leaves: 2, hinged: left",
       {"a pair of leaves is hinged on both sides: leave `hinged` out"}},
      {"no such hinge",
       "stock: cherry_4_4, thickness: 3/4, stile: 2, rail: 2, tongue: 1/2, hinge: butt_hinge_2_1_4",
       {"`butt_hinge_2_1_4` is not a fitting of the shop, expected a butt hinge or a cup hinge"}},
      {"a cup in a narrow stile",
       "stock: cherry_4_4, thickness: 3/4, stile: 1 1/2, rail: 2, tongue: 1/2, hinge: "
       "cup_hinge_110",
       {"the cup of cup_hinge_110 takes 1 17/32+ in, but the door stile is 1 1/2 in wide"}},
      {"more hinges than there is door",
       kFrame + ", hinges: 11",
       {"11 hinges of 2 1/2 in do not fit on a door 25 1/2 in high"}},
      {"a pull beside the door",
       kFrame + ", pull: knob_turned, pull_from_top: 30",
       {"the pull would stand beside the door"}},
      {"a catch that is none",
       kFrame + ", catch: knob_turned",
       {"`knob_turned` is a pull of the shop, expected a catch"}},
      {"a stock that is none",
       "stock: chery_4_4, thickness: 3/4, stile: 2, rail: 2, tongue: 1/2, hinge: butt_hinge_2_1_2",
       {"`chery_4_4` is not a stock of the shop"}}};
  auto shop = test_shop();
  for (const BadDoor& c : cases) {
    SCOPED_TRACE(c.why);
    EXPECT_EQ(
        messages(
            hall_bay(c.door + (c.door.find("reveal") == std::string::npos ? ", reveal: 1/16" : ""))
                .errors),
        c.said);
  }
}

TEST(PanelDoor, NeedsSomethingToHangOn) {
  EXPECT_EQ(
      messages(
          build_kit("20", "1", "30", "panel_door: {" + kFrame + "}", LengthUnit::kInch).errors),
      std::vector<std::string>{"there is nothing at the left of this opening to hang a door on"});
}

RC_GTEST_PROP(PanelDoor, IsSoundAndAddsUp, ()) {
  const int width = *rc::gen::inRange(300, 1200);
  const int height = *rc::gen::inRange(400, 2000);
  const int stile = *rc::gen::inRange(45, 60);
  const int rail = *rc::gen::inRange(45, 90);
  const int mid_rails = *rc::gen::inRange(0, 3);
  const int leaves = width > 500 ? *rc::gen::inRange(1, 3) : 1;
  const std::string fit = *rc::gen::element<std::string>("inset", "overlay");
  const std::string panel = *rc::gen::element<std::string>("oak_board_6", "oak_5_4");
  const std::string hinge = *rc::gen::element<std::string>("butt_hinge_2_1_2", "cup_hinge_110");
  const BuiltPiece built = build_kit(
      std::to_string(width),
      "400",
      std::to_string(height),
      fmt::format("carcase: {{stock: oak_board_18, joint: dowelled, top: panel, panel_door: {{"
                  "stock: oak_5_4, thickness: 22, stile: {}, rail: {}, mid_rails: {}, leaves: {}, "
                  "fit: {}, panel_stock: {}, tongue: 10, reveal: 2, hinge: {}}}}}",
                  stile,
                  rail,
                  mid_rails,
                  leaves,
                  fit,
                  panel,
                  hinge));
  RC_LOG() << fmt::format("{}\n", fmt::join(messages(built.errors), "\n"));
  RC_ASSERT(messages(built.errors).empty());
  RC_ASSERT(in_the_way(built.piece).empty());
  RC_ASSERT(loose_contacts(built.piece).empty());
  RC_ASSERT(afloat(built.piece).empty());
  for (const Door& door : built.piece.doors) {
    Box hull_of_parts = built.piece.parts[door.parts.front()].body;
    Length uprights;  // rails, panels and nothing else between top and bottom
    for (const PartIndex part : door.parts) {
      const Part& p = built.piece.parts[part];
      hull_of_parts = hull(hull_of_parts, p.body);
      uprights += p.name == "door stile" ? Length{} : p.body.size.z;
      // A panel stays in its grooves: longer and wider than the hole, shorter than hole and
      // grooves.
      if (p.name == "door panel") {
        RC_ASSERT(p.finished.length > p.body.size.z);
        RC_ASSERT(p.finished.length <= p.body.size.z + 20_mm);
        RC_ASSERT(p.finished.width > p.body.size.x);
        RC_ASSERT(p.finished.width <= p.body.size.x + 20_mm);
      }
    }
    RC_ASSERT(hull_of_parts == door.leaf);
    RC_ASSERT(uprights == door.leaf.size.z);
  }
}

RC_GTEST_PROP(PanelDoor, SurvivesAnySizes, ()) {
  // Mostly sizes that make sense, so that the odd one is met deep inside.
  const auto any = [] {
    return *rc::gen::weightedOneOf<std::string>(
        {{9, rc::gen::element<std::string>("2", "6", "12", "18", "20", "30")},
         {1,
          rc::gen::element<std::string>("0",
                                        "-5",
                                        "99999 m",
                                        "2147483647",
                                        "1e9",
                                        "x",
                                        "[1, 2]",
                                        "{a: 1}",
                                        "''",
                                        "1 km",
                                        "0.000001 mm",
                                        "400")}});
  };
  const std::string kit = fmt::format(
      "carcase: {{stock: oak_board_18, top: panel, panel_door: {{stock: oak_5_4, thickness: {}, "
      "stile: {}, "
      "rail: {}, bottom_rail: {}, mid_rails: {}, tongue: {}, groove: {}, panel_thickness: {}, "
      "panel_play: {}, leaves: {}, reveal: {}, gap: {}, hinge: butt_hinge_2_1_2, hinges: {}, "
      "hinge_from_end: {}, pull: pull_bar_oak, pull_in: {}}}}}",
      any(),
      any(),
      any(),
      any(),
      any(),
      any(),
      any(),
      any(),
      any(),
      any(),
      any(),
      any(),
      any(),
      any(),
      any());
  const BuiltPiece built = build_kit("600", "500", "700", kit);
  RC_ASSERT(!built.errors.empty() || in_the_way(built.piece).empty());
}

}  // namespace
}  // namespace plankwright::piece::test
