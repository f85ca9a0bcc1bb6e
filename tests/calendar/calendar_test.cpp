// Plans small enough to be made by hand. 2026-03-02 is a Monday.

#include <gmock/gmock.h>
#include <gtest/gtest.h>
#include <rapidcheck/gtest.h>

#include "calendar_fixture.h"

namespace plankwright::calendar {
namespace {

using ::testing::HasSubstr;
using namespace testing;  // NOLINT(google-build-using-namespace): the fixture of this folder

// Two ways to the end, 4 + 6 h and 3 + 5 h, two makers: the longer one is 10 h, so with days of 8 h
// nothing is finished before Tuesday 10:00.
TEST(Calendar, FindsTheCriticalPathOfAWorkedExample) {
  shop::Shop shop = plain_shop();
  shop.people.push_back(person("Bo", "maker"));
  const Job job = job_of({operation("A", 240),
                          operation("B", 360, {0}),
                          operation("C", 180),
                          operation("D", 300, {2})});
  const Planned planned = plan(job, shop);
  ASSERT_TRUE(planned.calendar);
  const Calendar& calendar = *planned.calendar;
  EXPECT_EQ(when(entry_of(calendar, "B").ends), "2026-03-03 10:00");
  EXPECT_EQ(measure::print(calendar.finish), "2026-03-03");
  EXPECT_TRUE(calendar.proven);
  EXPECT_TRUE(entry_of(calendar, "A").drives);
  EXPECT_TRUE(entry_of(calendar, "B").drives);
  EXPECT_FALSE(entry_of(calendar, "D").drives);
  EXPECT_EQ(entry_of(calendar, "B").waits_for, "A");
}

// S. M. Johnson's rule for two machines in line (1954): jobs (3, 6), (7, 2), (4, 4) h on the first
// and second machine, each with a person of its own, are done in 16 h in the order 1, 3, 2: the
// first machine needs 3 + 4 + 7, and the last piece 2 more, 16; by hand: ends 9, 13, 16.
TEST(Calendar, FindsJohnsonsOrderOnTwoMachines) {
  shop::Shop shop = plain_shop();
  shop.people.push_back(person("Bo", "maker"));
  shop.workday.hours = 24;
  shop.workday.starts = 0;
  shop::Machine planer;
  planer.id = planer.name = "planer";
  shop.machines.push_back(planer);
  std::vector<bench::Operation> operations;
  const double hours[3][2] = {{3, 6}, {7, 2}, {4, 4}};
  for (std::size_t i = 0; i < 3; ++i) {
    operations.push_back(operation("saw " + std::to_string(i), 60 * hours[i][0]));
    operations.back().machine = "saw";
    operations.push_back(operation("plane " + std::to_string(i), 60 * hours[i][1], {2 * i}));
    operations.back().machine = "planer";
  }
  const Planned planned = plan(job_of(operations), shop);
  ASSERT_TRUE(planned.calendar);
  Moment last{};
  for (const Entry& entry : planned.calendar->entries) {
    last = std::max(last, entry.ends);
  }
  EXPECT_EQ(when(last), "2026-03-02 16:00");
}

TEST(Calendar, TakesTheHandsOnShareOfTheDay) {
  shop::Shop shop = plain_shop();
  shop.workday.hands_on = measure::Percent{75};
  const Planned planned = plan(job_of({operation("A", 360), operation("B", 60, {0})}), shop);
  ASSERT_TRUE(planned.calendar);  // 360 / 0.75 = 480: the whole of Monday
  EXPECT_EQ(when(entry_of(*planned.calendar, "B").starts), "2026-03-03 8:00");
  EXPECT_EQ(when(entry_of(*planned.calendar, "B").ends), "2026-03-03 9:20");
}

TEST(Calendar, StartsNoGlueUpThatCannotBeClosedBeforeTheEndOfTheDay) {
  const Job job = job_of({operation("saw", 420), operation("glue", 90, {0}, "carcase_glue")});
  const Planned planned = plan(job, plain_shop());
  ASSERT_TRUE(planned.calendar);  // one hour of Monday is left
  EXPECT_EQ(when(entry_of(*planned.calendar, "glue").starts), "2026-03-03 8:00");
}

TEST(Calendar, CutsWhileSomethingSets) {
  Job job = job_of({operation("glue", 60, {}, "carcase_glue"),
                    operation("clean", 30, {0}),
                    operation("cut", 90)});
  job.bench.operations[0].unattended = Minutes{90};
  const Planned planned = plan(job, plain_shop());
  ASSERT_TRUE(planned.calendar);
  const Calendar& calendar = *planned.calendar;
  EXPECT_EQ(when(entry_of(calendar, "glue").free), "2026-03-02 10:30");
  EXPECT_EQ(when(entry_of(calendar, "cut").starts), "2026-03-02 9:00");
  EXPECT_EQ(when(entry_of(calendar, "clean").starts), "2026-03-02 10:30");
  ASSERT_EQ(calendar.overlaps.size(), 1U);
  EXPECT_EQ(calendar.overlaps[0].open, Minutes{90});
  EXPECT_THAT(calendar.overlaps[0].says, HasSubstr("cut"));
}

TEST(Calendar, HoldsABenchPlaceWhileSomethingIsInClamps) {
  shop::Shop shop = plain_shop();
  shop.places.bench = 1;
  Job job = job_of(
      {operation("first", 60, {}, "carcase_glue"), operation("second", 60, {}, "carcase_glue")});
  job.bench.operations[0].unattended = job.bench.operations[1].unattended = Minutes{90};
  const Planned planned = plan(job, shop);
  ASSERT_TRUE(planned.calendar);
  const Entry& later = planned.calendar->entries.back();
  EXPECT_EQ(when(later.starts), "2026-03-02 10:30");
  EXPECT_EQ(when(later.free), "2026-03-02 13:00");
}

TEST(Calendar, LetsPlanedWoodRestOvernight) {
  const Job job =
      job_of({operation("plane", 60, {}, "plane_thickness"), operation("rip", 60, {0})});
  const Planned planned = plan(job, plain_shop());
  ASSERT_TRUE(planned.calendar);
  EXPECT_EQ(when(entry_of(*planned.calendar, "rip").starts), "2026-03-03 8:00");
}

TEST(Calendar, KnowsWhoIsInOnWhichDay) {
  shop::Shop shop = plain_shop();
  shop.people.push_back(person("Bo", "helper"));
  shop.people[1].days = shop::Weekdays{false, false, false, true, false, false, false};
  Job job = job_of({operation("lift", 60)});
  job.bench.operations[0].people = 2;
  const Planned planned = plan(job, shop);
  ASSERT_TRUE(planned.calendar);  // half an hour by two, on Thursday
  EXPECT_EQ(when(entry_of(*planned.calendar, "lift").starts), "2026-03-05 8:00");
  EXPECT_EQ(when(entry_of(*planned.calendar, "lift").ends), "2026-03-05 8:30");
}

TEST(Calendar, CallsSomebodyInWhereTheShopHasTooFewPeople) {
  Job job = job_of({operation("lift", 60)});
  job.bench.operations[0].people = 2;
  const Planned planned = plan(job, plain_shop());
  ASSERT_TRUE(planned.calendar);
  EXPECT_TRUE(planned.calendar->entries[0].called_in);
  ASSERT_EQ(planned.calendar->notes.size(), 1U);
  EXPECT_THAT(planned.calendar->notes[0], HasSubstr("lift on 2026-03-02 asks for 2 people"));
}

TEST(Calendar, SkipsHolidaysEvenWholeMonths) {
  shop::Shop shop = plain_shop();
  shop.closed.push_back({day("2026-03-03"), day("2026-04-05"), "fair"});
  const Planned planned = plan(job_of({operation("A", 600)}), shop);
  ASSERT_TRUE(planned.calendar);
  EXPECT_EQ(when(planned.calendar->entries[0].ends), "2026-04-06 10:00");
}

TEST(Calendar, SharesOneShopBetweenCommissions) {
  const Job one = job_of({operation("A", 480)});
  const Job two = job_of({operation("B", 480)});
  const Planned planned = plan_calendar({one.work(), two.work()},
                                        plain_shop(),
                                        {},
                                        day_rules(),
                                        day("2026-03-02"),
                                        {.work = 5, .draws = 10});
  ASSERT_TRUE(planned.calendar);
  EXPECT_EQ(measure::print(planned.calendar->finish), "2026-03-03");
  EXPECT_EQ(planned.calendar->finishes.size(), 2U);
  EXPECT_TRUE(planned.calendar->proven);
}

// ---- What goes wrong ----------------------------------------------------------------------------

std::string error_of(const Job& job, const shop::Shop& shop) {
  const Planned planned = plan(job, shop);
  return planned.errors.empty() ? "" : planned.errors.front().message;
}

TEST(CalendarErrors, NameWhatWaitsForItself) {
  EXPECT_EQ(error_of(job_of({operation("A", 1, {1}), operation("B", 1, {0})}), plain_shop()),
            "these wait for each other in a circle: `A`, `B`; take one of them out of what it "
            "waits for");
}

TEST(CalendarErrors, NameAGlueUpThatNoDayIsLongEnoughFor) {
  EXPECT_EQ(
      error_of(job_of({operation("glue", 600, {}, "carcase_glue")}), plain_shop()),
      "`glue` takes 600 min of the day in one go, and a day has 480: divide it, take a second "
      "person, or write a longer `workday`");
}

TEST(CalendarErrors, NameAShopThatIsNeverOpen) {
  shop::Shop shop = plain_shop();
  shop.closed.push_back({day("2026-01-01"), day("2040-01-01"), ""});
  EXPECT_THAT(error_of(job_of({operation("A", 60)}), shop),
              HasSubstr("the shop has no working day after 2026-03-02"));
  shop.closed.clear();
  shop.people[0].role = "helper";
  EXPECT_THAT(error_of(job_of({operation("A", 60)}), shop), HasSubstr("no maker is in"));
}

TEST(CalendarErrors, NoteAMachineThatIsNotThere) {
  Job job = job_of({operation("turn", 60)});
  job.bench.operations[0].machine = "lathe";
  const Planned planned = plan(job, plain_shop());
  ASSERT_TRUE(planned.calendar);
  ASSERT_EQ(planned.calendar->notes.size(), 1U);
  EXPECT_EQ(planned.calendar->notes[0],
            "turn needs `lathe`, which this shop does not have: add it under `machines`, or have "
            "it done outside");
}

// ---- Properties ---------------------------------------------------------------------------------

/// Work on each open day, swept minute by minute by somebody who knows nothing of the solver.
bool is_worked_by_one_at_a_time(const Calendar& calendar) {
  for (const Entry& a : calendar.entries) {
    for (const Entry& b : calendar.entries) {
      if (&a < &b && a.starts < b.ends && b.starts < a.ends) {
        return false;
      }
    }
  }
  return true;
}

RC_GTEST_PROP(CalendarProperties, KeepsPrecedenceDaysAndHands, ()) {
  const auto count = *rc::gen::inRange<std::size_t>(1, 12);
  std::vector<bench::Operation> operations;
  double total = 0;
  for (std::size_t i = 0; i < count; ++i) {
    std::vector<std::size_t> after;
    for (std::size_t j = 0; j < i; ++j) {
      if (*rc::gen::inRange(0, 3) == 0) {
        after.push_back(j);
      }
    }
    const int minutes = *rc::gen::inRange(1, 300);
    operations.push_back(operation(
        "o" + std::to_string(i), minutes, after, *rc::gen::element("any", "carcase_glue")));
    if (operations.back().standard == "carcase_glue") {
      operations.back().unattended = Minutes{75};
    }
    total += minutes;
  }
  const Job job = job_of(operations);
  const Planned planned = plan(job, plain_shop(), "2026-03-02", 3);
  RC_ASSERT(planned.calendar);
  const Calendar& calendar = *planned.calendar;
  RC_ASSERT(calendar.entries.size() == count);
  RC_ASSERT(is_worked_by_one_at_a_time(calendar));
  RC_ASSERT(calendar.bound <= calendar.finish);
  double hands_on = 0;
  for (const Entry& entry : calendar.entries) {
    hands_on += entry.hands_on.count();
    RC_ASSERT(entry.starts.minute >= 480);
    RC_ASSERT(entry.ends.minute <= 960);
    if (operations[entry.operation].standard == "carcase_glue") {
      RC_ASSERT(entry.starts.day == entry.ends.day);
      const auto clamped = std::chrono::minutes{entry.free.minute - entry.ends.minute} +
                           (sys_days{entry.free.day} - sys_days{entry.ends.day});
      RC_ASSERT(clamped == std::chrono::minutes{75});
    }
    for (const std::size_t earlier : operations[entry.operation].after) {
      RC_ASSERT(entry_of(calendar, operations[earlier].name).free <= entry.starts);
    }
  }
  RC_ASSERT(std::abs(hands_on - total) < 1e-6);
}

}  // namespace
}  // namespace plankwright::calendar
