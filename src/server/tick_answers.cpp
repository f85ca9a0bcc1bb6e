// Which steps of the work are done.
#include <nlohmann/json.hpp>

#include "server/office.h"

namespace plankwright::server {
namespace {

constexpr int kMostSteps = 100000;

Answer ticks_answer(const base::Result<std::vector<int>>& ticks) {
  return ticks.ok() ? json_answer({{"done", ticks.value()}}) : refusal_of(ticks.error());
}

}  // namespace

Answer get_ticks(const Office& office, const Request& request) {
  return ticks_answer(office.keeper.ticks(request.id));
}

Answer put_ticks(const Office& office, const Request& request) {
  const auto body = body_json(request);
  if (!body.ok()) {
    return refusal(400, base::Errors{body.error()});
  }
  const auto step = body.value().find("step");
  const auto done = body.value().find("done");
  if (step == body.value().end() || !step->is_number_unsigned() ||
      step->get<std::uint64_t>() > kMostSteps || done == body.value().end() ||
      !done->is_boolean()) {
    return refusal(400, "a tick needs `step`, a number from 0, and `done`, true or false");
  }
  return ticks_answer(office.keeper.tick(request.id, step->get<int>(), done->get<bool>()));
}

}  // namespace plankwright::server
