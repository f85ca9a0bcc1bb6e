// The plan, and what is published beside it.
#include <chrono>

#include <nlohmann/json.hpp>

#include "papers/plan_json.h"
#include "papers/schemas.h"
#include "server/office.h"
#include "store/files.h"

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

bool says_yes(const nlohmann::json& body, const char* key) {
  const auto said = body.find(key);
  return said != body.end() && said->is_boolean() && said->get<bool>();
}

/// The plan's own JSON goes into the answer as it is, without being read and written once more.
Answer plan_answer(const plan::Planned& planned, Json head) {
  Answer answer = json_answer(head);
  answer.body.pop_back();
  answer.body += ",\"plan\":";
  answer.body += planned.plan ? papers::plan_json(*planned.plan) : "null";
  answer.body += '}';
  return answer;
}

}  // namespace

Answer post_plan(const Office& office, const Request& request) {
  const auto start = std::chrono::steady_clock::now();
  Asked asked = read_order(office, request);
  if (!asked.order) {
    return asked.refused;
  }
  auto picks = picks_in(asked.body);
  if (!picks.ok()) {
    return refusal(400, base::Errors{picks.error()});
  }
  PlanOrder order = std::move(asked.order->plan);
  order.picks = std::move(picks).value();
  // A full plan that is there already is as quick as any, and better.
  SharedPlan planned = says_yes(asked.body, "quick") ? office.planner.known(order) : nullptr;
  const bool quick = says_yes(asked.body, "quick") && !planned;
  if (!planned) {
    order.quick = quick;
    planned = office.planner.plan(order);
  }
  // Of a text that is only tried nobody waits for the full plan.
  if (quick && planned->plan && !says_yes(asked.body, "trial")) {
    office.afterthoughts.add(request.id, order);
  }
  const std::chrono::duration<double, std::milli> took = std::chrono::steady_clock::now() - start;
  return plan_answer(*planned,
                     {{"errors", errors_json(planned->errors)},
                      {"version", asked.order->version},
                      {"planned", store::hash_of(order.text)},
                      {"quick", quick},
                      {"milliseconds", took.count()}});
}

Answer get_schema(const Office& /*office*/, const Request& /*request*/) {
  return {.body = papers::schema("commission").value()};
}

}  // namespace plankwright::server
