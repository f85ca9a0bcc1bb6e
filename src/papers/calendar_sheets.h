#pragma once
// The calendar on paper.

#include "papers/packet.h"

namespace plankwright::papers {

/// The odds and what drives the date, all weeks in one strip with the days to order by and the
/// freeze dates as marks, then each week with its work as bars: solid what is done, hatched what
/// sets or dries; hours promised against hours at hand. Then, week by week, what is done at what
/// time and by whom, and what fits into the waits. Nothing when the plan has no calendar.
void add_calendar(const Packet& packet);

/// The same for several commissions in one shop, as PDF bytes; the same calendar, the same bytes.
std::string calendar_papers(const calendar::Calendar& calendar,
                            const std::vector<calendar::Work>& works,
                            const shop::Shop& shop);

}  // namespace plankwright::papers
