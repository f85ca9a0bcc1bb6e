#pragma once
// The days on which a shop works, and counting in them.

#include <optional>

#include "measure/date.h"
#include "shop/shop.h"

namespace plankwright::calendar {

using measure::Date;
using measure::Minutes;

/// A time of a day; `minute` after midnight.
struct Moment {
  Date day{};
  int minute = 0;
  friend auto operator<=>(const Moment&, const Moment&) = default;
};

/// Working days of a shop: its days of the week less the days it is closed. A shop that is closed
/// for ten years on end has no next working day. `shop` must outlive this.
class WorkingDays {
 public:
  explicit WorkingDays(const shop::Shop& shop) : shop_{&shop} {}

  bool works(Date day) const;
  bool is_in(const shop::Person& person, Date day) const;

  /// `day` itself when the shop works on it, else the next day on which it does.
  std::optional<Date> on_or_after(Date day) const;
  /// `days` working days after `day`; before it when negative; `day` itself for nought.
  /// Nothing for more than a lifetime of them.
  std::optional<Date> add(Date day, int days) const;
  /// Working days after `from` up to `to`, `to` included; negative when `to` is earlier.
  int between(Date from, Date to) const;
  /// Working time between two moments, none when `to` is earlier.
  Minutes open_between(const Moment& from, const Moment& to) const;

 private:
  const shop::Shop* shop_;
};

/// The last day to order so that a delivery is here `slack` working days before it is needed.
std::optional<Date> order_by(const WorkingDays& days, Date needed, int lead_days, int slack);

}  // namespace plankwright::calendar
