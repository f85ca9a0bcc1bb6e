#include <map>

#include <fmt/format.h>
#include <gmock/gmock.h>
#include <gtest/gtest.h>
#include <rapidcheck/gtest.h>

#include "piece/kits/frame_tenons.h"
#include "piece/kits/test_shop.h"

namespace plankwright::piece::test {
namespace {

using namespace measure;  // NOLINT(google-build-using-namespace): length literals
using ::testing::ElementsAre;
using ::testing::IsEmpty;
using ::testing::UnorderedElementsAre;

/// The base of a hall cabinet, with `more` fields of the kit.
BuiltPiece cabinet_base(const std::string& more) {
  return build_kit("48",
                   "16 1/4",
                   "6",
                   "leg_and_rail_frame: {leg: {stock: cherry_8_4, size: 1 3/4, taper_to: 1 1/4}, "
                   "rail: {stock: cherry_5_4, height: 4, thickness: 7/8, setback: 1/8}, "
                   "tenon: {length: 3/4, thickness: 3/8}" +
                       more + "}",
                   LengthUnit::kInch);
}

BuiltPiece table_base(const std::string& more) {
  return build_kit("1900",
                   "810",
                   "718",
                   "leg_and_rail_frame: {leg: {stock: oak_8_4, size: 80, layers: 2, taper_to: 50}, "
                   "rail: {stock: oak_5_4, height: 100, thickness: 27, setback: 6}, "
                   "tenon: {length: 40, thickness: 12}" +
                       more + "}");
}

const std::string kBlocks =
    ", corner_block: {stock: oak_5_4, length: 140, width: 100, thickness: 27, bolt: leg_bolt_m8, "
    "insert: insert_m8}";

std::map<std::string, int> joint_counts(const Piece& piece) {
  std::map<std::string, int> counts;
  for (const Joint& joint : piece.joints) {
    ++counts[std::string{word(joint.kind)} + (joint.undone ? ", undone" : "")];
  }
  return counts;
}

// Sizes worked out by hand: 48 - 2 x 1 3/4 + 2 x 3/4 = 46, 16 1/4 - 3 1/2 + 1 1/2 = 14 1/4, and
// between the rails 16 1/4 - 2 x (1/8 + 7/8) + 2 x 1/2 = 15 1/4.
TEST(LegAndRailFrame, GivesThePartsOfACabinetBase) {
  const BuiltPiece built = cabinet_base(
      ", front_arch: {rise: 1 3/4, span: 40}, cross_rail: {stock: cherry_4_4, height: 3, "
      "thickness: 3/4, tenon_length: 1/2}, glides: glide_felt");
  expect_sound(built);
  expect_parts(built.piece,
               {{"unit.leg_front_left", {6_in, 1.75_in, 1.75_in}},
                {"unit.leg_back_right", {6_in, 1.75_in, 1.75_in}},
                {"unit.rail_front", {46_in, 4_in, 0.875_in}},
                {"unit.rail_back", {46_in, 4_in, 0.875_in}},
                {"unit.rail_left", {14.25_in, 4_in, 0.875_in}},
                {"unit.rail_right", {14.25_in, 4_in, 0.875_in}},
                {"unit.cross_rail", {15.25_in, 3_in, 0.75_in}}});
  EXPECT_EQ(built.piece.parts.size(), 9U);
  EXPECT_EQ(part_lines(built.piece).size(), 5U);  // legs, arched, back and side rails, cross rail
  EXPECT_EQ(count_fittings(built.piece, "glide_felt"), 4);
  EXPECT_EQ(whole(built.piece).size, (Point{48_in, 16.25_in, 6_in}));
}

// 1900 - 160 = 1740 between the legs, + 2 x 40; 810 - 160 + 80; 810 - 2 x (6 + 27) + 2 x 10.
TEST(LegAndRailFrame, GivesThePartsOfATableThatComesApart) {
  const BuiltPiece built = table_base(
      ", corner: bolted" + kBlocks +
      ", cross_rail: {count: 2, stock: oak_5_4, height: 80, thickness: 27, tenon_length: 10}");
  expect_sound(built);
  expect_parts(built.piece,
               {{"unit.leg_front_left", {718_mm, 80_mm, 80_mm}},
                {"unit.rail_front", {1820_mm, 100_mm, 27_mm}},
                {"unit.rail_left", {730_mm, 100_mm, 27_mm}},
                {"unit.cross_rail_2", {764_mm, 80_mm, 27_mm}},
                {"unit.corner_block_1", {140_mm, 100_mm, 27_mm}}});
  EXPECT_EQ(part_at(built.piece, "unit.leg_front_left").layers, 2);
  EXPECT_EQ(count_named(built.piece, "long rail"), 2);
  EXPECT_EQ(count_named(built.piece, "short rail"), 2);
  EXPECT_EQ(count_named(built.piece, "corner block"), 4);
  EXPECT_EQ(count_fittings(built.piece, "leg_bolt_m8"), 4);
  EXPECT_EQ(count_fittings(built.piece, "insert_m8"), 8);
  EXPECT_THAT(joint_counts(built.piece),
              UnorderedElementsAre(std::pair{"mortise and tenon, undone", 8},
                                   std::pair{"housing", 4},
                                   std::pair{"bolt, undone", 4},
                                   std::pair{"screw", 4},
                                   std::pair{"screw, undone", 4}));
  // Four legs, the long rails with their cross rails, and each short rail with its blocks.
  EXPECT_EQ(built.piece.packages.size(), 7U);
  for (const Joint& joint : built.piece.joints) {
    EXPECT_TRUE(joint.kind != JointKind::kMortiseTenon || !joint.glued);
  }
}

TEST(LegAndRailFrame, IsOnePackageWhenGlued) {
  const BuiltPiece built = table_base(", corner: glued" + kBlocks);
  expect_sound(built);
  EXPECT_EQ(built.piece.packages.size(), 1U);
  EXPECT_EQ(count_named(built.piece, "corner block"), 0);
}

TEST(LegAndRailFrame, TapersTheInnerFacesBelowTheRails) {
  const BuiltPiece built = cabinet_base("");
  const auto faces = [&](std::string_view path) {
    std::vector<std::pair<Axis, int>> sides;
    for (const Taper& taper : part_at(built.piece, path).tapers) {
      EXPECT_EQ(taper.from, 4_in);
      EXPECT_EQ(taper.to_size, 1.25_in);
      sides.emplace_back(taper.side.axis, taper.side.sign);
    }
    return sides;
  };
  EXPECT_THAT(faces("unit.leg_front_left"),
              UnorderedElementsAre(std::pair{Axis::kX, 1}, std::pair{Axis::kY, 1}));
  EXPECT_THAT(faces("unit.leg_back_right"),
              UnorderedElementsAre(std::pair{Axis::kX, -1}, std::pair{Axis::kY, -1}));
  const auto tapers = [](const std::string& leg) {
    return part_at(build_kit("1000",
                             "500",
                             "700",
                             "leg_and_rail_frame: {leg: {stock: oak_8_4, size: 40, " + leg +
                                 "}, rail: {stock: oak_5_4, height: 80, thickness: 20}}")
                       .piece,
                   "unit.leg_front_left")
        .tapers.size();
  };
  EXPECT_EQ(tapers("taper_to: 25, taper_faces: all"), 4U);
  EXPECT_EQ(tapers("taper_to: 25, taper_faces: none"), 0U);
  EXPECT_EQ(tapers("layers: 1"), 0U);
}

TEST(LegAndRailFrame, PutsTheArchInTheLowerEdgeOfTheFrontRail) {
  const BuiltPiece built = cabinet_base(", front_arch: {rise: 1 3/4, span: 40, way: bent}");
  const Part& front = part_at(built.piece, "unit.rail_front");
  ASSERT_TRUE(front.arch.has_value());
  EXPECT_EQ(front.name, "arched front rail");
  EXPECT_EQ(front.arch->side, (Direction{Axis::kZ, -1}));
  EXPECT_TRUE(front.arch->bent);
  EXPECT_TRUE(front.risky);
  EXPECT_FALSE(part_at(built.piece, "unit.rail_back").arch.has_value());
}

struct HandCase {
  std::string_view why;
  std::string leg, more;
  std::array<std::string_view, 4> names;
  std::array<Hand, 4> hands;
};

// A leg with like mortises in both faces is its own mirror image; a half turn brings the front left
// leg to the back right corner.
TEST(LegAndRailFrame, HandsLegsOnlyWhereTheirMortisesDiffer) {
  const HandCase cases[] = {{"all alike",
                             "size: 50",
                             "height: 90",
                             {"leg", "leg", "leg", "leg"},
                             {Hand::kNone, Hand::kNone, Hand::kNone, Hand::kNone}},
                            {"lower side rails",
                             "size: 50",
                             "height: 90, side_height: 60",
                             {"leg", "leg", "leg", "leg"},
                             {Hand::kLeft, Hand::kRight, Hand::kRight, Hand::kLeft}},
                            {"legs that are not square",
                             "width: 50, depth: 40",
                             "height: 90",
                             {"leg", "leg", "leg", "leg"},
                             {Hand::kLeft, Hand::kRight, Hand::kRight, Hand::kLeft}},
                            {"a lower front rail",
                             "size: 50",
                             "height: 90, front_height: 50",
                             {"front leg", "front leg", "back leg", "back leg"},
                             {Hand::kLeft, Hand::kRight, Hand::kNone, Hand::kNone}}};
  for (const HandCase& c : cases) {
    SCOPED_TRACE(c.why);
    const BuiltPiece built =
        build_kit("1000",
                  "500",
                  "700",
                  "leg_and_rail_frame: {leg: {stock: oak_16_4, " + c.leg +
                      "}, rail: {stock: oak_5_4, thickness: 20, " + c.more + "}}");
    expect_sound(built);
    std::size_t i = 0;
    for (const char* path :
         {"leg_front_left", "leg_front_right", "leg_back_left", "leg_back_right"}) {
      const Part& leg = part_at(built.piece, std::string{"unit."} + path);
      EXPECT_EQ(leg.name, c.names[i]);
      EXPECT_EQ(leg.hand, c.hands[i]);
      ++i;
    }
  }
}

TEST(LegAndRailFrame, SetsStretchersBetweenTheLegs) {
  const BuiltPiece built = build_kit(
      "1000",
      "500",
      "700",
      "leg_and_rail_frame: {leg: {stock: oak_8_4, size: 40, taper_to: 30}, "
      "rail: {stock: oak_5_4, height: 80, thickness: 20, setback: 3}, tenon: {length: 20}, "
      "stretchers: {stock: oak_5_4, height: 40, thickness: 20, above_floor: 120, centre: yes}}");
  expect_sound(built);
  expect_parts(built.piece,
               {{"unit.stretcher_left", {420_mm + 40_mm, 40_mm, 20_mm}},
                {"unit.stretcher_centre", {1000_mm - 2 * 30_mm + 20_mm, 40_mm, 20_mm}}});
  EXPECT_EQ(part_at(built.piece, "unit.stretcher_left").body.at, (Point{10_mm, 40_mm, 120_mm}));
  // The legs taper from below the stretchers, so that these have square shoulders.
  EXPECT_EQ(part_at(built.piece, "unit.leg_back_left").tapers.front().from, 580_mm);
}

TEST(LegAndRailFrame, HoldsADrawerWhereTheFrontIsOpen) {
  for (const std::string runner : {"slide_concealed_400", "wooden"}) {
    SCOPED_TRACE(runner);
    const BuiltPiece built = build_kit(
        "1200",
        "600",
        "725",
        "leg_and_rail_frame: {leg: {stock: oak_8_4, size: 60, layers: 2}, "
        "rail: {stock: oak_5_4, height: 120, thickness: 22, setback: 5}, open_front: yes, "
        "drawer_bank: {count: 1, front: {stock: oak_5_4, thickness: 20, reveal: 2}, "
        "box: {stock: maple_4_4, side: 12, bottom_stock: oak_board_6, height_less: 30}, "
        "runner_stock: oak_8_4, runner: " +
            runner + "}}");
    expect_sound(built);
    // 1200 - 2 x 60 between the legs, less a reveal on each side; 120 high.
    expect_parts(built.piece, {{"unit.front.drawer_1.front", {1076_mm, 116_mm, 20_mm}}});
    EXPECT_EQ(count_named(built.piece, "slide packing"), runner == "wooden" ? 0 : 2);
    EXPECT_EQ(count_named(built.piece, "drawer runner"), runner == "wooden" ? 2 : 0);
    ASSERT_EQ(built.piece.openings.size(), 2U);
    EXPECT_EQ(built.piece.openings[0].name, "unit.under");
    EXPECT_EQ(built.piece.openings[0].box.size.z, 605_mm);
    EXPECT_EQ(built.piece.openings[1].filled_with, "drawer_bank");
  }
}

struct BadFrame {
  std::string_view why;
  std::string kit;
  std::vector<std::string> said;
};

std::string frame_with(const std::string& leg,
                       const std::string& rail,
                       const std::string& more = "") {
  return "leg_and_rail_frame: {leg: {stock: oak_8_4, " + leg + "}, rail: {stock: oak_5_4, " + rail +
         "}" + more + "}";
}

TEST(LegAndRailFrame, SaysWhatDoesNotFit) {
  const std::string leg = "size: 40";
  const std::string rail = "height: 80, thickness: 20, setback: 5";
  const BadFrame cases[] = {
      {"no section",
       frame_with("layers: 1", rail),
       {"say the `size` of a square leg, or its `width` and `depth`"}},
      {"legs that meet",
       frame_with("size: 250, layers: 9", rail),
       {"two legs of 250 mm leave nothing between them in 500 mm"}},
      {"a rail higher than the legs",
       frame_with(leg, "height: 800, thickness: 20"),
       {"the rail is 800 mm high, its legs only 700 mm"}},
      {"a rail outside its leg",
       frame_with(leg, "height: 80, thickness: 20, setback: 21"),
       {"a rail 20 mm thick and 21 mm back from the face stands out of a leg of 40 mm"}},
      {"tenons that meet: 40 - (5 + 13.5) = 21.5, mitred 40 - (5 + 6.5)",
       frame_with(leg, rail, ", tenon: {length: 30, thickness: 7}"),
       {"tenons of 30 mm meet in the front left leg: 21.5 mm is the longest that fits, 28.5 mm "
        "with "
        "`mitred: yes`"}},
      {"mitred tenons that meet all the same",
       frame_with(leg, rail, ", tenon: {length: 30, thickness: 7, mitred: yes}"),
       {"tenons of 30 mm meet in the front left leg: 28.5 mm is the longest that fits"}},
      {"a tenon through the leg",
       frame_with(leg, rail, ", tenon: {length: 40, thickness: 7}"),
       {"tenons of 40 mm come out of a leg of 40 mm"}},
      {"a tenon as thick as its rail",
       frame_with(leg, rail, ", tenon: {thickness: 20}"),
       {"a tenon 20 mm thick leaves no shoulder on a rail of 20 mm"}},
      {"an arch through the rail",
       frame_with(leg, rail, ", front_arch: {rise: 80, span: 500}"),
       {"an arch that rises 80 mm cuts through a rail 80 mm high"}},
      {"an arch that leaves too little",
       frame_with(leg, rail, ", front_arch: {rise: 60, span: 500}"),
       {"an arch that rises 60 mm leaves 20 mm of a rail 80 mm high, less than a third"}},
      {"an arch wider than the rail: 1000 - 80",
       frame_with(leg, rail, ", front_arch: {rise: 20, span: 930}"),
       {"an arch of 930 mm is wider than the 920 mm between the legs"}},
      {"an arch without a rail",
       frame_with(leg, rail, ", front_arch: {rise: 20, span: 500}, open_front: yes"),
       {"there is no front rail for this arch"}},
      {"two rails only",
       frame_with(leg, rail, ", sides: [front, back]"),
       {"these rails do not tie the four legs together"}},
      {"a side that is none",
       frame_with(leg, rail, ", sides: [frnt, back, left, right]"),
       {"found `frnt`, expected front, back, left or right"}},
      {"bolts without blocks",
       frame_with(leg, rail, ", corner: bolted"),
       {"bolted corners need a `corner_block`"}},
      {"a block wider than the rail",
       frame_with(leg,
                  rail,
                  ", corner: bolted, corner_block: {stock: oak_5_4, length: 100, width: 90, "
                  "thickness: 25}"),
       {"the block is 90 mm wide, its rail only 80 mm high"}},
      {"blocks that meet: 500 - 80 = 420",
       frame_with(leg,
                  rail,
                  ", corner: bolted, corner_block: {stock: oak_5_4, length: 211, width: 60, "
                  "thickness: 25}"),
       {"two blocks of 211 mm do not fit along a rail of 420 mm"}},
      {"a taper that begins among the rails",
       frame_with("size: 40, taper_to: 30, taper_from: 79", rail),
       {"the taper begins 79 mm down, but rails or stretchers meet the leg as far as 80 mm down"}},
      {"a taper that widens",
       frame_with("size: 40, taper_to: 41", rail),
       {"a leg of 40 mm cannot taper to 41 mm"}},
      {"a cross rail higher than its rails",
       frame_with(leg, rail, ", cross_rail: {stock: oak_5_4, height: 81, thickness: 20}"),
       {"the cross rail is 81 mm high, the rail it is let into only 80 mm"}},
      {"a cross rail let in too deep",
       frame_with(leg,
                  rail,
                  ", cross_rail: {stock: oak_5_4, height: 60, thickness: 20, tenon_length: 20}"),
       {"let in 20 mm, a cross rail comes out of a rail 20 mm thick"}},
      {"stretchers in the rails",
       frame_with(leg,
                  rail,
                  ", stretchers: {stock: oak_5_4, height: 40, thickness: 20, above_floor: 590}"),
       {"stretchers 40 mm high and 590 mm above the floor reach past 620 mm, where the rails "
        "begin"}},
      {"a drawer behind a rail",
       frame_with(leg, rail, ", drawer_bank: {}"),
       {"a drawer needs `open_front: yes`"}},
      {"a leg too thick for its stock",
       frame_with("size: 60", rail),
       {"the leg is 60 mm thick, but oak_8_4 finishes at 44 mm at most"}},
      {"a glide that is none",
       frame_with(leg, rail, ", glides: glide_fell"),
       {"`glide_fell` is not a fitting of the shop, expected a glide"}}};
  for (const BadFrame& c : cases) {
    SCOPED_TRACE(c.why);
    EXPECT_EQ(messages(build_kit("1000", "500", "700", c.kit).errors), c.said);
  }
}

TEST(LegAndRailFrame, BlamesTheFieldThatIsWrong) {
  const BuiltPiece built = build(
      "width: 1000\ndepth: 500\nheight: 700\nleg_and_rail_frame:\n"
      "  leg: {stock: oak_8_4, size: 40}\n"
      "  rail: {stock: oak_5_4, height: 80, thickness: 20}\n"
      "  tenon:\n"
      "    length: 33\n");
  ASSERT_EQ(built.errors.size(), 1U);
  EXPECT_EQ(built.errors[0].at->line, 8);
  EXPECT_EQ(built.errors[0].at->column, 13);
  EXPECT_EQ(built.errors[0].code, base::ErrorCode::kDoesNotFit);
}

Box tenon_box(const FrameJoint& joint, const Member& member, Length leg, bool along_x) {
  const Length near = member.setback + (member.thickness - tenon_thickness(joint, member)) / 2;
  const Length wide = tenon_thickness(joint, member);
  const Length tip = leg - joint.length;
  return along_x ? Box{{tip, near, 0_mm}, {joint.length, wide, 10_mm}}
                 : Box{{near, tip, 0_mm}, {wide, joint.length, 10_mm}};
}

// Against the boxes themselves: at the longest length two tenons do not share a hair, and at a hair
// more both of them do.
RC_GTEST_PROP(LongestTenon, StopsWhereTheOtherTenonBegins, ()) {
  const auto mm = [](int low, int high) { return Length::from_mm(*rc::gen::inRange(low, high)); };
  const Length x = mm(30, 100);
  const Length y = mm(30, 100);
  Member first;
  first.thickness = mm(12, 30);
  first.setback = mm(0, static_cast<int>((y - first.thickness).mm()) + 1);
  Member second;
  second.thickness = mm(12, 30);
  second.setback = mm(0, static_cast<int>((x - second.thickness).mm()) + 1);
  FrameJoint joint;
  joint.thickness = mm(4, 12);
  joint.length = longest_tenon(joint, first, second, x, y);
  const auto shared = [&] {
    return intersection(tenon_box(joint, first, x, true), tenon_box(joint, second, y, false));
  };
  RC_ASSERT(shared().empty());
  joint.length += Length::from_nm(1);
  RC_ASSERT(!shared().empty());
}

// 80 mm legs, rails of 27 set back 6, tenons of 12: 80 - (6 + 19.5), mitred 80 - (6 + 7.5).
TEST(LongestTenon, IsFoundByHand) {
  Member rail;
  rail.thickness = 27_mm;
  rail.setback = 6_mm;
  FrameJoint joint;
  joint.thickness = 12_mm;
  EXPECT_EQ(longest_tenon(joint, rail, rail, 80_mm, 80_mm), 54.5_mm);
  joint.mitred = true;
  EXPECT_EQ(longest_tenon(joint, rail, rail, 80_mm, 80_mm), 66.5_mm);
}

RC_GTEST_PROP(LegAndRailFrame, FillsItsSpace, ()) {
  const int width = *rc::gen::inRange(400, 3000);
  const int depth = *rc::gen::inRange(300, 1200);
  const int height = *rc::gen::inRange(200, 1100);
  const int leg = *rc::gen::inRange(30, 88);
  const int thickness = *rc::gen::inRange(10, 28);
  const int setback = *rc::gen::inRange(0, leg - thickness + 1);
  const int rail = *rc::gen::inRange(30, 120);
  const std::string sides = *rc::gen::element<std::string>(
      "[front, back, left, right]", "[back, left, right]", "[front, back, left]");
  const std::string joint =
      *rc::gen::element<std::string>("mortise_and_tenon", "loose_tenon", "dowel");
  const BuiltPiece built = build_kit(
      std::to_string(width),
      std::to_string(depth),
      std::to_string(height),
      fmt::format(
          "leg_and_rail_frame: {{leg: {{stock: oak_8_4, layers: 2, size: {}, taper_to: 25}}, "
          "rail: {{stock: oak_5_4, height: {}, thickness: {}, setback: {}}}, sides: {}, joint: "
          "{}}}",
          leg,
          rail,
          thickness,
          setback,
          sides,
          joint));
  RC_ASSERT(messages(built.errors).empty());
  RC_ASSERT(in_the_way(built.piece).empty());
  RC_ASSERT(loose_contacts(built.piece).empty());
  RC_ASSERT(afloat(built.piece).empty());
  const Point size = whole(built.piece).size;
  RC_ASSERT(size.x == Length::from_mm(width) && size.y == Length::from_mm(depth) &&
            size.z == Length::from_mm(height));
}

// Nothing written may bring the kit down.
RC_GTEST_PROP(LegAndRailFrame, SurvivesAnySizes, ()) {
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
      "leg_and_rail_frame: {{leg: {{stock: oak_8_4, size: {}, layers: {}, taper_to: {}, "
      "taper_from: {}}}, "
      "rail: {{stock: oak_5_4, height: {}, thickness: {}, setback: {}}}, tenon: {{length: {}, "
      "thickness: {}}}, "
      "cross_rail: {{count: {}, stock: oak_5_4, height: {}, thickness: {}}}, corner: bolted, "
      "corner_block: {{stock: oak_5_4, length: {}, width: {}, thickness: {}}}, "
      "stretchers: {{stock: oak_5_4, height: {}, thickness: {}, above_floor: {}, centre: yes}}, "
      "front_arch: {{rise: {}, span: {}}}}}",
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
      any(),
      any(),
      any(),
      any(),
      any(),
      any());
  const BuiltPiece built = build_kit("1000", "500", "700", kit);
  RC_ASSERT(!built.errors.empty() || in_the_way(built.piece).empty());
}

}  // namespace
}  // namespace plankwright::piece::test
