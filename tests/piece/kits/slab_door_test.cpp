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

const std::string kWallDoor =
    "stock: oak_board_18, leaves: 2, fit: overlay, reveal: 1.5, gap: 3, top_reveal: 2, "
    "bottom_reveal: 2, band: band_oak, hinge: cup_hinge_110, hinges: 2, pull: pull_bar_oak";

std::string wall_box(const std::string& door) {
  return "carcase: {stock: oak_board_18, joint: dowelled, top: stretchers, top_rail_width: 100, "
         "back: {stock: oak_board_6, way: groove, depth: 9, inset: 12}, slab_door: {" +
         door + "}}";
}

// A case 860 wide and 720 high: (860 - 2 x 1.5 - 3) / 2 = 427 and 720 - 2 - 2 = 716.
TEST(SlabDoor, GivesTheDoorsOfTheStudyWall) {
  const BuiltPiece built = build_kit("860", "400", "720", wall_box(kWallDoor));
  expect_sound(built);
  expect_parts(
      built.piece,
      {{"unit.door_left", {716_mm, 427_mm, 18_mm}}, {"unit.door_right", {716_mm, 427_mm, 18_mm}}});
  const Part& left = part_at(built.piece, "unit.door_left");
  EXPECT_EQ(left.body.at, (Point{1.5_mm, Length{} - 19.5_mm, 2_mm}));
  EXPECT_EQ(left.hand, Hand::kLeft);
  EXPECT_EQ(part_at(built.piece, "unit.door_right").hand, Hand::kRight);
  EXPECT_EQ(left.bands.size(), 4U);
  EXPECT_EQ(left.cut, (Size{714_mm, 425_mm, 18_mm}));  // bands of 1 on four edges
  EXPECT_EQ(count_fittings(built.piece, "cup_hinge_110"), 4);
  EXPECT_EQ(count_fittings(built.piece, "pull_bar_oak"), 2);
}

// Bores of 35, 4 from the edge and 100 from the ends to their middle; plates 37 behind the front of
// the case (from memory: the usual hole pattern of board furniture).
TEST(SlabDoor, BoresForItsHinges) {
  const BuiltPiece built = build_kit("860", "400", "720", wall_box(kWallDoor));
  for (const bool is_left : {true, false}) {
    SCOPED_TRACE(is_left);
    const Part& door = part_at(built.piece, is_left ? "unit.door_left" : "unit.door_right");
    std::vector<Box> bores;
    for (const Feature& f : door.features) {
      if (f.kind == FeatureKind::kHingeBore) {
        bores.push_back(f.place);
        EXPECT_EQ(f.face, (Direction{Axis::kY, 1}));
        EXPECT_EQ(f.depth, 12.5_mm);
      }
    }
    ASSERT_EQ(bores.size(), 2U);
    const Length x = is_left ? 1.5_mm + 4_mm + 17.5_mm : 860_mm - 1.5_mm - 4_mm - 17.5_mm;
    EXPECT_EQ(bores[0].centre().x, x);
    EXPECT_EQ(bores[0].centre().z, 102_mm);
    EXPECT_EQ(bores[1].centre().z, 618_mm);
    EXPECT_EQ(bores[0].end(Axis::kY), Length{} - 1.5_mm);
    const Part& side = part_at(built.piece, is_left ? "unit.side_left" : "unit.side_right");
    int plates = 0;
    for (const Feature& f : side.features) {
      if (f.kind == FeatureKind::kScrewHoles && f.along == 32_mm) {
        ++plates;
        EXPECT_EQ(f.place.centre().y, 37_mm);
        EXPECT_EQ(intersection(f.place, side.body), f.place);
      }
    }
    EXPECT_EQ(plates, 2);
  }
}

// A divider is shared: each door covers half of it less its reveal.
TEST(SlabDoor, SharesADivider) {
  const std::string door =
      "slab_door: {stock: oak_board_18, fit: overlay, reveal: 1.5, hinge: cup_hinge_110";
  const BuiltPiece built =
      build_kit("1000",
                "400",
                "720",
                "carcase: {stock: oak_board_18, joint: dowelled, top: panel, bays: [{name: left, " +
                    door + "}}, {name: right, " + door + ", hinged: right}}]}");
  expect_sound(built);
  expect_parts(
      built.piece,
      {{"unit.left.door", {717_mm, 497_mm, 18_mm}}, {"unit.right.door", {717_mm, 497_mm, 18_mm}}});
  EXPECT_EQ(part_at(built.piece, "unit.right.door").body.at.x, 501.5_mm);
}

TEST(SlabDoor, RunsTheGrainAcrossNeighbours) {
  std::string row = "width: 1200\ndepth: 400\nheight: 720\nrow:\n";
  for (const char* name : {"one", "two"}) {
    row += fmt::format(
        "  - {{name: {}, width: 600, {}}}\n", name, wall_box(kWallDoor + ", one_run: doors"));
  }
  row += "joins: [{between: [one, two], with: connectors, count: 2, fitting: connector_screw}]\n";
  const BuiltPiece built = build(row);
  expect_sound(built);
  int place = 0;
  for (const char* path : {"one.door_left", "one.door_right", "two.door_left", "two.door_right"}) {
    EXPECT_EQ(part_at(built.piece, path).run, "doors");
    EXPECT_EQ(part_at(built.piece, path).place_in_run, place++);
  }
  EXPECT_EQ(part_at(build_kit("860", "400", "720", wall_box(kWallDoor + ", one_run: yes")).piece,
                    "unit.door_left")
                .run,
            "unit.doors");
  EXPECT_EQ(
      part_at(build_kit("860", "400", "720", wall_box(kWallDoor)).piece, "unit.door_left").run, "");
}

TEST(SlabDoor, MayBeSolidAndInset) {
  const BuiltPiece built = build_kit(
      "600",
      "400",
      "720",
      wall_box("stock: oak_5_4, thickness: 20, grain: level, reveal: 2, hinge: butt_hinge_2_1_2"));
  expect_sound(built);
  // 600 - 36 - 4 by 720 - 36 - 4
  expect_parts(built.piece, {{"unit.door", {560_mm, 680_mm, 20_mm}}});
  EXPECT_EQ(part_at(built.piece, "unit.door").body.at.y, 0_mm);
}

struct BadDoor {
  std::string_view why;
  std::string door;
  std::vector<std::string> said;
};

TEST(SlabDoor, SaysWhatDoesNotFit) {
  const std::string plain = "stock: oak_board_18, reveal: 2, hinge: cup_hinge_110";
  const BadDoor cases[] = {
      {"an unknown band",
       plain + ", band: band_oac",
       {"`band_oac` is not an edge band of the shop"}},
      {"a cup through the door",
       "stock: oak_5_4, thickness: 12, reveal: 2, hinge: cup_hinge_110",
       {"the cup of cup_hinge_110 is bored 12.5 mm deep, but the door is 12 mm thick"}},
      {"more overlay than the hinge allows",
       plain + ", fit: overlay, overlay: 18.5",
       {"the door covers 18.5 mm at its hinges, but cup_hinge_110 allows 18 mm"}},
      {"an inset door that jams",
       "stock: oak_board_18, reveal: 0, hinge: cup_hinge_110",
       {"an inset door needs a reveal on every side to open"}},
      {"leaves that jam",
       plain + ", leaves: 2, gap: 0",
       {"two leaves need a gap between them to open"}},
      {"a gap that leaves nothing",
       plain + ", leaves: 2, gap: 900",
       {"the reveals leave nothing of an opening 824 mm wide and 684 mm high"}},
      {"a pull too long for the door",
       plain + ", grain: level, pull: pull_bar_oak, top_reveal: 300, bottom_reveal: 230, hinges: 1",
       {"pull_bar_oak has its screws 160 mm apart, the door is only 154 mm"}}};
  for (const BadDoor& c : cases) {
    SCOPED_TRACE(c.why);
    EXPECT_EQ(messages(build_kit("860", "400", "720", wall_box(c.door)).errors), c.said);
  }
}

RC_GTEST_PROP(SlabDoor, FillsItsWidthWithDoorsAndGaps, ()) {
  const int width = *rc::gen::inRange(200, 1500);
  const int leaves = *rc::gen::inRange(1, 3);
  const Length reveal = Length::from_nm(*rc::gen::inRange<std::int64_t>(1, 5'000'000));
  const Length gap = Length::from_nm(*rc::gen::inRange<std::int64_t>(1, 5'000'000));
  const std::string fit = *rc::gen::element<std::string>("inset", "overlay");
  const BuiltPiece built = build_kit(
      std::to_string(width),
      "400",
      "720",
      wall_box(fmt::format("stock: oak_board_18, leaves: {}, fit: {}, reveal: {:.6f}, gap: {:.6f}, "
                           "hinge: cup_hinge_110",
                           leaves,
                           fit,
                           reveal.mm(),
                           gap.mm())));
  RC_LOG() << fmt::format("{}\n", fmt::join(messages(built.errors), "\n"));
  RC_ASSERT(messages(built.errors).empty());
  RC_ASSERT(in_the_way(built.piece).empty());
  RC_ASSERT(afloat(built.piece).empty());
  const Length line = Length::from_mm(width) - (fit == "inset" ? 36_mm : 0_mm);
  Length doors;
  for (const Door& door : built.piece.doors) {
    doors += door.leaf.size.x;
  }
  const Length slack = line - 2 * reveal - gap * (leaves - 1) - doors;
  RC_ASSERT(slack >= Length{} && slack <= Length::from_nm(1));  // the odd nanometre is in the gap
}

}  // namespace
}  // namespace plankwright::piece::test
