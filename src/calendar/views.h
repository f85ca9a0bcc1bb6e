#pragma once
// What follows from the days once they are found, each in its own file. Internal to this room.

#include "calendar/model.h"

namespace plankwright::calendar {

/// The entries by time, when each commission is finished, and who is held up by whom.
Calendar write_calendar(const Model& model,
                        const Days& days,
                        const std::vector<Work>& works,
                        const shop::Shop& shop,
                        const DayRules& day_rules);

/// The odds of each finish, what makes their spread and what drives the date, by drawing as often
/// as `limits` says. The order of `days` is kept.
void draw_odds(Calendar& calendar,
               const Model& model,
               const Days& days,
               const std::vector<Work>& works,
               const shop::Shop& shop,
               const CalendarLimits& limits);

/// Who does what, so that nobody is in two places; helpers first at what they can do.
void name_people(Calendar& calendar, const shop::Shop& shop);

/// Days to order by and days on which sizes are frozen.
void add_deliveries(Calendar& calendar,
                    const Model& model,
                    const std::vector<Work>& works,
                    const shop::Shop& shop);

/// What fits into each wait that is long enough for anything.
void add_overlaps(Calendar& calendar, const shop::Shop& shop);

/// Hours promised and hours at hand, week by week.
void add_weeks(Calendar& calendar, const std::vector<Work>& works, const shop::Shop& shop);

}  // namespace plankwright::calendar
