#include <gtest/gtest.h>

#include "bench_fixture.h"

namespace plankwright::bench {
namespace {

using piece::JointKind;
using piece::Piece;

/// 40 rails in 14 lines of the list; neighbouring lines never share one of the five widths.
Piece forty_rails() {
  constexpr Length kWidths[] = {2.25_in, 3.0_in, 2.5_in, 4.0_in, 1.75_in};
  Piece piece;
  for (int line = 0; line < 14; ++line) {
    const int pieces = line < 12 ? 3 : 2;
    for (int i = 0; i < pieces; ++i) {
      piece.parts.push_back(testing::rail(
          "rail " + std::to_string(line), 20.0_in + line * 1.0_in, kWidths[line % 5], 0.75_in));
    }
  }
  return piece;
}

// Worked example (common practice, no source): 40 rips in 5 fence settings take 44 min, in 14
// settings 80 min.
TEST(Batches, RipFortyPiecesInFiveSettings) {
  const Bench bench = testing::bench_of(forty_rails());
  const auto rips = testing::of_standard(bench, "rip_final");
  ASSERT_EQ(rips.size(), 5U);
  EXPECT_DOUBLE_EQ(testing::minutes_of(bench, "rip_final"), 44);
  int pieces = 0;
  for (const Operation& rip : rips) {
    EXPECT_EQ(rip.setting_kind, "fence");
    EXPECT_EQ(rip.machine, "table saw");
    EXPECT_EQ(rip.test, "scrap of the same thickness");
    pieces += rip.pieces;
  }
  EXPECT_EQ(pieces, 40);
  EXPECT_EQ(rips[0].setting, "4");  // wide before narrow
  EXPECT_EQ(rips[0].setting_length, 4.0_in);
  EXPECT_EQ(rips[3].setting, "2 1/4");
}

TEST(Batches, CountTheSettingsOfADayWorkedByTheList) {
  const Bench bench = testing::bench_of(forty_rails());
  // Fence 5 or 14, stop 14 (every line its own length), planer 1.
  EXPECT_EQ(bench.settings, 5 + 14 + 1);
  EXPECT_EQ(bench.settings_drawing_order, 14 + 14 + 1);
  EXPECT_DOUBLE_EQ(bench.saved.count(), 9 * 4);
  EXPECT_DOUBLE_EQ(testing::minutes_of(bench, "rip_final") + bench.saved.count(), 80);
}

TEST(Batches, NeverMergeSettingsThatDifferByAHair) {
  Piece piece;
  piece.parts = {testing::rail("a", 20.0_in, 57_mm, 0.75_in),
                 testing::rail("b", 20.0_in, Length::from_nm(57'000'001), 0.75_in)};
  EXPECT_EQ(testing::of_standard(testing::bench_of(piece), "rip_final").size(), 2U);
}

// Worked example (common practice, no source): 64 joints at 1.5 min are 96 min; with a glue that is
// open for 20 min, of which 0.7 may be used, one person needs at least 7 stages.
TEST(Batches, GlueSixtyFourJointsInAsManyStagesAsTheGlueAsksFor) {
  Piece piece;
  for (int i = 0; i < 33; ++i) {
    piece.parts.push_back(testing::rail("rail", 20.0_in, 2.0_in, 0.75_in));
    piece.parts.back().path = "frame.rail_" + std::to_string(i);
  }
  for (piece::PartIndex i = 1; i < 33; ++i) {
    for (const Axis axis : {Axis::kX}) {
      piece.joints.push_back(
          testing::joint(JointKind::kDowel, i, (i - 1) / 2, Direction{axis, i % 2 == 0 ? 1 : -1}));
    }
  }
  Piece twice = piece;
  for (const piece::Part& part : piece.parts) {
    twice.parts.push_back(part);
  }
  for (piece::Joint joint : piece.joints) {
    joint.a += 33;
    joint.b += 33;
    twice.joints.push_back(joint);
  }
  shop::Shop shop = testing::inch_shop();
  wood::Adhesive slow = *shop.adhesives.get("urea_powder");
  ASSERT_DOUBLE_EQ(slow.open->value.count(), 20);
  slow.id = "open_20";
  slow.closed.reset();
  shop.adhesives = wood::AdhesiveTable{"glue", {slow}};
  shop.glues = {{.id = "glue", .name = "glue", .type = "open_20", .price_per_litre = {}}};
  commission::Commission commission = testing::plain_commission();
  commission.glue = "glue";
  const Bench bench = testing::bench_of(twice, shop, commission);
  double joints = 0;
  for (const Operation& stage : testing::of_standard(bench, "carcase_glue")) {
    joints += stage.units;
    EXPECT_LE(stage.work.count(), 0.7 * 20);
    EXPECT_DOUBLE_EQ(stage.setup.count(), 12);
  }
  EXPECT_DOUBLE_EQ(joints * 1.5, 96);
  EXPECT_GE(testing::of_standard(bench, "carcase_glue").size(), 7U);
}

struct JointCase {
  JointKind kind;
  int count;
  const char* standard;
  double units;
  const char* setting;
};

// What each joint counts in the standards' units: one of each, 1/4 thick and 3/8 deep.
TEST(Batches, CountEachJointInItsStandard) {
  const JointCase cases[] = {{JointKind::kHousing, 1, "housing", 1, "1/4 x 3/8"},
                             {JointKind::kMortiseTenon, 1, "mortise_tenon", 1, "1/4 x 3/8"},
                             {JointKind::kLooseTenon, 1, "loose_tenon", 1, "1/4 x 3/8"},
                             {JointKind::kStubTenon, 1, "stub_frame", 1, "1/4 x 3/8"},
                             {JointKind::kDovetail, 5, "dovetail_jig", 0.25, "3/4"},
                             {JointKind::kDowel, 2, "dowel_joint", 1, "1/4 x 3/8"},
                             {JointKind::kDowel, 6, "dowel_joint", 2, "1/4 x 3/8"},
                             {JointKind::kBiscuit, 4, "biscuit", 4, ""},
                             {JointKind::kPocketScrew, 3, "pocket_hole", 3, ""},
                             {JointKind::kHalving, 1, "housing", 2, "1/4 x 3/8"},
                             {JointKind::kScrew, 3, "final_assembly", 1, ""}};
  for (const JointCase& c : cases) {
    SCOPED_TRACE(c.standard);
    Piece piece;
    piece.parts = {testing::rail("a", 20.0_in, 2.0_in, 0.75_in),
                   testing::rail("b", 20.0_in, 2.0_in, 0.75_in)};
    piece::Joint joint = testing::joint(c.kind, 0, 1, {Axis::kX, 1});
    joint.count = c.count;
    joint.tongue_thickness = 0.25_in;
    joint.depth = 0.375_in;
    piece.joints = {joint};
    const Bench bench = testing::bench_of(piece);
    const auto work = testing::of_standard(bench, c.standard);
    ASSERT_EQ(work.size(), 1U);
    EXPECT_DOUBLE_EQ(work[0].units, c.units);
    EXPECT_EQ(work[0].setting, c.setting);
    EXPECT_TRUE(bench.without_rule.empty());
  }
}

TEST(Batches, JoinABoardAndItsStripOnce) {
  Piece piece;
  piece.parts = {testing::rail("side", 20.0_in, 16.0_in, 0.75_in),
                 testing::rail("shelf", 20.0_in, 15.0_in, 0.75_in),
                 testing::rail("strip", 20.0_in, 0.25_in, 0.75_in)};
  piece.joints = {testing::joint(JointKind::kEdgeGlue, 2, 1, {Axis::kY, 1}),
                  testing::joint(JointKind::kHousing, 1, 0, {Axis::kX, -1}),
                  testing::joint(JointKind::kHousing, 2, 0, {Axis::kX, -1})};
  const Bench bench = testing::bench_of(piece);
  EXPECT_DOUBLE_EQ(testing::of_standard(bench, "housing")[0].units, 1);
  EXPECT_DOUBLE_EQ(testing::of_standard(bench, "lipping")[0].units, 20.0 / 12);
}

TEST(Batches, MillShortPartsInSharedBlanks) {
  Piece piece;
  for (int i = 0; i < 14; ++i) {
    piece.parts.push_back(testing::rail("button", 70_mm, 30_mm, 22_mm));
  }
  const auto cuts = testing::of_standard(testing::bench_of(piece), "rough_crosscut");
  ASSERT_EQ(cuts.size(), 1U);
  EXPECT_DOUBLE_EQ(cuts[0].units, 14.0 / 8);  // eight from a blank of 600 mm
}

TEST(Batches, GlueAPanelThreeLinesAtATime) {
  Piece piece;
  piece.parts = {testing::rail("top", 2100_mm, 950_mm, 32_mm)};
  piece.parts[0].strips = 7;
  const Bench bench = testing::bench_of(piece);
  const auto glue = testing::of_standard(bench, "panel_glue");
  ASSERT_EQ(glue.size(), 2U);  // six lines
  EXPECT_DOUBLE_EQ(testing::minutes_of(bench, "panel_glue"), 2 * 12 + 6 * 6);
  EXPECT_EQ(glue[0].unattended.count(), 45);
  // 950 mm is wider than the planer of 16 in.
  const auto flat = testing::of_standard(bench, "flatten_panel");
  ASSERT_EQ(flat.size(), 1U);
  EXPECT_NEAR(flat[0].units, 21.5, 0.05);
}

TEST(Batches, ChargeASetupOncePerJobWhereTheStandardSaysSo) {
  Piece piece;
  piece.parts = {testing::rail("a", 20.0_in, 2.0_in, 0.75_in)};
  piece.parts[0].show_faces = {{Axis::kY, -1}};
  const auto sanding = testing::of_standard(testing::bench_of(piece), "sand_prep");
  ASSERT_EQ(sanding.size(), 2U);  // inside and outside
  EXPECT_DOUBLE_EQ(sanding[0].setup.count() + sanding[1].setup.count(), 10);
}

TEST(Batches, PutExtraHoursInTheStageOfTheirStandard) {
  commission::Commission commission = testing::plain_commission();
  commission.extra_work = {{"Drawings", "design_draw", 5, {}},
                           {"Carve a shell", "dovetail_hand", 1, {}},
                           {"A second coat of scuffing", "scuff", 10, {}}};
  Piece piece;
  piece.parts = {testing::rail("a", 20.0_in, 2.0_in, 0.75_in)};
  const Bench bench = testing::bench_of(piece, testing::inch_shop(), commission);
  EXPECT_EQ(bench.operations.front().name, "Drawings");
  EXPECT_DOUBLE_EQ(bench.office.table, 5);
  EXPECT_DOUBLE_EQ(testing::minutes_of(bench, "scuff"), 5 + 0.3 * 10);
  // No rule says when a hand-cut dovetail is due: it is told, not dropped.
  ASSERT_EQ(bench.without_rule.size(), 1U);
  EXPECT_EQ(bench.without_rule[0], "extra `dovetail_hand`");
}

TEST(Batches, TellWhatNoRuleCovers) {
  Rules bare;
  bare.limits = testing::rules().limits;
  Piece piece;
  piece.parts = {testing::rail("a", 20.0_in, 2.0_in, 0.75_in)};
  const Bench bench =
      plan_bench(piece, stock::Stock{}, testing::inch_shop(), testing::plain_commission(), bare);
  EXPECT_TRUE(bench.operations.empty());
  EXPECT_EQ(bench.without_rule.front(), "part `solid`");
}

}  // namespace
}  // namespace plankwright::bench
