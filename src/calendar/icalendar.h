#pragma once
// The calendar for other programs (RFC 5545).

#include <string>
#include <vector>

#include "calendar/calendar.h"

namespace plankwright::calendar {

/// An iCalendar file: an event for each operation, for each wait (which takes nobody's time), and
/// an all-day one for each day to order by and each freeze date. Lines end in CRLF and are folded
/// at 75 octets. Times are those of the shop's clock. The same work keeps its UID when dates move;
/// DTSTAMP is `stamp`, since a plan knows no clock.
std::string icalendar(const Calendar& calendar, const std::vector<Work>& works, Date stamp);

/// A content line folded at 75 octets between characters of UTF-8, with its CRLF (RFC 5545, 3.1).
std::string folded(const std::string& line);

/// Text with backslash, semicolon, comma and line end escaped (RFC 5545, 3.3.11).
std::string escaped(const std::string& text);

}  // namespace plankwright::calendar
