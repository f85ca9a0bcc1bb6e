#pragma once
// The same plan when things take longer or shorter than thought: the odds of a date.

#include <cstdint>
#include <memory>
#include <optional>
#include <vector>

#include "solve/schedule.h"

namespace plankwright::solve {

struct ReplayModel;
class UseLine;

/// Keeps the order of a plan, not its dates: each activity starts, in the order in which they
/// started in the plan and in the mode planned, as soon as its predecessors, its calendar and its
/// resources allow (the policy of an activity list; Stork, TU Berlin 2001). Deadlines are left
/// aside. Made once for many runs; not for two threads at a time, but a copy for each.
class ScheduleReplay {
 public:
  /// `plan` must be a sound answer for `job`, or any other starts: only their order counts, and
  /// each activity comes after its predecessors.
  ScheduleReplay(const ScheduleJob& job, const ScheduleAnswer& plan);
  ~ScheduleReplay();
  ScheduleReplay(const ScheduleReplay& other);
  ScheduleReplay& operator=(const ScheduleReplay&) = delete;

  /// The last finish when activity i takes `durations[i]`; nothing when one of them finds no time
  /// any more (the calendar ends, or no open interval is long enough for it).
  std::optional<std::int64_t> run(const std::vector<std::int64_t>& durations);
  /// Starts and finishes of the last run that had an end.
  const std::vector<std::int64_t>& start() const { return start_; }
  const std::vector<std::int64_t>& finish() const { return finish_; }
  /// What each activity waited for last in that run: a predecessor, or who gave free the resource
  /// named in `waited_on` (-1 there for a predecessor). -1 for what waited for its release alone.
  const std::vector<int>& waited_for() const { return waited_for_; }
  const std::vector<int>& waited_on() const { return waited_on_; }

 private:
  bool place(std::size_t activity, std::int64_t duration);

  std::shared_ptr<const ReplayModel> model_;
  std::vector<UseLine> lines_;  // of each resource
  std::vector<std::int64_t> start_, finish_;
  std::vector<int> waited_for_, waited_on_;
};

}  // namespace plankwright::solve
