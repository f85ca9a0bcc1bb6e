#pragma once
// The order of jobs at least change-over: which cut after which, so that the saw is set least and
// nothing is done before what it needs.

#include <cstdint>
#include <functional>
#include <stop_token>
#include <string>
#include <vector>

#include "base/result.h"
#include "solve/precedence.h"
#include "solve/sheets.h"

namespace plankwright::solve {

/// In OrderJob::change: the column's job must come before the row's (as -1 in the open instances).
inline constexpr std::int64_t kComesBefore = -1;
/// In OrderJob::change: the column's job may not follow the row's directly.
inline constexpr std::int64_t kNeverNext = -2;

/// Jobs 0..n-1, each done once. `change[a][b]` is what it costs to do b directly after a: any unit,
/// not necessarily the same both ways, nor obeying the triangle inequality. `first[a]` and
/// `last[a]` are what it costs to begin and to end with a; empty means nothing.
struct OrderJob {
  std::vector<std::vector<std::int64_t>> change;
  std::vector<std::int64_t> first;
  std::vector<std::int64_t> last;
  std::vector<Before> before;
};

/// `order` names each job once. `cost` is first + changes + last, `bound` what no order can go
/// below, `proven` that they meet. `work` is what was spent, about a nanosecond each.
struct OrderAnswer {
  std::vector<int> order;
  std::int64_t cost = 0;
  std::int64_t bound = 0;
  bool proven = false;
  Stopped stopped = Stopped::kWorkLimit;
  std::int64_t work = 0;
  std::int64_t first_work = 0;
};

struct OrderProgress {
  std::int64_t cost = 0;
  std::int64_t bound = 0;
  std::int64_t work = 0;
};

/// How long to try, in work and never in seconds. `stop` may be asked at any time; the best order
/// so far is returned.
struct OrderLimits {
  std::int64_t work = 1'000'000'000;
  std::uint64_t seed = 1;
  std::stop_token stop = {};
  std::function<void(const OrderProgress&)> progress = {};
};

/// Every mistake in the numbers of a job: a matrix that is not square, a negative cost that is
/// neither kComesBefore nor kNeverNext, a circle in the precedence (its jobs are named). Empty when
/// the job can be solved.
base::Errors check_order_job(const OrderJob& job);

/// Orders the jobs at least cost, with a proven bound. kBadInput for what check_order_job finds,
/// kDoesNotFit when every order runs into a kNeverNext (or none was found within the limits).
base::Result<OrderAnswer> solve_order(const OrderJob& job, const OrderLimits& limits = {});

/// Everything wrong with an answer, in words; empty when it is sound. Shares no code with the
/// solver.
std::vector<std::string> check_order(const OrderJob& job, const OrderAnswer& answer);

}  // namespace plankwright::solve
