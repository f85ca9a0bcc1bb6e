#include "shop/hour_rate.h"

#include <gtest/gtest.h>
#include <rapidcheck/gtest.h>

namespace plankwright::shop {
namespace {

Person person(double wage, double hours) {
  return {.name = "Aud", .role = "maker", .wage = Money::from_major(wage), .paid_hours = hours};
}

Overhead overhead(double per_year) {
  return {.what = "rent", .per_year = Money::from_major(per_year)};
}

struct RateCase {
  const char* why;
  std::vector<Person> people;
  std::vector<Overhead> overheads;
  double utilisation;
  double hours;
  double cost;
};

TEST(HourRate, SharesWagesAndOverheadsOutOverBillableHours) {
  const RateCase cases[] = {
      // Worked by hand, common practice: overhead 33 600 / 1400 h = 24, wages 53 200 / 1400 h = 38.
      {"a shop of one", {person(26.60, 2000)}, {overhead(33'600)}, 70, 1400, 62.00},
      {"the same wages earned by two",
       {person(28.50, 1600), person(19, 400)},
       {overhead(20'000), overhead(13'600)},
       70,
       1400,
       62.00},
      // University extension example (table of sources: BZ2): 48 weeks of 40 h are 1920 paid hours,
      // and 75 000 a year are 39.06 an hour, when every hour is billed and nothing else is paid.
      {"a salary and no overheads", {person(75'000.0 / 1920, 1920)}, {}, 100, 1920, 39.06},
      {"half the hours sold cost twice as much", {person(20, 1000)}, {}, 50, 500, 40.00}};
  for (const RateCase& c : cases) {
    SCOPED_TRACE(c.why);
    const auto rate = hour_rate(c.people, c.overheads, Percent{c.utilisation});
    ASSERT_TRUE(rate.ok());
    EXPECT_DOUBLE_EQ(rate.value().billable_hours, c.hours);
    EXPECT_EQ(rate.value().cost, Money::from_major(c.cost));
  }
}

TEST(HourRate, SaysWhatItIsMadeOf) {
  const auto rate = hour_rate(std::vector{person(28.50, 1600), person(19, 400)},
                              std::vector{overhead(33'600)},
                              Percent{70});
  ASSERT_TRUE(rate.ok());
  EXPECT_EQ(rate.value().wages_per_year, Money::from_major(53'200));
  EXPECT_EQ(rate.value().overhead_per_year, Money::from_major(33'600));
}

TEST(HourRate, RefusesAnHourWithoutPrice) {
  const auto nobody = hour_rate({}, std::vector{overhead(1000)}, Percent{70});
  ASSERT_FALSE(nobody.ok());
  EXPECT_EQ(nobody.error().message, "nobody is paid for an hour, so an hour has no price");
  for (const double utilisation : {0.0, -5.0, 100.5}) {
    const auto rate = hour_rate(std::vector{person(20, 1000)}, {}, Percent{utilisation});
    ASSERT_FALSE(rate.ok());
    EXPECT_EQ(rate.error().message, "the utilisation must be over 0 % and at most 100 %");
  }
  const auto endless = hour_rate(std::vector(2000, person(1e9, 8784)), {}, Percent{70});
  ASSERT_FALSE(endless.ok());
  EXPECT_EQ(endless.error().message, "the wages and overheads of a year are beyond all measure");
}

RC_GTEST_PROP(HourRate, BillsExactlyWhatAYearCosts, ()) {
  const auto wage = *rc::gen::inRange(1000, 20'000);
  const auto hours = *rc::gen::inRange(100, 2500);
  const auto rent = *rc::gen::inRange(0, 9'000'000);
  const auto utilisation = *rc::gen::inRange(20, 101);
  const auto rate = hour_rate(std::vector{person(wage / 100.0, hours)},
                              std::vector{overhead(rent / 100.0)},
                              Percent{static_cast<double>(utilisation)});
  RC_ASSERT(rate.ok());
  const double billed = rate.value().cost.major() * rate.value().billable_hours;
  const double year = wage / 100.0 * hours + rent / 100.0;
  RC_ASSERT(std::abs(billed - year) <= 0.005 * rate.value().billable_hours + 0.01);
}

}  // namespace
}  // namespace plankwright::shop
