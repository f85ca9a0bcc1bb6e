#include "solve/work_times.h"

#include <algorithm>

namespace plankwright::solve {

WorkTimes::WorkTimes(std::vector<OpenInterval> open) : open_{std::move(open)} {
  for (const OpenInterval& interval : open_) {
    before_.push_back(before_.back() + interval.to - interval.from);
  }
  const std::int64_t end = open_.empty() ? 0 : open_.back().to;
  while ((end >> stretch_) > 4 * static_cast<std::int64_t>(open_.size())) {
    ++stretch_;
  }
  for (std::int64_t from = 0; from < end; from += std::int64_t{1} << stretch_) {
    const auto first = std::ranges::upper_bound(open_, from, {}, &OpenInterval::to);
    first_.push_back(static_cast<std::size_t>(first - open_.begin()));
  }
}

std::size_t WorkTimes::interval_at(std::int64_t time) const {
  if (time < 0) {
    return 0;
  }
  const auto stretch = static_cast<std::size_t>(time >> stretch_);
  std::size_t i = stretch < first_.size() ? first_[stretch] : open_.size();
  while (i < open_.size() && open_[i].to <= time) {
    ++i;
  }
  return i;
}

std::int64_t WorkTimes::worked(std::int64_t time) const {
  const std::size_t i = interval_at(time);
  return before_[i] + (i < open_.size() ? std::max<std::int64_t>(0, time - open_[i].from) : 0);
}

std::int64_t WorkTimes::time_worked(std::int64_t work) const {
  if (work > total()) {
    return kNever;
  }
  if (work <= 0) {
    return 0;
  }
  const auto i =
      static_cast<std::size_t>(std::ranges::lower_bound(before_, work) - before_.begin());
  return open_[i - 1].from + work - before_[i - 1];
}

std::int64_t WorkTimes::last_time_worked(std::int64_t work) const {
  if (work >= total()) {
    return kNever;
  }
  const auto i =
      static_cast<std::size_t>(std::ranges::upper_bound(before_, work) - before_.begin());
  return open_[i - 1].from + work - before_[i - 1];
}

std::int64_t Span::fit(std::int64_t time) const {
  if (times_ == nullptr) {
    return std::max<std::int64_t>(0, time);
  }
  const auto& open = times_->open();
  for (std::size_t i = times_->interval_at(time); i < open.size(); ++i) {
    const std::int64_t start = std::max(time, open[i].from);
    if (may_pause_) {
      return times_->worked(start) + duration_ <= times_->total() ? start : kNever;
    }
    if (start + duration_ <= open[i].to) {
      return start;
    }
  }
  return kNever;
}

std::int64_t Span::fit_back(std::int64_t time) const {
  if (times_ == nullptr || time < 0) {
    return std::max<std::int64_t>(-1, time);
  }
  const auto& open = times_->open();
  if (duration_ > times_->total()) {
    return -1;
  }
  if (may_pause_) {
    time = std::min(time, times_->last_time_worked(times_->total() - duration_));
  }
  std::size_t i = std::min(times_->interval_at(time) + 1, open.size());
  for (; i-- > 0;) {
    const std::int64_t latest = open[i].to - (may_pause_ ? 1 : duration_);
    const std::int64_t start = std::min(time, latest);
    if (start >= open[i].from) {
      return start;
    }
  }
  return -1;
}

std::int64_t Span::finish(std::int64_t start) const {
  if (!pauses()) {
    return start + duration_;
  }
  const auto& open = times_->open();
  const std::size_t i = times_->interval_at(start);
  if (i < open.size() && open[i].from <= start && start + duration_ <= open[i].to) {
    return start + duration_;  // over before the next pause
  }
  return times_->time_worked(times_->worked(start) + duration_);
}

std::int64_t Span::start_to_finish(std::int64_t time) const {
  if (!pauses()) {
    return fit_back(time - duration_);
  }
  const std::int64_t work = times_->worked(time) - duration_;
  return work < 0 ? -1 : fit_back(times_->last_time_worked(work));
}

std::int64_t Span::oldest_running(std::int64_t time) const {
  if (!pauses()) {
    return fit(time - duration_ + 1);
  }
  const std::int64_t work = times_->worked(time) - duration_;
  return work < 0 ? fit(0) : fit(times_->last_time_worked(work) + 1);
}

}  // namespace plankwright::solve
