#include <algorithm>

#include "solve/schedule_rules.h"

namespace plankwright::solve {
namespace {

std::size_t at(int index) {
  return static_cast<std::size_t>(index);
}

}  // namespace

ResourceRule::ResourceRule(std::vector<ResourceTask> tasks,
                           const std::vector<CapacityStep>& capacity)
    : tasks_{std::move(tasks)} {
  for (const CapacityStep& step : capacity) {
    most_ = std::max(most_, step.capacity);
  }
  std::int64_t away = 0;
  for (const CapacityStep& step : capacity) {
    missing_.push_back({step.at, most_ - step.capacity - away});
    away = most_ - step.capacity;
  }
}

bool ResourceRule::chosen(const BoundEngine& engine, const ResourceTask& task) const {
  return task.chosen < 0 || engine.low(task.chosen) == 1;
}

void ResourceRule::add_parts(const ResourceTask& task,
                             int number,
                             std::int64_t from,
                             std::int64_t to) {
  first_part_[at(number)] = static_cast<int>(parts_.size());
  if (!task.only_at_work) {
    parts_.push_back({from, to, number});
    return;
  }
  const auto& open = task.span->times()->open();
  for (std::size_t i = task.span->times()->interval_at(from); i < open.size() && open[i].from < to;
       ++i) {
    parts_.push_back({std::max(from, open[i].from), std::min(to, open[i].to), number});
  }
}

void ResourceRule::find_parts(const BoundEngine& engine) {
  parts_.clear();
  first_part_.assign(tasks_.size(), -1);
  for (std::size_t i = 0; i < tasks_.size(); ++i) {
    const ResourceTask& task = tasks_[i];
    if (!chosen(engine, task)) {
      continue;
    }
    const std::int64_t first = task.span->fit(engine.low(task.start));
    const std::int64_t last = engine.high(task.start);
    if (first < kNever && (last < first + task.span->duration() || task.only_at_work)) {
      const std::int64_t end = task.span->finish(first);
      if (last < end) {
        add_parts(task, static_cast<int>(i), last, end);
      }
    }
  }
}

void ResourceRule::build_profile() {
  events_.clear();
  for (const CapacityStep& step : missing_) {
    events_.emplace_back(step.at, step.capacity);
  }
  for (const Part& part : parts_) {
    events_.emplace_back(part.from, tasks_[at(part.task)].amount);
    events_.emplace_back(part.to, -tasks_[at(part.task)].amount);
  }
  std::ranges::sort(events_);
  profile_.clear();
  std::int64_t taken = 0;
  for (std::size_t i = 0; i < events_.size(); ++i) {
    taken += events_[i].second;
    if (i + 1 == events_.size() || events_[i + 1].first != events_[i].first) {
      profile_.push_back({events_[i].first, taken});
    }
  }
}

std::size_t ResourceRule::stretch_at(std::int64_t time) const {
  return static_cast<std::size_t>(std::ranges::upper_bound(profile_, time, {}, &Stretch::from) -
                                  profile_.begin()) -
         1;
}

std::int64_t ResourceRule::end_of(std::size_t stretch) const {
  return stretch + 1 < profile_.size() ? profile_[stretch + 1].from : kNever;
}

std::int64_t ResourceRule::own_part(int number, std::int64_t time) const {
  const int first = first_part_[at(number)];
  for (int i = first; i >= 0 && at(i) < parts_.size() && parts_[at(i)].task == number; ++i) {
    if (parts_[at(i)].from <= time && time < parts_[at(i)].to) {
      return tasks_[at(number)].amount;
    }
  }
  return 0;
}

/// Fills reasons_ with why more than the capacity less `more` is taken at `time`, as few tasks as
/// do, the largest first; `without` is left out.
void ResourceRule::explain(std::int64_t time, std::int64_t more, int without) {
  std::int64_t taken = more - most_;
  for (const CapacityStep& step : missing_) {
    taken += step.at <= time ? step.capacity : 0;
  }
  covering_.clear();
  for (const Part& part : parts_) {
    if (part.task != without && part.from <= time && time < part.to) {
      covering_.push_back(part.task);
    }
  }
  std::ranges::sort(covering_, [&](int a, int b) {
    const auto left = tasks_[at(a)].amount;
    const auto right = tasks_[at(b)].amount;
    return left > right || (left == right && a < b);
  });
  for (const int number : covering_) {
    if (taken > 0) {
      break;
    }
    const ResourceTask& task = tasks_[at(number)];
    taken += task.amount;
    reasons_.push_back(at_least(task.start, task.span->oldest_running(time)));
    reasons_.push_back(at_most(task.start, time));
    if (task.chosen >= 0) {
      reasons_.push_back(at_least(task.chosen, 1));
    }
  }
}

bool ResourceRule::check_overload(BoundEngine& engine) {
  for (std::size_t i = 0; i < profile_.size(); ++i) {
    if (profile_[i].taken > most_) {
      reasons_.clear();
      explain((profile_[i].from + std::min(end_of(i) - 1, profile_[i].from + 1000000)) / 2, 0, -1);
      return engine.contradict(reasons_);
    }
  }
  return true;
}

/// A way that would be sure to run where there is not enough left is ruled out.
bool ResourceRule::exclude(BoundEngine& engine, const ResourceTask& task) {
  const std::int64_t first = task.span->fit(engine.low(task.start));
  const std::int64_t last = engine.high(task.start);
  if (first >= kNever || task.only_at_work) {
    return true;
  }
  const std::int64_t end = task.span->finish(first);
  for (std::size_t i = stretch_at(last); i < profile_.size() && profile_[i].from < end; ++i) {
    if (last < end && profile_[i].taken + task.amount > most_) {
      const std::int64_t time = std::max(last, profile_[i].from);
      const std::int64_t oldest = task.span->oldest_running(time);
      reasons_ = {at_least(task.start, std::min(oldest, engine.low(task.start))),
                  at_most(task.start, time)};
      explain(time, task.amount, -1);
      return engine.post(at_most(task.chosen, 0), reasons_);
    }
  }
  return true;
}

bool ResourceRule::push_later(BoundEngine& engine, const ResourceTask& task, int number) {
  std::int64_t start = task.span->fit(engine.low(task.start));
  if (start >= kNever) {
    return true;
  }
  std::int64_t end = task.span->finish(start);
  for (std::size_t i = stretch_at(start); i < profile_.size() && profile_[i].from < end;) {
    std::int64_t time = std::min(end_of(i), end) - 1;
    if (task.only_at_work) {
      const WorkTimes& times = *task.span->times();
      time = times.time_worked(times.worked(time + 1)) - 1;
    }
    if (profile_[i].taken + task.amount <= most_ || time < std::max(start, profile_[i].from) ||
        profile_[i].taken + task.amount - own_part(number, time) <= most_) {
      ++i;
      continue;
    }
    reasons_ = {at_least(task.start, task.span->oldest_running(time))};
    if (task.chosen >= 0) {
      reasons_.push_back(at_least(task.chosen, 1));
    }
    explain(time, task.amount, number);
    start = task.span->fit(time + 1);
    if (!engine.post(at_least(task.start, start < kNever ? start : time + 1), reasons_)) {
      return false;
    }
    if (start >= kNever) {
      return true;  // the rule of its calendar finds that out
    }
    end = task.span->finish(start);
    while (i < profile_.size() && end_of(i) <= start) {
      ++i;
    }
  }
  return true;
}

bool ResourceRule::push_earlier(BoundEngine& engine, const ResourceTask& task, int number) {
  std::int64_t start = task.span->fit_back(engine.high(task.start));
  if (start < 0) {
    return true;
  }
  std::int64_t end = task.span->finish(start);
  for (std::size_t i = stretch_at(end - 1) + 1; i > 0 && end_of(i - 1) > start;) {
    std::int64_t time = std::max(start, profile_[i - 1].from);
    if (task.only_at_work) {
      const WorkTimes& times = *task.span->times();
      const std::size_t open = times.interval_at(time);
      time = open < times.open().size() ? std::max(time, times.open()[open].from) : kNever;
    }
    if (profile_[i - 1].taken + task.amount <= most_ || time >= std::min(end_of(i - 1), end) ||
        profile_[i - 1].taken + task.amount - own_part(number, time) <= most_) {
      --i;
      continue;
    }
    const std::int64_t latest = task.span->oldest_running(time) - 1;
    reasons_ = {at_most(task.start, time)};
    if (task.chosen >= 0) {
      reasons_.push_back(at_least(task.chosen, 1));
    }
    explain(time, task.amount, number);
    start = task.span->fit_back(latest);
    if (!engine.post(at_most(task.start, start), reasons_)) {
      return false;
    }
    if (start < 0) {
      return true;
    }
    end = task.span->finish(start);
    while (i > 0 && profile_[i - 1].from >= end) {
      --i;
    }
  }
  return true;
}

bool ResourceRule::propagate(BoundEngine& engine) {
  find_parts(engine);
  build_profile();
  engine.charge(static_cast<std::int64_t>(tasks_.size() * 6 + events_.size() * 25));
  if (!check_overload(engine)) {
    return false;
  }
  for (std::size_t i = 0; i < tasks_.size(); ++i) {
    const ResourceTask& task = tasks_[i];
    if (!chosen(engine, task)) {
      if (engine.high(task.chosen) == 1 && !exclude(engine, task)) {
        return false;
      }
      continue;
    }
    if (engine.low(task.start) == engine.high(task.start)) {
      continue;
    }
    if (!push_later(engine, task, static_cast<int>(i)) ||
        !push_earlier(engine, task, static_cast<int>(i))) {
      return false;
    }
  }
  return true;
}

}  // namespace plankwright::solve
