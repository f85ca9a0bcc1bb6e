#include <map>

#include <gtest/gtest.h>

#include "bench_fixture.h"

namespace plankwright::bench {
namespace {

using testing::Worked;

struct Expected {
  const char* file;
  double bench_table, within;
  double mean_least, mean_most;  // of all hours
};

// Three worked commissions (common practice, no source): hours at bench and on site by the labour
// table, and the range in which an estimate of the whole was accepted.
TEST(Examples, TakeTheHoursOfTheWorkedEstimates) {
  const Expected cases[] = {{"hall_cabinet.yaml", 45.2, 3, 50, 60},
                            {"dining_table.yaml", 26.2, 3, 31, 38},
                            {"study_wall.yaml", 51.3, 7, 58, 72}};
  for (const Expected& c : cases) {
    SCOPED_TRACE(c.file);
    const Bench bench = testing::work(c.file).bench;
    EXPECT_NEAR(bench.bench.table, c.bench_table, c.within);
    EXPECT_GE(bench.total.mean, c.mean_least);
    EXPECT_LE(bench.total.mean, c.mean_most);
    EXPECT_TRUE(bench.without_rule.empty()) << bench.without_rule.front();
    EXPECT_EQ(bench.driven_by.size(), 3U);
    EXPECT_GE(bench.settings_drawing_order, bench.settings);
  }
}

// The same commissions: single figures of the estimate that follow from the piece alone.
TEST(Examples, CountWhatTheWorkedEstimatesCount) {
  const Bench cabinet = testing::work("hall_cabinet.yaml").bench;
  double drawers = 0;
  for (const char* standard :
       {"drawer_parts", "dovetail_jig", "drawer_bottom", "drawer_assemble", "drawer_finish"}) {
    drawers += testing::minutes_of(cabinet, standard);
  }
  EXPECT_DOUBLE_EQ(drawers / 60, 5.15);
  EXPECT_DOUBLE_EQ(testing::of_standard(cabinet, "stub_frame")[0].units, 8);
  EXPECT_DOUBLE_EQ(testing::of_standard(cabinet, "mortise_tenon")[0].units, 8);
  const Bench table = testing::work("dining_table.yaml").bench;
  EXPECT_NEAR(testing::minutes_of(table, "oil_coat"), 203, 15);
  EXPECT_DOUBLE_EQ(testing::minutes_of(table, "deliver"), 120);
  const Bench wall = testing::work("study_wall.yaml").bench;
  EXPECT_DOUBLE_EQ(testing::minutes_of(wall, "box_set"), 165);
  EXPECT_DOUBLE_EQ(testing::minutes_of(wall, "site_measure"), 60);
  EXPECT_DOUBLE_EQ(testing::minutes_of(wall, "door_adjust"), 41);
  EXPECT_NEAR(testing::of_standard(wall, "edge_band")[0].units * 0.3048, 42.2, 0.2);
}

double bench_hours(const char* file, const commission::Picks& picks) {
  return testing::work(file, picks).bench.bench.table;
}

// Differences the worked estimates name: bent arch +2.0 h, bought drawers -5.15 h.
TEST(Examples, ChangeTheHoursWithTheChoices) {
  const double made = bench_hours("hall_cabinet.yaml", {});
  EXPECT_NEAR(bench_hours("hall_cabinet.yaml", {{"arch", "bent"}}) - made, 2.0, 0.5);
  EXPECT_NEAR(bench_hours("hall_cabinet.yaml", {{"drawers", "bought"}}) - made, -5.15, 0.5);
  EXPECT_GT(bench_hours("hall_cabinet.yaml", {{"runners", "wooden"}}) - made, 1.5);
  EXPECT_LT(bench_hours("hall_cabinet.yaml", {{"finish", "outside"}}), made);
  EXPECT_LT(bench_hours("study_wall.yaml", {{"finish", "prefinished"}}) -
                bench_hours("study_wall.yaml", {}),
            -9);
}

/// Index of the first (or last) operation of a standard; -1 when there is none.
int first_of(const Bench& bench,
             const std::string& standard,
             const std::string& part = {},
             const piece::Piece& piece = {}) {
  for (std::size_t i = 0; i < bench.operations.size(); ++i) {
    const Operation& operation = bench.operations[i];
    const bool on_part = part.empty() || std::ranges::any_of(operation.parts, [&](auto p) {
                           return piece.parts[p].path == part;
                         });
    if (operation.standard == standard && on_part) {
      return static_cast<int>(i);
    }
  }
  return -1;
}

struct Before {
  const char* earlier;
  const char* later;
  const char* part;  // path, or "" for any
};

TEST(Examples, RespectWhatComesFirst) {
  const Worked cabinet = testing::work("hall_cabinet.yaml");
  const Before pairs[] = {{"design_draw", "buy_trip", ""},
                          {"rough_crosscut", "joint_face_edge", ""},
                          {"joint_face_edge", "plane_thickness", "top.slab"},
                          {"plane_thickness", "panel_glue", "top.slab"},
                          {"panel_glue", "flatten_panel", "top.slab"},
                          {"flatten_panel", "rip_final", "top.slab"},
                          {"rip_final", "crosscut_final", "top.slab"},
                          {"crosscut_final", "mortise_tenon", "base.rail_front"},
                          {"mortise_tenon", "curve_cut", "base.rail_front"},
                          {"housing", "curve_cut", "base.rail_front"},
                          {"template", "curve_cut", ""},
                          {"curve_cut", "curve_fair", ""},
                          {"mortise_tenon", "taper_leg", "base.leg_front_left"},
                          {"sand_prep", "dry_fit", "case.bottom"},
                          {"dry_fit", "as_built", "case.divider_1"},
                          {"as_built", "carcase_glue", "case.divider_1"},
                          {"as_built", "door_hang", ""},
                          {"as_built", "drawer_parts", ""},
                          {"drawer_assemble", "slide_install", ""},
                          {"slide_install", "front_fit", ""},
                          {"door_hang", "oil_coat", ""},
                          {"oil_coat", "pull_mount", ""},
                          {"pull_mount", "pack", ""},
                          {"pack", "deliver", ""},
                          {"deliver", "admin_close", ""}};
  for (const Before& pair : pairs) {
    const int earlier = first_of(cabinet.bench, pair.earlier, pair.part, cabinet.piece);
    const int later = first_of(cabinet.bench, pair.later, pair.part, cabinet.piece);
    EXPECT_GE(earlier, 0) << pair.earlier;
    EXPECT_LT(earlier, later) << pair.earlier << " before " << pair.later;
  }
}

// A spoiled arch is found out before the rest of the joinery is done, as soon as its own joints
// are.
TEST(Examples, TakeTheRiskyStepEarly) {
  const Worked cabinet = testing::work("hall_cabinet.yaml");
  EXPECT_LT(first_of(cabinet.bench, "curve_cut"), first_of(cabinet.bench, "stub_frame"));
}

TEST(Examples, PutEveryOperationBehindWhatItWaitsFor) {
  for (const char* file : {"hall_cabinet.yaml", "dining_table.yaml", "study_wall.yaml"}) {
    SCOPED_TRACE(file);
    const Bench bench = testing::work(file).bench;
    for (std::size_t i = 0; i < bench.operations.size(); ++i) {
      for (const std::size_t earlier : bench.operations[i].after) {
        EXPECT_LT(earlier, i);
      }
      EXPECT_TRUE(i == 0 || !bench.operations[i].after.empty()) << bench.operations[i].name;
    }
  }
}

TEST(Examples, AddUpToTheSameHoursInPhasesAndInAll) {
  const Bench bench = testing::work("study_wall.yaml").bench;
  double table = 0;
  double mean = 0;
  for (const PhaseHours& phase : bench.phases) {
    table += phase.hours.table;
    mean += phase.hours.mean;
  }
  EXPECT_NEAR(table, bench.total.table, 1e-9);
  EXPECT_NEAR(mean, bench.total.mean, 1e-9);
  EXPECT_NEAR(bench.bench.table + bench.office.table, bench.total.table, 1e-9);
}

TEST(Examples, GiveTheSameBenchTwice) {
  const Bench first = testing::work("hall_cabinet.yaml").bench;
  const Bench second = testing::work("hall_cabinet.yaml").bench;
  ASSERT_EQ(first.operations.size(), second.operations.size());
  for (std::size_t i = 0; i < first.operations.size(); ++i) {
    EXPECT_EQ(first.operations[i].says, second.operations[i].says);
    EXPECT_EQ(first.operations[i].after, second.operations[i].after);
  }
}

}  // namespace
}  // namespace plankwright::bench
