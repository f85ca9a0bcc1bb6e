// The plan, and what is published beside it.
#include <chrono>

#include <nlohmann/json.hpp>

#include "papers/plan_json.h"
#include "papers/schemas.h"
#include "server/office.h"

namespace plankwright::server {
namespace {

using Json = nlohmann::ordered_json;

base::Result<commission::Picks> picks_in(const nlohmann::json& body) {
  commission::Picks picks;
  const auto found = body.find("picks");
  if (found == body.end() || found->is_null()) {
    return picks;
  }
  if (!found->is_object()) {
    return base::Error{base::ErrorCode::kBadInput,
                       "found no object, expected `picks` to be {choice: option}"};
  }
  for (const auto& [choice, option] : found->items()) {
    if (!option.is_string()) {
      return base::Error{base::ErrorCode::kBadInput,
                         "found no text, expected each of `picks` to name an option"};
    }
    picks[choice] = option.get<std::string>();
  }
  return picks;
}

/// The plan's own JSON goes into the answer as it is, without being read and written once more.
Answer plan_answer(const plan::Planned& planned, const std::string& version, double milliseconds) {
  Answer answer = json_answer({{"errors", errors_json(planned.errors)},
                               {"version", version},
                               {"milliseconds", milliseconds}});
  answer.body.pop_back();
  answer.body += ",\"plan\":";
  answer.body += planned.plan ? papers::plan_json(*planned.plan) : "null";
  answer.body += '}';
  return answer;
}

}  // namespace

Answer post_plan(const Office& office, const Request& request) {
  const auto start = std::chrono::steady_clock::now();
  const auto body = body_json(request);
  if (!body.ok()) {
    return refusal(400, base::Errors{body.error()});
  }
  auto picks = picks_in(body.value());
  if (!picks.ok()) {
    return refusal(400, base::Errors{picks.error()});
  }
  auto order = order_for(office, request, body.value());
  if (!order.ok()) {
    return refusal_of(order.error());
  }
  PlanOrder asked = std::move(order).value().plan;
  asked.picks = std::move(picks).value();
  const auto quick = body.value().find("quick");
  asked.quick = quick != body.value().end() && quick->is_boolean() && quick->get<bool>();
  const SharedPlan planned = office.planner.plan(asked);
  const std::chrono::duration<double, std::milli> took = std::chrono::steady_clock::now() - start;
  return plan_answer(*planned, order.value().version, took.count());
}

Answer get_schema(const Office& /*office*/, const Request& /*request*/) {
  return {.body = papers::schema("commission").value()};
}

}  // namespace plankwright::server
