// What each step could not start before: of all that ended when it began, what precedes it, or what
// it took its hands, machine or place from.

#include <algorithm>

#include "calendar/model.h"

namespace plankwright::calendar {
namespace {

bool share_a_resource(const Model& model, std::size_t a, std::size_t b) {
  const auto& uses_a = model.job.activities[a].modes.front().uses;
  const auto& uses_b = model.job.activities[b].modes.front().uses;
  for (std::size_t i = 0; i < std::min(uses_a.size(), uses_b.size()); ++i) {
    if (uses_a[i] > 0 && uses_b[i] > 0) {
      return true;
    }
  }
  return false;
}

}  // namespace

std::vector<int> waited_for(const Model& model, const solve::ScheduleAnswer& answer) {
  const std::size_t count = model.steps.size();
  std::vector<int> before(count, -1);
  std::vector<std::int64_t> latest(count, -1);
  for (const solve::Lag& lag : model.job.lags) {
    const auto second = static_cast<std::size_t>(lag.second);
    const std::int64_t until = answer.finish[static_cast<std::size_t>(lag.first)] + lag.least;
    if (until > latest[second]) {
      latest[second] = until;
      before[second] = lag.first;
    }
  }
  for (std::size_t i = 0; i < count; ++i) {
    for (std::size_t j = 0; j < count; ++j) {
      const bool ended =
          answer.finish[j] <= answer.start[i] && answer.finish[j] > latest[i] && i != j;
      if (ended && share_a_resource(model, i, j)) {
        latest[i] = answer.finish[j];
        before[i] = static_cast<int>(j);
      }
    }
    const std::int64_t release = model.job.activities[i].release;
    if (release > latest[i] && release > 0) {
      before[i] = -1;  // a delivery, or the first day
    }
  }
  return before;
}

}  // namespace plankwright::calendar
