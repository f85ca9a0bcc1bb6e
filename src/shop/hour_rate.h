#pragma once
// What an hour at the bench costs.

#include <span>

#include "base/result.h"
#include "shop/shop.h"

namespace plankwright::shop {

/// The hour rate: (wages x paid hours + overheads) / (paid hours x utilisation), rounded to the
/// minor unit. Overheads are in it, so they are added nowhere else. Error kBadInput when nobody is
/// paid for an hour, the utilisation is not over 0 and at most 100 %, or a year costs more than
/// 10^12. Source: common practice of costing, no source.
base::Result<HourRate> hour_rate(std::span<const Person> people,
                                 std::span<const Overhead> overheads,
                                 Percent utilisation);

}  // namespace plankwright::shop
