#pragma once
// When work that heeds a calendar starts, goes on and ends.

#include <cstdint>
#include <vector>

#include "solve/schedule.h"

namespace plankwright::solve {

/// Later than everything.
inline constexpr std::int64_t kNever = std::int64_t{1} << 50;

/// The open intervals of a calendar with the open time before each.
class WorkTimes {
 public:
  WorkTimes() = default;
  explicit WorkTimes(std::vector<OpenInterval> open);

  const std::vector<OpenInterval>& open() const { return open_; }
  /// Index of the first interval that ends after `time`; as many as there are when none does.
  std::size_t interval_at(std::int64_t time) const;
  /// Open time before `time`.
  std::int64_t worked(std::int64_t time) const;
  /// The earliest time before which `work` has been open; kNever beyond the last interval.
  std::int64_t time_worked(std::int64_t work) const;
  /// The latest time before which no more than `work` has been open.
  std::int64_t last_time_worked(std::int64_t work) const;
  std::int64_t total() const { return before_.empty() ? 0 : before_.back(); }

 private:
  std::vector<OpenInterval> open_;
  std::vector<std::int64_t> before_ = {0};
  std::vector<std::size_t> first_;  // interval to look from, for each stretch of 2^stretch_
  int stretch_ = 0;
};

/// How one mode of an activity lies in time. All functions grow with their argument, so that a
/// bound on one time gives a bound on the other.
class Span {
 public:
  Span(std::int64_t duration, const WorkTimes* times, bool may_pause)
      : duration_{duration},
        all_times_{times},
        times_{duration > 0 ? times : nullptr},
        may_pause_{may_pause} {}

  /// The same but for the duration.
  Span lasting(std::int64_t duration) const { return {duration, all_times_, may_pause_}; }

  std::int64_t duration() const { return duration_; }
  bool pauses() const { return times_ != nullptr && may_pause_; }
  const WorkTimes* times() const { return times_; }

  /// The first time from `time` on at which it may start; kNever when there is none.
  std::int64_t fit(std::int64_t time) const;
  /// The last time up to `time` at which it may start; -1 when there is none.
  std::int64_t fit_back(std::int64_t time) const;
  /// When it ends, started at `start`, which must be a time it may start at.
  std::int64_t finish(std::int64_t start) const;
  /// The last start with which it ends by `time`; -1 when there is none.
  std::int64_t start_to_finish(std::int64_t time) const;
  /// The first start with which it has not ended at `time`; kNever when there is none.
  std::int64_t oldest_running(std::int64_t time) const;

 private:
  std::int64_t duration_ = 0;
  const WorkTimes* all_times_ = nullptr;
  const WorkTimes* times_ = nullptr;  // none for what takes no time
  bool may_pause_ = false;
};

}  // namespace plankwright::solve
