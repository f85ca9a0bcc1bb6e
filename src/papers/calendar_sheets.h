#pragma once
// The calendar on paper.

#include "papers/packet.h"

namespace plankwright::papers {

/// Every operation on its days: work solid, what sets or dries hatched, the days to order by and
/// the freeze dates as marks. Then, week by week, what is done at what time and by whom. Nothing
/// when the plan has no calendar.
void add_calendar(const Packet& packet);

}  // namespace plankwright::papers
