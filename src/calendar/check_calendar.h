#pragma once
// Whether a calendar can be worked: what any other reader of it would check.

#include <string>
#include <vector>

#include "calendar/calendar.h"

namespace plankwright::calendar {

/// Everything wrong with a calendar, in words; empty when it is sound: each operation there once
/// and long enough, within working days, begun and ended on one day where it must be, after what it
/// waits for, and never more people, machines, places or clamps of a reach than there are.
/// Shares no code with the planning but the rules of data/day_rules.csv.
std::vector<std::string> check_calendar(const Calendar& calendar,
                                        const std::vector<Work>& works,
                                        const shop::Shop& shop,
                                        const DayRules& day_rules);

}  // namespace plankwright::calendar
