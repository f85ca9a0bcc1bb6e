// Walks through an order from the job alone.

#include <fmt/format.h>

#include "solve/order.h"

namespace plankwright::solve {
namespace {

/// Where each job stands in the order; empty when it does not name every job once.
std::vector<std::size_t> places(const OrderJob& job, const OrderAnswer& answer) {
  const std::size_t jobs = job.change.size();
  std::vector<std::size_t> place(jobs, jobs);
  for (std::size_t i = 0; i < answer.order.size(); ++i) {
    const auto named = static_cast<std::size_t>(answer.order[i]);
    if (answer.order[i] < 0 || named >= jobs || place[named] != jobs) {
      return {};
    }
    place[named] = i;
  }
  return answer.order.size() == jobs ? place : std::vector<std::size_t>{};
}

void check_money(const OrderJob& job, const OrderAnswer& answer, std::vector<std::string>& faults) {
  std::int64_t cost = 0;
  for (std::size_t i = 0; i < answer.order.size(); ++i) {
    const auto here = static_cast<std::size_t>(answer.order[i]);
    if (i == 0 && !job.first.empty()) {
      cost += job.first[here];
    }
    if (i + 1 == answer.order.size()) {
      cost += job.last.empty() ? 0 : job.last[here];
      continue;
    }
    const std::int64_t change = job.change[here][static_cast<std::size_t>(answer.order[i + 1])];
    if (change < 0) {
      faults.push_back(
          fmt::format("job {} may not follow job {} directly", answer.order[i + 1], here));
    }
    cost += change;
  }
  if (cost != answer.cost) {
    faults.push_back(fmt::format("the order costs {}, not {}", cost, answer.cost));
  }
}

}  // namespace

std::vector<std::string> check_order(const OrderJob& job, const OrderAnswer& answer) {
  const std::vector<std::size_t> place = places(job, answer);
  if (place.size() != job.change.size()) {
    return {"the order does not name every job once"};
  }
  std::vector<std::string> faults;
  const auto late = [&](std::size_t first, std::size_t second) {
    if (place[first] >= place[second]) {
      faults.push_back(fmt::format("job {} must come before job {}", first, second));
    }
  };
  for (const Before& pair : job.before) {
    late(static_cast<std::size_t>(pair.first), static_cast<std::size_t>(pair.second));
  }
  for (std::size_t a = 0; a < place.size(); ++a) {
    for (std::size_t b = 0; b < place.size(); ++b) {
      if (a != b && job.change[a][b] == kComesBefore) {
        late(b, a);
      }
    }
  }
  check_money(job, answer, faults);
  if (answer.bound > answer.cost || answer.proven != (answer.bound == answer.cost)) {
    faults.emplace_back("a bound above the cost, or proven claimed wrongly");
  }
  return faults;
}

}  // namespace plankwright::solve
