#pragma once
// Schedules proven: one search that learns from dead ends, asked again and again for a makespan
// below the best schedule, or at the bound.

#include <cstdint>
#include <optional>

#include "solve/bound_engine.h"
#include "solve/schedule_model.h"
#include "solve/schedule_rules.h"

namespace plankwright::solve {

class ScheduleProof {
 public:
  /// Starts run up to `horizon`.
  ScheduleProof(const ScheduleModel& model, std::int64_t horizon, std::uint64_t seed);
  ScheduleProof(const ScheduleProof&) = delete;
  ScheduleProof& operator=(const ScheduleProof&) = delete;

  /// Looks for a schedule with a makespan up to `target` until `work` is used up. True when one was
  /// found; it is in `found()`.
  bool run(std::int64_t target, std::int64_t work);
  const Timetable& found() const { return found_; }

  /// No schedule has a smaller makespan; beyond the horizon when there is none up to it.
  std::int64_t bound() const { return bound_; }
  void raise_bound(std::int64_t bound);
  /// Only makespans below this one matter any more.
  void lower_most(std::int64_t makespan);
  /// Branch towards this schedule.
  void prefer(const Timetable& timetable);
  std::int64_t work() const { return engine_.work(); }

 private:
  Atom earliest_open() const;
  void read_solution();
  void exhaust();

  const ScheduleModel& model_;
  std::int64_t horizon_;
  BoundEngine engine_;
  ScheduleVariables variables_;
  Timetable found_;
  std::int64_t bound_ = 0;
  std::int64_t restarts_ = 0;
};

}  // namespace plankwright::solve
