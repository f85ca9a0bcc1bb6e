#include "main/calendar_command.h"

#include <algorithm>

#include "calendar/icalendar.h"
#include "main/calendar_text.h"
#include "plan/plan.h"
#include "store/files.h"

namespace plankwright::cli {
namespace {

constexpr int kDraws = 10'000;
constexpr double kWork = 10;  // asked for on its own, a proof is worth waiting for

base::Result<calendar::DayRules> read_rules_of_days() {
  const auto text = store::read_file(store::data_folder() / "day_rules.csv");
  return text.ok() ? calendar::read_day_rules(text.value(), "day_rules.csv") : text.error();
}

/// The plans, in the order asked, or the errors of the first that has some.
base::Errors plan_all(const CalendarAsked& asked,
                      const plan::Reference& reference,
                      std::vector<plan::Plan>& plans) {
  for (const std::string& file : asked.files) {
    const auto text = store::read_file(file);
    if (!text.ok()) {
      return {text.error()};
    }
    plan::PlanLimits limits;
    limits.compare_choices = false;
    limits.look_for_nudges = false;
    limits.shop_file = asked.shop_file;
    plan::Planned planned =
        plan::plan_commission(text.value(), file, store::open_beside(file), reference, {}, limits);
    if (!planned.plan) {
      return planned.errors;
    }
    plans.push_back(std::move(*planned.plan));
  }
  return {};
}

std::optional<measure::Date> last_quotation(const std::vector<plan::Plan>& plans) {
  std::optional<measure::Date> last;
  for (const plan::Plan& plan : plans) {
    if (plan.commission.quoted && (!last || *last < *plan.commission.quoted)) {
      last = plan.commission.quoted;
    }
  }
  return last;
}

base::Result<measure::Date> start_of(const CalendarAsked& asked,
                                     const std::vector<plan::Plan>& plans) {
  if (!asked.start.empty()) {
    return measure::parse_date(asked.start);
  }
  const calendar::WorkingDays days{plans.front().shop};
  const std::optional<measure::Date> quoted = last_quotation(plans);
  const std::optional<measure::Date> start = quoted ? days.add(*quoted, 1) : std::nullopt;
  if (start) {
    return *start;
  }
  return base::Error{
      .message =
          "nothing says when the work may begin: write `quoted` in the commission, or give "
          "--start 2026-03-02"};
}

}  // namespace

CalendarResult answer_calendar(const CalendarAsked& asked) {
  const auto reference = store::read_reference();
  const auto day_rules = read_rules_of_days();
  if (!reference.ok()) {
    return {std::nullopt, {reference.error()}};
  }
  if (!day_rules.ok()) {
    return {std::nullopt, {day_rules.error()}};
  }
  std::vector<plan::Plan> plans;
  base::Errors errors = plan_all(asked, reference.value(), plans);
  if (!errors.empty()) {
    return {std::nullopt, std::move(errors)};
  }
  const auto start = start_of(asked, plans);
  if (!start.ok()) {
    return {std::nullopt, {start.error()}};
  }
  std::vector<calendar::Work> works;
  for (const plan::Plan& plan : plans) {
    works.push_back({&plan.commission, &plan.piece, &plan.stock, &plan.bench});
  }
  calendar::CalendarLimits limits;
  limits.draws = kDraws;
  limits.work = kWork;
  const calendar::Planned planned = calendar::plan_calendar(
      works, plans.front().shop, reference.value().rules, day_rules.value(), start.value(), limits);
  if (!planned.calendar) {
    return {std::nullopt, planned.errors};
  }
  const measure::Date stamp = last_quotation(plans).value_or(planned.calendar->starts);
  return {CalendarAnswer{calendar_text(*planned.calendar, works),
                         calendar::icalendar(*planned.calendar, works, stamp)},
          {}};
}

}  // namespace plankwright::cli
