#include <fmt/format.h>
#include <gmock/gmock.h>
#include <gtest/gtest.h>
#include <rapidcheck/gtest.h>

#include "piece/kits/test_shop.h"

namespace plankwright::piece::test {
namespace {

using namespace measure;  // NOLINT(google-build-using-namespace): length literals
using ::testing::ElementsAre;

BuiltPiece wall_plinth() {
  return build_kit(
      "2580",
      "380",
      "90",
      "ladder_base: {stock: oak_board_18, sections: 2, cross_members: 7, joint: screwed, "
      "kick: {stock: oak_board_18, pieces: 2, over_left: 30, over_right: 30, site_length: 20, "
      "site_height: 5}, leveller: plinth_block, levellers: 8}");
}

// Sizes worked out by hand for a plinth 2580 long in two ladders: 380 - 2 x 18 = 344 between rails.
TEST(LadderBase, GivesThePartsOfTheStudyWall) {
  const BuiltPiece built = wall_plinth();
  expect_sound(built);
  expect_parts(built.piece,
               {{"unit.rail_front_1", {1290_mm, 90_mm, 18_mm}},
                {"unit.rail_back_2", {1290_mm, 90_mm, 18_mm}},
                {"unit.member_1_4", {344_mm, 90_mm, 18_mm}},
                {"unit.member_2_3", {344_mm, 90_mm, 18_mm}}});
  EXPECT_EQ(count_named(built.piece, "unit rail"), 4);
  EXPECT_EQ(count_named(built.piece, "unit cross member"), 7);
  EXPECT_EQ(count_fittings(built.piece, "plinth_block"), 8);
  const Part& kick = part_at(built.piece, "unit.kick_1");
  EXPECT_EQ(kick.cut, (Size{1330_mm, 95_mm, 18_mm}));
  EXPECT_EQ(kick.body.at, (Point{-30_mm, -18_mm, 0_mm}));
  EXPECT_EQ(part_at(built.piece, "unit.kick_2").cut, kick.cut);
}

TEST(LadderBase, ComesApartBetweenItsSections) {
  const BuiltPiece built = wall_plinth();
  // Two ladders and two kick faces, each carried by itself.
  ASSERT_EQ(built.piece.packages.size(), 4U);
  EXPECT_EQ(built.piece.packages[0].parts.size(), 6U);
  EXPECT_EQ(built.piece.packages[1].parts.size(), 5U);
}

TEST(LadderBase, PutsMembersAtTheEndsAndEvenlyBetween) {
  const BuiltPiece built = wall_plinth();
  EXPECT_EQ(part_at(built.piece, "unit.member_1_1").body.at.x, 0_mm);
  EXPECT_EQ(part_at(built.piece, "unit.member_1_2").body.at.x, 424_mm);  // (1290 - 18) / 3
  EXPECT_EQ(part_at(built.piece, "unit.member_1_4").body.end(Axis::kX), 1290_mm);
  EXPECT_EQ(part_at(built.piece, "unit.member_2_2").body.at.x, 1290_mm + 636_mm);
}

struct BadBase {
  std::string why, fields, message;
};

TEST(LadderBase, SaysWhatIsWrong) {
  const BadBase cases[] = {
      {"not enough members",
       "stock: oak_board_18, sections: 2, cross_members: 3",
       "found 3, but every ladder needs one at each end: 4 for 2 sections"},
      {"one section with one member",
       "stock: oak_board_18, cross_members: 1",
       "found 1, but every ladder needs one at each end: 2 for 1 section"},
      {"no number of members",
       "stock: oak_board_18",
       "`cross_members` is missing: In all ladders together, two of them at the ends of each"},
      {"members without room between them",
       "stock: oak_board_18, cross_members: 60",
       "60 cross members 18 mm thick leave no room in a ladder 1000 mm wide"},
      {"rails without room between them",
       "stock: oak_16_4, thickness: 60, cross_members: 2",
       "two rails 60 mm thick leave no room in a base 120 mm deep"},
      {"a leveller the shop has not",
       "stock: oak_board_18, cross_members: 2, leveller: plinth_blok, levellers: 4",
       "`plinth_blok` is not a fitting of the shop"}};
  for (const BadBase& c : cases) {
    SCOPED_TRACE(c.why);
    const BuiltPiece built = build_kit("1000", "120", "90", "ladder_base: {" + c.fields + "}");
    EXPECT_THAT(messages(built.errors), ElementsAre(c.message));
  }
}

RC_GTEST_PROP(LadderBaseProperty, FillsItsSpaceAndHoldsTogether, ()) {
  const int sections = *rc::gen::inRange(1, 5);
  const int members = sections * 2 + *rc::gen::inRange(0, 9);
  const BuiltPiece built = build_kit(
      std::to_string(*rc::gen::inRange(1200, 5000)),
      std::to_string(*rc::gen::inRange(200, 700)),
      std::to_string(*rc::gen::inRange(40, 200)),
      fmt::format(
          "ladder_base: {{stock: oak_board_18, sections: {}, cross_members: {}, joint: {}}}",
          sections,
          members,
          *rc::gen::element<std::string>("screwed", "dowelled")));
  RC_ASSERT(messages(built.errors) == std::vector<std::string>{});
  RC_ASSERT(in_the_way(built.piece).empty());
  RC_ASSERT(loose_contacts(built.piece) == std::vector<std::string>{});
  RC_ASSERT(afloat(built.piece).empty());
  RC_ASSERT(whole(built.piece) == built.piece.overall);
  RC_ASSERT(count_named(built.piece, "unit cross member") == members);
}

}  // namespace
}  // namespace plankwright::piece::test
