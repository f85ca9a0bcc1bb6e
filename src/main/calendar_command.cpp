#include "main/calendar_command.h"

#include "calendar/icalendar.h"
#include "main/calendar_text.h"
#include "papers/calendar_json.h"
#include "papers/calendar_sheets.h"
#include "plan/plan.h"
#include "store/files.h"

namespace plankwright::cli {
namespace {

constexpr int kDraws = 10'000;
constexpr double kWork = 10;  // asked for on its own, a proof is worth waiting for

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
    limits.calendar.draws = 0;  // the calendar of each by itself is not asked for
    plan::Planned planned =
        plan::plan_commission(text.value(), file, store::open_beside(file), reference, {}, limits);
    if (!planned.plan) {
      return planned.errors;
    }
    plans.push_back(std::move(*planned.plan));
  }
  return {};
}

base::Result<measure::Date> start_of(const CalendarAsked& asked,
                                     const std::vector<calendar::Work>& works,
                                     const shop::Shop& shop) {
  if (!asked.start.empty()) {
    return measure::parse_date(asked.start);
  }
  if (const auto start = calendar::first_day(works, shop)) {
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
  if (!reference.ok()) {
    return {std::nullopt, {reference.error()}};
  }
  std::vector<plan::Plan> plans;
  base::Errors errors = plan_all(asked, reference.value(), plans);
  if (!errors.empty()) {
    return {std::nullopt, std::move(errors)};
  }
  std::vector<const plan::Plan*> together;
  for (const plan::Plan& plan : plans) {
    together.push_back(&plan);
  }
  const std::vector<calendar::Work> works = plan::works_of(together);
  const shop::Shop& shop = plans.front().shop;
  const auto start = start_of(asked, works, shop);
  if (!start.ok()) {
    return {std::nullopt, {start.error()}};
  }
  const calendar::Planned planned = plan::plan_together(
      together, reference.value(), start.value(), {.work = kWork, .draws = kDraws});
  if (!planned.calendar) {
    return {std::nullopt, planned.errors};
  }
  const calendar::Calendar& calendar = *planned.calendar;
  CalendarAnswer answer;
  answer.text = asked.json ? papers::calendar_json(calendar, works).dump(1) + "\n"
                           : calendar_text(calendar, works);
  answer.ics = asked.ics.empty() ? "" : calendar::icalendar(calendar, works, start.value());
  answer.pdf = asked.pdf.empty() ? "" : papers::calendar_papers(calendar, works, shop);
  return {std::move(answer), {}};
}

}  // namespace plankwright::cli
