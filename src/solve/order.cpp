#include "solve/order.h"

#include <algorithm>
#include <optional>

#include <fmt/format.h>

#include "solve/order_branch.h"
#include "solve/order_cuts.h"
#include "solve/order_layers.h"
#include "solve/order_problem.h"
#include "solve/order_relaxation.h"
#include "solve/order_search.h"

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

namespace {

constexpr std::int64_t kMostTurn = 10'000'000;
constexpr std::int64_t kTurns = 8;  // at least, so that a small limit is not all spent on one kind
constexpr std::size_t kFirstWidth = 300;
constexpr std::size_t kMostWidth = 400'000;
constexpr int kMostCut = 400;      // nodes; beyond, the linear programme is too large
constexpr int kMostRelaxed = 400;  // nodes; beyond, passes over all places take too long

/// Local search, cuts that lead to branching, and the relaxation with sweeps guided by it take
/// turns.
class OrderSolver {
 public:
  OrderSolver(const OrderJob& job, const OrderLimits& limits)
      : limits_{limits},
        turn_{std::clamp<std::int64_t>(limits.work / kTurns, 1, kMostTurn)},
        problem_{make_order_problem(job)},
        search_{problem_, limits.seed},
        lean_{problem_},
        cuts_{lean_},
        relaxation_{lean_, cuts_.priced(), 10, turn_ * 2},
        bound_{std::min(cuts_.bound(), search_.best_cost())} {}

  base::Result<OrderAnswer> solve() {
    const auto stop = [&] { return limits_.stop.stop_requested(); };
    tell();
    search_.run(turn_, bound_, stop);
    first_work_ = search_.work();
    tell();
    while (!done() && !stop() && work() < limits_.work) {
      const bool may_prove = may_cut() || may_relax();
      if (!may_prove || search_.work() * (search_pays() ? 3 : 10) <= work()) {
        search_.run(turn_, bound_, stop);
        tell();
      }
      const bool cut_next = may_cut() && (cut_work() <= layer_work() * 2 || !may_relax());
      if (!done() && cut_next) {
        cut(stop);
      } else if (!done() && may_relax()) {
        relax(stop);
      }
    }
    return answer();
  }

 private:
  bool done() const { return search_.best_cost() <= bound_; }
  std::int64_t cut_work() const { return cuts_.work() + (branching_ ? branching_->work() : 0); }
  std::int64_t layer_work() const { return relaxation_.work() + sweep_work_; }
  std::int64_t work() const { return search_.work() + cut_work() + layer_work(); }
  bool may_relax() const { return problem_.nodes <= kMostRelaxed && !swept_in_vain(); }
  bool may_cut() const { return problem_.nodes <= kMostCut && !(branching_ && branching_->over()); }

  /// It has found something in the second half of its work.
  bool search_pays() const { return search_.work() < 2 * search_.best_work() + 20 * kMostTurn; }

  void raise(std::int64_t bound) {
    if (std::min(bound, search_.best_cost()) > bound_) {
      bound_ = std::min(bound, search_.best_cost());
      tell();
    }
  }

  void tell() const {
    if (limits_.progress && search_.best_cost() < OrderProblem::kNoArc) {
      limits_.progress({search_.best_cost(), bound_, work()});
    }
  }

  void cut(const std::function<bool()>& stop) {
    if (!branching_) {
      const bool cutting = cuts_.improve(search_.best_cost(), turn_ * 2);
      raise(cuts_.bound());
      if (!cutting) {
        branching_.emplace(lean_, cuts_);
        relaxation_.rest_on(cuts_.priced());
        climbing_ = true;
      }
      return;
    }
    branching_->run(search_.best_cost(), turn_ * 2, stop);
    if (!branching_->path().empty()) {
      search_.learn(branching_->path());
    }
    raise(branching_->bound());
  }

  void relax(const std::function<bool()>& stop) {
    climbing_ = climbing_ && relaxation_.improve(search_.best_cost(), turn_ * 2);
    raise(relaxation_.bound());
    if (!done() && sweep_work_ <= relaxation_.work() && !swept_in_vain()) {
      sweep(stop);
    }
  }

  /// As wide as may be, and nothing is known better since.
  bool swept_in_vain() const {
    return !climbing_ && width_ > kMostWidth && swept_for_ == search_.best_cost();
  }

  void sweep(const std::function<bool()>& stop) {
    relaxation_.settle();
    const LayersOutcome outcome = sweep_layers(
        lean_, relaxation_, search_.best_cost(), std::min(width_, kMostWidth), sweep_work_, stop);
    if (!outcome.path.empty()) {
      search_.learn(outcome.path);
    }
    if (outcome.whole) {
      raise(search_.best_cost());
    }
    swept_for_ = search_.best_cost();
    width_ = width_ > kMostWidth ? width_ : width_ * 5;
  }

  base::Result<OrderAnswer> answer() const {
    if (search_.best_cost() >= OrderProblem::kNoArc) {
      return base::Error{base::ErrorCode::kDoesNotFit,
                         done()
                             ? "there is no order in which every job may follow the one before"
                             : "no order was found in which every job may follow the one before"};
    }
    OrderAnswer answer;
    answer.cost = search_.best_cost();
    answer.bound = std::min(bound_, answer.cost);
    for (std::size_t i = 1; i + 1 < search_.best().size(); ++i) {
      answer.order.push_back(search_.best()[i] - 1);
    }
    answer.proven = done();
    answer.stopped = done()                          ? Stopped::kProven
                     : limits_.stop.stop_requested() ? Stopped::kCancelled
                                                     : Stopped::kWorkLimit;
    answer.work = work();
    answer.first_work = first_work_;
    return answer;
  }

  const OrderLimits& limits_;
  const std::int64_t turn_;
  const OrderProblem problem_;
  OrderSearch search_;
  OrderProblem lean_;  // without the arcs that no better order uses
  OrderCuts cuts_;
  OrderRelaxation relaxation_;
  std::optional<OrderBranching> branching_;
  std::int64_t bound_;
  bool climbing_ = true;
  std::size_t width_ = kFirstWidth;
  std::int64_t swept_for_ = -1;
  std::int64_t sweep_work_ = 0;
  std::int64_t first_work_ = 0;
};

}  // namespace

base::Result<OrderAnswer> solve_order(const OrderJob& job, const OrderLimits& limits) {
  if (const base::Errors errors = check_order_job(job); !errors.empty()) {
    return errors.front();
  }
  return OrderSolver{job, limits}.solve();
}

}  // namespace plankwright::solve
