// A commission with bars, and the wall with a rack: everything the plan says about them holds.

#include <algorithm>
#include <string>

#include <gmock/gmock.h>
#include <gtest/gtest.h>
#include <nlohmann/json.hpp>

#include "main/summary.h"
#include "papers/papers.h"
#include "papers/plan_json.h"
#include "papers/schemas.h"
#include "whole/planned.h"
#include "whole/schema_check.h"

namespace plankwright::whole {
namespace {

using nlohmann::json;
using ::testing::HasSubstr;
using ::testing::IsEmpty;
using ::testing::Not;
using ::testing::SizeIs;

// A slatted boot rack: everything of it is cut from battens of one section.
constexpr const char* kSlats = R"(commission: Boot rack for a porch
units: mm
shop: shop_metric.yaml
quoted: 2026-05-04
piece:
  width: 900
  depth: 300
  height: 400
  part:
    - {name: bearer, stock: oak_batten_45_20, at: [0, 0, 0], length: 300, width: 45, thickness: 20,
       along: y, thickness_along: x, count: 2, step: [880, 0, 0]}
    - {name: slat, stock: oak_batten_45_20, at: [0, 0, 45], length: 900, width: 45, thickness: 20,
       thickness_along: z, count: 5, step: [0, 60, 0],
       joints: [{to: bearer_1, kind: screw, count: 1}, {to: bearer_2, kind: screw, count: 1}]}
)";

TEST(BarsInAPlan, AreBoughtPricedAndCut) {
  const plan::Planned made = plan_text(kSlats);
  std::string errors;
  for (const base::Error& error : made.errors) {
    errors += base::describe(error);
  }
  ASSERT_EQ(errors, "");
  const plan::Plan& plan = *made.plan;
  ASSERT_THAT(plan.stock.bars, SizeIs(1));
  const stock::BarNeed& need = plan.stock.bars[0];
  // 5 x 900 and 2 x 300 are 5100 and at least four kerfs: two bars, whichever.
  EXPECT_EQ(need.bars, 2);
  EXPECT_EQ(need.fewest, 2);
  ASSERT_THAT(plan.stock.purchases, Not(IsEmpty()));
  const auto bought = std::ranges::find(plan.stock.purchases, "bar", &stock::Purchase::kind);
  ASSERT_NE(bought, plan.stock.purchases.end());
  EXPECT_EQ(bought->price, need.price);
  const auto line = std::ranges::find(plan.price.lines, bought->what, &price::CostLine::what);
  ASSERT_NE(line, plan.price.lines.end());
  EXPECT_EQ(line->cost, need.price);
  // Battens come planed: they are cut and sanded, not milled.
  const auto does = [&](const std::string& standard) {
    return std::ranges::any_of(plan.bench.operations,
                               [&](const bench::Operation& o) { return o.standard == standard; });
  };
  EXPECT_TRUE(does("crosscut_final"));
  EXPECT_FALSE(does("plane_thickness"));
  EXPECT_FALSE(does("rip_final"));
  EXPECT_GT(plan.piece.mass.count(), 0);
  SchemaCheck check{json::parse(papers::schema("plan").value())};
  EXPECT_THAT(check.faults(json::parse(papers::plan_json(plan))), IsEmpty());
  EXPECT_THAT(papers::shop_packet(plan), HasSubstr("%PDF"));
  EXPECT_THAT(cli::summary(plan), HasSubstr("2 bars, no cutting can do with fewer"));
}

TEST(BarsInAPlan, OfAnotherSectionAreRefused) {
  std::string text = kSlats;
  text.replace(text.find("length: 900, width: 45"), 22, "length: 900, width: 40");
  const plan::Planned made = plan_text(text);
  ASSERT_THAT(made.errors, Not(IsEmpty()));
  EXPECT_THAT(
      made.errors[0].message,
      HasSubstr("the slat is 40 by 20 mm, but oak batten 45 x 20 planed measures 45 by 20 mm"));
}

TEST(BarsInAPlan, TooLongAreRefusedWithTheirLine) {
  std::string text = kSlats;
  text.replace(text.find("width: 900"), 10, "width: 3200");
  text.replace(text.find("length: 900"), 11, "length: 3200");
  const plan::Planned made = plan_text(text);
  ASSERT_THAT(made.errors, SizeIs(1));  // five alike, written once
  EXPECT_THAT(made.errors[0].message, HasSubstr("220 mm more than the longest oak batten"));
  EXPECT_GT(made.errors[0].at->line, 1);
}

plan::Plan with_rack(const std::string& name, const std::string& rack) {
  const std::string file = example_path(name);
  plan::PlanLimits limits;
  limits.rack = rack;
  limits.rack_file = "my.rack";
  limits.compare_choices = false;
  plan::Planned made = plan::plan_commission(
      store::read_file(file).value(), file, store::open_beside(file), reference(), {}, limits);
  for (const base::Error& error : made.errors) {
    ADD_FAILURE() << base::describe(error);
  }
  return std::move(*made.plan);
}

std::string example_rack() {
  return store::read_file(std::string{PLANKWRIGHT_SOURCE_DIR} + "/examples/signal_house.rack")
      .value();
}

TEST(RackInAPlan, MakesTheWallCheaperAndSaysWhereEachPartComesFrom) {
  const plan::Plan& bare = planned("study_wall");
  const plan::Plan plan = with_rack("study_wall", example_rack());
  EXPECT_LT(plan.price.materials, bare.price.materials);
  ASSERT_THAT(plan.stock.from_rack, Not(IsEmpty()));
  measure::Money value;
  for (const stock::FromRack& each : plan.stock.from_rack) {
    value += each.value;
    const auto line = std::ranges::find(
        plan.price.lines, each.label + " out of the rack", &price::CostLine::what);
    ASSERT_NE(line, plan.price.lines.end()) << each.label;
    EXPECT_EQ(line->cost, each.value);
    EXPECT_THAT(cli::summary(plan), HasSubstr(each.label));
  }
  EXPECT_EQ(value, plan.stock.rack_price);
  measure::Money bought;
  for (const stock::Purchase& purchase : plan.stock.purchases) {
    bought += purchase.price;
  }
  EXPECT_EQ(bought,
            plan.stock.solid_price + plan.stock.sheet_price + plan.stock.bar_price +
                plan.stock.band_price + plan.stock.hardware_price + plan.stock.finish_price);
  SchemaCheck check{json::parse(papers::schema("plan").value())};
  EXPECT_THAT(check.faults(json::parse(papers::plan_json(plan))), IsEmpty());
  // Every part still lies somewhere, once.
  std::vector<int> laid(plan.piece.parts.size(), 0);
  for (const stock::SheetNeed& need : plan.stock.sheets) {
    for (const stock::SheetLayout& layout : need.layouts) {
      for (const stock::SheetPiece& placed : layout.pieces) {
        ++laid[placed.part];
      }
    }
  }
  for (std::size_t i = 0; i < laid.size(); ++i) {
    EXPECT_EQ(laid[i], plan.piece.parts[i].material == piece::Material::kSheet ? 1 : 0);
  }
}

TEST(RackInAPlan, MistakesStopThePlan) {
  const std::string file = example_path("study_wall");
  plan::PlanLimits limits;
  limits.rack = "V1, oak_board_66, 900, 300\nV1, oak_board_6, 900\n";
  limits.rack_file = "my.rack";
  const plan::Planned made = plan::plan_commission(
      store::read_file(file).value(), file, store::open_beside(file), reference(), {}, limits);
  EXPECT_FALSE(made.plan);
  ASSERT_THAT(made.errors, SizeIs(3));
  EXPECT_EQ(made.errors[0].at->file, "my.rack");
  EXPECT_EQ(made.errors[2].at->line, 2);
}

// ---- Small changes ------------------------------------------------------------------------------

// Eight shelves of 2400 x `deep`: 300 takes three strips from a sheet of 1220 less its trims, 297
// takes four, so 297 takes two sheets where 300 takes three.
std::string shelves(const std::string& deep) {
  return "commission: Shelves\nunits: mm\nshop: shop_metric.yaml\nnames: {deep: " + deep +
         "}\npiece:\n  width: 2400\n  depth: 320\n  height: 400\n  part:\n"
         "    - {name: shelf, stock: oak_board_18, at: [0, 0, 0], length: 2400, width: deep, "
         "thickness_along: z, count: 8, step: [0, 0, 50]}\n"
         "    - {name: post, stock: oak_5_4, at: [0, 300, 0], length: 400, width: 20, thickness: "
         "20, "
         "along: z}\n";
}

TEST(Nudges, NameTheWrittenSizeThatSavesASheet) {
  const plan::Planned made = plan_text(shelves("300"));
  ASSERT_TRUE(made.plan) << made.errors.front().message;
  const auto& nudges = made.plan->nudges;
  ASSERT_THAT(nudges, Not(IsEmpty()));
  EXPECT_EQ(nudges[0].what, "deep");
  EXPECT_EQ(nudges[0].to.mm(), 297);
  EXPECT_THAT(nudges[0].saves, ::testing::Contains(HasSubstr("1 sheet of ")));
  // Planned with it, the money is really saved.
  const plan::Planned then = plan_text(shelves("297"));
  ASSERT_TRUE(then.plan);
  EXPECT_EQ(made.plan->price.cost - then.plan->price.cost, nudges[0].money);
  EXPECT_THAT(cli::summary(*made.plan), HasSubstr("deep: 297 instead of 300 mm saves 1 sheet"));
}

TEST(Nudges, AreSilentWhenNothingIsSaved) {
  const plan::Planned made = plan_text(shelves("280"));
  ASSERT_TRUE(made.plan) << made.errors.front().message;
  EXPECT_THAT(made.plan->nudges, IsEmpty());
  EXPECT_THAT(cli::summary(*made.plan), Not(HasSubstr("SMALL CHANGE")));
}

TEST(Nudges, OfTheDemosAreTrueWhenPlannedAgain) {
  for (const char* name : {"hall_cabinet", "dining_table", "study_wall"}) {
    for (const stock::Nudge& nudge : planned(name).nudges) {
      SCOPED_TRACE(std::string{name} + ": " + nudge.what);
      EXPECT_THAT(nudge.saves, Not(IsEmpty()));
      EXPECT_GT(nudge.money.minor(), 0);
      EXPECT_LE(std::abs(nudge.to / nudge.from - 1), 0.02 + 1e-9);
    }
  }
}

}  // namespace
}  // namespace plankwright::whole
