// The calendar as a file for other programs.
#include <fmt/format.h>
#include <nlohmann/json.hpp>

#include "calendar/icalendar.h"
#include "server/office.h"

namespace plankwright::server {
namespace {

constexpr int kHasNoCalendar = 422;

base::Errors errors_of(const std::vector<std::string>& words) {
  base::Errors errors;
  for (const std::string& says : words) {
    errors.push_back({.message = says});
  }
  return errors;
}

}  // namespace

Answer get_calendar(const Office& office, const Request& request) {
  auto order = order_for(office, request, nlohmann::json::object());
  if (!order.ok()) {
    return refusal_of(order.error());
  }
  const SharedPlan planned = office.planner.plan(order.value().plan);
  if (!planned->plan) {
    return refusal(kHasNoCalendar, planned->errors);
  }
  const plan::Plan& plan = *planned->plan;
  if (!plan.calendar) {
    return refusal(kHasNoCalendar, errors_of(plan.calendar_missing));
  }
  const measure::Date stamp = plan.commission.quoted.value_or(plan.calendar->starts);
  Answer answer{
      .type = "text/calendar; charset=utf-8",
      .body = calendar::icalendar(
          *plan.calendar, {{&plan.commission, &plan.piece, &plan.stock, &plan.bench}}, stamp)};
  answer.headers["Content-Disposition"] =
      fmt::format("attachment; filename=\"{}.ics\"", request.id);
  return answer;
}

}  // namespace plankwright::server
