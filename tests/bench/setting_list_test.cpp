#include "bench/setting_list.h"

#include <gtest/gtest.h>

#include "bench_fixture.h"

namespace plankwright::bench {
namespace {

Operation at_the_saw(const char* figure, std::vector<PartIndex> parts, double setup) {
  Operation operation;
  operation.machine = "table saw";
  operation.setting = figure;
  operation.setting_kind = "fence";
  operation.pieces = static_cast<int>(parts.size());
  operation.parts = std::move(parts);
  operation.setup = Minutes{setup};
  operation.work = Minutes{0.6};
  return operation;
}

TEST(SettingList, JoinsWhatFollowsInOneSetting) {
  Bench bench;
  bench.operations = {at_the_saw("57", {4, 7}, 4),
                      at_the_saw("57", {2, 7}, 0),
                      at_the_saw("80", {1}, 4),
                      at_the_saw("57", {3}, 4)};
  bench.operations[1].spares = 1;
  const std::vector<MachineSetting> list = setting_list(bench);
  ASSERT_EQ(list.size(), 3U);
  EXPECT_EQ(list[0].operations, (std::vector<std::size_t>{0, 1}));
  EXPECT_EQ(list[0].parts, (std::vector<PartIndex>{2, 4, 7}));
  EXPECT_EQ(list[0].pieces, 4);
  EXPECT_EQ(list[0].spares, 1);
  EXPECT_NEAR(list[0].setup.count(), 4, 1e-9);
  EXPECT_NEAR(list[0].work.count(), 1.2, 1e-9);
  EXPECT_EQ(list[2].figure, "57");  // it was set to 80 in between
}

TEST(SettingList, LeavesOutWhatIsNotSet) {
  Bench bench;
  bench.operations = {at_the_saw("", {0}, 4)};
  EXPECT_TRUE(setting_list(bench).empty());
}

TEST(SettingList, OfTheExamplesHoldsTheSettingsThatAreCounted) {
  for (const char* example : {"hall_cabinet.yaml", "dining_table.yaml", "study_wall.yaml"}) {
    const Bench bench = testing::work(example).bench;
    Minutes setup;
    for (const MachineSetting& setting : setting_list(bench)) {
      EXPECT_FALSE(setting.parts.empty()) << example;
      EXPECT_GT(setting.pieces, setting.spares) << example;
      setup += setting.setup;
    }
    Minutes asked;
    for (const Operation& operation : bench.operations) {
      asked += operation.setting.empty() ? Minutes{} : operation.setup;
    }
    EXPECT_NEAR(setup.count(), asked.count(), 1e-9) << example;
  }
}

}  // namespace
}  // namespace plankwright::bench
