#include <algorithm>
#include <set>

#include <fmt/format.h>

#include "calendar/views.h"

namespace plankwright::calendar {
namespace {

void add_notes(Calendar& calendar, const std::vector<Work>& works, const shop::Shop& shop) {
  std::set<std::string> called;
  for (const Entry& entry : calendar.entries) {
    if (entry.called_in && called.insert(entry.name).second) {
      calendar.notes.push_back(fmt::format("{} on {} asks for {} people: call somebody in",
                                           entry.name,
                                           measure::print(entry.starts.day),
                                           entry.people));
    }
  }
  for (const Finish& finish : calendar.finishes) {
    const std::optional<Date> wanted = works[finish.work].commission->wanted;
    if (wanted && finish.spare_days < 0) {
      calendar.notes.push_back(
          fmt::format("{} is wanted on {} and holds {} four times in five: promise that day, or "
                      "take off {} working days",
                      works[finish.work].commission->name,
                      measure::print(*wanted),
                      measure::print(finish.odds[1].day),
                      -finish.spare_days));
    }
  }
  for (const Delivery& delivery : calendar.deliveries) {
    if (delivery.late) {
      calendar.notes.push_back(fmt::format(
          "{} takes {} working days and {} more in hand: there is no such time left before {}; "
          "order it on the first day, or find it elsewhere",
          delivery.what,
          delivery.lead_days,
          shop.order_slack,
          measure::print(delivery.needed)));
    }
  }
}

}  // namespace

std::optional<Date> first_day(const std::vector<Work>& works, const shop::Shop& shop) {
  std::optional<Date> last;
  for (const Work& work : works) {
    last = std::max(last, work.commission->quoted);
  }
  return last ? WorkingDays{shop}.add(*last, 1) : std::nullopt;
}

Planned plan_calendar(const std::vector<Work>& works,
                      const shop::Shop& shop,
                      const bench::Rules& rules,
                      const DayRules& day_rules,
                      Date start,
                      const CalendarLimits& limits) {
  const base::Result<Model> made = model_of(works, shop, rules, day_rules, start);
  if (!made.ok()) {
    return {std::nullopt, {made.error()}};
  }
  const Model& model = made.value();
  const FoundDays found = find_days(model, works, WorkingDays{shop}, limits.work);
  if (!found.errors.empty()) {
    return {std::nullopt, found.errors};
  }
  Calendar calendar = write_calendar(model, found.days, works, shop, day_rules);
  draw_odds(calendar, model, found.days, works, shop, limits);
  name_people(calendar, shop);
  add_deliveries(calendar, model, works, shop);
  add_overlaps(calendar, shop);
  add_weeks(calendar, works, shop);
  add_notes(calendar, works, shop);
  return {std::move(calendar), {}};
}

}  // namespace plankwright::calendar
