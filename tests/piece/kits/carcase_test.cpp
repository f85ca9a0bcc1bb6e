#include <fmt/format.h>
#include <gmock/gmock.h>
#include <gtest/gtest.h>
#include <rapidcheck/gtest.h>

#include "piece/kits/test_shop.h"

namespace plankwright::piece::test {
namespace {

using namespace measure;  // NOLINT(google-build-using-namespace): length literals
using ::testing::ElementsAre;
using ::testing::IsEmpty;

BuiltPiece hall_case(const std::string& more = "") {
  return build_kit(
      "48 1/2",
      "16 1/2",
      "27 1/8",
      "carcase: {stock: cherry_4_4, thickness: 3/4, joint: housed, joint_depth: 1/4, top: rails, "
      "top_rail_width: 3, back: {stock: cherry_ply_1_4, way: rabbet, depth: 1/4}, "
      "bays: [{name: left, width: 14 5/8}, {name: middle, width: 16 1/4}, {name: right}]" +
          more + "}",
      LengthUnit::kInch);
}

std::string wall_box(const std::string& top) {
  return "carcase: {stock: oak_board_18, joint: dowelled, band: band_oak, top: " + top +
         ", top_rail_width: 100, back: {stock: oak_board_6, way: groove, depth: 9, inset: 12}}";
}

// Sizes worked out by hand for a hall cabinet: 47 in clear between the sides, housings 1/4 in deep.
TEST(Carcase, GivesThePartsOfTheHallCabinet) {
  const BuiltPiece built = hall_case();
  expect_sound(built);
  expect_parts(built.piece,
               {{"unit.side_left", {27.125_in, 16.5_in, 0.75_in}},
                {"unit.side_right", {27.125_in, 16.5_in, 0.75_in}},
                {"unit.bottom", {47.5_in, 16.25_in, 0.75_in}},
                {"unit.top_rail_front", {47.5_in, 3_in, 0.75_in}},
                {"unit.top_rail_back", {47.5_in, 3_in, 0.75_in}},
                {"unit.divider_1", {26.125_in, 16.25_in, 0.75_in}},
                {"unit.divider_2", {26.125_in, 16.25_in, 0.75_in}},
                {"unit.back", {47.5_in, 27.125_in, 0.25_in}}});
  EXPECT_EQ(built.piece.parts.size(), 8U);
  EXPECT_EQ(part_at(built.piece, "unit.side_left").strips, 3);
  EXPECT_EQ(part_at(built.piece, "unit.side_left").hand, Hand::kLeft);
  EXPECT_EQ(part_at(built.piece, "unit.side_right").hand, Hand::kRight);
}

TEST(Carcase, LeavesTheOpeningsOfTheHallCabinet) {
  const BuiltPiece built = hall_case();
  ASSERT_EQ(built.piece.openings.size(), 3U);
  const Opening& middle = built.piece.openings[1];
  EXPECT_EQ(middle.name, "unit.middle");
  EXPECT_EQ(middle.box.at, (Point{0.75_in + 14.625_in + 0.75_in, 0_in, 0.75_in}));
  EXPECT_EQ(middle.box.size, (Point{16.25_in, 16.25_in, 25.625_in}));
  EXPECT_EQ(built.piece.openings[2].box.size.x, 14.625_in);
}

// A housing takes part of what it stands in; one joint where two parts meet.
TEST(Carcase, HousesTheDividersInBottomAndRails) {
  const BuiltPiece built = hall_case();
  int housings = 0;
  for (const Joint& joint : built.piece.joints) {
    housings += joint.kind == JointKind::kHousing ? 1 : 0;
  }
  EXPECT_EQ(housings, 2 + 4 + 2 * 3);  // bottom, two rails, two dividers
}

TEST(Carcase, GivesThePartsOfTheStudyWall) {
  const BuiltPiece base = build_kit("860", "400", "720", wall_box("stretchers"));
  expect_sound(base);
  expect_parts(base.piece,
               {{"unit.side_left", {720_mm, 400_mm, 18_mm}},
                {"unit.bottom", {824_mm, 400_mm, 18_mm}},
                {"unit.stretcher_front", {824_mm, 100_mm, 18_mm}},
                {"unit.stretcher_back", {824_mm, 100_mm, 18_mm}},
                {"unit.back", {842_mm, 711_mm, 6_mm}}});
  EXPECT_EQ(part_at(base.piece, "unit.side_left").cut.width, 399_mm);  // less its band
  const BuiltPiece upper = build_kit("860", "300", "1560", wall_box("panel"));
  expect_sound(upper);
  expect_parts(upper.piece,
               {{"unit.side_right", {1560_mm, 300_mm, 18_mm}},
                {"unit.bottom", {824_mm, 300_mm, 18_mm}},
                {"unit.top", {824_mm, 300_mm, 18_mm}},
                // The sheet is 1220 wide: the grain of the back has to stand upright.
                {"unit.back", {1542_mm, 842_mm, 6_mm}}});
  EXPECT_EQ(upper.piece.openings.at(0).box.size, (Point{824_mm, 282_mm, 1524_mm}));
}

TEST(Carcase, PutsBottomAndTopOnOneLineWhenTheyAreAlike) {
  const BuiltPiece upper = build_kit("860", "300", "1560", wall_box("panel"));
  EXPECT_EQ(count_named(upper.piece, "unit top/bottom"), 2);
  EXPECT_EQ(count_named(hall_case().piece, "unit bottom"), 1);
}

TEST(Carcase, LipsOnlyPartsOfSheet) {
  const BuiltPiece built =
      hall_case(", side_stock: cherry_ply_3_4, lipping: {stock: cherry_4_4, thickness: 1/4}");
  expect_sound(built);
  expect_parts(built.piece,
               {{"unit.side_left", {27.125_in, 16.25_in, 0.75_in}},
                {"unit.side_left_lipping", {27.125_in, 0.75_in, 0.25_in}},
                {"unit.bottom", {47.5_in, 16.25_in, 0.75_in}}});
  EXPECT_EQ(count_named(built.piece, "unit side lipping"), 2);
  EXPECT_EQ(built.piece.parts.size(), 10U);
}

TEST(Carcase, PlantsABackOnTheRearEdges) {
  const BuiltPiece built =
      build_kit("800",
                "400",
                "700",
                "carcase: {stock: oak_board_18, joint: screwed, screw: screw_4_50, "
                "back: {stock: oak_board_6, way: none}}");
  expect_sound(built);
  expect_parts(
      built.piece,
      {{"unit.back", {800_mm, 700_mm, 6_mm}}, {"unit.side_left", {700_mm, 394_mm, 18_mm}}});
  // 394 mm of a joint at most 150 mm between two screws: three screws at each of four ends.
  EXPECT_EQ(count_fittings(built.piece, "screw_4_50"), 12);
}

TEST(Carcase, ShowsTheInsideOfOpenBaysOnly) {
  const auto shows_inside = [](const std::string& contents) {
    const BuiltPiece built = build_kit(
        "860",
        "400",
        "720",
        "carcase: {stock: oak_board_18, joint: dowelled, back: {stock: oak_board_6}, bays: [" +
            contents + "]}");
    return part_at(built.piece, "unit.side_left").shows({Axis::kX, 1});
  };
  EXPECT_TRUE(shows_inside("{name: left}"));
  EXPECT_FALSE(shows_inside("{name: left, slab_door: {stock: oak_board_18}}"));
}

struct BadCarcase {
  std::string why, fields;
  std::string message;
};

TEST(Carcase, SaysWhatIsWrong) {
  const BadCarcase cases[] = {
      {"bays too wide",
       "bays: [{width: 400}, {width: 500}]",
       "these widths add up to 900 mm, but there is 746 mm: 154 mm too much"},
      {"a stock the shop has not",
       "divider_stock: oak_bord_18, bays: [{}, {}]",
       "`oak_bord_18` is not a stock of the shop"},
      {"rails too wide",
       "top: rails, top_rail_width: 200",
       "the two rails take 400 mm of the case, which is only 400 mm"},
      {"back too far in",
       "back: {stock: oak_board_6, way: groove, inset: 395}",
       "the back and its inset take 401 mm of the case, which is only 400 mm"},
      {"nothing to hold the sides",
       "bottom: no, top: none",
       "without bottom, top and back nothing holds the sides together"},
      {"nothing to hold the dividers",
       "bottom: no, top: none, back: {stock: oak_board_6}, bays: [{}, {}]",
       "without bottom and top nothing holds the dividers"},
      {"contents beside bays",
       "shelves: {adjustable: 1}, bays: [{}, {}]",
       "`shelves` stands beside `bays`: write it in the bay that it fills"},
      {"a band the shop has not", "band: band_ok", "`band_ok` is not an edge band of the shop"},
      {"a housing through the side",
       "joint_depth: 20, joint: housed",
       "the housing of the unit top/bottom is 20 mm deep, but the unit side is only 18 mm thick "
       "there"},
      {"no list of bays",
       "bays: 3",
       "found something else, expected a list of spaces, each beginning with `-`"}};
  for (const BadCarcase& c : cases) {
    SCOPED_TRACE(c.why);
    const BuiltPiece built =
        build_kit("800", "400", "700", "carcase: {stock: oak_board_18, " + c.fields + "}");
    EXPECT_THAT(messages(built.errors), ElementsAre(c.message));
  }
}

TEST(Carcase, SaysWhatDoesNotFitASmallSpace) {
  EXPECT_THAT(messages(build_kit("36", "400", "36", "carcase: {stock: oak_board_18}").errors),
              ElementsAre("the two sides take 36 mm of the case, which is only 36 mm",
                          "the bottom and top take 36 mm of the case, which is only 36 mm"));
}

/// A case of any kind that a maker may ask for.
std::string any_carcase() {
  const auto one_of = [](std::vector<std::string> words) { return *rc::gen::elementOf(words); };
  const std::string stock = one_of({"oak_board_18", "oak_5_4", "cherry_ply_3_4"});
  std::string text =
      fmt::format("carcase: {{stock: {}, side_stock: {}, joint: {}, top: {}, bottom: yes",
                  stock,
                  one_of({"oak_board_18", "cherry_4_4"}),
                  one_of({"housed", "rabbeted", "dowelled", "screwed"}),
                  one_of({"panel", "rails", "stretchers", "none"}));
  text += one_of({"", ", band: band_oak", ", lipping: {stock: oak_5_4, thickness: 8}"});
  text += one_of({"",
                  ", back: {stock: oak_board_6}",
                  ", back: {stock: oak_board_6, way: groove, inset: 10}",
                  ", back: {stock: oak_board_18, way: none}"});
  text += one_of({"", ", bays: [{}, {}]", ", bays: [{width: 150}, {name: wide}, {width: 99.9}]"});
  return text + "}";
}

RC_GTEST_PROP(CarcaseProperty, FillsItsSpaceAndHoldsTogether, ()) {
  const auto width = *rc::gen::inRange(500, 2400);
  const auto depth = *rc::gen::inRange(250, 700);
  const auto height = *rc::gen::inRange(200, 2400);
  const std::string kit = any_carcase();
  const BuiltPiece built =
      build_kit(std::to_string(width), std::to_string(depth), std::to_string(height), kit);
  RC_ASSERT(messages(built.errors) == std::vector<std::string>{});
  RC_ASSERT(in_the_way(built.piece).empty());
  RC_ASSERT(loose_contacts(built.piece) == std::vector<std::string>{});
  RC_ASSERT(afloat(built.piece).empty());
  RC_ASSERT(repeated_paths(built.piece).empty());
  RC_ASSERT(whole(built.piece) == built.piece.overall);
}

RC_GTEST_PROP(CarcaseProperty, IsRefusedOrSoundInTheSmallestSpace, ()) {
  const auto size = [] { return std::to_string(*rc::gen::inRange(1, 250)); };
  const BuiltPiece built = build_kit(size(), size(), size(), any_carcase());
  if (built.errors.empty()) {
    RC_ASSERT(in_the_way(built.piece).empty());
    RC_ASSERT(
        std::ranges::none_of(built.piece.parts, [](const Part& p) { return p.body.empty(); }));
  }
}

}  // namespace
}  // namespace plankwright::piece::test
