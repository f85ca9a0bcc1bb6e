#pragma once
// The calendar as a maker reads it on a terminal.

#include <string>
#include <vector>

#include "calendar/calendar.h"

namespace plankwright::cli {

/// The finish of each with its odds, days to order by, freeze dates, what drives the date, who
/// waits for whom.
std::string calendar_summary(const calendar::Calendar& calendar,
                             const std::vector<calendar::Work>& works);

/// The same, every day with its work and how long that is left alone, hours promised against hours
/// at hand, and what fits into the waits.
std::string calendar_text(const calendar::Calendar& calendar,
                          const std::vector<calendar::Work>& works);

}  // namespace plankwright::cli
