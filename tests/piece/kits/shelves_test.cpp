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

/// A box 860 wide, 824 clear and 282 deep in front of its back.
BuiltPiece in_wall_box(const std::string& shelves,
                       const std::string& depth = "300",
                       const std::string& height = "1560") {
  return build_kit(
      "860",
      depth,
      height,
      "carcase: {stock: oak_board_18, joint: dowelled, back: {stock: oak_board_6, way: groove, "
      "depth: 9, inset: 12}, shelves: " +
          shelves + "}");
}

const std::string kNosedShelves =
    "{fixed: 1, adjustable: 3, stock: oak_board_18, depth: 260, end_play: 1, joint: dowelled, "
    "pin: shelf_pin_steel, nosing: {stock: oak_5_4, height: 38, thickness: 22}}";

// Sizes worked out by hand: adjustable shelves 824 - 2 long, nosings in front of cores 260 deep.
TEST(Shelves, GiveThePartsOfTheOpenBookcase) {
  const BuiltPiece built = in_wall_box(kNosedShelves);
  expect_sound(built);
  expect_parts(built.piece,
               {{"unit.fixed_shelf_1", {824_mm, 260_mm, 18_mm}},
                {"unit.fixed_shelf_1_nosing", {824_mm, 38_mm, 22_mm}},
                {"unit.shelf_1", {822_mm, 260_mm, 18_mm}},
                {"unit.shelf_1_nosing", {822_mm, 38_mm, 22_mm}}});
  EXPECT_EQ(count_named(built.piece, "unit adjustable shelf"), 3);
  EXPECT_EQ(count_named(built.piece, "unit adjustable shelf nosing"), 3);
  EXPECT_EQ(count_fittings(built.piece, "shelf_pin_steel"), 12);
}

TEST(Shelves, GiveThePartsOfTheCupboards) {
  const BuiltPiece base = in_wall_box(
      "{adjustable: 1, stock: oak_board_18, depth: 370, end_play: 1, pin: shelf_pin_steel, load: "
      "12 kg/m}",
      "400",
      "720");
  expect_sound(base);
  expect_parts(base.piece, {{"unit.shelf_1", {822_mm, 370_mm, 18_mm}}});
  // 12 kg over a metre weighs 117.7 N (12 x 9.80665).
  EXPECT_NEAR(part_at(base.piece, "unit.shelf_1").load.count(), 0.11768, 1e-5);

  const BuiltPiece hall = build_kit(
      "16 1/8",
      "16 1/2",
      "27 1/8",
      "carcase: {stock: cherry_4_4, thickness: 3/4, back: {stock: cherry_ply_1_4, way: rabbet}, "
      "shelves: {adjustable: 1, stock: cherry_ply_3_4, depth: 15, end_play: 1/16, pin: "
      "shelf_pin_brass, "
      "lipping: {stock: cherry_4_4, thickness: 1/4}}}",
      LengthUnit::kInch);
  expect_sound(hall);
  expect_parts(hall.piece,
               {{"unit.shelf_1", {14.5_in, 15_in, 0.75_in}},
                {"unit.shelf_1_lipping", {14.5_in, 0.75_in, 0.25_in}}});
}

TEST(Shelves, StandEvenlyWithMoreOfThemHighUp) {
  const BuiltPiece built = in_wall_box(kNosedShelves);
  // 1524 clear: the fixed shelf halves it, two of the loose ones divide the upper half in three.
  EXPECT_EQ(part_at(built.piece, "unit.fixed_shelf_1").body.at.z, 18_mm + 753_mm);
  EXPECT_EQ(part_at(built.piece, "unit.shelf_1").body.at.z, 18_mm + 367.5_mm);
  EXPECT_EQ(part_at(built.piece, "unit.shelf_2").body.at.z, 789_mm + 239_mm);
  EXPECT_EQ(part_at(built.piece, "unit.shelf_3").body.at.z, 789_mm + 239_mm + 18_mm + 239_mm);
}

TEST(Shelves, BorePinHolesInBothSides) {
  const BuiltPiece built =
      in_wall_box("{adjustable: 1, stock: oak_board_18, depth: 260, pin: shelf_pin_steel}");
  for (const auto& [path, sign] : {std::pair{"unit.side_left", 1}, {"unit.side_right", -1}}) {
    SCOPED_TRACE(path);
    const Part& side = part_at(built.piece, path);
    std::vector<Feature> rows;
    std::ranges::copy_if(side.features, std::back_inserter(rows), [](const Feature& f) {
      return f.kind == FeatureKind::kPinHoles;
    });
    ASSERT_EQ(rows.size(), 2U);
    EXPECT_EQ(rows[0].face, (Direction{Axis::kX, sign}));
    EXPECT_EQ(rows[0].count, 5);
    EXPECT_EQ(rows[0].along, 128_mm);
    EXPECT_EQ(rows[0].depth, 9_mm);
    EXPECT_EQ(rows[0].says, "5 holes 32 mm apart");
    // The middle hole is right under the shelf; rows stand 37 mm in from its edges.
    EXPECT_EQ(rows[0].place.centre().z, 18_mm + 753_mm - 2.5_mm);
    EXPECT_EQ(rows[0].place.centre().y, 22_mm + 37_mm);
    EXPECT_EQ(rows[1].place.centre().y, 282_mm - 37_mm);
  }
}

TEST(Shelves, StandAtTheHeightsThatAreWritten) {
  const BuiltPiece built =
      in_wall_box("{heights: [300, 700], stock: oak_board_18, joint: housed, joint_depth: 6}");
  expect_sound(built);
  EXPECT_EQ(part_at(built.piece, "unit.fixed_shelf_1").body.at.z, 318_mm);
  EXPECT_EQ(part_at(built.piece, "unit.fixed_shelf_2").body.at.z, 718_mm);
  expect_parts(built.piece, {{"unit.fixed_shelf_2", {836_mm, 282_mm, 18_mm}}});
}

TEST(Shelves, LeaveOutANosingOfNoHeight) {
  const BuiltPiece built = in_wall_box(
      "{fixed: 1, stock: oak_board_18, depth: 282, nosing: {stock: oak_5_4, height: 0, thickness: "
      "22}}");
  expect_sound(built);
  EXPECT_EQ(built.piece.parts.size(), 6U);
}

/// A hall cabinet's bay behind a framed door 3/4 in thick, 15 1/2 in deep behind it.
BuiltPiece behind_door(const std::string& shelves) {
  return build_kit(
      "16 1/8",
      "16 1/2",
      "27 1/8",
      "carcase: {stock: cherry_4_4, thickness: 3/4, back: {stock: cherry_ply_1_4, way: rabbet}, "
      "shelves: " +
          shelves +
          ", panel_door: {stock: cherry_4_4, fit: inset, reveal: 3/32, thickness: 3/4, stile: 2 "
          "1/4, "
          "rail: 2 1/4, tongue: 1/2, panel_thickness: 1/2, panel_play: 1/8, panel_end_play: 1/16, "
          "hinge: butt_hinge_2_1_2, hinges: 2, hinged: left}}",
      LengthUnit::kInch);
}

TEST(Shelves, StandBehindAnInsetDoor) {
  const BuiltPiece built =
      behind_door("{adjustable: 1, stock: cherry_ply_3_4, pin: shelf_pin_brass, front_gap: 1/8}");
  EXPECT_EQ(messages(built.errors), std::vector<std::string>{});
  EXPECT_EQ(in_the_way(built.piece), std::vector<std::string>{});
  EXPECT_EQ(part_at(built.piece, "unit.shelf_1").finished.width, 15.375_in);
  EXPECT_FALSE(part_at(built.piece, "unit.shelf_1").shows({Axis::kY, -1}));
  const BuiltPiece deep =
      behind_door("{adjustable: 1, stock: cherry_ply_3_4, pin: shelf_pin_brass, depth: 15 3/4}");
  EXPECT_THAT(messages(deep.errors),
              ElementsAre("shelves 15 3/4 in deep from back to front do not fit where there is "
                          "15 1/2 in behind the door"));
}

struct BadShelves {
  std::string why, fields, message;
};

TEST(Shelves, SayWhatIsWrong) {
  const BadShelves cases[] = {
      {"none", "adjustable: 0", "no shelves: write how many are `fixed` or `adjustable`"},
      {"no pin", "adjustable: 2", "adjustable shelves need a `pin` to lie on"},
      {"a pin the shop has not",
       "adjustable: 1, pin: shelf_pin_stel",
       "`shelf_pin_stel` is not a fitting of the shop"},
      {"too deep",
       "fixed: 1, depth: 283",
       "shelves 283 mm deep from back to front do not fit where there is 282 mm"},
      {"too deep with its nosing",
       "fixed: 1, depth: 270, nosing: {stock: oak_5_4, height: 38, thickness: 22}",
       "shelves 292 mm deep from back to front do not fit where there is 282 mm"},
      {"too many",
       "fixed: 30, adjustable: 60, pin: shelf_pin_steel",
       "90 shelves 18 mm thick leave no room between them in an opening 1524 mm high"},
      {"far too many", "fixed: 5000", "found 5000, expected at most 100"},
      {"heights that are not as many",
       "fixed: 2, heights: [300]",
       "found 1 heights for 2 fixed shelves"},
      {"heights on top of each other",
       "heights: [300, 310]",
       "a shelf at 310 mm does not fit between 318 mm and 1506 mm"},
      {"pins nearer than the shelf is deep",
       "adjustable: 1, pin: shelf_pin_steel, depth: 70",
       "two rows of pins 37 mm from the edges do not fit a shelf 70 mm deep"}};
  for (const BadShelves& c : cases) {
    SCOPED_TRACE(c.why);
    const BuiltPiece built = in_wall_box("{stock: oak_board_18, " + c.fields + "}");
    ASSERT_FALSE(built.errors.empty());
    EXPECT_EQ(built.errors.front().message, c.message);
  }
  const BuiltPiece loose =
      build_kit("800", "300", "700", "shelves: {stock: oak_board_18, fixed: 1}");
  EXPECT_THAT(messages(loose.errors),
              ElementsAre("nothing stands at both ends of the shelves to hold them"));
}

std::string any_shelves() {
  const auto one_of = [](std::vector<std::string> words) { return *rc::gen::elementOf(words); };
  return fmt::format(
      "{{stock: {}, fixed: {}, adjustable: {}, pin: shelf_pin_steel, joint: {}, end_play: {}{}}}",
      one_of({"oak_board_18", "oak_5_4"}),
      *rc::gen::inRange(1, 5),
      *rc::gen::inRange(0, 6),
      one_of({"housed", "rabbeted", "dowelled", "screwed"}),
      one_of({"0", "1", "2.5"}),
      one_of({"",
              ", band: band_oak",
              ", setback: 20",
              ", lipping: {stock: oak_5_4, thickness: 8}",
              ", nosing: {stock: oak_5_4, height: 38, thickness: 20}"}));
}

RC_GTEST_PROP(ShelvesProperty, StandFreeOfEachOtherAndAreHeld, ()) {
  const std::string side = *rc::gen::element<std::string>("oak_board_18", "cherry_4_4");
  const std::string lipping =
      *rc::gen::element<std::string>("", ", lipping: {stock: oak_5_4, thickness: 6}");
  const std::string back =
      *rc::gen::element<std::string>("", ", back: {stock: oak_board_6, way: groove, inset: 10}");
  const BuiltPiece built =
      build_kit(std::to_string(*rc::gen::inRange(300, 1200)),
                std::to_string(*rc::gen::inRange(200, 600)),
                std::to_string(*rc::gen::inRange(900, 2400)),
                fmt::format("carcase: {{stock: oak_board_18, side_stock: {}{}{}, shelves: {}}}",
                            side,
                            lipping,
                            back,
                            any_shelves()));
  RC_ASSERT(messages(built.errors) == std::vector<std::string>{});
  RC_ASSERT(in_the_way(built.piece) == std::vector<std::string>{});
  RC_ASSERT(loose_contacts(built.piece) == std::vector<std::string>{});
  RC_ASSERT(afloat(built.piece) == std::vector<std::string>{});
  RC_ASSERT(whole(built.piece) == built.piece.overall);
}

}  // namespace
}  // namespace plankwright::piece::test
