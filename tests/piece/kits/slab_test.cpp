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

/// A counter of two layers over three boxes 860 wide between two scribes of 30.
BuiltPiece counter() {
  return build_kit(
      "2640",
      "462",
      "36",
      "slab: {stock: oak_board_18, name: counter, layers: 2, joints: [1750, 890], site_length: 20, "
      "nosing: {stock: oak_5_4, height: 40, thickness: 22, site_length: 20}}");
}

TEST(Slab, GivesThePartsOfTheCounter) {
  const BuiltPiece built = counter();
  expect_sound(built);
  const auto cut = [&](std::string_view path) { return part_at(built.piece, path).cut; };
  EXPECT_EQ(cut("unit.layer_1_left"), (Size{1770_mm, 440_mm, 18_mm}));
  EXPECT_EQ(cut("unit.layer_1_right"), (Size{890_mm, 440_mm, 18_mm}));
  EXPECT_EQ(cut("unit.layer_2_left"), (Size{890_mm, 440_mm, 18_mm}));
  EXPECT_EQ(cut("unit.layer_2_right"), (Size{1770_mm, 440_mm, 18_mm}));
  EXPECT_EQ(cut("unit.nosing"), (Size{2660_mm, 40_mm, 22_mm}));
  EXPECT_EQ(part_lines(built.piece).size(), 3U);  // long layers, short layers, nosing
}

TEST(Slab, GluesLayersFaceToFaceAcrossTheirJoints) {
  const BuiltPiece built = counter();
  int face_glued = 0;
  for (const Joint& joint : built.piece.joints) {
    face_glued += joint.kind == JointKind::kFaceGlue ? 1 : 0;
  }
  // Upper left on lower left; upper right on both, for it reaches from 890 over 1750.
  EXPECT_EQ(face_glued, 3);
}

TEST(Slab, SetsANosingFlushWithItsTop) {
  const BuiltPiece built = counter();
  const Box& nosing = part_at(built.piece, "unit.nosing").body;
  EXPECT_EQ(nosing.end(Axis::kZ), 36_mm);
  EXPECT_EQ(nosing.at.z, -4_mm);
  EXPECT_EQ(nosing.at.y, 0_mm);
}

TEST(Slab, GluesASolidTopFromBoards) {
  const BuiltPiece built =
      build_kit("50", "18", "7/8", "slab: {stock: cherry_5_4, boards: 3}", LengthUnit::kInch);
  expect_sound(built);
  const Part& top = part_at(built.piece, "unit.slab");
  EXPECT_EQ(top.finished, (Size{50_in, 18_in, 0.875_in}));
  EXPECT_EQ(top.strips, 3);
  EXPECT_EQ(top.name, "unit");
}

TEST(Slab, TurnsItsGrain) {
  const BuiltPiece built =
      build_kit("400", "600", "30", "slab: {stock: oak_6_4, grain: front_to_back}");
  EXPECT_EQ(part_at(built.piece, "unit.slab").finished, (Size{600_mm, 400_mm, 30_mm}));
}

TEST(Slab, BandsTheEdgesThatAreAskedFor) {
  const BuiltPiece built =
      build_kit("1000",
                "400",
                "18",
                "slab: {stock: oak_board_18, band: band_oak, band_edges: [front, left, right]}");
  const Part& top = part_at(built.piece, "unit.layer_1");
  EXPECT_EQ(top.finished, (Size{1000_mm, 400_mm, 18_mm}));
  EXPECT_EQ(top.cut, (Size{998_mm, 399_mm, 18_mm}));
}

TEST(Slab, LetsTheTopMoveInBreadboardEnds) {
  const BuiltPiece built =
      build_kit("2100", "950", "32", "slab: {stock: oak_6_4, boards: 7, ends: breadboard}");
  expect_sound(built);
  // Ends three times as wide as the top is thick; the tongue a third of that.
  expect_parts(built.piece,
               {{"unit.slab", {1908_mm + 2 * 32_mm, 950_mm, 32_mm}},
                {"unit.breadboard_end_left", {950_mm, 96_mm, 32_mm}},
                {"unit.breadboard_end_right", {950_mm, 96_mm, 32_mm}}});
  EXPECT_EQ(whole(built.piece), built.piece.overall);
  for (const Joint& joint : built.piece.joints) {
    EXPECT_FALSE(joint.glued);
    // A flat-sawn white oak top 950 wide moves 17.7 mm between 35 and 65 % humidity: worked out by
    // hand from the change of equilibrium moisture (6.9 to 12 % at 21 C, Wood Handbook table 4-2)
    // and the coefficient 0.00365 (table 13-5); half of it each way.
    EXPECT_NEAR(joint.play.mm(), 17.7 / 2, 0.2);
  }
  const Part& end = part_at(built.piece, "unit.breadboard_end_left");
  ASSERT_EQ(end.features.size(), 2U);
  EXPECT_EQ(end.features[0].kind, FeatureKind::kGroove);
  EXPECT_EQ(end.features[0].depth, 32_mm);
  EXPECT_EQ(end.features[1].kind, FeatureKind::kBore);
  EXPECT_EQ(end.features[1].count, 3);
}

/// Four rails on edge, 1740 x 650 inside, under a top 2100 x 950; nothing else.
BuiltPiece table(const std::string& buttons) {
  const auto rail = [](const char* name, const char* at, const char* length, const char* along) {
    return fmt::format(
        "{{name: {}, stock: oak_5_4, at: {}, length: {}, width: 100, thickness: 27, along: {}, "
        "thickness_along: {}}}",
        name,
        at,
        length,
        along,
        *along == 'x' ? "y" : "x");
  };
  return build(fmt::format(
      "width: 2100\ndepth: 950\nheight: 132\nstack:\n"
      "  - {{name: base, height: 100, part: [{}, {}, {}, {}]}}\n"
      "  - {{name: top, height: rest, slab: {{stock: oak_6_4, boards: 7, buttons: {}}}}}\n",
      rail("front", "[180, 123, 0]", "1740", "x"),
      rail("back", "[180, 800, 0]", "1740", "x"),
      rail("left", "[153, 150, 0]", "650", "y"),
      rail("right", "[1920, 150, 0]", "650", "y"),
      buttons));
}

std::vector<const Part*> buttons_along(const Piece& piece, Axis axis) {
  std::vector<const Part*> found;
  for (const Part& part : piece.parts) {
    if (part.name == "button" && part.length_axis == axis) {
      found.push_back(&part);
    }
  }
  return found;
}

TEST(Slab, HoldsATableTopWithButtons) {
  const BuiltPiece built = table(
      "{stock: oak_5_4, count: 14, length: 45, width: 30, thickness: 22, tongue: 10, play: 4, "
      "screw: screw_4_30}");
  expect_sound(built);
  EXPECT_EQ(count_fittings(built.piece, "screw_4_30"), 14);
  const auto on_long = buttons_along(built.piece, Axis::kY);
  const auto on_short = buttons_along(built.piece, Axis::kX);
  EXPECT_EQ(on_long.size(), 10U);  // 14 by the length of the rails: 5.1, 5.1, 1.9, 1.9
  EXPECT_EQ(on_short.size(), 4U);
  for (const Part* button : on_long) {
    EXPECT_EQ(button->finished, (Size{45_mm, 30_mm, 22_mm}));
    EXPECT_EQ(button->body.size.y, 39_mm);  // 6 of the tongue are in the groove
    EXPECT_EQ(button->body.end(Axis::kZ), 100_mm);
  }
  // Against the inside of the front rail, whose inner face is at 150.
  EXPECT_EQ(on_long.front()->body.at.y, 150_mm);
  EXPECT_EQ(on_long.back()->body.end(Axis::kY), 800_mm);
}

TEST(Slab, MovesAButtonOutOfTheWay) {
  const BuiltPiece free = table("{stock: oak_5_4, count: 4}");
  const BuiltPiece crowded = build(
      "width: 600\ndepth: 400\nheight: 130\nstack:\n"
      "  - name: base\n    height: 100\n    part:\n"
      "      - {name: rail, stock: oak_5_4, at: [0, 0, 0], width: 100, thickness: 27}\n"
      "      - {name: cross, stock: oak_5_4, at: [290, 27, 0], length: 373, width: 100, thickness: "
      "20, along: y,"
      " thickness_along: x, joints: [{to: base.rail, kind: dowel, count: 2}]}\n"
      "  - {name: top, height: rest, slab: {stock: oak_6_4, buttons: {stock: oak_5_4, count: 3, "
      "screw: screw_4_30}}}\n");
  expect_sound(free);
  expect_sound(crowded);
  EXPECT_EQ(count_named(crowded.piece, "button"), 3);
}

struct BadSlab {
  std::string why, height, fields, message;
};

TEST(Slab, SaysWhatIsWrong) {
  const BadSlab cases[] = {
      {"layers that do not make the height",
       "40",
       "stock: oak_board_18, layers: 2",
       "2 layers of oak_board_18 make 36 mm, but the space is 40 mm high"},
      {"too thick for its boards",
       "40",
       "stock: oak_6_4",
       "the unit is 40 mm thick, but oak_6_4 finishes at 34 mm at most"},
      {"more joints than layers",
       "18",
       "stock: oak_board_18, joints: [300, 600]",
       "found 2 joints for 1 layer, expected one a layer at most"},
      {"a joint that is not on it",
       "18",
       "stock: oak_board_18, joints: [1000]",
       "a joint at 1000 mm is not on the slab, which is 1000 mm long"},
      {"a pieced solid top",
       "30",
       "stock: oak_6_4, joints: [500]",
       "only sheet is pieced in its length; a solid slab takes boards long enough"},
      {"breadboard ends on sheet",
       "18",
       "stock: oak_board_18, ends: breadboard",
       "breadboard ends are for solid slabs"},
      {"a nosing on a top that must move",
       "30",
       "stock: oak_6_4, ends: breadboard, nosing: {stock: oak_5_4, thickness: 20}",
       "a slab with breadboard ends takes no nosing: it must be free to move"},
      {"nothing left",
       "30",
       "stock: oak_6_4, nosing: {stock: oak_5_4, thickness: 500}",
       "the strips around the slab leave nothing of it"},
      {"buttons on nothing",
       "30",
       "stock: oak_6_4, buttons: {stock: oak_5_4, count: 4}",
       "no rail at least 22 mm high stands below for buttons to hold"},
      {"a tongue that comes out",
       "30",
       "stock: oak_6_4, buttons: {stock: oak_5_4, count: 4, tongue: 8, play: 9}",
       "a tongue 8 mm long with 9 mm play comes out of its groove"},
      {"an edge that is none",
       "18",
       "stock: oak_board_18, band: band_oak, band_edges: [rear]",
       "found `rear`, expected front, back, left or right"}};
  for (const BadSlab& c : cases) {
    SCOPED_TRACE(c.why);
    const BuiltPiece built = build_kit("1000", "450", c.height, "slab: {" + c.fields + "}");
    EXPECT_THAT(messages(built.errors), ElementsAre(c.message));
  }
  EXPECT_THAT(messages(build_kit("2640", "450", "18", "slab: {stock: oak_board_18}").errors),
              ElementsAre("2640 mm of the unit does not come out of a sheet 2440 mm long: write in "
                          "`joints` where each layer is pieced"));
}

TEST(Slab, SaysWhenARailIsFullOfButtons) {
  const BuiltPiece built = table("{stock: oak_5_4, count: 200}");
  EXPECT_THAT(messages(built.errors), ElementsAre("there is no room for 73 buttons on the front"));
}

RC_GTEST_PROP(SlabProperty, FillsItsSpaceAndHoldsTogether, ()) {
  const int layers = *rc::gen::inRange(1, 5);
  const int width = *rc::gen::inRange(400, 2400);
  std::string joints;
  for (int layer = 0; layer < layers; ++layer) {
    joints += fmt::format("{}{}", layer > 0 ? ", " : "", *rc::gen::inRange(1, width));
  }
  const std::string nosing =
      *rc::gen::element<std::string>("", ", nosing: {stock: oak_5_4, thickness: 20}");
  const BuiltPiece built = build_kit(
      std::to_string(width),
      std::to_string(*rc::gen::inRange(100, 900)),
      std::to_string(18 * layers),
      fmt::format(
          "slab: {{stock: oak_board_18, layers: {}, joints: [{}]{}}}", layers, joints, nosing));
  RC_ASSERT(messages(built.errors) == std::vector<std::string>{});
  RC_ASSERT(in_the_way(built.piece).empty());
  RC_ASSERT(loose_contacts(built.piece) == std::vector<std::string>{});
  RC_ASSERT(afloat(built.piece).empty());
  RC_ASSERT(whole(built.piece) == built.piece.overall);
  double volume = 0;
  for (const Part& part : built.piece.parts) {
    volume += measure::volume(part.body).count();
  }
  RC_ASSERT(std::abs(volume / measure::volume(built.piece.overall).count() - 1) < 1e-9);
}

RC_GTEST_PROP(SlabProperty, SharesOutEveryButton, ()) {
  const int count = *rc::gen::inRange(1, 60);
  const BuiltPiece built = table(fmt::format("{{stock: oak_5_4, count: {}}}", count));
  RC_ASSERT(messages(built.errors) == std::vector<std::string>{});
  RC_ASSERT(count_named(built.piece, "button") == count);
  RC_ASSERT(in_the_way(built.piece) == std::vector<std::string>{});
  const auto held = std::ranges::count(built.piece.joints, JointKind::kButton, &Joint::kind);
  RC_ASSERT(held == count);
}

}  // namespace
}  // namespace plankwright::piece::test
