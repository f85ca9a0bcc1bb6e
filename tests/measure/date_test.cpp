#include "measure/date.h"

#include <gtest/gtest.h>
#include <rapidcheck/gtest.h>

namespace plankwright::measure {
namespace {

Date day(std::string_view text) {
  const auto date = parse_date(text);
  EXPECT_TRUE(date.ok()) << text;
  return date.ok() ? date.value() : Date{};
}

TEST(ParseDate, ReadsIsoDays) {
  EXPECT_EQ(day("2026-03-14"),
            Date(std::chrono::year{2026}, std::chrono::March, std::chrono::day{14}));
  // The Gregorian rule: every fourth year, but of the full centuries only every fourth.
  EXPECT_EQ(print(day("2000-02-29")), "2000-02-29");
  EXPECT_EQ(print(day("2024-02-29")), "2024-02-29");
}

TEST(ParseDate, RefusesTheRest) {
  for (const std::string_view bad : {"",
                                     "14.3.2026",
                                     "2026-3-14",
                                     "26-03-14",
                                     "2026-03-14 ",
                                     "2026/03/14",
                                     "2026-03-1x",
                                     "tomorrow",
                                     "-026-03-14"}) {
    SCOPED_TRACE(bad);
    const auto date = parse_date(bad);
    ASSERT_FALSE(date.ok());
    EXPECT_EQ(date.error().message,
              "found `" + std::string{bad} + "`, expected a day such as `2026-03-14`");
  }
  for (const std::string_view bad :
       {"2026-02-29", "1900-02-29", "2026-04-31", "2026-13-01", "2026-00-10", "2026-01-00"}) {
    SCOPED_TRACE(bad);
    const auto date = parse_date(bad);
    ASSERT_FALSE(date.ok());
    EXPECT_EQ(date.error().message, "found `" + std::string{bad} + "`, a day that does not exist");
  }
}

RC_GTEST_PROP(DateProperty, ReadsBackWhatIsPrinted, ()) {
  const std::chrono::sys_days some{std::chrono::days{*rc::gen::inRange(-200'000, 800'000)}};
  const Date date{some};
  const auto read = parse_date(print(date));
  RC_ASSERT(read.ok());
  RC_ASSERT(read.value() == date);
}

struct WorkingCase {
  std::string_view why, date;
  int days;
  std::string_view before;
};

TEST(WorkingDaysBefore, CountsMondayToFriday) {
  // 2026-03-14 is a Saturday: 1 January 2000 was one (a calendar), 9569 days or 1367 weeks before.
  const WorkingCase cases[] = {{"none", "2026-03-14", 0, "2026-03-14"},
                               {"from Saturday to Friday", "2026-03-14", 1, "2026-03-13"},
                               {"over the weekend", "2026-03-16", 1, "2026-03-13"},
                               {"a week", "2026-03-18", 5, "2026-03-11"},
                               {"five from a Saturday", "2026-03-14", 5, "2026-03-09"},
                               {"after", "2026-03-13", -1, "2026-03-16"},
                               {"six after", "2026-03-13", -6, "2026-03-23"},
                               {"over the year's end", "2026-01-01", 1, "2025-12-31"}};
  for (const WorkingCase& c : cases) {
    SCOPED_TRACE(c.why);
    EXPECT_EQ(print(working_days_before(day(c.date), c.days)), c.before);
  }
}

// Zeller 1887: the day of the week of a Gregorian date, 0 for Saturday and 1 for Sunday.
int zeller(Date date) {
  const int month = static_cast<int>(static_cast<unsigned>(date.month()));
  const int q = static_cast<int>(static_cast<unsigned>(date.day()));
  const int m = month < 3 ? month + 12 : month;
  const int y = static_cast<int>(date.year()) - (month < 3 ? 1 : 0);
  return (q + 13 * (m + 1) / 5 + y % 100 + y % 100 / 4 + y / 100 / 4 + 5 * (y / 100)) % 7;
}

RC_GTEST_PROP(WorkingDaysBeforeProperty, AgreesWithCountingOnTheCalendar, ()) {
  const auto start = *rc::gen::inRange(0, 40'000);
  const auto days = *rc::gen::inRange(-60, 60);
  std::chrono::sys_days by_hand{std::chrono::days{start}};
  for (int left = std::abs(days); left > 0;) {
    by_hand += std::chrono::days{days > 0 ? -1 : 1};
    left -= zeller(Date{by_hand}) >= 2 ? 1 : 0;
  }
  const Date date{std::chrono::sys_days{std::chrono::days{start}}};
  RC_ASSERT(working_days_before(date, days) == Date{by_hand});
}

}  // namespace
}  // namespace plankwright::measure
