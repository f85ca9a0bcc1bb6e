#pragma once
// The work of a shop as a scheduling job on plain numbers, and the way back. Internal to this room.

#include <string>
#include <vector>

#include "calendar/calendar.h"
#include "solve/schedule.h"

namespace plankwright::calendar {

/// A part of an operation that is scheduled by itself.
enum class StepKind {
  kWork,  // hands on, within working days
  kWait,  // in clamps or drying, day and night
  kAway   // at the finisher's, in working days
};

struct Step {
  StepKind kind = StepKind::kWork;
  std::size_t work = 0;
  std::size_t operation = 0;
};

/// `job.activities[i]` is `steps[i]`; the first and the last step of an operation are kept because
/// what follows it hangs on the last. Minute nought is midnight before `first_day`.
struct Model {
  solve::ScheduleJob job;
  std::vector<Step> steps;
  std::vector<std::string> resources;                        // by name: "makers", "table saw"
  std::vector<std::vector<int>> first_step, last_step;       // by work and operation
  std::vector<std::vector<std::vector<std::size_t>>> needs;  // purchases, by work and operation
  std::vector<std::string> notes;
  Date first_day{};
  double hands_on = 1;  // hands-on minutes in a minute of the day
  std::int64_t day_minutes = 0;

  Moment moment(std::int64_t minute) const;
  /// The day on which something that is over at `minute` was last at work.
  Date day_of_end(std::int64_t minute) const;
};

/// Error when the shop has no working day, or its people none.
base::Result<Model> model_of(const std::vector<Work>& works,
                             const shop::Shop& shop,
                             const bench::Rules& rules,
                             const DayRules& day_rules,
                             Date start);

/// Purchases that an operation needs to be there, as indices into the purchases of its stock.
std::vector<std::vector<std::size_t>> needs_of(const Work& work,
                                               const shop::Shop& shop,
                                               const bench::Rules& rules);

const bench::Operation& operation_of(const std::vector<Work>& works, const Step& step);

/// When each step is done, and what it waited for: a step, who gave free the resource `waited_on`
/// (-1 there for what precedes it). -1 for what waited for the first day or a delivery alone.
struct Days {
  std::vector<std::int64_t> start, finish;
  std::vector<int> waited_for, waited_on;
  std::int64_t bound = 0;  // nothing is finished before

  /// The steps that are entries of the calendar, in its order: hands-on work by start.
  std::vector<std::size_t> entry_steps(const Model& model) const;
  /// The last finish of a commission.
  std::int64_t end_of(const Model& model, std::size_t work) const;
};

/// The order of these starts for a replay: what sets takes its place right after the work before
/// it, ahead of all that begins later.
solve::ScheduleAnswer order_of(const Model& model, std::vector<std::int64_t> start);

/// Finds the days of all steps: as few working days after the wanted dates as can be, then the last
/// finish soonest, then each. Errors with the names of the work and the nearest way out.
struct FoundDays {
  Days days;
  base::Errors errors;
};
FoundDays find_days(const Model& model,
                    const std::vector<Work>& works,
                    const WorkingDays& working,
                    double work);

/// The purchase a step that waits for nothing else waits for: that of its needs which takes
/// longest; nothing when none takes a day.
std::optional<std::size_t> purchase_waited_for(const Model& model,
                                               const std::vector<Work>& works,
                                               const Step& step);

}  // namespace plankwright::calendar
