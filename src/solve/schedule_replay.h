#pragma once
// The same plan when things take longer or shorter than thought: the odds of a date.

#include <cstdint>
#include <memory>
#include <optional>
#include <vector>

#include "solve/schedule.h"

namespace plankwright::solve {

struct ScheduleModel;
class CapacityProfile;
struct Timetable;

/// Keeps the order of a plan, not its dates: each activity starts, in the order in which they
/// started in the plan and in the mode planned, as soon as its predecessors, its calendar and its
/// resources allow (the policy of an activity list; Stork, TU Berlin 2001). Deadlines are left
/// aside. Made once for many runs; not for two threads at a time.
class ScheduleReplay {
 public:
  /// `plan` must be a sound answer for `job`.
  ScheduleReplay(const ScheduleJob& job, const ScheduleAnswer& plan);
  ~ScheduleReplay();
  ScheduleReplay(const ScheduleReplay&) = delete;
  ScheduleReplay& operator=(const ScheduleReplay&) = delete;

  /// The last finish when activity i takes `durations[i]`; nothing when one of them finds no time
  /// any more (the calendar ends, or no open interval is long enough for it).
  std::optional<std::int64_t> run(const std::vector<std::int64_t>& durations);
  /// Starts and finishes of the last run that had an end.
  const std::vector<std::int64_t>& start() const;
  const std::vector<std::int64_t>& finish() const;

 private:
  std::unique_ptr<ScheduleModel> model_;
  std::unique_ptr<CapacityProfile> profile_;
  std::unique_ptr<Timetable> timetable_;
  std::vector<int> list_;
  std::vector<int> ways_;
};

}  // namespace plankwright::solve
