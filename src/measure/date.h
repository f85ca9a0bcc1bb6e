#pragma once
// Calendar days, as written on a quotation.

#include <chrono>
#include <string>
#include <string_view>

#include "base/result.h"

namespace plankwright::measure {

/// A day without time or zone.
using Date = std::chrono::year_month_day;

/// ISO 8601, `2026-03-14`. Error when the day does not exist.
base::Result<Date> parse_date(std::string_view text);
std::string print(Date date);

/// `days` working days (Monday to Friday) before or, when negative, after `date`.
Date working_days_before(Date date, int days);

}  // namespace plankwright::measure
