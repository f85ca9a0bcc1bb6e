#include "shop/labour_standards.h"

#include <map>

#include <gtest/gtest.h>

#include "shop/shop_files.h"

namespace plankwright::shop {
namespace {

using test::said;

constexpr std::string_view kHeader =
    "id,name,phase,setup_min,setup_per,per_unit_min,unit,sigma,machine,unattended_min,people,note,"
    "source\n";

std::vector<LabourStandard> read(std::string_view rows, base::Errors& errors) {
  static const std::vector<std::string> kMachines{"table_saw", "planer"};
  return read_labour_standards(
      std::string{kHeader} + std::string{rows}, "l.csv", kMachines, errors);
}

TEST(LabourStandards, AreReadWithAllTheirFigures) {
  base::Errors errors;
  const auto all = read(
      "rip,Rip to width,milling,4,setting,0.6,piece,0.20,table_saw,15,2,mind the kickback,us\n",
      errors);
  EXPECT_EQ(said(errors), "");
  ASSERT_EQ(all.size(), 1U);
  EXPECT_EQ(all[0].id, "rip");
  EXPECT_EQ(all[0].name, "Rip to width");
  EXPECT_EQ(all[0].phase, "milling");
  EXPECT_EQ(all[0].setup, Minutes{4});
  EXPECT_EQ(all[0].setup_per, "setting");
  EXPECT_EQ(all[0].per_unit, Minutes{0.6});
  EXPECT_EQ(all[0].unit, "piece");
  EXPECT_EQ(all[0].sigma, 0.20);
  EXPECT_EQ(all[0].machine, "table_saw");
  EXPECT_EQ(all[0].unattended, Minutes{15});
  EXPECT_EQ(all[0].people, 2);
  EXPECT_EQ(all[0].note, "mind the kickback");
  EXPECT_EQ(all[0].source, "us");
}

struct WrongRow {
  const char* row;
  const char* error;
};

TEST(LabourStandards, SayWhatIsWrongAndWhere) {
  const WrongRow cases[] = {
      {"a,A,miling,4,job,1,piece,0.2,,0,1,,us",
       "l.csv:2:5: error: found `miling`, expected milling, joints, assembly, surface, curves, "
       "fittings, finish, outside or office; did you mean `milling`?\n"},
      {"a,A,milling,4,jobs,1,piece,0.2,,0,1,,us",
       "l.csv:2:15: error: found `jobs`, expected job, setting, stage, coat or trip; did you mean "
       "`job`?\n"},
      {"a,A,milling,-4,job,1,piece,0.2,,0,1,,us",
       "l.csv:2:13: error: `setup_min` is -4, expected 0 to 10000\n"},
      {"a,A,milling,0,job,0,piece,0.2,,0,1,,us", "l.csv:2:19: error: `a` takes no time at all\n"},
      {"a,A,milling,4,job,1,piece,wide,,0,1,,us",
       "l.csv:2:27: error: `sigma` must be a number, not `wide`\n"},
      {"a,A,milling,4,job,1,piece,0.2,tablesaw,0,1,,us",
       "l.csv:2:31: error: there is no machine `tablesaw` in this shop; did you mean "
       "`table_saw`?\n"},
      {"a,A,milling,4,job,1,piece,0.2,,0,1.5,,us",
       "l.csv:2:34: error: `people` must be a whole number, not `1.5`\n"},
      {"a,A,milling,4,job,1,piece,0.2,,0,1,,", "l.csv:2:37: error: `source` must not be empty\n"},
      {"a,A,milling,4,job,1,piece,0.2,,0,1,,us\na,B,milling,4,job,1,piece,0.2,,0,1,,us",
       "l.csv:3:1: error: `a` stands here a second time\n"}};
  for (const WrongRow& c : cases) {
    SCOPED_TRACE(c.row);
    base::Errors errors;
    read(std::string{c.row} + "\n", errors);
    EXPECT_EQ(said(errors), c.error);
  }
}

TEST(LabourStandards, NameEveryMissingColumnOnce) {
  base::Errors errors;
  read_labour_standards(
      "id,name,phase,setup_min,setup_per,per_unit_min,unit,machine,note,people\n"
      "a,A,milling,4,job,1,piece,,,1\nb,B,milling,4,job,1,piece,,,1\n",
      "l.csv",
      {},
      errors);
  EXPECT_EQ(said(errors),
            "l.csv:1:1: error: there is no column `sigma`\n"
            "l.csv:1:1: error: there is no column `unattended_min`\n"
            "l.csv:1:1: error: there is no column `source`\n");
}

TEST(LabourStandards, AreNotJudgedByTheMachinesOfAShopThatListsNone) {
  base::Errors errors;
  read_labour_standards(
      std::string{kHeader} + "a,A,milling,4,job,1,piece,0.2,lathe,0,1,,us\n", "l.csv", {}, errors);
  EXPECT_EQ(said(errors), "");
}

// The figures that the demonstration commissions were reckoned with: common practice, no source.
TEST(DefaultLabourStandards, HoldTheSixtyFourOperations) {
  const ReadShop read = read_shop(test::files()("shop.yaml").value(), "shop.yaml", test::files());
  ASSERT_EQ(said(read.errors), "");
  const Shop& shop = read.shop;
  EXPECT_EQ(shop.standards.size(), 64U);
  std::map<std::string, int> in_phase;
  for (const LabourStandard& standard : shop.standards) {
    ++in_phase[standard.phase];
    EXPECT_EQ(standard.source, "common practice, no source") << standard.id;
    EXPECT_TRUE(standard.machine.empty() || shop.machine(standard.machine) != nullptr)
        << standard.id;
    EXPECT_GE(standard.sigma, 0.15) << standard.id;
    EXPECT_LE(standard.sigma, 0.45) << standard.id;
  }
  EXPECT_EQ(in_phase.size(), phase_words().size());

  // Reckoned by hand: fitting a 4-drawer bank of dovetailed boxes takes 5.15 h of making:
  // parts 15 + 4 x 6, dovetails 45 + 4 x 22, bottoms 12 + 4 x 4, assembly 10 + 4 x 15, sealing 15 +
  // 4 x 6.
  double minutes = 0;
  for (const char* id :
       {"drawer_parts", "dovetail_jig", "drawer_bottom", "drawer_assemble", "drawer_finish"}) {
    ASSERT_NE(shop.standard(id), nullptr) << id;
    minutes += (shop.standard(id)->setup + 4 * shop.standard(id)->per_unit).count();
  }
  EXPECT_NEAR(minutes / 60, 5.15, 0.005);

  // A sawn arch of 4 ft: a template of 45 min, sawing 15 + 3.5 x 4, fairing 5 + 4 x 4 make 95.
  const auto minutes_of = [&](const char* id, double units) {
    return (shop.standard(id)->setup + units * shop.standard(id)->per_unit).count();
  };
  EXPECT_NEAR(minutes_of("template", 1) + minutes_of("curve_cut", 4) + minutes_of("curve_fair", 4),
              95,
              0.5);
  EXPECT_NEAR(minutes_of("bent_lam", 1), 165, 0.5);
  EXPECT_EQ(shop.standard("box_set")->people, 2);
  EXPECT_NEAR(minutes_of("box_set", 6) / 60, 2.75, 0.005);  // six cabinets set on site
  EXPECT_NEAR(minutes_of("deliver", 1) / 60, 2.0, 0.005);
}

}  // namespace
}  // namespace plankwright::shop
