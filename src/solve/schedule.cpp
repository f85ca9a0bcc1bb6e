// Two islands, each with its own search that learns: one looks below the best schedule and breeds
// lists in between, the other pushes the bound up. They meet after fixed amounts of work, so the
// answer does not depend on how fast either runs.

#include "solve/schedule.h"

#include <algorithm>
#include <optional>
#include <thread>

#include "solve/schedule_model.h"
#include "solve/schedule_proof.h"
#include "solve/schedule_search.h"

namespace plankwright::solve {
namespace {

constexpr std::int64_t kEpoch = 20'000'000;
constexpr std::int64_t kFirstLook = 2'000'000;  // of the lists, before anything is proven

std::size_t at(int index) {
  return static_cast<std::size_t>(index);
}

class ScheduleSolver {
 public:
  ScheduleSolver(const ScheduleJob& job, const ScheduleLimits& limits)
      : limits_{limits}, model_{job}, search_{job, model_, limits.seed} {
    for (const std::int64_t finish : earliest_finishes(model_)) {
      bound_ = std::max(bound_, finish);
    }
  }

  base::Result<ScheduleAnswer> solve() {
    search_.run(std::min(kFirstLook, limits_.work), bound_, [&] { return stopped(); });
    first_work_ = search_.work();
    take(search_.best());
    for (std::int64_t epoch = 0; !done() && work() < limits_.work && !stopped(); ++epoch) {
      run_epoch(epoch);
    }
    if (!best_) {
      return impossible_ ? describe({ScheduleObstacleKind::kNoSchedule, with_deadline(), -1, 0, 0})
                         : base::Error{base::ErrorCode::kCancelled,
                                       "no schedule was found within the limits"};
    }
    return to_answer();
  }

 private:
  bool stopped() const { return limits_.stop.stop_requested(); }
  bool done() const { return impossible_ || (best_ && best_->makespan <= bound_); }
  std::int64_t work() const {
    return search_.work() + (seeker_ ? seeker_->work() + prover_->work() : 0);
  }

  std::vector<int> with_deadline() const {
    std::vector<int> activities;
    for (int i = 0; i < model_.activities; ++i) {
      if (model_.deadline[at(i)] < kNever) {
        activities.push_back(i);
      }
    }
    return activities;
  }

  bool take(const std::optional<Timetable>& timetable) {
    if (!timetable || (best_ && timetable->makespan >= best_->makespan)) {
      return false;
    }
    best_ = timetable;
    if (limits_.progress) {
      limits_.progress({best_->makespan, bound_, work()});
    }
    return true;
  }

  void make_islands() {
    const std::int64_t horizon = best_ ? best_->makespan : search_.end();
    seeker_.emplace(model_, horizon, limits_.seed);
    prover_.emplace(model_, horizon, limits_.seed + 1);
  }

  void seek(std::int64_t epoch) {
    if (epoch % 2 == 1) {
      search_.run(kEpoch, bound_, [&] { return stopped(); });
      return;
    }
    if (best_) {
      seeker_->prefer(*best_);
    }
    sought_ = seeker_->run(best_ ? best_->makespan - 1 : search_.end(), kEpoch);
  }

  void run_epoch(std::int64_t epoch) {
    if (!seeker_) {
      make_islands();
    }
    for (ScheduleProof* island : {&*seeker_, &*prover_}) {
      island->raise_bound(bound_);
      if (best_) {
        island->lower_most(best_->makespan);
      }
    }
    sought_ = proved_ = false;
    {
      const auto push = [&] { proved_ = prover_->run(bound_, kEpoch); };
      std::optional<std::jthread> other;
      if (limits_.threads > 1) {
        other.emplace(push);
      }
      seek(epoch);
      if (!other) {
        push();
      }
    }
    meet();
  }

  void meet() {
    take(search_.best());
    const bool better = (sought_ && take(seeker_->found())) | (proved_ && take(prover_->found()));
    if (better) {
      search_.learn(*best_);
      take(search_.best());
    }
    const std::int64_t bound = std::max(seeker_->bound(), prover_->bound());
    if (!best_) {
      impossible_ = bound > search_.end();
    }
    const std::int64_t proven = best_ ? std::min(bound, best_->makespan) : bound;
    if (proven > bound_) {
      bound_ = proven;
      if (limits_.progress && best_) {
        limits_.progress({best_->makespan, bound_, work()});
      }
    }
  }

  ScheduleAnswer to_answer() const {
    ScheduleAnswer answer;
    answer.start = best_->start;
    answer.finish = best_->finish;
    answer.makespan = best_->makespan;
    for (int i = 0; i < model_.activities; ++i) {
      answer.mode.push_back(model_.ways[at(i)][at(best_->way[at(i)])].number);
    }
    answer.bound = std::min(bound_, best_->makespan);
    answer.proven = answer.bound == answer.makespan;
    answer.stopped = answer.proven ? Stopped::kProven
                     : stopped()   ? Stopped::kCancelled
                                   : Stopped::kWorkLimit;
    answer.work = work();
    answer.first_work = first_work_;
    return answer;
  }

  const ScheduleLimits& limits_;
  const ScheduleModel model_;
  ScheduleSearch search_;
  std::optional<ScheduleProof> seeker_;
  std::optional<ScheduleProof> prover_;
  std::optional<Timetable> best_;
  std::int64_t bound_ = 0;
  std::int64_t first_work_ = 0;
  bool sought_ = false;
  bool proved_ = false;
  bool impossible_ = false;
};

}  // namespace

base::Result<ScheduleAnswer> solve_schedule(const ScheduleJob& job, const ScheduleLimits& limits) {
  if (const auto obstacles = find_schedule_obstacles(job); !obstacles.empty()) {
    return describe(obstacles.front());
  }
  return ScheduleSolver{job, limits}.solve();
}

}  // namespace plankwright::solve
