// What keeps a job from being scheduled, as far as it can be seen without searching.

#include <algorithm>

#include <fmt/format.h>

#include "solve/schedule.h"
#include "solve/schedule_model.h"

namespace plankwright::solve {
namespace {

using Kind = ScheduleObstacleKind;
using Obstacles = std::vector<ScheduleObstacle>;

constexpr std::int64_t kLastTime = 1'000'000'000;

std::size_t at(int index) {
  return static_cast<std::size_t>(index);
}

bool bad(std::int64_t number) {
  return number < 0 || number > kLastTime;
}

bool is_bad(const Activity& activity, const ScheduleJob& job) {
  const auto bad_mode = [&](const ActivityMode& mode) {
    return bad(mode.duration) || mode.uses.size() > job.resources.size() ||
           mode.takes.size() > job.stores.size() || std::ranges::any_of(mode.uses, bad) ||
           std::ranges::any_of(mode.takes, bad);
  };
  return activity.modes.empty() || bad(activity.release) || activity.calendar < -1 ||
         activity.calendar >= static_cast<int>(job.calendars.size()) ||
         (activity.deadline && bad(*activity.deadline)) ||
         std::ranges::any_of(activity.modes, bad_mode);
}

void find_bad_numbers(const ScheduleJob& job, Obstacles& found) {
  const int activities = static_cast<int>(job.activities.size());
  std::int64_t time = 0;
  for (int i = 0; i < activities; ++i) {
    const Activity& activity = job.activities[at(i)];
    if (is_bad(activity, job)) {
      found.push_back({Kind::kBadNumber, {i}, -1, 0, 0});
      continue;
    }
    time += std::ranges::max(activity.modes, {}, &ActivityMode::duration).duration;
    time = std::max(time, activity.release);
  }
  for (const Lag& lag : job.lags) {
    const bool names_none =
        lag.first < 0 || lag.second < 0 || lag.first >= activities || lag.second >= activities;
    if (names_none || bad(lag.least)) {
      found.push_back({Kind::kBadNumber, {lag.first, lag.second}, -1, 0, 0});
    }
    time += lag.least;
  }
  if (std::ranges::any_of(job.stores, bad) || time > kLastTime) {
    found.push_back({Kind::kBadNumber, {}, -1, time, kLastTime});
  }
}

void find_bad_calendars(const ScheduleJob& job, Obstacles& found) {
  for (std::size_t c = 0; c < job.calendars.size(); ++c) {
    std::int64_t end = 0;
    for (const OpenInterval& interval : job.calendars[c].open) {
      if (interval.from < end || interval.to <= interval.from || bad(interval.to)) {
        found.push_back({Kind::kBadCalendar, {}, static_cast<int>(c), interval.from, end});
        break;
      }
      end = interval.to;
    }
  }
  for (std::size_t r = 0; r < job.resources.size(); ++r) {
    const ScheduleResource& resource = job.resources[r];
    std::int64_t last = -1;
    bool wrong = bad(resource.capacity);
    for (const CapacityStep& step : resource.steps) {
      wrong = wrong || step.at <= last || bad(step.at) || bad(step.capacity);
      last = step.at;
    }
    if (wrong) {
      found.push_back({Kind::kBadNumber, {}, static_cast<int>(r), 0, 0});
    }
  }
}

/// The resource of which every mode of the activity needs too much, if it is that simple.
std::optional<ScheduleObstacle> needs_more(const ScheduleJob& job, int activity) {
  std::optional<ScheduleObstacle> obstacle;
  for (const ActivityMode& mode : job.activities[at(activity)].modes) {
    bool short_of_something = false;
    for (std::size_t r = 0; mode.duration > 0 && r < mode.uses.size(); ++r) {
      std::int64_t most = job.resources[r].capacity;
      for (const CapacityStep& step : job.resources[r].steps) {
        most = std::max(most, step.capacity);
      }
      if (mode.uses[r] > most) {
        short_of_something = true;
        obstacle = {Kind::kNeedsMore, {activity}, static_cast<int>(r), mode.uses[r], most};
      }
    }
    if (!short_of_something) {
      return std::nullopt;
    }
  }
  return obstacle;
}

void find_misfits(const ScheduleJob& job, const ScheduleModel& model, Obstacles& found) {
  for (int i = 0; i < model.activities; ++i) {
    if (!model.ways[at(i)].empty()) {
      continue;
    }
    if (const auto more = needs_more(job, i)) {
      found.push_back(*more);
      continue;
    }
    const Activity& activity = job.activities[at(i)];
    const auto shortest = std::ranges::min(activity.modes, {}, &ActivityMode::duration).duration;
    found.push_back({Kind::kNoTime, {i}, activity.calendar, shortest, 0});
  }
}

void find_small_stores(const ScheduleModel& model, Obstacles& found) {
  for (std::size_t s = 0; s < model.stores.size(); ++s) {
    ScheduleObstacle obstacle{Kind::kStoreTooSmall, {}, static_cast<int>(s), 0, model.stores[s]};
    for (int i = 0; i < model.activities; ++i) {
      std::int64_t least = kNever;
      for (const Way& way : model.ways[at(i)]) {
        const auto take = std::ranges::find(way.takes, static_cast<int>(s), &Use::resource);
        least = std::min(least, take == way.takes.end() ? 0 : take->amount);
      }
      if (least > 0) {
        obstacle.activities.push_back(i);
        obstacle.needed += least;
      }
    }
    if (obstacle.needed > obstacle.available) {
      found.push_back(std::move(obstacle));
    }
  }
}

/// The predecessors that push an activity so far back, first to last.
std::vector<int> chain_to(const ScheduleModel& model,
                          const std::vector<std::int64_t>& finish,
                          int activity) {
  std::vector<int> chain = {activity};
  while (true) {
    int cause = -1;
    std::int64_t ready = model.release[at(activity)];
    for (const Link& link : model.earlier[at(activity)]) {
      if (finish[at(link.other)] + link.least > ready) {
        ready = finish[at(link.other)] + link.least;
        cause = link.other;
      }
    }
    if (cause < 0) {
      break;
    }
    chain.push_back(activity = cause);
  }
  std::ranges::reverse(chain);
  return chain;
}

/// Only the first activity of a chain that runs past the calendar is told, and only deadlines that
/// no predecessor already misses.
void find_late(const ScheduleModel& model, Obstacles& found) {
  const std::vector<std::int64_t> finish = earliest_finishes(model);
  for (const int i : model.order) {
    const auto early = [&](const Link& link) {
      return finish[at(link.other)] <= model.deadline[at(link.other)] &&
             finish[at(link.other)] < kNever;
    };
    if (!std::ranges::all_of(model.earlier[at(i)], early)) {
      continue;
    }
    if (finish[at(i)] >= kNever) {
      found.push_back({Kind::kNoTime, chain_to(model, finish, i), -1, 0, 0});
    } else if (finish[at(i)] > model.deadline[at(i)]) {
      found.push_back(
          {Kind::kTooLate, chain_to(model, finish, i), -1, finish[at(i)], model.deadline[at(i)]});
    }
  }
}

}  // namespace

std::vector<ScheduleObstacle> find_schedule_obstacles(const ScheduleJob& job) {
  Obstacles found;
  find_bad_numbers(job, found);
  find_bad_calendars(job, found);
  if (!found.empty()) {
    return found;
  }
  std::vector<Before> before;
  for (const Lag& lag : job.lags) {
    before.push_back({lag.first, lag.second});
  }
  if (auto circle = find_circle(static_cast<int>(job.activities.size()), before); !circle.empty()) {
    return {{Kind::kCircle, std::move(circle), -1, 0, 0}};
  }
  const ScheduleModel model{job};
  find_misfits(job, model, found);
  if (found.empty()) {
    find_small_stores(model, found);
    find_late(model, found);
  }
  return found;
}

base::Error describe(const ScheduleObstacle& obstacle) {
  using base::ErrorCode;
  const std::string names = list_of(obstacle.activities);
  const auto error = [](ErrorCode code, std::string text) {
    return base::Error{code, std::move(text)};
  };
  switch (obstacle.kind) {
    case Kind::kBadNumber:
      return error(ErrorCode::kBadInput,
                   names.empty()
                       ? fmt::format("a time, capacity or store is below 0 or above {}", kLastTime)
                       : fmt::format("activities {}: a number below 0 or above {}, no "
                                     "mode, or an index that names nothing",
                                     names,
                                     kLastTime));
    case Kind::kBadCalendar:
      return error(ErrorCode::kBadInput,
                   fmt::format("calendar {}: the open time from {} is empty or out of order",
                               obstacle.resource,
                               obstacle.needed));
    case Kind::kCircle:
      return error(ErrorCode::kBadInput,
                   fmt::format("activities {} wait for each other in a circle", names));
    case Kind::kNeedsMore:
      return error(ErrorCode::kDoesNotFit,
                   fmt::format("activity {} needs {} of resource {}, there are never more than {}",
                               names,
                               obstacle.needed,
                               obstacle.resource,
                               obstacle.available));
    case Kind::kNoTime:
      return error(ErrorCode::kDoesNotFit,
                   fmt::format("activities {} find no time long enough for the last", names));
    case Kind::kTooLate:
      return error(ErrorCode::kDoesNotFit,
                   fmt::format("activities {} one after the other finish at {} at the soonest, the "
                               "deadline of the last is {}",
                               names,
                               obstacle.needed,
                               obstacle.available));
    case Kind::kStoreTooSmall:
      return error(ErrorCode::kDoesNotFit,
                   fmt::format("activities {} take at least {} from store {}, which has {}",
                               names,
                               obstacle.needed,
                               obstacle.resource,
                               obstacle.available));
    case Kind::kNoSchedule:
      break;
  }
  return error(ErrorCode::kDoesNotFit,
               names.empty() ? "no schedule keeps all deadlines and stores"
                             : fmt::format("no schedule keeps the deadlines of {}", names));
}

}  // namespace plankwright::solve
