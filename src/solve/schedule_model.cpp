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

constexpr std::uint64_t kSigns = 0x8000800080008000ULL;  // of the four lanes
constexpr std::int64_t kMostLane = 0x7fff;
constexpr std::int64_t kMostPackedTime = 20'000;

/// When everything is over at the latest, done one after the other; nought when that does not pack.
std::int64_t packed_end(const ScheduleJob& job, const ScheduleModel& model) {
  const auto large = [](const auto& steps) { return steps.front().capacity > kMostLane; };
  if (model.has_calendars || model.capacity.size() > 4 ||
      std::ranges::any_of(model.capacity, large)) {
    return 0;
  }
  std::int64_t end = 1;
  for (const Activity& activity : job.activities) {
    end +=
        activity.release + std::ranges::max(activity.modes, {}, &ActivityMode::duration).duration;
  }
  for (const Lag& lag : job.lags) {
    end += lag.least;
  }
  return end <= kMostPackedTime ? end : 0;
}

std::uint64_t pack(const std::vector<Use>& uses) {
  std::uint64_t packed = 0;
  for (const Use& use : uses) {
    packed |= static_cast<std::uint64_t>(use.amount) << (16 * use.resource);
  }
  return packed;
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
  packs_until = packed_end(job, *this);
  for (auto& all : ways) {
    for (Way& way : all) {
      way.packed = packs_until > 0 ? pack(way.uses) : 0;
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
  for (std::size_t r = 0; model.packs_until > 0 && r < resources_; ++r) {
    full_ |= static_cast<std::uint64_t>(model.capacity[r].front().capacity) << (16 * r);
  }
  packed_left_.assign(static_cast<std::size_t>(model.packs_until), full_);
  clear();
}

void CapacityProfile::clear() {
  std::fill_n(packed_left_.begin(), touched_, full_);
  touched_ = 0;
  if (!packed_left_.empty()) {
    return;
  }
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

// Looks from the end of the time wanted to its start: behind the last unit with too little left
// goes the next attempt. A lane's sign is lost exactly where the use is more than what is left.
std::int64_t CapacityProfile::fit_packed(const Way& way, std::int64_t time) const {
  const auto size = static_cast<std::int64_t>(packed_left_.size());
  const std::int64_t duration = way.span.duration();
  for (std::int64_t start = time, t = start + duration - 1; t >= start; --t) {
    const bool beyond = t >= size;
    const std::uint64_t left = beyond ? full_ : packed_left_[static_cast<std::size_t>(t)];
    if ((((left | kSigns) - way.packed) & kSigns) != kSigns) {
      start = t + 1;
      t = start + duration;
    }
    if (t == start) {
      return start;
    }
  }
  return time;
}

std::int64_t CapacityProfile::fit(const Way& way, std::int64_t time) const {
  std::int64_t start = way.span.fit(time);
  if (start >= kNever || way.uses.empty()) {
    return start;
  }
  if (!packed_left_.empty()) {
    return fit_packed(way, start);
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
  if (!packed_left_.empty()) {
    const std::size_t end = std::max(packed_left_.size(), static_cast<std::size_t>(finish));
    packed_left_.resize(end, full_);
    touched_ = std::max(touched_, static_cast<std::size_t>(finish));
    for (std::size_t t = static_cast<std::size_t>(start); t < static_cast<std::size_t>(finish);
         ++t) {
      packed_left_[t] -= way.packed;
    }
    return;
  }
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
