// Clamps as something there is only so much of.

#include <gmock/gmock.h>
#include <gtest/gtest.h>

#include "calendar/check_calendar.h"
#include "calendar_fixture.h"

namespace plankwright::calendar {
namespace {

using ::testing::HasSubstr;
using ::testing::IsEmpty;
using namespace testing;  // NOLINT(google-build-using-namespace): the fixture of this folder

constexpr measure::Length mm(int length) {
  return measure::Length::from_nm(std::int64_t{length} * 1'000'000);
}

/// A glue-up of an hour that stays an hour and a half in `count` clamps of this reach.
void add_glue_up(Job& job, const std::string& name, int count, int reach) {
  bench::StageCard card;
  card.name = name;
  card.operation = job.bench.operations.size();
  card.clamps_off = Minutes{60};
  bench::ClampLine line;
  line.count = count;
  line.reach = line.span = mm(reach);
  card.clamps = {line};
  job.bench.glue_ups.push_back(card);
  job.bench.operations.push_back(operation(name, 60, {}, "carcase_glue"));
  job.bench.operations.back().unattended = Minutes{90};
}

/// Two makers and three bench places, so that only clamps are short.
shop::Shop shop_with(int short_clamps, int long_clamps) {
  shop::Shop shop = plain_shop();
  shop.people.push_back(person("Bo", "maker"));
  shop.places.bench = 3;
  shop.clamps = {{mm(1000), long_clamps, measure::Newtons{4000}},
                 {mm(600), short_clamps, measure::Newtons{4000}}};
  return shop;
}

struct ClampCase {
  std::string_view why;
  int short_clamps, long_clamps;
  int first_count, first_reach, second_count, second_reach;
  std::string_view second_starts;
};

// Reckoned by hand: two makers begin both at 8:00 where the clamps last; otherwise the second waits
// until the first is out, at 9:00 + 90 min.
TEST(Clamps, KeepAGlueUpWaiting) {
  const ClampCase cases[] = {
      {"enough of one reach", 4, 0, 2, 600, 2, 600, "2026-03-02 8:00"},
      {"one too few", 3, 0, 2, 600, 2, 600, "2026-03-02 10:30"},
      {"long ones do for short ones", 2, 2, 2, 600, 2, 600, "2026-03-02 8:00"},
      {"short ones do not for long ones", 4, 2, 2, 1000, 1, 1000, "2026-03-02 10:30"},
      {"long ones are gone when they press the long piece",
       1,
       2,
       2,
       1000,
       2,
       600,
       "2026-03-02 10:30"},
      {"more than there are: all are taken, more are borrowed",
       2,
       0,
       5,
       600,
       1,
       600,
       "2026-03-02 10:30"},
  };
  for (const ClampCase& c : cases) {
    SCOPED_TRACE(c.why);
    Job job = job_of({});
    add_glue_up(job, "one", c.first_count, c.first_reach);
    add_glue_up(job, "two", c.second_count, c.second_reach);
    const shop::Shop shop = shop_with(c.short_clamps, c.long_clamps);
    const Planned planned = plan(job, shop);
    ASSERT_TRUE(planned.calendar);
    EXPECT_EQ(when(planned.calendar->entries.back().starts), c.second_starts);
    EXPECT_THAT(check_calendar(*planned.calendar, {job.work()}, shop, day_rules()), IsEmpty());
  }
}

TEST(Clamps, StayOnAsLongAsTheGlueAsks) {
  Job job = job_of({});
  add_glue_up(job, "slow", 2, 600);
  job.bench.glue_ups[0].clamps_off = Minutes{720};  // urea resin
  const Planned planned = plan(job, shop_with(2, 0));
  ASSERT_TRUE(planned.calendar);
  EXPECT_EQ(when(planned.calendar->entries[0].free), "2026-03-02 21:00");
}

TEST(Clamps, AreSharedBetweenCommissions) {
  Job one = job_of({});
  add_glue_up(one, "one", 2, 600);
  Job two = job_of({});
  add_glue_up(two, "two", 2, 600);
  const std::vector<Work> works = {one.work(), two.work()};
  const shop::Shop shop = shop_with(2, 0);
  const Planned planned =
      plan_calendar(works, shop, {}, day_rules(), day("2026-03-02"), {.draws = 10});
  ASSERT_TRUE(planned.calendar);
  const Calendar& calendar = *planned.calendar;
  EXPECT_EQ(when(calendar.entries[1].starts), "2026-03-02 10:30");
  ASSERT_EQ(calendar.held_up.size(), 1U);
  EXPECT_EQ(calendar.held_up[0].what_for, "clamps of 600 mm or more");
  EXPECT_EQ(calendar.held_up[0].open, Minutes{150});
}

TEST(Clamps, TellWhatKeepsAGlueUpFromClosing) {
  Job job = job_of({});
  add_glue_up(job, "case", 2, 600);
  job.bench.glue_ups[0].warnings = {"20 joints take 30 min and the glue gives 14 min."};
  const Planned planned = plan(job, shop_with(2, 0));
  ASSERT_TRUE(planned.calendar);
  ASSERT_EQ(planned.calendar->notes.size(), 1U);
  EXPECT_EQ(planned.calendar->notes[0], "case: 20 joints take 30 min and the glue gives 14 min.");
}

TEST(CheckCalendar, FindsClampsTakenTwiceAndTakenOffTooSoon) {
  Job job = job_of({});
  add_glue_up(job, "one", 2, 600);
  add_glue_up(job, "two", 2, 600);
  const shop::Shop shop = shop_with(2, 0);
  Calendar calendar = *plan(job, shop).calendar;
  Entry& second = calendar.entries[1];
  second.starts.minute -= 60;
  second.ends.minute -= 60;
  second.free.minute -= 60;
  const auto faults = check_calendar(calendar, {job.work()}, shop, day_rules());
  EXPECT_THAT(faults, ::testing::Contains(HasSubstr("4 long clamps asked for")));
  calendar = *plan(job, shop).calendar;
  calendar.entries[0].free.minute = calendar.entries[0].ends.minute + 30;
  EXPECT_THAT(check_calendar(calendar, {job.work()}, shop, day_rules()),
              ::testing::Contains(HasSubstr("out of the clamps too soon")));
}

}  // namespace
}  // namespace plankwright::calendar
