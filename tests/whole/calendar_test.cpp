// The calendars of the demo commissions, held to a checker that shares no code with the planning.

#include <chrono>
#include <string>

#include <gmock/gmock.h>
#include <gtest/gtest.h>

#include "calendar/check_calendar.h"
#include "plan/plan.h"
#include "whole/planned.h"

namespace plankwright::whole {
namespace {

using calendar::Calendar;
using calendar::Work;
using measure::print;
using ::testing::HasSubstr;
using ::testing::IsEmpty;
using ::testing::Not;

Work work_of(const plan::Plan& plan) {
  return {&plan.commission, &plan.piece, &plan.stock, &plan.bench};
}

std::vector<std::string> faults(const Calendar& calendar,
                                const std::vector<Work>& works,
                                const shop::Shop& shop) {
  return calendar::check_calendar(calendar, works, shop, reference().day_rules);
}

class DemoCalendar : public ::testing::TestWithParam<const char*> {};

TEST_P(DemoCalendar, CanBeWorked) {
  const plan::Plan& plan = planned(GetParam());
  ASSERT_TRUE(plan.calendar);
  EXPECT_THAT(plan.calendar_missing, IsEmpty());
  EXPECT_THAT(faults(*plan.calendar, {work_of(plan)}, plan.shop), IsEmpty());
}

TEST_P(DemoCalendar, OrdersItsDates) {
  const plan::Plan& plan = planned(GetParam());
  const Calendar& calendar = *plan.calendar;
  EXPECT_LE(calendar.bound, calendar.finish);
  const auto& odds = calendar.finishes.front().odds;
  ASSERT_EQ(odds.size(), 3U);
  EXPECT_LE(odds[0].day, odds[1].day);
  EXPECT_LE(odds[1].day, odds[2].day);
  EXPECT_EQ(calendar.deliveries.size(), plan.stock.purchases.size());
  for (const calendar::Delivery& delivery : calendar.deliveries) {
    EXPECT_LE(delivery.order_by, delivery.needed);
    EXPECT_EQ(plan.stock.purchases[delivery.purchase].order_by, delivery.order_by);
  }
}

TEST_P(DemoCalendar, NamesWhoDoesEachStep) {
  const plan::Plan& plan = planned(GetParam());
  for (const calendar::Entry& entry : plan.calendar->entries) {
    EXPECT_TRUE(!entry.who.empty() || entry.starts == entry.ends) << entry.name;
  }
}

INSTANTIATE_TEST_SUITE_P(All,
                         DemoCalendar,
                         ::testing::Values("hall_cabinet", "dining_table", "study_wall"),
                         [](const auto& param) { return std::string{param.param}; });

TEST(CalendarOfAll, SharesOneShopBetweenThreeCommissions) {
  const plan::Plan& one = planned("hall_cabinet");
  const plan::Plan& two = planned("dining_table");
  const plan::Plan& three = planned("study_wall");
  const auto together =
      plan::plan_together({&one, &two, &three}, reference(), *one.commission.quoted, {.draws = 20});
  ASSERT_TRUE(together.calendar);
  const Calendar& calendar = *together.calendar;
  EXPECT_THAT(faults(calendar, plan::works_of({&one, &two, &three}), one.shop), IsEmpty());
  EXPECT_THAT(calendar.held_up, Not(IsEmpty()));
  for (const calendar::Finish& finish : calendar.finishes) {
    EXPECT_EQ(finish.odds.size(), 3U);
  }
  for (const calendar::Week& week : calendar.weeks) {
    measure::Minutes promised;
    for (const measure::Minutes& minutes : week.promised) {
      promised += minutes;
    }
    EXPECT_LE(promised, week.at_hand) << print(week.monday);
  }
}

// A checker that finds nothing wrong with anything would pass all of the above.
TEST(CheckCalendar, FindsEachKindOfFault) {
  const plan::Plan& plan = planned("dining_table");
  const auto broken = [&](auto breaks) {
    Calendar calendar = *plan.calendar;
    breaks(calendar);
    std::string all;
    for (const std::string& fault : faults(calendar, {work_of(plan)}, plan.shop)) {
      all += fault + "\n";
    }
    return all;
  };
  EXPECT_THAT(broken([](Calendar& c) { c.entries.pop_back(); }), HasSubstr("stands nowhere"));
  EXPECT_THAT(broken([](Calendar& c) { c.entries.back().starts = c.entries.front().starts; }),
              HasSubstr("begins before"));
  EXPECT_THAT(broken([](Calendar& c) {
                for (calendar::Entry& entry : c.entries) {
                  entry.ends.minute = 23 * 60;
                }
              }),
              HasSubstr("asked for"));
}

TEST(CalendarOfAll, IsMissingWithAReasonWithoutTheDateOfTheQuotation) {
  std::string text = store::read_file(example_path("hall_cabinet")).value();
  const std::size_t at = text.find("quoted: 2026-03-02\n");
  ASSERT_NE(at, std::string::npos);
  text.erase(at, std::string{"quoted: 2026-03-02\n"}.size());
  const plan::Planned made = plan_text(text);
  ASSERT_TRUE(made.plan);
  EXPECT_FALSE(made.plan->calendar);
  ASSERT_EQ(made.plan->calendar_missing.size(), 1U);
  EXPECT_THAT(made.plan->calendar_missing[0], HasSubstr("write its date as `quoted`"));
}

// Promised: ten thousand finish dates of the hall cabinet within a second on an idle machine. Time
// is not tested here, for other work on the machine would fail it; that all are drawn is.
TEST(CalendarOfAll, DrawsTenThousandFinishes) {
  const plan::Plan& plan = planned("hall_cabinet");
  const auto drawn =
      plan::plan_together({&plan}, reference(), plan.calendar->starts, {.draws = 10'000});
  ASSERT_TRUE(drawn.calendar);
  EXPECT_EQ(drawn.calendar->draws, 10'000);
}

}  // namespace
}  // namespace plankwright::whole
