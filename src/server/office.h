#pragma once
// What every answer may use, and the answers themselves, one function an endpoint (docs/server.md).

#include <filesystem>
#include <string>
#include <vector>

#include "server/answer.h"
#include "server/drawing_desk.h"
#include "server/events.h"
#include "server/jobs.h"
#include "server/planner.h"
#include "server/watch.h"
#include "store/keeper.h"

namespace plankwright::server {

/// The running server's belongings. All of them may be used from several threads.
struct Office {
  store::Keeper& keeper;
  Planner& planner;
  DrawingDesk& desk;
  Jobs& jobs;
  Afterthoughts& afterthoughts;
  Watch& watch;
  Recent<std::pair<SharedPlan, bool>, std::shared_ptr<const std::string>>& comparisons;
  std::filesystem::path patterns;
};

/// The order that plans a commission: with the text of the body when it has one, else as kept.
struct Order {
  PlanOrder plan;
  std::string version;  // of the text that is kept
};
base::Result<Order> order_for(const Office& office,
                              const Request& request,
                              const nlohmann::json& body);
/// The same from the request's own body. `refused` is the answer to give when there is no order.
struct Asked {
  std::optional<Order> order;
  nlohmann::json body;
  Answer refused;
};
Asked read_order(const Office& office, const Request& request);

/// A plan for what needs only the piece: the full one when it is there, else a quick one.
SharedPlan plan_at_hand(const Office& office, PlanOrder order);

Answer get_shelf(const Office& office, const Request& request);
Answer post_shelf(const Office& office, const Request& request);
Answer get_text(const Office& office, const Request& request);
Answer put_text(const Office& office, const Request& request);
Answer post_plan(const Office& office, const Request& request);
Answer post_edit(const Office& office, const Request& request);
Answer post_values(const Office& office, const Request& request);
Answer get_compare(const Office& office, const Request& request);
Answer post_solids(const Office& office, const Request& request);
Answer post_drawing(const Office& office, const Request& request);
Answer get_papers(const Office& office, const Request& request);
Answer get_paper(const Office& office, const Request& request);
Answer get_calendar(const Office& office, const Request& request);
Answer get_ticks(const Office& office, const Request& request);
Answer put_ticks(const Office& office, const Request& request);
Answer get_versions(const Office& office, const Request& request);
Answer get_version(const Office& office, const Request& request);
Answer post_undo(const Office& office, const Request& request);
Answer post_cancel(const Office& office, const Request& request);
Answer get_schema(const Office& office, const Request& request);

}  // namespace plankwright::server
