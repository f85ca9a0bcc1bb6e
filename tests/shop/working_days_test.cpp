// When a shop works, as it is written and read.

#include <gtest/gtest.h>

#include "base/result.h"
#include "shop/read_shop.h"
#include "shop_files.h"

namespace plankwright::shop {
namespace {

using test::files;

ReadShop read(const std::string& text) {
  return read_shop("based_on: bench.yaml\n" + text,
                   "my.yaml",
                   files({{"bench.yaml", std::string{test::kBench}},
                          {"two_standards.csv", std::string{test::kTwoStandards}}}));
}

std::string errors_of(const std::string& text) {
  std::string all;
  for (const base::Error& error : read(text).errors) {
    all += error.message + (error.nearest.empty() ? "" : " -> " + error.nearest) + "\n";
  }
  return all;
}

TEST(WorkingDays, AreMondayToFridayFromEightWhenNothingIsSaid) {
  const Shop shop = read("").shop;
  EXPECT_EQ(shop.workday.days, kMondayToFriday);
  EXPECT_EQ(shop.workday.starts, 8 * 60);
  EXPECT_TRUE(shop.closed.empty());
  EXPECT_EQ(shop.places.bench, 2);
  EXPECT_EQ(shop.places.finishing, 1);
  EXPECT_EQ(shop.machine("saw")->count, 1);
  EXPECT_FALSE(shop.people.front().days);
}

TEST(WorkingDays, AreTakenAsWritten) {
  const ReadShop mine = read(R"(workday: {hours: 6, starts: "7:30", days: [tuesday, saturday]}
closed:
  - {from: 2026-08-03, to: 2026-08-21, says: summer}
  - {from: 2026-05-01}
places: {bench: 3, finishing: 0}
order_slack: 4
machines: {saw: {count: 2}}
people: [{name: Aud, role: maker, wage: 20, paid_hours: 1000, days: [monday, friday]}]
finishes: {oil: {taken_in: [wednesday]}}
)");
  ASSERT_TRUE(mine.errors.empty()) << mine.errors.front().message;
  const Shop& shop = mine.shop;
  EXPECT_EQ(shop.workday.days, (Weekdays{false, true, false, false, false, true, false}));
  EXPECT_EQ(shop.workday.starts, 450);
  ASSERT_EQ(shop.closed.size(), 2U);
  EXPECT_EQ(measure::print(shop.closed[0].to), "2026-08-21");
  EXPECT_EQ(shop.closed[0].says, "summer");
  EXPECT_EQ(shop.closed[1].from, shop.closed[1].to);
  EXPECT_EQ(shop.places.bench, 3);
  EXPECT_EQ(shop.places.finishing, 0);
  EXPECT_EQ(shop.order_slack, 4);
  EXPECT_EQ(shop.machine("saw")->count, 2);
  EXPECT_EQ(shop.people[0].days, (Weekdays{true, false, false, false, true, false, false}));
  EXPECT_EQ(shop.finish("oil")->taken_in,
            (Weekdays{false, false, true, false, false, false, false}));
}

TEST(WorkingDays, SayWhatIsWrong) {
  struct Wrong {
    std::string text;
    std::string says;
  };
  const Wrong cases[] = {
      {"workday: {days: [munday]}\n", "`munday` is no day of the week -> monday\n"},
      {"workday: {starts: half past}\n",
       "found `half past`, expected a time of day such as 8:00\n"},
      {"workday: {starts: \"8:75\"}\n", "found `8:75`, expected a time of day such as 8:00\n"},
      {"workday: {starts: \"18:00\"}\n", "the day does not end before midnight\n"},
      {"closed: [{from: 2026-05-02, to: 2026-05-01}]\n", "the last day stands before the first\n"},
      {"closed: [{from: 2026-02-30}]\n", "found `2026-02-30`, a day that does not exist\n"}};
  for (const Wrong& wrong : cases) {
    SCOPED_TRACE(wrong.text);
    EXPECT_EQ(errors_of(wrong.text), wrong.says);
  }
}

}  // namespace
}  // namespace plankwright::shop
