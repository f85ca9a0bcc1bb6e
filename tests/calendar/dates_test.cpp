// Order-by dates, freeze dates and the odds.

#include <cmath>

#include <gmock/gmock.h>
#include <gtest/gtest.h>

#include "calendar_fixture.h"

namespace plankwright::calendar {
namespace {

using ::testing::HasSubstr;
using namespace testing;  // NOLINT(google-build-using-namespace): the fixture of this folder

// Needed on Wednesday 20 May 2026, 15 working days to come and 2 in hand: Monday 27 April
// (reckoned by hand, no holidays).
TEST(OrderBy, CountsWorkingDaysBack) {
  const shop::Shop shop = plain_shop();
  const WorkingDays days{shop};
  EXPECT_EQ(measure::print(order_by(days, day("2026-05-20"), 15, 2).value()), "2026-04-27");
}

TEST(OrderBy, LeavesHolidaysOut) {
  shop::Shop shop = plain_shop();
  shop.closed.push_back({day("2026-05-01"), day("2026-05-01"), "May day"});
  const WorkingDays days{shop};
  EXPECT_EQ(measure::print(order_by(days, day("2026-05-20"), 15, 2).value()), "2026-04-24");
}

Job with_boards(int lead_days) {
  Job job = job_of({operation("saw", 240)});
  piece::Part part;
  part.stock = "oak";
  job.piece.parts = {part};
  job.bench.operations[0].parts = {0};
  stock::Purchase boards;
  boards.what = "oak boards";
  boards.stock = "oak";
  boards.kind = "solid";
  boards.lead_days = lead_days;
  job.stock.purchases = {boards};
  return job;
}

TEST(Deliveries, HoldUpTheWorkThatNeedsThem) {
  const Planned planned = plan(with_boards(5), plain_shop());
  ASSERT_TRUE(planned.calendar);
  const Entry& saw = planned.calendar->entries[0];
  EXPECT_EQ(when(saw.starts), "2026-03-09 8:00");  // five working days after Monday
  EXPECT_EQ(saw.waits_for, "delivery of oak boards");
}

TEST(Deliveries, AreOrderedAsLateAsTheWantedDateAllows) {
  Job job = with_boards(5);
  job.commission.wanted = day("2026-03-31");
  const Planned planned = plan(job, plain_shop());
  ASSERT_TRUE(planned.calendar);
  const Calendar& calendar = *planned.calendar;
  // Finished on Monday 9 March without spread, wanted on Tuesday 31: 16 working days later all may
  // begin, and 5 + 2 before that the boards are ordered.
  EXPECT_EQ(calendar.finishes[0].spare_days, 16);
  ASSERT_EQ(calendar.deliveries.size(), 1U);
  EXPECT_EQ(measure::print(calendar.deliveries[0].needed), "2026-03-31");
  EXPECT_EQ(measure::print(calendar.deliveries[0].order_by), "2026-03-20");
  EXPECT_FALSE(calendar.deliveries[0].late);
}

TEST(Deliveries, SayWhenALeadTimeGoesPastTheWantedDate) {
  Job job = with_boards(20);
  job.commission.wanted = day("2026-03-10");
  const Planned planned = plan(job, plain_shop());
  ASSERT_TRUE(planned.calendar);
  const Calendar& calendar = *planned.calendar;
  EXPECT_LT(calendar.finishes[0].spare_days, 0);
  EXPECT_EQ(calendar.finishes[0].wanted_holds, 0.0);
  ASSERT_EQ(calendar.deliveries.size(), 1U);
  EXPECT_TRUE(calendar.deliveries[0].late);
  EXPECT_EQ(calendar.deliveries[0].order_by, calendar.starts);
  ASSERT_EQ(calendar.notes.size(), 2U);
  EXPECT_THAT(calendar.notes[0], HasSubstr("promise that day"));
  EXPECT_THAT(calendar.notes[1], HasSubstr("oak boards takes 20 working days"));
}

TEST(Odds, AreThePlanWhenNothingIsUncertain) {
  const Planned planned = plan(job_of({operation("A", 600), operation("B", 600)}), plain_shop());
  ASSERT_TRUE(planned.calendar);
  for (const DateOdds& odds : planned.calendar->finishes[0].odds) {
    EXPECT_EQ(odds.day, planned.calendar->finish);
  }
}

// One operation of 40 h with sigma 0.5: by the quantiles of the lognormal, exp(0.8416 x 0.5) and
// exp(1.2816 x 0.5) times as long, 60.9 and 75.9 h, the 8th and the 10th day of 8 h.
TEST(Odds, AreThoseOfTheLognormalForOneOperation) {
  Job job = job_of({operation("A", 2400)});
  job.bench.operations[0].sigma = 0.5;
  const Planned planned = plan(job, plain_shop(), "2026-03-02", 10'000);
  ASSERT_TRUE(planned.calendar);
  const auto& odds = planned.calendar->finishes[0].odds;
  ASSERT_EQ(odds.size(), 3U);
  EXPECT_EQ(measure::print(odds[1].day), "2026-03-11");
  EXPECT_EQ(measure::print(odds[2].day), "2026-03-13");
  EXPECT_EQ(planned.calendar->draws, 10'000);
}

TEST(Odds, CountAPieceThatIsSpoiledAndMadeAnew) {
  Job job = job_of({operation("A", 240)});
  job.bench.operations[0].fails = 0.3;
  job.bench.operations[0].rework = Minutes{480};
  job.commission.wanted = day("2026-03-02");
  const Planned planned = plan(job, plain_shop(), "2026-03-02", 10'000);
  ASSERT_TRUE(planned.calendar);
  EXPECT_NEAR(*planned.calendar->finishes[0].wanted_holds, 0.7, 0.02);
}

TEST(Odds, NameWhatDrivesTheDate) {
  Job job = job_of({operation("sure", 600, {}, "sure"), operation("unsure", 600, {0}, "unsure")});
  job.bench.operations[1].sigma = 0.4;
  const Planned planned = plan(job, plain_shop(), "2026-03-02", 1000);
  ASSERT_TRUE(planned.calendar);
  ASSERT_FALSE(planned.calendar->driven_by.empty());
  EXPECT_EQ(planned.calendar->driven_by[0].what, "unsure");
  EXPECT_GT(planned.calendar->driven_by[0].share, 0.99);
}

}  // namespace
}  // namespace plankwright::calendar
