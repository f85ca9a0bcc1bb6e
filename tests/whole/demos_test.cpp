// The three demo commissions against the figures that were worked out for them by hand before the
// program existed (sizes, areas, stock, hours and prices with the ranges given there).

#include <algorithm>
#include <string>
#include <vector>

#include <gmock/gmock.h>
#include <gtest/gtest.h>

#include "measure/expression.h"
#include "whole/planned.h"

namespace plankwright::whole {
namespace {

using measure::LengthUnit;
using ::testing::IsEmpty;

struct Line {
  std::string_view name;
  int count;
  std::string_view length, width, thickness;
};

measure::Length size_of(std::string_view text, LengthUnit unit) {
  return measure::parse_length(text, unit).value();
}

/// How many parts have this name and these finished sizes, what is trimmed on site included. Bands
/// are part of the finished size.
int count_of(const plan::Plan& plan, const Line& line) {
  const LengthUnit unit = plan.commission.unit();
  return static_cast<int>(std::ranges::count_if(plan.piece.parts, [&](const piece::Part& part) {
    return part.name.starts_with(line.name) &&
           part.finished.length + part.site_length == size_of(line.length, unit) &&
           part.finished.width + part.site_width == size_of(line.width, unit) &&
           part.finished.thickness == size_of(line.thickness, unit);
  }));
}

void expect_lines(const plan::Plan& plan, const std::vector<Line>& lines) {
  int counted = 0;
  for (const Line& line : lines) {
    SCOPED_TRACE(std::string{line.name} + " " + std::string{line.length});
    EXPECT_EQ(count_of(plan, line), line.count);
    counted += line.count;
  }
  EXPECT_EQ(counted, static_cast<int>(plan.piece.parts.size())) << "every part is in the table";
}

const checks::Finding* finding(const plan::Plan& plan, std::string_view id) {
  const auto found = std::ranges::find_if(
      plan.findings.open, [&](const checks::Finding& f) { return f.id.starts_with(id); });
  return found == plan.findings.open.end() ? nullptr : &*found;
}

const stock::SolidNeed& solid(const plan::Plan& plan, std::string_view id) {
  return *std::ranges::find(plan.stock.solids, id, &stock::SolidNeed::stock);
}

const stock::SheetNeed& sheet(const plan::Plan& plan, std::string_view id) {
  return *std::ranges::find(plan.stock.sheets, id, &stock::SheetNeed::stock);
}

// ---- The hall cabinet ---------------------------------------------------------------------------

TEST(HallCabinet, HasEveryPartAtItsSize) {
  expect_lines(planned("hall_cabinet"),
               {{"top", 1, "50", "18", "7/8"},
                {"case side", 2, "27 1/8", "16 1/2", "3/4"},
                {"case bottom", 1, "47 1/2", "16 1/4", "3/4"},
                {"case top rail", 2, "47 1/2", "3", "3/4"},
                {"case divider", 2, "26 1/8", "16 1/4", "3/4"},
                {"drawer rail", 3, "16 3/4", "2 1/2", "3/4"},
                {"drawer front 1", 1, "16 1/8", "4 3/8", "3/4"},
                {"drawer front 2", 1, "16 1/8", "5 1/4", "3/4"},
                {"drawer front 3", 1, "16 1/8", "6 1/8", "3/4"},
                {"drawer front 4", 1, "16 1/8", "7 1/8", "3/4"},
                {"door stile", 4, "25 7/16", "2 1/4", "3/4"},
                {"door rail", 4, "10 15/16", "2 1/4", "3/4"},
                {"door panel", 2, "21 13/16", "10 11/16", "1/2"},
                {"case adjustable shelf", 2, "14 1/2", "15", "3/4"},
                {"case adjustable shelf lipping", 2, "14 1/2", "3/4", "1/4"},
                {"case back", 1, "47 1/2", "27 1/8", "1/4"},
                {"leg", 4, "6", "1 3/4", "1 3/4"},
                {"arched front rail", 1, "46", "4", "7/8"},
                {"back rail", 1, "46", "4", "7/8"},
                {"side rail", 2, "14 1/4", "4", "7/8"},
                {"cross rail", 1, "15 1/4", "3", "3/4"},
                {"drawer side", 2, "15", "3 1/2", "1/2"},
                {"drawer box", 2, "15 5/8", "3 1/2", "1/2"},
                {"drawer side", 2, "15", "4 3/8", "1/2"},
                {"drawer box", 2, "15 5/8", "4 3/8", "1/2"},
                {"drawer side", 2, "15", "5 1/4", "1/2"},
                {"drawer box", 2, "15 5/8", "5 1/4", "1/2"},
                {"drawer side", 2, "15", "6 1/4", "1/2"},
                {"drawer box", 2, "15 5/8", "6 1/4", "1/2"},
                {"drawer bottom", 4, "15 1/8", "14 1/2", "1/4"}});
  EXPECT_EQ(planned("hall_cabinet").piece.parts.size(), 59U);
}

/// What the rough volume comes to by the shop's allowance alone, before boards are asked for.
double by_allowance(const plan::Plan& plan, const std::string& stock) {
  return solid(plan, stock).rough_board_feet * plan.shop.solid(stock)->buy_factor;
}

double timber_over_allowance(const plan::Plan& plan) {
  double over = 0;
  for (const stock::SolidNeed& need : plan.stock.solids) {
    over += need.price.major() * (1 - by_allowance(plan, need.stock) / need.buy_sold);
  }
  return over;
}

TEST(HallCabinet, NeedsTheTimberWorkedOut) {
  const plan::Plan& plan = planned("hall_cabinet");
  EXPECT_NEAR(solid(plan, "cherry_5_4").net_board_feet, 8.40, 0.05);
  EXPECT_NEAR(solid(plan, "cherry_4_4").net_board_feet, 20.76, 0.1);
  EXPECT_NEAR(solid(plan, "cherry_8_4").net_board_feet, 0.51, 0.01);
  EXPECT_NEAR(solid(plan, "maple_4_4").net_board_feet, 4.12, 0.05);
  EXPECT_NEAR(solid(plan, "cherry_5_4").rough_board_feet, 13.0, 0.3);
  EXPECT_NEAR(solid(plan, "cherry_4_4").rough_board_feet, 32.2, 0.5);
  EXPECT_NEAR(solid(plan, "maple_4_4").rough_board_feet, 9.5, 0.3);
  // Worked out by the allowance alone; the boards asked for come to more, and that is bought.
  EXPECT_NEAR(by_allowance(plan, "cherry_4_4"), 42, 1);
  EXPECT_NEAR(by_allowance(plan, "cherry_5_4"), 17, 1);
  for (const stock::SolidNeed& need : plan.stock.solids) {
    EXPECT_GE(need.buy_sold, need.asked_board_feet - 1e-9) << need.stock;
    EXPECT_GE(need.buy_sold, by_allowance(plan, need.stock) - 1e-9) << need.stock;
  }
}

TEST(HallCabinet, WeighsWhatItShould) {
  EXPECT_NEAR(planned("hall_cabinet").piece.mass.count() / 0.45359237, 137, 6);  // pounds
}

TEST(HallCabinet, CostsAndTakesWhatWasWorkedOut) {
  const plan::Plan& plan = planned("hall_cabinet");
  EXPECT_GE(plan.bench.total.mean, 50);
  EXPECT_LE(plan.bench.total.mean, 60);
  EXPECT_GE(plan.price.price, measure::Money::from_major(5500));
  EXPECT_LE(plan.price.price, measure::Money::from_major(6300));
  // Worked out with timber by the allowance.
  EXPECT_NEAR(plan.price.materials.major() - timber_over_allowance(plan), 1153, 60);
  EXPECT_NEAR(plan.price.reserve.major(), 125, 2);
  EXPECT_EQ(plan.price.payments.front().amount.minor() * 2, plan.price.price.minor());
}

TEST(HallCabinet, FindsThePlantedFaults) {
  const plan::Plan& plan = planned("hall_cabinet");
  const checks::Finding* pull = finding(plan, "tip_over.pull");
  ASSERT_NE(pull, nullptr);
  EXPECT_LT(pull->value, 1.0);
  EXPECT_NEAR(pull->value, 0.71, 0.2);  // worked out with rougher levers
  EXPECT_EQ(finding(plan, "tip_over.open"), nullptr) << "it stands with all drawers out: 2.45";
  const checks::Finding* front = finding(plan, "movement.case.middle");
  ASSERT_NE(front, nullptr);
  EXPECT_NEAR(front->value / 25.4, 0.090, 0.003);
  EXPECT_NEAR(front->limit_value / 25.4, 0.125, 1e-6);
  const checks::Finding* arch = finding(plan, "run_out");
  ASSERT_NE(arch, nullptr);
  EXPECT_NEAR(arch->value, 5.7, 0.05);
}

TEST(HallCabinet, BuyingTheDrawersSavesHoursAndMoney) {
  const plan::Plan& plan = planned("hall_cabinet");
  const auto bought = std::ranges::find_if(plan.choices, [](const plan::ChoiceEffect& e) {
    return e.choice == "drawers" && e.option == "bought";
  });
  ASSERT_NE(bought, plan.choices.end());
  EXPECT_NEAR(bought->hours_change, -5.15, 1.0);
  // Worked out with timber by the allowance; all the maple is for the drawers.
  const stock::SolidNeed& maple = solid(plan, "maple_4_4");
  const double over = maple.price.major() * (1 - by_allowance(plan, maple.stock) / maple.buy_sold);
  EXPECT_NEAR(-bought->cost_change.major() - over, 104, 40);
  ASSERT_EQ(plan.make_or_buy.size(), 1U);
  EXPECT_EQ(plan.make_or_buy.front().pieces, 4);
  EXPECT_LT(plan.make_or_buy.front().break_even, plan.make_or_buy.front().make_time);
}

// ---- The dining table ---------------------------------------------------------------------------

TEST(DiningTable, HasEveryPartAtItsSize) {
  expect_lines(planned("dining_table"),
               {{"top", 1, "2100", "950", "32"},
                {"leg", 4, "718", "80", "80"},
                {"long rail", 2, "1820", "100", "27"},
                {"short rail", 2, "730", "100", "27"},
                {"cross rail", 2, "764", "80", "27"},
                {"button", 14, "45", "30", "22"},
                {"corner block", 4, "140", "100", "27"}});
  EXPECT_EQ(planned("dining_table").piece.parts.size(), 29U);
}

TEST(DiningTable, NeedsTheTimberWorkedOut) {
  const plan::Plan& plan = planned("dining_table");
  EXPECT_NEAR(solid(plan, "oak_6_4").net_board_feet, 27.05, 0.1);
  EXPECT_NEAR(solid(plan, "oak_8_4").net_board_feet, 7.79, 0.1);
  EXPECT_NEAR(solid(plan, "oak_5_4").net_board_feet, 8.05, 0.3);
  EXPECT_NEAR(solid(plan, "oak_6_4").rough_board_feet, 35.3, 1.0);
  EXPECT_NEAR(solid(plan, "oak_8_4").rough_board_feet, 11.5, 0.6);
}

TEST(DiningTable, CostsAndTakesWhatWasWorkedOut) {
  const plan::Plan& plan = planned("dining_table");
  EXPECT_GE(plan.bench.total.mean, 31);
  EXPECT_LE(plan.bench.total.mean, 38);
  EXPECT_GE(plan.price.price, measure::Money::from_major(2850));
  EXPECT_LE(plan.price.price, measure::Money::from_major(3400));
  ASSERT_EQ(plan.price.payments.size(), 3U);
  EXPECT_NEAR(plan.price.payments[2].share.count(), 20, 1e-9);
}

TEST(DiningTable, MissesTheKneeHeightThatWasAskedFor) {
  const checks::Finding* knees = finding(planned("dining_table"), "ergonomics.knee_height");
  ASSERT_NE(knees, nullptr);
  EXPECT_NEAR(knees->value, 618, 1e-6);  // 750 - 32 - 100
  EXPECT_NEAR(knees->limit_value, 650, 1e-6);
}

TEST(DiningTable, ItsTopMovesInItsButtonsFlatSawnButNotTooMuch) {
  const checks::Finding* top = finding(planned("dining_table"), "movement.top.slab");
  if (top != nullptr) {
    EXPECT_EQ(top->severity, checks::Severity::kNote);
    EXPECT_NEAR(top->value * 2, 17.7, 0.5);
  }
  EXPECT_EQ(finding(planned("dining_table", {{"top_cut", "quarter"}}), "movement.top.slab"),
            nullptr);
}

TEST(DiningTable, TheFixedBaseCannotTurnTheCorridor) {
  EXPECT_EQ(finding(planned("dining_table"), "passage"), nullptr)
      << "knocked down it comes through";
  const checks::Finding* stuck =
      finding(planned("dining_table", {{"base", "fixed"}}), "passage.base");
  ASSERT_NE(stuck, nullptr);
  EXPECT_EQ(stuck->severity, checks::Severity::kFails);
}

TEST(DiningTable, WeighsWhatItShould) {
  EXPECT_NEAR(planned("dining_table").piece.mass.count(), 76, 4);
  const checks::Finding* heavy = finding(planned("dining_table"), "weight");
  ASSERT_NE(heavy, nullptr);
  EXPECT_NEAR(heavy->value, 48.6, 1.5);
}

// ---- The study wall -----------------------------------------------------------------------------

TEST(StudyWall, HasEveryPartAtItsSize) {
  expect_lines(planned("study_wall"),
               {{"base side", 6, "720", "400", "18"},
                {"base bottom", 3, "824", "400", "18"},
                {"base stretcher", 6, "824", "100", "18"},
                {"base adjustable shelf", 3, "822", "370", "18"},
                {"base back", 3, "842", "711", "6"},
                {"door", 6, "716", "427", "18"},
                {"upper side", 6, "1560", "300", "18"},
                {"upper top/bottom", 6, "824", "300", "18"},
                {"upper fixed shelf", 3, "824", "260", "18"},
                {"upper adjustable shelf", 9, "822", "260", "18"},
                {"upper back", 3, "1542", "842", "6"},
                {"counter layer", 2, "1770", "440", "18"},
                {"counter layer", 2, "890", "440", "18"},
                {"plinth rail", 4, "1290", "90", "18"},
                {"plinth cross member", 7, "344", "90", "18"},
                {"plinth kick face", 2, "1330", "95", "18"},
                {"upper scribe strip", 2, "1600", "60", "18"},
                {"base scribe strip", 2, "760", "60", "18"},
                {"head filler", 2, "1330", "80", "18"},
                {"counter nosing", 1, "2660", "40", "22"},
                {"upper adjustable shelf nosing", 9, "822", "38", "22"},
                {"upper fixed shelf nosing", 3, "824", "38", "22"}});
  EXPECT_EQ(planned("study_wall").piece.parts.size(), 90U);
}

TEST(StudyWall, AddsUpToTheSheetAreaWorkedOut) {
  double board = 0;
  double back = 0;
  for (const piece::Part& part : planned("study_wall").piece.parts) {
    const double area = measure::square_metres(measure::area(
        part.finished.length + part.site_length, part.finished.width + part.site_width));
    board += part.stock == "oak_board_18" ? area : 0;
    back += part.stock == "oak_board_6" ? area : 0;
  }
  EXPECT_NEAR(board, 16.59, 0.01);
  EXPECT_NEAR(back, 5.69, 0.01);
}

// By area six would do; that seven is the least must stay proven within what a plan may work.
TEST(StudyWall, TakesSevenSheetsAndProvesThatSixDoNotDo) {
  const stock::SheetNeed& board = sheet(planned("study_wall"), "oak_board_18");
  EXPECT_EQ(board.sheets, 7);
  EXPECT_EQ(board.bound, 7);
  EXPECT_TRUE(board.proven);
  const stock::SheetNeed& back = sheet(planned("study_wall"), "oak_board_6");
  EXPECT_EQ(back.sheets, 3);
  EXPECT_EQ(back.bound, 3);
}

// 297 instead of 299.4 would give one more strip to the sheet, and it still takes 7 sheets.
TEST(StudyWall, TheStripTrapIsNotAdvised) {
  for (const stock::Nudge& nudge : planned("study_wall").nudges) {
    EXPECT_TRUE(std::ranges::none_of(nudge.saves, [](const std::string& saves) {
      return saves.find("sheet") != std::string::npos;
    })) << nudge.what;
  }
}

TEST(StudyWall, NeedsItsBandAndFittings) {
  const plan::Plan& plan = planned("study_wall");
  ASSERT_EQ(plan.stock.bands.size(), 1U);
  EXPECT_NEAR(plan.stock.bands[0].net.metres(), 42.2, 0.2);
  EXPECT_EQ(plan.stock.bands[0].edges, 54);
  EXPECT_NEAR(plan.stock.bands[0].buy.metres(), 49, 1.5);
  const auto count = [&](std::string_view id) {
    const auto found = std::ranges::find(plan.stock.hardware, id, &stock::HardwareNeed::id);
    return found == plan.stock.hardware.end() ? 0 : found->count;
  };
  EXPECT_EQ(count("cup_hinge_110"), 12);
  EXPECT_EQ(count("pull_bar_oak"), 6);
  EXPECT_EQ(count("shelf_pin_steel"), 48);
  EXPECT_EQ(count("plinth_block"), 8);
  EXPECT_EQ(count("wall_fixing"), 10);
  EXPECT_EQ(count("connector_screw"), 12);
}

TEST(StudyWall, CostsAndTakesWhatWasWorkedOut) {
  const plan::Plan& plan = planned("study_wall");
  EXPECT_GE(plan.bench.total.mean, 58);
  EXPECT_LE(plan.bench.total.mean, 72);
  EXPECT_GE(plan.price.price, measure::Money::from_major(6900));
  EXPECT_LE(plan.price.price, measure::Money::from_major(8300));
  EXPECT_NEAR(plan.price.materials.major(), 1620, 100);
  EXPECT_NEAR(plan.price.reserve.major(), 180, 2);
}

TEST(StudyWall, PlainShelvesSagAndNosedOnesDoNot) {
  EXPECT_EQ(finding(planned("study_wall"), "sag.upper"), nullptr);
  const checks::Finding* sag = finding(planned("study_wall", {{"shelves", "plain"}}), "sag.upper");
  ASSERT_NE(sag, nullptr);
  EXPECT_EQ(sag->severity, checks::Severity::kFails);
  // 282 wide sags a little less than the core of 260 alone, 3.97 at once; in time half as much
  // again.
  EXPECT_NEAR(sag->value, 3.97 * 260 / 282 * 1.5, 0.15);
  EXPECT_NEAR(sag->limit_value, 822.0 / 600, 0.01);
}

TEST(StudyWall, SaysThatTheCounterIsLongerThanTheSheet) {
  const checks::Finding* pieced = finding(planned("study_wall"), "sheet.pieced");
  ASSERT_NE(pieced, nullptr);
  EXPECT_NE(pieced->figure.find("counter"), std::string::npos);
}

// ---- What holds for every piece -----------------------------------------------------------------

class EveryExample : public ::testing::TestWithParam<const char*> {};

TEST_P(EveryExample, HasNoPartStandingInAnother) {
  const plan::Plan& plan = planned(GetParam());
  for (const piece::Contact& overlap : piece::overlaps(plan.piece)) {
    ADD_FAILURE() << plan.piece.parts[overlap.a].path << " stands in "
                  << plan.piece.parts[overlap.b].path;
  }
}

TEST_P(EveryExample, HasNoPartFloating) {
  const plan::Plan& plan = planned(GetParam());
  for (const piece::PartIndex part : piece::floating_parts(plan.piece)) {
    ADD_FAILURE() << plan.piece.parts[part].path << " is held by nothing";
  }
}

TEST_P(EveryExample, LetsEveryTongueEndInsideItsPart) {
  const plan::Plan& plan = planned(GetParam());
  for (const piece::Joint& joint : plan.piece.joints) {
    if (!piece::lets_in(joint.kind) || joint.depth == measure::Length{}) {
      continue;
    }
    measure::Box tongue = joint.contact;
    tongue.size[joint.home.axis] = joint.depth;
    if (joint.home.sign < 0) {
      tongue.at[joint.home.axis] -= joint.depth;
    }
    const measure::Box& into = plan.piece.parts[joint.b].body;
    const measure::Box inside = measure::intersection(tongue, into);
    EXPECT_EQ(inside.size, tongue.size)
        << plan.piece.parts[joint.a].path << " into " << plan.piece.parts[joint.b].path;
  }
}

TEST_P(EveryExample, FillsItsOverallSize) {
  const plan::Plan& plan = planned(GetParam());
  measure::Box whole = plan.piece.parts.front().body;
  for (const piece::Part& part : plan.piece.parts) {
    whole = measure::hull(whole, part.body);
  }
  EXPECT_EQ(whole.at, plan.piece.overall.at);
  EXPECT_EQ(whole.size, plan.piece.overall.size);
}

TEST_P(EveryExample, LeavesNoContactUnheld) {
  EXPECT_EQ(finding(planned(GetParam()), "contact"), nullptr);
}

TEST_P(EveryExample, EveryPartKnowsItsKitAndLine) {
  for (const piece::Part& part : planned(GetParam()).piece.parts) {
    EXPECT_FALSE(part.kit.empty()) << part.path;
    EXPECT_GT(part.from.line, 1) << part.path;
    EXPECT_FALSE(part.code.empty()) << part.path;
  }
}

TEST_P(EveryExample, CutsEveryPartFromSomethingBought) {
  const plan::Plan& plan = planned(GetParam());
  std::vector<int> cut(plan.piece.parts.size(), 0);
  for (const stock::SheetNeed& need : plan.stock.sheets) {
    EXPECT_THAT(need.unplaced, IsEmpty());
    for (const stock::SheetLayout& layout : need.layouts) {
      for (const stock::SheetPiece& placed : layout.pieces) {
        ++cut[placed.part];
      }
    }
  }
  for (const stock::SolidNeed& need : plan.stock.solids) {
    for (const stock::BoardLayout& board : need.boards) {
      for (const stock::BoardPiece& placed : board.pieces) {
        ++cut[placed.part];
      }
    }
  }
  for (std::size_t i = 0; i < cut.size(); ++i) {
    const piece::Part& part = plan.piece.parts[i];
    const int wanted = part.material == piece::Material::kSolid
                           ? std::max(1, part.strips) * std::max(1, part.layers)
                           : 1;
    EXPECT_EQ(cut[i], wanted) << part.path;
  }
}

TEST_P(EveryExample, NoCostGoesMissing) {
  const plan::Plan& plan = planned(GetParam());
  measure::Money bought;
  for (const stock::Purchase& purchase : plan.stock.purchases) {
    bought += purchase.price;
  }
  for (const commission::ExtraCost& extra : plan.commission.extra_costs) {
    bought += extra.price;
  }
  measure::Money lines;
  measure::Money shop_costs;
  for (const price::CostLine& line : plan.price.lines) {
    lines += line.cost;
    shop_costs += line.kind == "consumables" || line.what == "van" ? line.cost : measure::Money{};
  }
  EXPECT_EQ(lines, plan.price.cost);
  EXPECT_EQ(bought + shop_costs, plan.price.materials);
}

TEST_P(EveryExample, PlansTheSameTwice) {
  const plan::Plan& plan = planned(GetParam());
  const std::string file = example_path(GetParam());
  const plan::Planned again = plan::plan_commission(
      store::read_file(file).value(), file, store::open_beside(file), reference(), {}, {});
  ASSERT_TRUE(again.plan);
  EXPECT_EQ(again.plan->price.cost, plan.price.cost);
  ASSERT_EQ(again.plan->stock.sheets.size(), plan.stock.sheets.size());
  for (std::size_t i = 0; i < plan.stock.sheets.size(); ++i) {
    const auto& a = plan.stock.sheets[i].layouts;
    const auto& b = again.plan->stock.sheets[i].layouts;
    ASSERT_EQ(a.size(), b.size());
    for (std::size_t j = 0; j < a.size(); ++j) {
      EXPECT_TRUE(std::ranges::equal(a[j].pieces, b[j].pieces, [](const auto& x, const auto& y) {
        return x.part == y.part && x.x == y.x && x.y == y.y;
      }));
    }
  }
}

TEST_P(EveryExample, EveryOptionOfEveryChoiceCanBeBuilt) {
  for (const plan::ChoiceEffect& effect : planned(GetParam()).choices) {
    EXPECT_THAT(effect.errors, IsEmpty()) << effect.choice << " = " << effect.option;
    EXPECT_GT(effect.price, measure::Money{});
  }
}

TEST_P(EveryExample, EveryCombinationStandsWithoutOverlap) {
  const plan::Plan& base = planned(GetParam());
  for (const commission::Choice& choice : base.commission.choices) {
    for (const commission::Option& option : choice.options) {
      const plan::Plan& plan = planned(GetParam(), {{choice.id, option.id}});
      EXPECT_THAT(piece::overlaps(plan.piece), IsEmpty()) << option.id;
      EXPECT_THAT(piece::floating_parts(plan.piece), IsEmpty()) << option.id;
    }
  }
}

INSTANTIATE_TEST_SUITE_P(Demos,
                         EveryExample,
                         ::testing::Values("hall_cabinet", "dining_table", "study_wall"),
                         [](const auto& param) { return std::string{param.param}; });

}  // namespace
}  // namespace plankwright::whole
