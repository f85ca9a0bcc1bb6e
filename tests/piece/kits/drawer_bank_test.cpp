#include <fmt/format.h>
#include <gmock/gmock.h>
#include <gtest/gtest.h>
#include <rapidcheck/gtest.h>

#include "piece/kits/drawer_box.h"
#include "piece/kits/test_shop.h"

namespace plankwright::piece::test {
namespace {

using namespace measure;  // NOLINT(google-build-using-namespace): length literals
using ::testing::ElementsAre;
using ::testing::IsEmpty;

/// The middle bay of a hall cabinet: 16 1/4 wide, 25 5/8 high, 16 1/4 deep.
BuiltPiece hall_bank(const std::string& way, const std::string& runner) {
  return build_kit(
      "17 3/4",
      "16 1/2",
      "27 1/8",
      "carcase: {stock: cherry_4_4, thickness: 3/4, joint: housed, joint_depth: 1/4, top: rails, "
      "top_rail_width: 3, back: {stock: cherry_ply_1_4, way: rabbet, depth: 1/4}, "
      "drawer_bank: {heights: [4 1/2, 5 3/8, 6 1/4, 7 1/4], "
      "rail: {stock: cherry_4_4, width: 2 1/2, thickness: 3/4, depth: 1/4}, "
      "front: {stock: cherry_4_4, thickness: 3/4, fit: inset, reveal: 1/16, one_run: yes, "
      "pull: knob_turned}, "
      "box: {way: " +
          way +
          ", stock: maple_4_4, side: 1/2, height_less: 1, "
          "bottom_stock: maple_ply_1_4, bottom_groove: 1/4, bought_as: drawer_box_bought}, "
          "runner: " +
          runner + "}}",
      LengthUnit::kInch);
}

// Sizes worked out by hand: fronts are the opening less 1/16 all round; boxes 5/8 narrower and 1
// lower than it and as long as the slides; bottoms 14 5/8 + 2 x 1/4 by 14 + 2 x 1/4, grain across.
TEST(DrawerBank, GivesThePartsOfTheHallCabinet) {
  const BuiltPiece built = hall_bank("dovetailed", "slide_concealed_15");
  expect_sound(built);
  expect_parts(built.piece,
               {{"unit.rail_1", {16.75_in, 2.5_in, 0.75_in}},
                {"unit.rail_3", {16.75_in, 2.5_in, 0.75_in}},
                {"unit.drawer_1.front", {16.125_in, 4.375_in, 0.75_in}},
                {"unit.drawer_2.front", {16.125_in, 5.25_in, 0.75_in}},
                {"unit.drawer_3.front", {16.125_in, 6.125_in, 0.75_in}},
                {"unit.drawer_4.front", {16.125_in, 7.125_in, 0.75_in}},
                {"unit.drawer_1.side_left", {15_in, 3.5_in, 0.5_in}},
                {"unit.drawer_1.box_front", {15.625_in, 3.5_in, 0.5_in}},
                {"unit.drawer_2.side_right", {15_in, 4.375_in, 0.5_in}},
                {"unit.drawer_2.box_back", {15.625_in, 4.375_in, 0.5_in}},
                {"unit.drawer_3.side_left", {15_in, 5.25_in, 0.5_in}},
                {"unit.drawer_3.box_front", {15.625_in, 5.25_in, 0.5_in}},
                {"unit.drawer_4.side_right", {15_in, 6.25_in, 0.5_in}},
                {"unit.drawer_4.box_back", {15.625_in, 6.25_in, 0.5_in}},
                {"unit.drawer_1.bottom", {15.125_in, 14.5_in, 0.25_in}},
                {"unit.drawer_4.bottom", {15.125_in, 14.5_in, 0.25_in}}});
  EXPECT_EQ(count_fittings(built.piece, "slide_concealed_15"), 4);
  EXPECT_EQ(count_fittings(built.piece, "knob_turned"), 4);
  ASSERT_EQ(built.piece.drawers.size(), 4U);
  for (const Drawer& drawer : built.piece.drawers) {
    EXPECT_EQ(drawer.travel, 14.75_in);
    EXPECT_EQ(drawer.parts.size(), 6U);
    EXPECT_FALSE(drawer.bought);
    EXPECT_EQ(drawer.inside.size.x, 14.625_in);
    EXPECT_EQ(drawer.inside.size.y, 14_in);
  }
}

TEST(DrawerBank, RunsTheGrainDownTheFronts) {
  const BuiltPiece built = hall_bank("dovetailed", "slide_concealed_15");
  for (int i = 1; i <= 4; ++i) {
    const Part& front = part_at(built.piece, fmt::format("unit.drawer_{}.front", i));
    EXPECT_EQ(front.run, "unit.drawers");
    EXPECT_EQ(front.place_in_run, i - 1);
    EXPECT_EQ(front.name, fmt::format("drawer front {}", i));
    EXPECT_EQ(front.body.at.y, 0_in);  // flush with the front of the case
  }
}

TEST(DrawerBank, HandsTheSidesAndCutsTheirTails) {
  const BuiltPiece built = hall_bank("dovetailed", "slide_concealed_15");
  EXPECT_EQ(part_at(built.piece, "unit.drawer_1.side_left").hand, Hand::kLeft);
  EXPECT_EQ(part_at(built.piece, "unit.drawer_1.side_right").hand, Hand::kRight);
  int corners = 0;
  for (const Joint& joint : built.piece.joints) {
    if (joint.kind == JointKind::kDovetail) {
      ++corners;
      EXPECT_EQ(joint.count, tails_on(built.piece.parts[joint.a].body.size.z, 0.875_in));
    }
  }
  EXPECT_EQ(corners, 16);
  // A jig with a pitch of 7/8: 3 1/2 is four tails, 6 1/4 about seven.
  EXPECT_EQ(tails_on(3.5_in, 0.875_in), 4);
  EXPECT_EQ(tails_on(6.25_in, 0.875_in), 7);
  EXPECT_EQ(tails_on(0.5_in, 0.875_in), 2);
}

TEST(DrawerBank, BuysBoxesToSize) {
  const BuiltPiece built = hall_bank("bought", "slide_concealed_15");
  expect_sound(built);
  expect_parts(built.piece,
               {{"unit.drawer_1.box", {15_in, 15.625_in, 3.5_in}},
                {"unit.drawer_2.box", {15_in, 15.625_in, 4.375_in}},
                {"unit.drawer_4.box", {15_in, 15.625_in, 6.25_in}},
                {"unit.drawer_4.front", {16.125_in, 7.125_in, 0.75_in}}});
  EXPECT_EQ(part_at(built.piece, "unit.drawer_1.box").material, Material::kBoughtIn);
  EXPECT_EQ(count_fittings(built.piece, "drawer_box_bought"), 4);
  EXPECT_EQ(count_named(built.piece, "drawer bottom"), 0);
  EXPECT_TRUE(built.piece.drawers.front().bought);
}

// Boxes 1/16 narrower than the opening and 1/4 shorter than what is behind the front.
TEST(DrawerBank, RunsOnWood) {
  const BuiltPiece built = hall_bank("dovetailed", "wooden");
  expect_sound(built);
  expect_parts(built.piece,
               {{"unit.drawer_1.side_left", {15.25_in, 3.5_in, 0.5_in}},
                {"unit.drawer_1.box_front", {16.1875_in, 3.5_in, 0.5_in}}});
  EXPECT_EQ(count_named(built.piece, "drawer runner"), 6);  // the lowest drawer runs on the bottom
  EXPECT_EQ(count_named(built.piece, "drawer kicker"), 8);
  EXPECT_EQ(built.piece.drawers.front().travel, 15.25_in * 2 / 3);
  for (const Drawer& drawer : built.piece.drawers) {
    const int slides =
        static_cast<int>(std::ranges::count_if(built.piece.joints, [&](const Joint& joint) {
          return joint.kind == JointKind::kSlide &&
                 std::ranges::find(drawer.parts, joint.a) != drawer.parts.end();
        }));
    EXPECT_GE(slides, 2);
  }
}

struct BoxCase {
  std::string_view way;
  Size side, end;
};

TEST(DrawerBank, MakesCornersInEveryWay) {
  const BoxCase cases[] = {
      {"dovetailed", {400_mm, 174_mm, 12_mm}, {548_mm, 174_mm, 12_mm}},
      {"dowelled", {400_mm, 174_mm, 12_mm}, {524_mm, 174_mm, 12_mm}},
      {"rabbeted", {400_mm, 174_mm, 12_mm}, {536_mm, 174_mm, 12_mm}}};  // 6 mm into each side
  for (const BoxCase& c : cases) {
    SCOPED_TRACE(c.way);
    const BuiltPiece built = build_kit(
        "600",
        "500",
        "236",
        fmt::format(
            "carcase: {{stock: oak_board_18, joint: dowelled, top: panel, drawer_bank: {{"
            "count: 1, front: {{stock: oak_board_18, reveal: 2}}, runner: slide_concealed_400, "
            "box: {{way: {}, stock: maple_4_4, side: 12, bottom_stock: oak_board_6}}}}}}",
            c.way));
    expect_sound(built);
    expect_parts(built.piece,
                 {{"unit.drawer_1.side_left", c.side}, {"unit.drawer_1.box_front", c.end}});
    EXPECT_EQ(part_at(built.piece, "unit.drawer_1.front").name, "drawer front");
  }
}

// A case 600 wide and 720 high, outer sides covered whole less 1.5: 597 wide. Three fronts with 3
// between them, 2 at top and bottom: (720 - 4 - 6) / 3 where the lines are even.
TEST(DrawerBank, StacksOverlayFrontsWithoutRails) {
  const BuiltPiece built = build_kit(
      "600",
      "500",
      "720",
      "carcase: {stock: oak_board_18, joint: dowelled, top: panel, drawer_bank: {count: 3, "
      "front: {stock: oak_board_18, fit: overlay, reveal: 1.5, gap: 3, top_reveal: 2, "
      "bottom_reveal: 2, band: band_oak, pull: pull_bar_oak, pulls: 2}, "
      "box: {stock: maple_4_4, side: 12, bottom_stock: oak_board_6}, runner: "
      "slide_concealed_400}}");
  expect_sound(built);
  // Openings of 228 each in 684; the outer fronts cover a board of 18 less 2, and half a gap
  // inside.
  expect_parts(built.piece,
               {{"unit.drawer_1.front", {597_mm, 228_mm + 16_mm - 1.5_mm, 18_mm}},
                {"unit.drawer_2.front", {597_mm, 225_mm, 18_mm}},
                {"unit.drawer_3.front", {597_mm, 228_mm + 16_mm - 1.5_mm, 18_mm}}});
  const Part& front = part_at(built.piece, "unit.drawer_1.front");
  EXPECT_EQ(front.bands.size(), 4U);
  EXPECT_EQ(front.cut.length, 595_mm);
  EXPECT_EQ(front.body.end(Axis::kY), -1.5_mm + 0_mm);
  EXPECT_EQ(count_fittings(built.piece, "pull_bar_oak"), 6);
  const auto bores = std::ranges::count_if(
      front.features, [](const Feature& f) { return f.kind == FeatureKind::kBore; });
  EXPECT_EQ(bores, 2);
}

struct BadBank {
  std::string_view why;
  std::string bank;
  std::vector<std::string> said;
};

const std::string kFront = "front: {stock: cherry_4_4, thickness: 3/4, reveal: 1/16}";
const std::string kBox = "box: {stock: maple_4_4, side: 1/2, bottom_stock: maple_ply_1_4}";
const std::string kSlides = "runner: slide_concealed_15";

std::vector<std::string> said_of(const std::string& bank) {
  return messages(
      build_kit("20",
                "16 1/2",
                "20",
                "carcase: {stock: cherry_4_4, thickness: 3/4, joint: housed, top: panel, "
                "drawer_bank: {" +
                    bank + "}}",
                LengthUnit::kInch)
          .errors);
}

TEST(DrawerBank, SaysWhatDoesNotFit) {
  const BadBank cases[] = {
      {"too much by 3/8: 18 1/2 clear",
       "heights: [6, 6, 6 7/8], " + kFront + ", " + kBox + ", " + kSlides,
       {"these drawers add up to 18 7/8 in, but the opening is 18 1/2 in high: 3/8 in too much"}},
      {"too little, with rails",
       "heights: [8, 8], rail: {stock: cherry_4_4, width: 2, thickness: 3/4}, " + kFront + ", " +
           kBox + ", " + kSlides,
       {"these drawers and their rails add up to 16 3/4 in, but the opening is 18 1/2 in high: 1 "
        "3/4 "
        "in is left over"}},
      {"heights and count",
       "heights: [9 1/4, 9 1/4], count: 2, " + kFront + ", " + kBox + ", " + kSlides,
       {"the heights are written: leave `count` out"}},
      {"neither",
       kFront + ", " + kBox + ", " + kSlides,
       {"say the `heights` of the drawers, or their `count`"}},
      {"a step without its rule",
       "count: 3, step: 1, " + kFront + ", " + kBox + ", " + kSlides,
       {"`step` belongs to arithmetic grading"}},
      {"a rule without its step",
       "count: 3, grading: arithmetic, " + kFront + ", " + kBox + ", " + kSlides,
       {"arithmetic grading needs a `step`"}},
      {"a step that eats the top drawer",
       "count: 3, grading: arithmetic, step: 8, " + kFront + ", " + kBox + ", " + kSlides,
       {"3 drawers by this rule leave one of them nothing of the 18 1/2 in there is"}},
      {"unknown slides",
       "count: 2, " + kFront + ", " + kBox + ", runner: slide_concealed_16",
       {"`slide_concealed_16` is not a fitting of the shop, expected a slide pair or `wooden`"}},
      {"a knob for slides",
       "count: 2, " + kFront + ", " + kBox + ", runner: knob_turned",
       {"`knob_turned` is a pull of the shop, expected a slide pair or `wooden`"}},
      {"reveals that leave nothing",
       "count: 2, front: {stock: cherry_4_4, thickness: 3/4, reveal: 10}, " + kBox + ", " + kSlides,
       {"the reveals leave no drawer front in an opening 18 1/2 in wide and 9 1/4 in high"}},
      {"too little room for the slides",
       "count: 2, box: {stock: maple_4_4, side: 1/2, bottom_stock: maple_ply_1_4, height_less: "
       "1/2}, " +
           kFront + ", " + kSlides,
       {"these slides need 1 in of the height of the opening, found 1/2 in"}},
      {"a box without height",
       "count: 2, box: {stock: maple_4_4, side: 1/2, bottom_stock: maple_ply_1_4, height_less: "
       "10}, " +
           kFront + ", " + kSlides,
       {"a box 10 in lower than its opening of 9 1/4 in has no room"}},
      {"a box without bottom",
       "count: 2, box: {stock: maple_4_4, side: 1/2, bottom_stock: maple_ply_1_4, bottom_up: 8}, " +
           kFront + ", " + kSlides,
       {"a box 8 1/4 in high has no room for a bottom of 1/4 in that stands 8 in up in it"}},
      {"a groove through the side",
       "count: 2, box: {stock: maple_4_4, side: 1/2, bottom_stock: maple_ply_1_4, bottom_groove: "
       "1/2}, " +
           kFront + ", " + kSlides,
       {"a groove 1/2 in deep goes through a side 1/2 in thick"}},
      {"a rail deeper than the case",
       "count: 2, rail: {stock: cherry_4_4, width: 17, thickness: 3/4}, " + kFront + ", " + kBox +
           ", " + kSlides,
       {"rails 17 in from front to back do not fit in an opening 16 1/2 in deep"}},
      {"nothing to make boxes of",
       "count: 2, box: {}, " + kFront + ", " + kSlides,
       {"`stock` is missing: stock of sides and ends",
        "`bottom_stock` is missing: stock of the bottom",
        "`side` is missing: thickness of a side"}},
      {"nothing to buy",
       "count: 2, box: {way: bought}, " + kFront + ", " + kSlides,
       {"`bought_as` is missing: the bought box in the shop's list of fittings"}},
      {"wooden runners of nothing",
       "count: 2, box: {way: bought, bought_as: drawer_box_bought}, " + kFront + ", runner: wooden",
       {"`runner_stock` is missing: stock of wooden runners"}},
      {"an inset front that jams",
       "count: 2, front: {stock: cherry_4_4, thickness: 3/4, reveal: 0}, " + kBox + ", " + kSlides,
       {"an inset drawer front needs a reveal on every side to open"}},
      {"fronts that jam",
       "count: 2, front: {stock: cherry_4_4, thickness: 3/4, fit: overlay, reveal: 1/16, gap: "
       "0}, " +
           kBox + ", " + kSlides,
       {"drawer fronts need a gap between them to open"}},
      {"a box as high as its opening",
       "count: 1, box: {stock: maple_4_4, side: 1/2, bottom_stock: maple_ply_1_4, height_less: "
       "0}, " +
           kFront + ", runner: wooden",
       {"a box 0 in lower than its opening of 18 1/2 in has no room"}},
      {"a pull too wide: 18 1/2 - 2 x 6 1/4",
       "count: 1, front: {stock: cherry_4_4, thickness: 3/4, reveal: 6 1/4, pull: pull_bar_oak}, " +
           kBox + ", " + kSlides,
       {"pull_bar_oak has its screws 6 5/16- in apart, the drawer front is only 6 in"}}};
  for (const BadBank& c : cases) {
    SCOPED_TRACE(c.why);
    EXPECT_EQ(said_of(c.bank), c.said);
  }
}

// The runner stands clear of the front leg, and a box so short does not reach it.
TEST(DrawerBank, NeedsABoxThatReachesItsRunners) {
  EXPECT_EQ(
      messages(
          build_kit("1200",
                    "600",
                    "725",
                    "leg_and_rail_frame: {leg: {stock: oak_8_4, size: 60, layers: 2}, "
                    "rail: {stock: oak_5_4, height: 120, thickness: 22}, open_front: yes, "
                    "drawer_bank: {count: 1, front: {stock: oak_5_4, thickness: 20}, "
                    "box: {stock: maple_4_4, side: 12, bottom_stock: oak_board_6, length: 40}, "
                    "runner_stock: oak_8_4, runner: wooden}}")
              .errors),
      std::vector<std::string>{
          "the drawer box does not lie on its runners: too short or too narrow"});
}

TEST(DrawerBank, NeedsSomethingOnBothSides) {
  EXPECT_EQ(
      messages(build_kit("20",
                         "16",
                         "20",
                         "drawer_bank: {count: 2, " + kFront + ", " + kBox + ", " + kSlides + "}",
                         LengthUnit::kInch)
                   .errors),
      std::vector<std::string>{"there is nothing at the left of this opening to hold a drawer"});
}

RC_GTEST_PROP(DrawerBank, IsSoundAndClosesExactly, ()) {
  const int width = *rc::gen::inRange(300, 1200);
  const int height = *rc::gen::inRange(500, 1500);
  const int count = *rc::gen::inRange(1, 5);
  const std::string grading = *rc::gen::element<std::string>(
      "", ", grading: arithmetic, step: 9", ", grading: geometric, ratio: 1.15");
  const std::string fit = *rc::gen::element<std::string>("inset", "overlay");
  const bool railed = *rc::gen::arbitrary<bool>();
  const std::string runner = *rc::gen::element<std::string>("slide_concealed_400", "wooden");
  const std::string way =
      *rc::gen::element<std::string>("dovetailed", "dowelled", "rabbeted", "bought");
  const std::string way_on_wood =
      runner == "wooden" && !railed ? "height_less: 40, " : "height_less: 30, ";
  const BuiltPiece built = build_kit(
      std::to_string(width),
      "500",
      std::to_string(height),
      fmt::format(
          "carcase: {{stock: oak_board_18, joint: dowelled, top: panel, "
          "back: {{stock: oak_board_6, way: groove, depth: 9, inset: 12}}, drawer_bank: {{"
          "count: {}{}, {}front: {{stock: oak_5_4, thickness: 20, reveal: 2, fit: {}}}, "
          "runner: {}, runner_stock: maple_4_4, box: {{way: {}, {}stock: maple_4_4, side: 12, "
          "bottom_stock: oak_board_6, bought_as: drawer_box_bought}}}}}}",
          count,
          grading,
          railed ? "rail: {stock: oak_5_4, width: 60, thickness: 20}, " : "",
          fit,
          runner,
          way,
          way_on_wood));
  RC_LOG() << fmt::format("{}\n", fmt::join(messages(built.errors), "\n"));
  RC_ASSERT(messages(built.errors).empty());
  RC_ASSERT(in_the_way(built.piece).empty());
  RC_ASSERT(loose_contacts(built.piece).empty());
  RC_ASSERT(afloat(built.piece).empty());
  RC_ASSERT(built.piece.drawers.size() == static_cast<std::size_t>(count));
  // Fronts, the gaps between them and, when inset, the rails fill the height.
  const Length between_fronts = fit == "inset" ? railed ? 24_mm : 2_mm : 4_mm;
  Length sum;
  for (int i = 1; i <= count; ++i) {
    sum += part_at(built.piece, fmt::format("unit.drawer_{}.front", i)).body.size.z;
  }
  const Length all = Length::from_mm(height) - (fit == "inset" ? 36_mm : 0_mm) - 4_mm;
  RC_ASSERT(sum + between_fronts * (count - 1) == all);
}

RC_GTEST_PROP(DrawerBank, SurvivesAnySizes, ()) {
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
      "carcase: {{stock: oak_board_18, top: panel, drawer_bank: {{heights: {}, count: {}, step: "
      "{}, ratio: {}, "
      "rail: {{stock: oak_5_4, width: {}, thickness: {}, depth: {}}}, front: {{stock: oak_5_4, "
      "thickness: {}, "
      "reveal: {}, gap: {}, pull: pull_bar_oak, pulls: {}}}, runner: wooden, box: {{stock: "
      "maple_4_4, side: {}, "
      "bottom_stock: oak_board_6, length: {}, height_less: {}, bottom_up: {}, tail_pitch: {}}}}}}}",
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
  const BuiltPiece built = build_kit("600", "500", "700", kit);
  RC_ASSERT(!built.errors.empty() || in_the_way(built.piece).empty());
}

}  // namespace
}  // namespace plankwright::piece::test
