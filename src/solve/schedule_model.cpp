#include "solve/schedule_model.h"

#include <algorithm>

namespace plankwright::solve {
namespace {

std::size_t at(int index) {
  return static_cast<std::size_t>(index);
}

std::vector<Use> sparse(const std::vector<std::int64_t>& amounts) {
  std::vector<Use> uses;
  for (std::size_t r = 0; r < amounts.size(); ++r) {
    if (amounts[r] > 0) {
      uses.push_back({static_cast<int>(r), amounts[r]});
    }
  }
  return uses;
}

std::vector<CapacityStep> steps_of(const ScheduleResource& resource) {
  std::vector<CapacityStep> steps = {{0, resource.capacity}};
  for (const CapacityStep& step : resource.steps) {
    if (step.at <= 0) {
      steps.front().capacity = step.capacity;
    } else if (step.capacity != steps.back().capacity) {
      steps.push_back(step);
    }
  }
  return steps;
}

void fill_lags(const ScheduleJob& job, ScheduleModel& model) {
  model.earlier.resize(at(model.activities));
  model.later.resize(at(model.activities));
  std::vector<Before> before;
  for (const Lag& lag : job.lags) {
    model.later[at(lag.first)].push_back({lag.second, lag.least});
    model.earlier[at(lag.second)].push_back({lag.first, lag.least});
    before.push_back({lag.first, lag.second});
  }
  model.order = sort_by_precedence(model.activities, before);
}

}  // namespace

ScheduleModel::ScheduleModel(const ScheduleJob& job)
    : activities{static_cast<int>(job.activities.size())}, stores{job.stores} {
  for (const ScheduleCalendar& calendar : job.calendars) {
    calendars.emplace_back(calendar.open);
  }
  for (const ScheduleResource& resource : job.resources) {
    capacity.push_back(steps_of(resource));
    held_in_pauses.push_back(resource.held_in_pauses);
    has_calendars = has_calendars || capacity.back().size() > 1;
  }
  fill_lags(job, *this);
  ways.resize(job.activities.size());
  const CapacityProfile empty{*this};
  for (std::size_t i = 0; i < job.activities.size(); ++i) {
    const Activity& activity = job.activities[i];
    release.push_back(activity.release);
    deadline.push_back(activity.deadline.value_or(kNever));
    has_deadlines = has_deadlines || activity.deadline.has_value();
    has_calendars = has_calendars || activity.calendar >= 0;
    const WorkTimes* times = activity.calendar < 0 ? nullptr : &calendars[at(activity.calendar)];
    for (std::size_t m = 0; m < activity.modes.size(); ++m) {
      const ActivityMode& mode = activity.modes[m];
      Way way{static_cast<int>(m),
              Span{mode.duration, times, activity.may_pause},
              sparse(mode.duration > 0 ? mode.uses : std::vector<std::int64_t>{}),
              sparse(mode.takes)};
      if (empty.fit(way, activity.release) < kNever) {
        ways[i].push_back(std::move(way));
      }
    }
  }
}

CapacityProfile::CapacityProfile(const ScheduleModel& model)
    : model_{model}, resources_{model.capacity.size()}, first_times_{0} {
  for (const auto& steps : model.capacity) {
    for (const CapacityStep& step : steps) {
      first_times_.push_back(step.at);
    }
  }
  std::ranges::sort(first_times_);
  first_times_.erase(std::unique(first_times_.begin(), first_times_.end()), first_times_.end());
  for (const std::int64_t time : first_times_) {
    for (const auto& steps : model.capacity) {
      const auto next = std::ranges::upper_bound(steps, time, {}, &CapacityStep::at);
      first_left_.push_back(std::prev(next)->capacity);
    }
  }
  clear();
}

void CapacityProfile::clear() {
  times_ = first_times_;
  left_ = first_left_;
}

std::size_t CapacityProfile::point_at(std::int64_t time) const {
  return static_cast<std::size_t>(std::ranges::upper_bound(times_, time) - times_.begin()) - 1;
}

bool CapacityProfile::works_in(const Way& way,
                               const Use& use,
                               std::int64_t from,
                               std::int64_t to) const {
  if (!way.span.pauses() || model_.held_in_pauses[at(use.resource)]) {
    return true;
  }
  const WorkTimes& times = *way.span.times();
  return times.worked(to) > times.worked(from);
}

std::int64_t CapacityProfile::fit(const Way& way, std::int64_t time) const {
  std::int64_t start = way.span.fit(time);
  if (start >= kNever || way.uses.empty()) {
    return start;
  }
  std::int64_t finish = way.span.finish(start);
  for (std::size_t p = point_at(start); p < times_.size() && times_[p] < finish; ++p) {
    const std::int64_t next = p + 1 < times_.size() ? times_[p + 1] : kNever;
    for (const Use& use : way.uses) {
      if (left_[p * resources_ + at(use.resource)] >= use.amount ||
          !works_in(way, use, std::max(start, times_[p]), std::min(finish, next))) {
        continue;
      }
      start = next >= kNever ? kNever : way.span.fit(next);
      if (start >= kNever) {
        return kNever;
      }
      finish = way.span.finish(start);
      p = point_at(start) - 1;  // the loop goes on to the point of the new start
      break;
    }
  }
  return start;
}

std::size_t CapacityProfile::split(std::int64_t time) {
  const std::size_t p = point_at(time);
  if (times_[p] == time) {
    return p;
  }
  times_.insert(times_.begin() + static_cast<std::ptrdiff_t>(p) + 1, time);
  left_.insert(left_.begin() + static_cast<std::ptrdiff_t>((p + 1) * resources_), resources_, 0);
  std::copy_n(left_.begin() + static_cast<std::ptrdiff_t>(p * resources_),
              resources_,
              left_.begin() + static_cast<std::ptrdiff_t>((p + 1) * resources_));
  return p + 1;
}

void CapacityProfile::take(const Use& use, std::int64_t from, std::int64_t to) {
  const std::size_t begin = split(from);
  const std::size_t end = split(to);
  for (std::size_t p = begin; p < end; ++p) {
    left_[p * resources_ + at(use.resource)] -= use.amount;
  }
}

void CapacityProfile::take(const Way& way, std::int64_t start) {
  const std::int64_t finish = way.span.finish(start);
  for (const Use& use : way.uses) {
    if (!way.span.pauses() || model_.held_in_pauses[at(use.resource)]) {
      take(use, start, finish);
      continue;
    }
    const auto& open = way.span.times()->open();
    for (std::size_t i = way.span.times()->interval_at(start);
         i < open.size() && open[i].from < finish;
         ++i) {
      take(use, std::max(start, open[i].from), std::min(finish, open[i].to));
    }
  }
}

void build_timetable(const ScheduleModel& model,
                     const std::vector<int>& list,
                     const std::vector<int>& ways,
                     std::int64_t not_before,
                     CapacityProfile& profile,
                     Timetable& timetable) {
  profile.clear();
  timetable.start.assign(at(model.activities), kNever);
  timetable.finish.assign(at(model.activities), kNever);
  timetable.way = ways;
  timetable.makespan = timetable.late = 0;
  for (const int activity : list) {
    std::int64_t ready = std::max(not_before, model.release[at(activity)]);
    for (const Link& link : model.earlier[at(activity)]) {
      ready = std::max(ready, timetable.finish[at(link.other)] + link.least);
    }
    const Way& way = model.ways[at(activity)][at(ways[at(activity)])];
    const std::int64_t start = ready >= kNever ? kNever : profile.fit(way, ready);
    if (start >= kNever) {
      timetable.makespan = kNever;
      return;
    }
    profile.take(way, start);
    const std::int64_t finish = way.span.finish(start);
    timetable.start[at(activity)] = start;
    timetable.finish[at(activity)] = finish;
    timetable.makespan = std::max(timetable.makespan, finish);
    timetable.late += std::max<std::int64_t>(0, finish - model.deadline[at(activity)]);
  }
}

ScheduleJob mirrored(const ScheduleJob& job, std::int64_t end) {
  ScheduleJob mirror = job;
  for (std::size_t i = 0; i < job.activities.size(); ++i) {
    const Activity& activity = job.activities[i];
    mirror.activities[i].release =
        activity.deadline ? std::max<std::int64_t>(0, end - *activity.deadline) : 0;
    mirror.activities[i].deadline = end - activity.release;
  }
  for (Lag& lag : mirror.lags) {
    std::swap(lag.first, lag.second);
  }
  for (ScheduleCalendar& calendar : mirror.calendars) {
    std::erase_if(calendar.open,
                  [&](const OpenInterval& interval) { return interval.from >= end; });
    std::ranges::reverse(calendar.open);
    for (OpenInterval& interval : calendar.open) {
      interval = {std::max<std::int64_t>(0, end - interval.to), end - interval.from};
    }
  }
  for (ScheduleResource& resource : mirror.resources) {
    std::vector<CapacityStep> steps = {{0, resource.capacity}};
    for (const CapacityStep& step : resource.steps) {
      if (step.at < end) {
        steps.push_back(step);
      }
    }
    resource.capacity = steps.back().capacity;
    resource.steps.clear();
    for (std::size_t k = steps.size() - 1; k > 0; --k) {
      resource.steps.push_back({end - steps[k].at, steps[k - 1].capacity});
    }
  }
  return mirror;
}

std::vector<std::int64_t> earliest_finishes(const ScheduleModel& model) {
  std::vector<std::int64_t> finish(at(model.activities), kNever);
  const CapacityProfile empty{model};
  for (const int activity : model.order) {
    std::int64_t ready = model.release[at(activity)];
    for (const Link& link : model.earlier[at(activity)]) {
      ready = std::max(ready, finish[at(link.other)] + link.least);
    }
    for (const Way& way : model.ways[at(activity)]) {
      const std::int64_t start = ready >= kNever ? kNever : empty.fit(way, ready);
      if (start < kNever) {
        finish[at(activity)] = std::min(finish[at(activity)], way.span.finish(start));
      }
    }
  }
  return finish;
}

std::vector<std::int64_t> tails(const ScheduleModel& model) {
  std::vector<std::int64_t> tail(at(model.activities), 0);
  for (auto it = model.order.rbegin(); it != model.order.rend(); ++it) {
    for (const Link& link : model.later[at(*it)]) {
      tail[at(*it)] = std::max(tail[at(*it)], link.least + tail[at(link.other)]);
    }
    std::int64_t shortest = kNever;
    for (const Way& way : model.ways[at(*it)]) {
      shortest = std::min(shortest, way.span.duration());
    }
    tail[at(*it)] += shortest;
  }
  return tail;
}

}  // namespace plankwright::solve
