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

/// Two posts 300 high with their inner faces 400 apart, and what stands between them.
BuiltPiece between_posts(const std::string& part) {
  return build_kit(
      "460",
      "60",
      "300",
      "part: [{name: post, stock: oak_5_4, at: [0, 0, 0], length: 300, width: 60, thickness: 28, "
      "along: z, thickness_along: x, count: 2, step: [432, 0, 0]}, " +
          part + "]");
}

TEST(PlainPart, StandsWhereItIsPlaced) {
  const BuiltPiece built = between_posts(
      "{name: tool rail, stock: oak_5_4, at: [28, 10, 200], length: 404, width: 70, thickness: 20, "
      "joints: [{to: unit.post_1, kind: mortise_and_tenon, depth: 15}, {to: post_2, kind: "
      "mortise_and_tenon, depth: 15}]}");
  expect_sound(built);
  const Part& rail = part_at(built.piece, "unit.tool_rail");
  EXPECT_EQ(rail.body, (Box{{28_mm, 10_mm, 200_mm}, {404_mm, 20_mm, 70_mm}}));
  EXPECT_EQ(rail.finished, (Size{434_mm, 70_mm, 20_mm}));
  ASSERT_EQ(built.piece.joints.size(), 2U);
  EXPECT_EQ(built.piece.joints[0].home, (Direction{Axis::kX, -1}));
  EXPECT_EQ(built.piece.joints[1].home, (Direction{Axis::kX, 1}));
}

TEST(PlainPart, TakesTheSizesOfItsSpaceWhenNoneAreWritten) {
  const BuiltPiece built =
      build_kit("460", "60", "300", "part: {name: panel, stock: oak_board_18}");
  EXPECT_EQ(part_at(built.piece, "unit.panel").finished, (Size{460_mm, 300_mm, 18_mm}));
}

TEST(PlainPart, IsRepeatedWithItsJoints) {
  const BuiltPiece built = between_posts(
      "{name: slat, stock: oak_5_4, at: [28, 0, 20], length: 404, width: 40, thickness: 20, count: "
      "4, "
      "step: [0, 0, 65], joints: [{to: post_1, kind: dowel, count: 2}, {to: post_2, kind: dowel, "
      "count: 2}]}");
  expect_sound(built);
  EXPECT_EQ(part_at(built.piece, "unit.slat_4").body.at, (Point{28_mm, 0_mm, 215_mm}));
  EXPECT_EQ(built.piece.joints.size(), 8U);
  EXPECT_EQ(part_lines(built.piece).size(), 2U);
}

TEST(PlainPart, MayBeHalvedIntoAnother) {
  const BuiltPiece built = build_kit(
      "400",
      "400",
      "30",
      "part: [{name: long arm, stock: oak_5_4, at: [0, 180, 0], length: 400, width: 40, thickness: "
      "28, "
      "thickness_along: z}, {name: cross arm, stock: oak_5_4, at: [180, 0, 0], length: 400, width: "
      "40, "
      "thickness: 28, along: y, thickness_along: z, joints: [{to: long_arm, kind: halving}]}]");
  expect_sound(built);
  EXPECT_EQ(built.piece.joints.at(0).home.axis, Axis::kZ);
}

TEST(PlainPart, CountsItsFittings) {
  const BuiltPiece built = between_posts(
      "{name: rail, stock: oak_5_4, at: [28, 10, 0], length: 404, width: 60, thickness: 20, "
      "joints: [{to: post_1, kind: screw, count: 3, fitting: screw_4_50}, {to: post_2, kind: "
      "screw}]}");
  EXPECT_EQ(count_fittings(built.piece, "screw_4_50"), 3);
}

struct BadPart {
  std::string why, fields, message;
};

TEST(PlainPart, SaysWhatIsWrong) {
  const BadPart cases[] = {
      {"joined to nothing",
       "joints: [{to: post_3, kind: dowel}]",
       "`post_3` is not a part that stands before this one"},
      {"joined to what it does not touch",
       "length: 300, joints: [{to: post_2, kind: dowel}]",
       "the rail does not lie against `unit.post_2`"},
      {"two sizes for a place",
       "at: [0, 10]",
       "found 2 sizes, expected three: from the left, from the front, from the bottom"},
      {"repeated on the spot",
       "count: 3",
       "found 0 sizes, expected three: from the left, from the front, from the bottom"},
      {"length and thickness one way", "along: y", "length and thickness cannot lie the same way"},
      {"a joint that is none",
       "joints: [{to: post_1, kind: mortice}]",
       "found `mortice`, expected housing, rabbet, groove, mortise_and_tenon, loose_tenon, "
       "stub_tenon, "
       "dovetail, dowel, biscuit, pocket_screw, screw, edge_glue, face_glue, halving, button, "
       "clip, "
       "bolt or stands"},
      {"a tenon through the post",
       "at: [28, 0, 0], joints: [{to: post_1, kind: mortise_and_tenon, depth: 40}]",
       "the mortise and tenon of the rail is 40 mm deep, but the post is only 28 mm thick there"}};
  for (const BadPart& c : cases) {
    SCOPED_TRACE(c.why);
    std::string part = "{name: rail, stock: oak_5_4, width: 40, thickness: 20, ";
    for (const auto& [key, usual] : {std::pair<std::string, std::string>{"at:", "at: [28, 0, 0], "},
                                     {"length:", "length: 404, "}}) {
      part += c.fields.find(key) == std::string::npos ? usual : "";
    }
    EXPECT_THAT(messages(between_posts(part + c.fields + "}").errors), ElementsAre(c.message));
  }
}

RC_GTEST_PROP(PlainPartProperty, KeepsEveryRepeatApart, ()) {
  const int count = *rc::gen::inRange(1, 40);
  const int width = *rc::gen::inRange(5, 60);
  const int gap = *rc::gen::inRange(1, 60);
  const BuiltPiece built = build_kit(
      "5000",
      "100",
      "5000",
      fmt::format(
          "part: {{name: slat, stock: oak_5_4, length: 500, width: {}, thickness: 20, count: {}, "
          "step: [0, 0, {}]}}",
          width,
          count,
          width + gap));
  RC_ASSERT(messages(built.errors) == std::vector<std::string>{});
  RC_ASSERT(static_cast<int>(built.piece.parts.size()) == count);
  RC_ASSERT(in_the_way(built.piece).empty());
  RC_ASSERT(repeated_paths(built.piece).empty());
  RC_ASSERT(whole(built.piece).size.z == Length::from_mm(width * count + gap * (count - 1)));
}

}  // namespace
}  // namespace plankwright::piece::test
