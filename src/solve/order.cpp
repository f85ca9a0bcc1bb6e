#include "solve/order.h"

#include <algorithm>

#include <fmt/format.h>

#include "solve/order_problem.h"

namespace plankwright::solve {
namespace {

constexpr std::int64_t kMostCost = 1'000'000'000;  // a sum over a thousand jobs stays below kNoArc
constexpr std::size_t kMostJobs = 1000;

void check_costs(const OrderJob& job, base::Errors& errors) {
  const std::size_t jobs = job.change.size();
  const auto bad = [](std::int64_t cost) { return cost < 0 || cost > kMostCost; };
  for (std::size_t a = 0; a < jobs; ++a) {
    if (job.change[a].size() != jobs) {
      errors.push_back(
          {base::ErrorCode::kBadInput,
           fmt::format("job {} has {} change-overs, expected {}", a, job.change[a].size(), jobs)});
      continue;
    }
    for (std::size_t b = 0; b < jobs; ++b) {
      const std::int64_t cost = job.change[a][b];
      if (a != b && bad(cost) && cost != kComesBefore && cost != kNeverNext) {
        errors.push_back({base::ErrorCode::kBadInput,
                          fmt::format("the change from job {} to job {} costs {}, expected 0 to {}",
                                      a,
                                      b,
                                      cost,
                                      kMostCost)});
      }
    }
  }
  for (const auto* ends : {&job.first, &job.last}) {
    if ((!ends->empty() && ends->size() != jobs) || std::ranges::any_of(*ends, bad)) {
      errors.push_back(
          {base::ErrorCode::kBadInput,
           fmt::format(
               "the costs to begin and to end must be {} numbers from 0 to {}", jobs, kMostCost)});
    }
  }
}

void check_precedence(const OrderJob& job, base::Errors& errors) {
  const int jobs = static_cast<int>(job.change.size());
  std::vector<Before> before = job.before;
  for (const Before& pair : job.before) {
    if (pair.first < 0 || pair.second < 0 || pair.first >= jobs || pair.second >= jobs) {
      errors.push_back(
          {base::ErrorCode::kBadInput,
           fmt::format(
               "job {} before job {}: there are only {} jobs", pair.first, pair.second, jobs)});
    }
  }
  for (int a = 0; a < jobs; ++a) {
    for (int b = 0; b < jobs; ++b) {
      const auto& row = job.change[static_cast<std::size_t>(a)];
      if (a != b && row[static_cast<std::size_t>(b)] == kComesBefore) {
        before.push_back({b, a});
      }
    }
  }
  if (const std::vector<int> circle = find_circle(jobs, before); !circle.empty()) {
    errors.push_back({base::ErrorCode::kBadInput,
                      fmt::format("jobs {} wait for each other in a circle", list_of(circle))});
  }
}

}  // namespace

base::Errors check_order_job(const OrderJob& job) {
  base::Errors errors;
  if (job.change.size() > kMostJobs) {
    errors.push_back(
        {base::ErrorCode::kBadInput,
         fmt::format("{} jobs, at most {} can be ordered at once", job.change.size(), kMostJobs)});
    return errors;
  }
  check_costs(job, errors);
  if (errors.empty()) {
    check_precedence(job, errors);
  }
  return errors;
}

base::Result<OrderAnswer> solve_order(const OrderJob& job, const OrderLimits& /*limits*/) {
  if (const base::Errors errors = check_order_job(job); !errors.empty()) {
    return errors.front();
  }
  const OrderProblem problem = make_order_problem(job);
  const std::vector<int> path = greedy_path(problem);
  OrderAnswer answer;
  answer.cost = problem.cost_of(path);
  if (answer.cost >= OrderProblem::kNoArc) {
    return base::Error{base::ErrorCode::kDoesNotFit,
                       "no order was found in which every job may follow the one before"};
  }
  for (std::size_t i = 1; i + 1 < path.size(); ++i) {
    answer.order.push_back(path[i] - 1);
  }
  answer.proven = answer.cost == answer.bound;
  return answer;
}

}  // namespace plankwright::solve
