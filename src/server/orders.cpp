// From a request to what is to be planned.
#include <nlohmann/json.hpp>

#include "server/office.h"

namespace plankwright::server {

base::Result<Order> order_for(const Office& office,
                              const Request& request,
                              const nlohmann::json& body) {
  const auto entry = office.keeper.find(request.id);
  if (!entry.ok()) {
    return entry.error();
  }
  auto kept = office.keeper.read(request.id);
  const auto text = body.find("text");
  const bool is_given = text != body.end() && text->is_string();
  if (!kept.ok() && !is_given) {
    return kept.error();
  }
  Order order;
  order.plan.file = entry.value().file;
  order.plan.open = office.keeper.opener(request.id);
  order.version = kept.ok() ? kept.value().version : "";
  order.plan.text = is_given ? text->get<std::string>() : std::move(kept).value().text;
  return order;
}

Asked read_order(const Office& office, const Request& request) {
  Asked asked;
  auto body = body_json(request);
  if (!body.ok()) {
    asked.refused = refusal(400, base::Errors{body.error()});
    return asked;
  }
  asked.body = std::move(body).value();
  auto order = order_for(office, request, asked.body);
  if (order.ok()) {
    asked.order = std::move(order).value();
  } else {
    asked.refused = refusal_of(order.error());
  }
  return asked;
}

SharedPlan plan_at_hand(const Office& office, PlanOrder order) {
  order.quick = false;
  if (SharedPlan full = office.planner.known(order)) {
    return full;
  }
  order.quick = true;
  return office.planner.plan(order);
}

}  // namespace plankwright::server
