#pragma once
// The calendar as a maker reads it on a terminal.

#include <string>
#include <vector>

#include "calendar/calendar.h"

namespace plankwright::cli {

/// The finish with its odds, days to order by, freeze dates, and what drives the date.
std::string calendar_summary(const calendar::Calendar& calendar,
                             const std::vector<calendar::Work>& works);

/// The same, and every day with its work: hands on, left alone until, and what it waited for.
std::string calendar_text(const calendar::Calendar& calendar,
                          const std::vector<calendar::Work>& works);

}  // namespace plankwright::cli
