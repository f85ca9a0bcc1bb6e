// Walks through a schedule from the job alone, one stretch of time after the other.

#include <algorithm>
#include <set>

#include <fmt/format.h>

#include "solve/schedule.h"

namespace plankwright::solve {
namespace {

using Faults = std::vector<std::string>;

std::size_t at(int index) {
  return static_cast<std::size_t>(index);
}

/// The stretches of time in which activity i works, found by stepping from its start through its
/// calendar.
std::vector<OpenInterval> working(const ScheduleJob& job, const ScheduleAnswer& answer, int i) {
  const Activity& activity = job.activities[at(i)];
  const std::int64_t duration = activity.modes[at(answer.mode[at(i)])].duration;
  const std::int64_t start = answer.start[at(i)];
  if (duration == 0 || activity.calendar < 0) {
    return {{start, start + duration}};
  }
  std::vector<OpenInterval> stretches;
  std::int64_t left = duration;
  for (const OpenInterval& interval : job.calendars[at(activity.calendar)].open) {
    const std::int64_t from = std::max(interval.from, start);
    if (from < interval.to && left > 0) {
      const std::int64_t spell = std::min(left, interval.to - from);
      stretches.push_back({from, from + spell});
      left -= spell;
    }
  }
  return left > 0 ? std::vector<OpenInterval>{} : stretches;
}

void check_times(const ScheduleJob& job, const ScheduleAnswer& answer, int i, Faults& faults) {
  const Activity& activity = job.activities[at(i)];
  const std::int64_t start = answer.start[at(i)];
  const std::int64_t finish = answer.finish[at(i)];
  const auto stretches = working(job, answer, i);
  if (stretches.empty() || stretches.front().from != start || stretches.back().to != finish) {
    faults.push_back(fmt::format(
        "activity {} cannot run from {} to {} in its calendar and mode", i, start, finish));
  } else if (stretches.size() > 1 && !activity.may_pause) {
    faults.push_back(fmt::format("activity {} is interrupted", i));
  }
  if (start < activity.release) {
    faults.push_back(fmt::format("activity {} starts before its release", i));
  }
  if (activity.deadline && finish > *activity.deadline) {
    faults.push_back(fmt::format("activity {} misses its deadline", i));
  }
}

std::int64_t capacity_at(const ScheduleResource& resource, std::int64_t time) {
  std::int64_t capacity = resource.capacity;
  for (const CapacityStep& step : resource.steps) {
    capacity = step.at <= time ? step.capacity : capacity;
  }
  return capacity;
}

struct Taken {
  OpenInterval when;
  std::int64_t amount = 0;
};

void check_resource(const ScheduleJob& job,
                    const ScheduleAnswer& answer,
                    std::size_t resource,
                    Faults& faults) {
  std::vector<Taken> taken;
  std::set<std::int64_t> moments;
  for (const CapacityStep& step : job.resources[resource].steps) {
    moments.insert(step.at);
  }
  for (int i = 0; i < static_cast<int>(job.activities.size()); ++i) {
    const ActivityMode& mode = job.activities[at(i)].modes[at(answer.mode[at(i)])];
    const std::int64_t amount = resource < mode.uses.size() ? mode.uses[resource] : 0;
    std::vector<OpenInterval> stretches = working(job, answer, i);
    if (job.resources[resource].held_in_pauses) {
      stretches = {{answer.start[at(i)], answer.finish[at(i)]}};
    }
    for (const OpenInterval& stretch : stretches) {
      taken.push_back({stretch, amount});
      moments.insert(stretch.from);
    }
  }
  for (const std::int64_t moment : moments) {
    std::int64_t sum = 0;
    for (const Taken& use : taken) {
      sum += use.when.from <= moment && moment < use.when.to ? use.amount : 0;
    }
    if (sum > capacity_at(job.resources[resource], moment)) {
      faults.push_back(fmt::format("{} of resource {} in use at {}, there are {}",
                                   sum,
                                   resource,
                                   moment,
                                   capacity_at(job.resources[resource], moment)));
    }
  }
}

void check_stores(const ScheduleJob& job, const ScheduleAnswer& answer, Faults& faults) {
  for (std::size_t store = 0; store < job.stores.size(); ++store) {
    std::int64_t sum = 0;
    for (std::size_t i = 0; i < job.activities.size(); ++i) {
      const ActivityMode& mode = job.activities[i].modes[at(answer.mode[i])];
      sum += store < mode.takes.size() ? mode.takes[store] : 0;
    }
    if (sum > job.stores[store]) {
      faults.push_back(
          fmt::format("{} taken from store {}, which has {}", sum, store, job.stores[store]));
    }
  }
}

bool is_whole(const ScheduleJob& job, const ScheduleAnswer& answer) {
  const std::size_t activities = job.activities.size();
  if (answer.start.size() != activities || answer.finish.size() != activities ||
      answer.mode.size() != activities) {
    return false;
  }
  for (std::size_t i = 0; i < activities; ++i) {
    if (answer.mode[i] < 0 || at(answer.mode[i]) >= job.activities[i].modes.size()) {
      return false;
    }
  }
  return true;
}

}  // namespace

std::vector<std::string> check_schedule(const ScheduleJob& job, const ScheduleAnswer& answer) {
  if (!is_whole(job, answer)) {
    return {"not every activity has a start, a finish and a mode"};
  }
  Faults faults;
  std::int64_t last = 0;
  for (int i = 0; i < static_cast<int>(job.activities.size()); ++i) {
    check_times(job, answer, i, faults);
    last = std::max(last, answer.finish[at(i)]);
  }
  for (const Lag& lag : job.lags) {
    if (answer.start[at(lag.second)] < answer.finish[at(lag.first)] + lag.least) {
      faults.push_back(
          fmt::format("activity {} starts too soon after activity {}", lag.second, lag.first));
    }
  }
  for (std::size_t resource = 0; resource < job.resources.size(); ++resource) {
    check_resource(job, answer, resource, faults);
  }
  check_stores(job, answer, faults);
  if (last != answer.makespan) {
    faults.push_back(fmt::format("the last finish is {}, not {}", last, answer.makespan));
  }
  if (answer.bound > answer.makespan || answer.proven != (answer.bound == answer.makespan)) {
    faults.emplace_back("a bound above the makespan, or proven claimed wrongly");
  }
  return faults;
}

}  // namespace plankwright::solve
