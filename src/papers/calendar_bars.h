#pragma once
// The calendar drawn: weeks with bars, and all of them in one strip.

#include <string>
#include <vector>

#include "calendar/calendar.h"
#include "papers/page_flow.h"

namespace plankwright::papers {

/// A calendar with what it was made from: that of a plan, or of several commissions in one shop.
struct ShownCalendar {
  const calendar::Calendar& calendar;
  const std::vector<calendar::Work>& works;
  const shop::Shop& shop;
};

/// The first and the last Monday with anything in it: work, a wait, a finish that may be, a day to
/// order by or to settle something.
struct WeekRange {
  std::chrono::sys_days first;
  std::chrono::sys_days last;
};
WeekRange weeks_with_work(const ShownCalendar& shown);
WeekRange weeks_with_anything(const ShownCalendar& shown);

/// Work of one name that follows on itself without a wait on one day, as one entry: the settings
/// and their order stand on the setting list.
std::vector<calendar::Entry> lines_of(const calendar::Calendar& calendar);

/// All weeks with work as one strip: each commission from its first work to its last, its finish
/// with odds, days to order by and freeze dates. What lies outside the strip stands at its margin,
/// with an arrow to the side on which it is.
void set_strip(Flow& flow, const ShownCalendar& shown);

/// A week: its days in full width, a bar for each line. Nothing for a week without work.
void set_week_bars(Flow& flow, const ShownCalendar& shown, std::chrono::sys_days monday);

/// `Monday 2 March 2026`.
std::string day_name(measure::Date day);

}  // namespace plankwright::papers
