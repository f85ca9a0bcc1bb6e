// Several commissions in one shop, what drives the date, and how full the weeks are. Figures by
// hand; 2026-03-02 is a Monday.

#include <cmath>

#include <gmock/gmock.h>
#include <gtest/gtest.h>

#include "calendar/check_calendar.h"
#include "calendar_fixture.h"

namespace plankwright::calendar {
namespace {

using ::testing::HasSubstr;
using ::testing::IsEmpty;
using namespace testing;  // NOLINT(google-build-using-namespace): the fixture of this folder

Job named(const std::string& name, std::vector<bench::Operation> operations) {
  Job job = job_of(std::move(operations));
  job.commission.name = name;
  return job;
}

Planned together(const std::vector<Work>& works, const shop::Shop& shop, int draws = 20) {
  return plan_calendar(works, shop, {}, day_rules(), day("2026-03-02"), {.draws = draws});
}

// Two of 16 h for one maker. Whichever is wanted on Tuesday is done first, the other on Thursday.
TEST(Together, DoesFirstWhatIsWantedFirst) {
  for (const bool first_is_wanted : {true, false}) {
    Job one = named("A bench", {operation("A", 480), operation("B", 480, {0})});
    Job two = named("A stool", {operation("C", 480), operation("D", 480, {0})});
    (first_is_wanted ? one : two).commission.wanted = day("2026-03-03");
    const shop::Shop shop = plain_shop();
    const Planned planned = together({one.work(), two.work()}, shop);
    ASSERT_TRUE(planned.calendar);
    const auto& finishes = planned.calendar->finishes;
    ASSERT_EQ(finishes.size(), 2U);
    EXPECT_EQ(measure::print(finishes[first_is_wanted ? 0 : 1].planned), "2026-03-03");
    EXPECT_EQ(measure::print(finishes[first_is_wanted ? 1 : 0].planned), "2026-03-05");
    EXPECT_EQ(finishes[first_is_wanted ? 0 : 1].wanted_holds, 1.0);
  }
}

// Without wanted dates one is finished on Tuesday all the same: half of each a day would finish
// both on Thursday.
TEST(Together, FinishesEachAsSoonAsTheLastAllows) {
  const Job one = named("A bench", {operation("A", 480), operation("B", 480, {0})});
  const Job two = named("A stool", {operation("C", 480), operation("D", 480, {0})});
  const Planned planned = together({one.work(), two.work()}, plain_shop());
  ASSERT_TRUE(planned.calendar);
  const auto& finishes = planned.calendar->finishes;
  EXPECT_EQ(measure::print(std::min(finishes[0].planned, finishes[1].planned)), "2026-03-03");
  EXPECT_EQ(measure::print(std::max(finishes[0].planned, finishes[1].planned)), "2026-03-05");
}

// The saw is taken for 6 h by what is wanted first; the other has its person and waits 6 h for it.
TEST(Together, SaysWhoWaitsForWhom) {
  shop::Shop shop = plain_shop();
  shop.people.push_back(person("Bo", "maker"));
  Job one = named("A bench", {operation("saw bench", 360)});
  Job two = named("A stool", {operation("saw stool", 120)});
  one.bench.operations[0].machine = two.bench.operations[0].machine = "saw";
  one.commission.wanted = day("2026-03-02");
  two.commission.wanted = day("2026-03-09");
  one.bench.operations.push_back(operation("finish bench", 120, {0}));
  const Planned planned = together({one.work(), two.work()}, shop);
  ASSERT_TRUE(planned.calendar);
  const Calendar& calendar = *planned.calendar;
  ASSERT_EQ(calendar.held_up.size(), 1U);
  const HeldUp& held = calendar.held_up[0];
  EXPECT_EQ(held.work, 1U);
  EXPECT_EQ(held.by, 0U);
  EXPECT_EQ(held.what_for, "saw");
  EXPECT_EQ(held.times, 1);
  EXPECT_EQ(held.open, Minutes{360});
  EXPECT_EQ(calendar.entries[held.entry].name, "saw stool");
  EXPECT_EQ(calendar.entries[held.entry].waits_for, "saw bench of A bench");
}

TEST(Together, KeepsTheOddsOfEach) {
  Job one = named("A bench", {operation("A", 960, {}, "one")});
  Job two = named("A stool", {operation("B", 960, {}, "two")});
  one.bench.operations[0].sigma = 0.3;
  one.commission.wanted = day("2026-03-04");
  const shop::Shop shop = plain_shop();
  const Planned planned = together({one.work(), two.work()}, shop, 1000);
  ASSERT_TRUE(planned.calendar);
  for (const Finish& finish : planned.calendar->finishes) {
    EXPECT_EQ(finish.odds.size(), 3U);
  }
  // 16 h by Wednesday evening is 1.5 times as long: P(Z <= ln 1.5 / 0.3) = P(Z <= 1.352) = 0.912.
  EXPECT_NEAR(*planned.calendar->finishes[0].wanted_holds, 0.912, 0.03);
  EXPECT_THAT(check_calendar(*planned.calendar, {one.work(), two.work()}, shop, day_rules()),
              IsEmpty());
}

// ---- What drives the date -----------------------------------------------------------------------

double share_of(const Calendar& calendar, const std::string& what) {
  for (const Critical& critical : calendar.critical) {
    if (critical.what == what) {
      return critical.share;
    }
  }
  return 0;
}

// The critical path of a network by hand: A 4 h, B 6 h after A, C 3 h, D 5 h after C, E 1 h after B
// and D. A-B-E is 11 h, C-D-E 9 h: the first is on the path, always, when nothing varies.
TEST(Critical, IsTheLongestPathWhenNothingVaries) {
  shop::Shop shop = plain_shop();
  shop.people.push_back(person("Bo", "maker"));
  const Planned planned = plan(job_of({operation("A", 240),
                                       operation("B", 360, {0}),
                                       operation("C", 180),
                                       operation("D", 300, {2}),
                                       operation("E", 60, {1, 3})}),
                               shop);
  ASSERT_TRUE(planned.calendar);
  for (const char* name : {"A", "B", "E"}) {
    EXPECT_EQ(share_of(*planned.calendar, name), 1) << name;
    EXPECT_EQ(entry_of(*planned.calendar, name).critical, 1) << name;
  }
  for (const char* name : {"C", "D"}) {
    EXPECT_EQ(share_of(*planned.calendar, name), 0) << name;
  }
}

// Two side by side, A 10 h and B 8 h, each off by a lognormal of sigma 0.3 of its own: B ends later
// when its logarithm is ahead by ln 1.25 = 0.2231, of sigma 0.3 x sqrt 2 = 0.4243: P(Z > 0.526) =
// 0.299 (normal table).
TEST(Critical, IsAsOftenAsTheOneIsTheLonger) {
  shop::Shop shop = plain_shop();
  shop.people.push_back(person("Bo", "maker"));
  Job job = job_of({operation("A", 600, {}, "a"), operation("B", 480, {}, "b")});
  job.bench.operations[0].sigma = job.bench.operations[1].sigma = 0.3;
  const Planned planned = plan(job, shop, "2026-03-02", 10'000);
  ASSERT_TRUE(planned.calendar);
  EXPECT_NEAR(share_of(*planned.calendar, "B"), 0.299, 0.015);
  EXPECT_NEAR(share_of(*planned.calendar, "A"), 0.701, 0.015);
}

TEST(Critical, BeginsWithTheDeliveryThatIsWaitedFor) {
  Job job = job_of({operation("saw", 240)});
  piece::Part part;
  part.stock = "oak";
  job.piece.parts = {part};
  job.bench.operations[0].parts = {0};
  stock::Purchase boards;
  boards.what = "oak boards";
  boards.stock = "oak";
  boards.kind = "solid";
  boards.lead_days = 5;
  job.stock.purchases = {boards};
  const Planned planned = plan(job, plain_shop());
  ASSERT_TRUE(planned.calendar);
  EXPECT_EQ(share_of(*planned.calendar, "delivery of oak boards"), 1);
  EXPECT_EQ(share_of(*planned.calendar, "saw"), 1);
}

TEST(Critical, CountsAWaitByItself) {
  Job job = job_of({operation("glue", 60, {}, "carcase_glue"), operation("clean", 30, {0})});
  job.bench.operations[0].unattended = Minutes{90};
  const Planned planned = plan(job, plain_shop());
  ASSERT_TRUE(planned.calendar);
  EXPECT_EQ(share_of(*planned.calendar, "waiting after glue"), 1);
}

// Lots of draws on two threads are those of one: asked twice, the same to the last figure.
TEST(Odds, AreTheSameEachTime) {
  Job job = job_of({operation("A", 600, {}, "a"), operation("B", 480, {}, "b")});
  job.bench.operations[0].sigma = job.bench.operations[1].sigma = 0.3;
  job.commission.wanted = day("2026-03-05");
  const Calendar one = *plan(job, plain_shop(), "2026-03-02", 5'100).calendar;
  const Calendar two = *plan(job, plain_shop(), "2026-03-02", 5'100).calendar;
  EXPECT_EQ(one.draws, 5'100);
  EXPECT_EQ(one.finishes[0].wanted_holds, two.finishes[0].wanted_holds);
  EXPECT_EQ(one.driven_by[0].share, two.driven_by[0].share);
  EXPECT_EQ(one.critical[0].share, two.critical[0].share);
}

// ---- What fits into a wait, and how full the weeks are ------------------------------------------

// Glue 8:00 to 9:00, out of the clamps at 10:30; two cuts of 41 and 30 min fall into the hour and a
// half whole, of a third of 30 min the 19 that are left.
TEST(Overlaps, GiveTheMinutesThatFallIntoTheWait) {
  Job job = job_of({operation("glue", 60, {}, "carcase_glue"),
                    operation("cut", 41, {0}),
                    operation("cut", 30, {1}),
                    operation("sand", 30, {2})});
  job.bench.operations[0].unattended = Minutes{90};
  job.bench.operations[1].after = {};
  const Planned planned = plan(job, plain_shop());
  ASSERT_TRUE(planned.calendar);
  const Calendar& calendar = *planned.calendar;
  ASSERT_EQ(when(calendar.entries.front().ends), "2026-03-02 9:00");
  ASSERT_EQ(calendar.overlaps.size(), 1U);
  const Overlap& overlap = calendar.overlaps[0];
  EXPECT_EQ(overlap.open, Minutes{90});
  ASSERT_EQ(overlap.fits.size(), 2U);
  EXPECT_EQ(overlap.fits[0].times, 2);
  EXPECT_EQ(overlap.fits[0].minutes, Minutes{71});
  EXPECT_EQ(overlap.fits[1].minutes, Minutes{19});
  EXPECT_EQ(overlap.says,
            "While this waits after glue (90 min of the day): cut, 2 times (71 min); sand (19 "
            "min)");
}

// One maker of 8 h at 75 % hands on: 6 h a day. 40 h hands on are 6 2/3 days: 30 h of the first
// week, with Friday closed 24 h of the second for the 10 h that are left.
TEST(Weeks, SetHoursPromisedAgainstHoursAtHand) {
  shop::Shop shop = plain_shop();
  shop.workday.hands_on = measure::Percent{75};
  shop.closed.push_back({day("2026-03-13"), day("2026-03-13"), ""});
  const Job one = named("A bench", {operation("A", 600)});
  const Job two = named("A stool", {operation("B", 1800)});
  const Planned planned = together({one.work(), two.work()}, shop);
  ASSERT_TRUE(planned.calendar);
  const auto& weeks = planned.calendar->weeks;
  ASSERT_EQ(weeks.size(), 2U);
  EXPECT_EQ(measure::print(weeks[1].monday), "2026-03-09");
  EXPECT_NEAR(weeks[0].at_hand.count(), 30 * 60, 1e-6);
  EXPECT_NEAR(weeks[1].at_hand.count(), 24 * 60, 1e-6);
  EXPECT_NEAR((weeks[0].promised[0] + weeks[0].promised[1]).count(), 30 * 60, 1);
  EXPECT_NEAR((weeks[1].promised[0] + weeks[1].promised[1]).count(), 10 * 60, 1);
  EXPECT_NEAR((weeks[0].promised[0] + weeks[1].promised[0]).count(), 600, 1e-6);
}

}  // namespace
}  // namespace plankwright::calendar
