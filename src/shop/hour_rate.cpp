#include "shop/hour_rate.h"

namespace plankwright::shop {

base::Result<HourRate> hour_rate(std::span<const Person> people,
                                 std::span<const Overhead> overheads,
                                 Percent utilisation) {
  constexpr double kMostAYear = 1e12;  // more is a slip, and would not add up
  double wages = 0;
  double paid_hours = 0;
  for (const Person& person : people) {
    wages += person.wage.major() * person.paid_hours;
    paid_hours += person.paid_hours;
  }
  double overhead = 0;
  for (const Overhead& one : overheads) {
    overhead += one.per_year.major();
  }
  if (utilisation.count() <= 0 || utilisation.count() > 100) {
    return base::Error{.message = "the utilisation must be over 0 % and at most 100 %"};
  }
  const double billable = paid_hours * utilisation.count() / 100;
  if (billable <= 0) {
    return base::Error{.message = "nobody is paid for an hour, so an hour has no price"};
  }
  if (wages > kMostAYear || overhead > kMostAYear || wages + overhead > kMostAYear * billable) {
    return base::Error{.message = "the wages and overheads of a year are beyond all measure"};
  }
  return HourRate{.cost = Money::from_major((wages + overhead) / billable),
                  .wages_per_year = Money::from_major(wages),
                  .overhead_per_year = Money::from_major(overhead),
                  .billable_hours = billable};
}

}  // namespace plankwright::shop
