#pragma once
// What every answer may use, and the answers themselves, one function an endpoint (docs/server.md).

#include <string>
#include <vector>

#include "server/answer.h"
#include "server/events.h"
#include "server/planner.h"
#include "store/keeper.h"

namespace plankwright::server {

/// The running server's belongings. All of them may be used from several threads.
struct Office {
  store::Keeper& keeper;
  Planner& planner;
  Events& events;
};

/// The order that plans a commission as kept, or with another `text` in its place.
struct Order {
  PlanOrder plan;
  std::string version;  // of the text
};
base::Result<Order> order_for(const Office& office,
                              const Request& request,
                              const std::string& text);
base::Result<Order> order_for(const Office& office, const Request& request);
/// With the text of the body when it has one.
base::Result<Order> order_for(const Office& office,
                              const Request& request,
                              const nlohmann::json& body);

Answer get_shelf(const Office& office, const Request& request);
Answer post_shelf(const Office& office, const Request& request);
Answer get_text(const Office& office, const Request& request);
Answer put_text(const Office& office, const Request& request);
Answer post_plan(const Office& office, const Request& request);
Answer post_edit(const Office& office, const Request& request);
Answer post_values(const Office& office, const Request& request);
Answer get_schema(const Office& office, const Request& request);

}  // namespace plankwright::server
