// What fits into the waits, and how full the weeks are.

#include <algorithm>
#include <chrono>

#include <fmt/format.h>

#include "calendar/views.h"

namespace plankwright::calendar {
namespace {

constexpr Minutes kShownWait{20};  // a shorter wait is no time for anything else

/// What is done between two moments, each name once, in the order in which it is begun.
std::vector<Fit> done_between(const Calendar& calendar,
                              const WorkingDays& days,
                              const Moment& from,
                              const Moment& to) {
  std::vector<Fit> fits;
  for (const Entry& entry : calendar.entries) {
    const Minutes inside =
        days.open_between(std::max(from, entry.starts), std::min(to, entry.ends));
    if (inside.count() <= 0) {
      continue;
    }
    auto fit = std::ranges::find(fits, entry.name, &Fit::name);
    if (fit == fits.end()) {
      fit = fits.insert(fits.end(), {.name = entry.name, .times = 0, .minutes = {}});
    }
    ++fit->times;
    fit->minutes += inside;
  }
  return fits;
}

std::string says(const Entry& waits, const Overlap& overlap) {
  std::string fits;
  for (const Fit& fit : overlap.fits) {
    fits += fmt::format("{}{}{} ({:.0f} min)",
                        fits.empty() ? "" : "; ",
                        fit.name,
                        fit.times > 1 ? fmt::format(", {} times", fit.times) : "",
                        fit.minutes.count());
  }
  return fmt::format("While this waits after {} ({:.0f} min of the day): {}",
                     waits.name,
                     overlap.open.count(),
                     fits.empty() ? "nothing of this work; take something else" : fits);
}

Date monday_of(Date day) {
  const std::chrono::sys_days at{day};
  return Date{at - (std::chrono::weekday{at} - std::chrono::Monday)};
}

Minutes at_hand(const shop::Shop& shop, const WorkingDays& days, Date day) {
  const auto in = std::ranges::count_if(
      shop.people, [&](const shop::Person& person) { return days.is_in(person, day); });
  return Minutes{static_cast<double>(in) * shop.workday.hours * 60 * shop.workday.hands_on.count() /
                 100};
}

}  // namespace

void add_overlaps(Calendar& calendar, const shop::Shop& shop) {
  const WorkingDays days{shop};
  for (std::size_t i = 0; i < calendar.entries.size(); ++i) {
    const Entry& waits = calendar.entries[i];
    Overlap overlap;
    overlap.entry = i;
    overlap.open = days.open_between(waits.ends, waits.free);
    if (overlap.open >= kShownWait) {
      overlap.fits = done_between(calendar, days, waits.ends, waits.free);
      overlap.says = says(waits, overlap);
      calendar.overlaps.push_back(std::move(overlap));
    }
  }
}

void add_weeks(Calendar& calendar, const std::vector<Work>& works, const shop::Shop& shop) {
  const WorkingDays days{shop};
  Date last = calendar.starts;
  for (const Entry& entry : calendar.entries) {
    last = std::max(last, entry.ends.day);
  }
  using std::chrono::sys_days;
  for (sys_days monday{monday_of(calendar.starts)}; monday <= sys_days{last};
       monday += std::chrono::days{7}) {
    Week week{.monday = Date{monday}, .at_hand = {}, .promised = {}};
    week.promised.resize(works.size());
    for (int i = 0; i < 7; ++i) {
      const Date day{monday + std::chrono::days{i}};
      week.at_hand += day < calendar.starts ? Minutes{} : at_hand(shop, days, day);
    }
    const Moment from{week.monday, 0};
    const Moment to{Date{monday + std::chrono::days{7}}, 0};
    for (const Entry& entry : calendar.entries) {
      const Minutes whole = days.open_between(entry.starts, entry.ends);
      const Minutes part =
          days.open_between(std::max(from, entry.starts), std::min(to, entry.ends));
      if (part.count() > 0) {
        week.promised[entry.work] += entry.hands_on * (part / whole);
      }
    }
    calendar.weeks.push_back(std::move(week));
  }
}

}  // namespace plankwright::calendar
