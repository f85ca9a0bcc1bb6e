#include "calendar/working_days.h"

#include <algorithm>
#include <chrono>
#include <cstdlib>

namespace plankwright::calendar {
namespace {

constexpr int kMostDays = 3660;
constexpr int kMostAdded = 20'000;

std::size_t weekday_of(Date day) {
  return std::chrono::weekday{std::chrono::sys_days{day}}.iso_encoding() - 1;
}

Date next(Date day, int step) {
  return Date{std::chrono::sys_days{day} + std::chrono::days{step}};
}

}  // namespace

bool WorkingDays::works(Date day) const {
  return shop_->workday.days[weekday_of(day)] &&
         std::ranges::none_of(shop_->closed, [&](const shop::Closed& closed) {
           return closed.from <= day && day <= closed.to;
         });
}

bool WorkingDays::is_in(const shop::Person& person, Date day) const {
  return works(day) && (!person.days || (*person.days)[weekday_of(day)]);
}

std::optional<Date> WorkingDays::on_or_after(Date day) const {
  for (int i = 0; i < kMostDays; ++i, day = next(day, 1)) {
    if (works(day)) {
      return day;
    }
  }
  return std::nullopt;
}

std::optional<Date> WorkingDays::add(Date day, int days) const {
  if (days < -kMostAdded || days > kMostAdded) {
    return std::nullopt;
  }
  const int step = days < 0 ? -1 : 1;
  int idle = 0;
  for (int left = std::abs(days); left > 0;) {
    day = next(day, step);
    if (works(day)) {
      --left;
      idle = 0;
    } else if (++idle > kMostDays) {
      return std::nullopt;
    }
  }
  return day;
}

int WorkingDays::between(Date from, Date to) const {
  if (to < from) {
    return -between(to, from);
  }
  int count = 0;
  for (Date day = from; day != to;) {
    day = next(day, 1);
    count += works(day) ? 1 : 0;
  }
  return count;
}

Minutes WorkingDays::open_between(const Moment& from, const Moment& to) const {
  const int begins = shop_->workday.starts;
  const int ends = begins + static_cast<int>(shop_->workday.hours * 60);
  int open = 0;
  for (Date day = from.day; day <= to.day; day = next(day, 1)) {
    if (works(day)) {
      const int first = day == from.day ? std::max(begins, from.minute) : begins;
      const int last = day == to.day ? std::min(ends, to.minute) : ends;
      open += std::max(0, last - first);
    }
  }
  return Minutes{static_cast<double>(open)};
}

std::optional<Date> order_by(const WorkingDays& days, Date needed, int lead_days, int slack) {
  return days.add(needed, -(lead_days + slack));
}

}  // namespace plankwright::calendar
