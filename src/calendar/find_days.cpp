// One schedule for the whole shop, then the same work in other orders of the commissions: what one
// shop does for one customer first costs the others little where it fits into their waits.

#include <algorithm>
#include <map>
#include <numeric>
#include <tuple>

#include <fmt/format.h>

#include "calendar/model.h"
#include "solve/schedule_replay.h"

namespace plankwright::calendar {
namespace {

using solve::ScheduleAnswer;
using solve::ScheduleObstacle;
using solve::ScheduleObstacleKind;

constexpr double kWorkOfAFirstAnswer = 2e6;
constexpr int kMostRepairs = 40;
constexpr int kMostOrders = 120;  // of the commissions

std::string names_of(const ScheduleObstacle& obstacle,
                     const Model& model,
                     const std::vector<Work>& works) {
  std::string names;
  for (const int activity : obstacle.activities) {
    const std::string& name =
        operation_of(works, model.steps[static_cast<std::size_t>(activity)]).name;
    if (names.find("`" + name + "`") == std::string::npos) {
      names += fmt::format("{}`{}`", names.empty() ? "" : ", ", name);
    }
  }
  return names;
}

/// An obstacle with the names of the work, and the nearest way out.
base::Error error_of(const ScheduleObstacle& obstacle,
                     const Model& model,
                     const std::vector<Work>& works) {
  const std::string names = names_of(obstacle, model, works);
  switch (obstacle.kind) {
    case ScheduleObstacleKind::kCircle:
      return {base::ErrorCode::kBadInput,
              fmt::format("these wait for each other in a circle: {}; take one of them out of what "
                          "it waits for",
                          names)};
    case ScheduleObstacleKind::kNoTime:
      return {base::ErrorCode::kDoesNotFit,
              fmt::format("{} takes {} min of the day in one go, and a day has {}: divide it, take "
                          "a second person, or write a longer `workday`",
                          names,
                          obstacle.needed,
                          model.day_minutes)};
    case ScheduleObstacleKind::kNeedsMore:
      return {base::ErrorCode::kDoesNotFit,
              fmt::format("{} needs {} {}, and the shop has {}",
                          names,
                          obstacle.needed,
                          model.resources[static_cast<std::size_t>(std::max(0, obstacle.resource))],
                          obstacle.available)};
    default:
      return solve::describe(obstacle);
  }
}

class Finder {
 public:
  Finder(const Model& model, const std::vector<Work>& works, const WorkingDays& working)
      : model_{model}, works_{works}, working_{working} {
    for (const solve::Activity& activity : model.job.activities) {
      durations_.push_back(activity.modes.front().duration);
    }
  }

  /// The best of the order that was found and of those that put commissions before each other.
  Days best(const ScheduleAnswer& found) const {
    Days best = placed(found);
    std::vector<std::size_t> order(works_.size());
    std::iota(order.begin(), order.end(), 0U);
    for (int i = 0; works_.size() > 1 && i < kMostOrders; ++i) {
      Days days = placed(one_after_the_other(found, order));
      if (!days.start.empty() && worth(days) < worth(best)) {
        best = std::move(days);
      }
      if (!std::ranges::next_permutation(order).found) {
        break;
      }
    }
    best.bound = found.bound;
    return best;
  }

 private:
  /// Everything as early as it goes in the order of its starts. What sets must begin to set at
  /// once: where its place was taken by something else meanwhile, the work before it is made to
  /// begin after that.
  Days placed(const ScheduleAnswer& order) const {
    const ScheduleAnswer keys = order_of(model_, order.start);
    solve::ScheduleJob job = model_.job;
    std::map<std::pair<int, int>, int> mended;  // the resource that a lag of ours stands for
    Days days;
    for (int i = 0; i < kMostRepairs; ++i) {
      solve::ScheduleReplay replay{job, keys};
      if (!replay.run(durations_)) {
        break;
      }
      days = {replay.start(), replay.finish(), replay.waited_for(), replay.waited_on()};
      for (const auto& [lag, resource] : mended) {
        const auto second = static_cast<std::size_t>(lag.second);
        if (days.waited_for[second] == lag.first && days.waited_on[second] < 0) {
          days.waited_on[second] = resource;
        }
      }
      if (!mend(days, job, mended)) {
        break;
      }
    }
    return days;
  }

  bool mend(const Days& days,
            solve::ScheduleJob& job,
            std::map<std::pair<int, int>, int>& mended) const {
    bool found = false;
    for (std::size_t i = 1; i < model_.steps.size(); ++i) {
      const bool detached =
          model_.steps[i].kind == StepKind::kWait && days.start[i] > days.finish[i - 1];
      if (detached && days.waited_on[i] >= 0) {
        const std::pair lag{days.waited_for[i], static_cast<int>(i) - 1};
        found = mended.emplace(lag, days.waited_on[i]).second || found;
        job.lags.push_back({lag.first, lag.second, 0});
      }
    }
    return found;
  }

  /// The same order within each commission, and all of one before all of the next: what comes later
  /// fills what is left open.
  ScheduleAnswer one_after_the_other(const ScheduleAnswer& found,
                                     const std::vector<std::size_t>& order) const {
    ScheduleAnswer ranks = found;
    std::vector<std::int64_t> place(order.size());
    for (std::size_t i = 0; i < order.size(); ++i) {
      place[order[i]] = static_cast<std::int64_t>(i);
    }
    for (std::size_t i = 0; i < ranks.start.size(); ++i) {
      ranks.start[i] += place[model_.steps[i].work] * (found.makespan + 1);
    }
    return ranks;
  }

  /// Working days past the wanted dates in all, the day of the last finish, and each finish.
  std::tuple<int, Date, std::int64_t> worth(const Days& days) const {
    int late = 0;
    std::int64_t last = 0;
    std::int64_t sum = 0;
    for (std::size_t work = 0; work < works_.size(); ++work) {
      const std::int64_t end = days.end_of(model_, work);
      const std::optional<Date>& wanted = works_[work].commission->wanted;
      late += wanted ? std::max(0, working_.between(*wanted, model_.day_of_end(end))) : 0;
      last = std::max(last, end);
      sum += end;
    }
    return {late, model_.day_of_end(last), sum};
  }

  const Model& model_;
  const std::vector<Work>& works_;
  const WorkingDays& working_;
  std::vector<std::int64_t> durations_;
};

}  // namespace

ScheduleAnswer order_of(const Model& model, std::vector<std::int64_t> start) {
  ScheduleAnswer order;
  order.mode.assign(start.size(), 0);
  order.start = std::move(start);
  for (std::size_t i = 1; i < order.start.size(); ++i) {
    if (model.steps[i].kind == StepKind::kWait) {
      order.start[i] = order.start[i - 1] - 1;
    }
  }
  return order;
}

std::vector<std::size_t> Days::entry_steps(const Model& model) const {
  std::vector<std::size_t> steps;
  for (std::size_t i = 0; i < model.steps.size(); ++i) {
    if (model.steps[i].kind == StepKind::kWork) {
      steps.push_back(i);
    }
  }
  std::ranges::stable_sort(steps, {}, [&](std::size_t i) { return start[i]; });
  return steps;
}

std::int64_t Days::end_of(const Model& model, std::size_t work) const {
  std::int64_t end = 0;
  for (std::size_t i = 0; i < finish.size(); ++i) {
    end = model.steps[i].work == work ? std::max(end, finish[i]) : end;
  }
  return end;
}

FoundDays find_days(const Model& model,
                    const std::vector<Work>& works,
                    const WorkingDays& working,
                    double work) {
  FoundDays found;
  for (const ScheduleObstacle& obstacle : solve::find_schedule_obstacles(model.job)) {
    found.errors.push_back(error_of(obstacle, model, works));
  }
  if (!found.errors.empty()) {
    return found;
  }
  const auto answer = solve::solve_schedule(
      model.job, {.work = static_cast<std::int64_t>(work * kWorkOfAFirstAnswer), .threads = 1});
  if (!answer.ok()) {
    found.errors.push_back(answer.error());
    return found;
  }
  found.days = Finder{model, works, working}.best(answer.value());
  return found;
}

}  // namespace plankwright::calendar
