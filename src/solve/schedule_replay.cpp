// What is left of each resource is a line of steps of its own: most resources are asked for by a
// few activities, so that a line is short where one table of all of them would be long.

#include "solve/schedule_replay.h"

#include <algorithm>
#include <set>
#include <utility>

#include "solve/schedule_model.h"

namespace plankwright::solve {

/// What all runs share. The spans point into `job`'s calendars, so it stays where it was made.
struct ReplayModel {
  ReplayModel(const ScheduleJob& job, const ScheduleAnswer& plan);

  struct Planned {
    Span span{0, nullptr, false};
    std::vector<Use> uses;
    std::vector<Link> earlier;
    std::int64_t release = 0;
  };
  std::vector<WorkTimes> calendars;
  std::vector<Planned> activities;
  std::vector<bool> held_in_pauses;
  std::vector<std::size_t> list;
};

namespace {

/// By start, but each after its predecessors.
std::vector<std::size_t> by_start(const ScheduleJob& job, const std::vector<std::int64_t>& start) {
  std::vector<std::vector<std::size_t>> later(start.size());
  std::vector<int> open(start.size());
  for (const Lag& lag : job.lags) {
    later[static_cast<std::size_t>(lag.first)].push_back(static_cast<std::size_t>(lag.second));
    ++open[static_cast<std::size_t>(lag.second)];
  }
  std::set<std::pair<std::int64_t, std::size_t>> free;
  for (std::size_t i = 0; i < start.size(); ++i) {
    if (open[i] == 0) {
      free.emplace(start[i], i);
    }
  }
  std::vector<std::size_t> list;
  while (!free.empty()) {
    const std::size_t next = free.begin()->second;
    free.erase(free.begin());
    list.push_back(next);
    for (const std::size_t after : later[next]) {
      if (--open[after] == 0) {
        free.emplace(start[after], after);
      }
    }
  }
  return list;
}

}  // namespace

ReplayModel::ReplayModel(const ScheduleJob& job, const ScheduleAnswer& plan) {
  for (const ScheduleCalendar& calendar : job.calendars) {
    calendars.emplace_back(calendar.open);
  }
  for (const ScheduleResource& resource : job.resources) {
    held_in_pauses.push_back(resource.held_in_pauses);
  }
  for (std::size_t i = 0; i < job.activities.size(); ++i) {
    const Activity& activity = job.activities[i];
    const ActivityMode& mode = activity.modes[static_cast<std::size_t>(plan.mode[i])];
    Planned& planned = activities.emplace_back();
    planned.release = activity.release;
    planned.span = Span{
        mode.duration,
        activity.calendar < 0 ? nullptr : &calendars[static_cast<std::size_t>(activity.calendar)],
        activity.may_pause};
    for (std::size_t r = 0; r < mode.uses.size(); ++r) {
      if (mode.uses[r] > 0) {
        planned.uses.push_back({static_cast<int>(r), mode.uses[r]});
      }
    }
  }
  for (const Lag& lag : job.lags) {
    activities[static_cast<std::size_t>(lag.second)].earlier.push_back({lag.first, lag.least});
  }
  list = by_start(job, plan.start);
}

/// How much of one resource is left from each step to the next, and whose end made the step.
class UseLine {
 public:
  explicit UseLine(const ScheduleResource& resource) {
    full_.push_back({0, resource.capacity, -1});
    for (const CapacityStep& step : resource.steps) {
      if (step.at <= 0) {
        full_.front().left = step.capacity;
      } else {
        full_.push_back({step.at, step.capacity, -1});
      }
    }
    clear();
  }

  void clear() { steps_.assign(full_.begin(), full_.end()); }

  struct Step {
    std::int64_t time = 0;
    std::int64_t left = 0;
    int ended = -1;  // activity that gave it free at that time
  };

  /// The step after the last stretch in which too little is left; nothing when there is enough.
  /// What begins in or before that stretch would have to go through it. `works` says whether any
  /// work falls between two times.
  template <class Works>
  std::optional<Step> next_chance(std::int64_t from,
                                  std::int64_t to,
                                  std::int64_t amount,
                                  const Works& works) const {
    for (std::size_t p = point_before(to) + 1; p-- > 0;) {
      const std::int64_t ends = p + 1 < steps_.size() ? steps_[p + 1].time : kNever;
      if (ends <= from) {
        break;
      }
      if (steps_[p].left < amount && works(std::max(from, steps_[p].time), std::min(to, ends))) {
        return p + 1 < steps_.size() ? steps_[p + 1] : Step{kNever, 0, -1};
      }
    }
    return std::nullopt;
  }

  void take(std::int64_t from, std::int64_t to, std::int64_t amount, int by) {
    const std::size_t begin = split(from);
    const std::size_t end = split(to);
    steps_[end].ended = by;
    for (std::size_t p = begin; p < end; ++p) {
      steps_[p].left -= amount;
    }
  }

 private:
  /// The last step that begins before `time`, which is after the first.
  std::size_t point_before(std::int64_t time) const {
    return static_cast<std::size_t>(std::ranges::lower_bound(steps_, time, {}, &Step::time) -
                                    steps_.begin()) -
           1;
  }

  std::size_t split(std::int64_t time) {
    const auto next = std::ranges::lower_bound(steps_, time, {}, &Step::time);
    const auto p = static_cast<std::size_t>(next - steps_.begin());
    if (next == steps_.end() || next->time != time) {
      steps_.insert(next, {time, steps_[p - 1].left, -1});
    }
    return p;
  }

  std::vector<Step> full_;
  std::vector<Step> steps_;
};

ScheduleReplay::ScheduleReplay(const ScheduleJob& job, const ScheduleAnswer& plan)
    : model_{std::make_shared<const ReplayModel>(job, plan)},
      start_(job.activities.size()),
      finish_(job.activities.size()),
      waited_for_(job.activities.size()),
      waited_on_(job.activities.size()) {
  for (const ScheduleResource& resource : job.resources) {
    lines_.emplace_back(resource);
  }
}

ScheduleReplay::ScheduleReplay(const ScheduleReplay& other) = default;
ScheduleReplay::~ScheduleReplay() = default;

bool ScheduleReplay::place(std::size_t activity, std::int64_t duration) {
  const ReplayModel::Planned& planned = model_->activities[activity];
  std::int64_t ready = planned.release;
  int waited_for = -1;
  int waited_on = -1;
  for (const Link& link : planned.earlier) {
    const std::int64_t until = finish_[static_cast<std::size_t>(link.other)] + link.least;
    if (until > ready) {
      ready = until;
      waited_for = link.other;
    }
  }
  const Span span = planned.span.lasting(duration);
  std::int64_t start = span.fit(ready);
  std::int64_t finish = start < kNever ? span.finish(start) : kNever;
  for (std::size_t u = 0; u < planned.uses.size() && duration > 0 && finish < kNever; ++u) {
    const Use& use = planned.uses[u];
    const auto resource = static_cast<std::size_t>(use.resource);
    const bool always = !span.pauses() || model_->held_in_pauses[resource];
    const auto works = [&](std::int64_t from, std::int64_t to) {
      return always || span.times()->worked(to) > span.times()->worked(from);
    };
    if (const auto step = lines_[resource].next_chance(start, finish, use.amount, works)) {
      start = step->time < kNever ? span.fit(step->time) : kNever;
      finish = start < kNever ? span.finish(start) : kNever;
      waited_for = step->ended >= 0 ? step->ended : waited_for;
      waited_on = step->ended >= 0 ? use.resource : waited_on;
      u = static_cast<std::size_t>(-1);  // the others are asked again
    }
  }
  start_[activity] = start;
  finish_[activity] = finish;
  waited_for_[activity] = waited_for;
  waited_on_[activity] = waited_on;
  if (duration == 0 || finish >= kNever) {
    return finish < kNever;
  }
  for (const Use& use : planned.uses) {
    const auto resource = static_cast<std::size_t>(use.resource);
    const int by = static_cast<int>(activity);
    if (!span.pauses() || model_->held_in_pauses[resource]) {
      lines_[resource].take(start, finish, use.amount, by);
      continue;
    }
    const auto& open = span.times()->open();
    for (std::size_t i = span.times()->interval_at(start); i < open.size() && open[i].from < finish;
         ++i) {
      lines_[resource].take(
          std::max(start, open[i].from), std::min(finish, open[i].to), use.amount, by);
    }
  }
  return true;
}

std::optional<std::int64_t> ScheduleReplay::run(const std::vector<std::int64_t>& durations) {
  for (UseLine& line : lines_) {
    line.clear();
  }
  std::int64_t last = 0;
  if (model_->list.size() < start_.size()) {
    return std::nullopt;  // some wait for each other
  }
  for (const std::size_t activity : model_->list) {
    if (!place(activity, durations[activity])) {
      return std::nullopt;
    }
    last = std::max(last, finish_[activity]);
  }
  return last;
}

}  // namespace plankwright::solve
