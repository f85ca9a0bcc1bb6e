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

/// What a resource of the job is, for messages.
struct Capacity {
  std::string name;  // "makers", "table saw"
};

/// `job.activities[i]` is `steps[i]`; the first and the last step of an operation are kept because
/// what follows it hangs on the last. Minute nought is midnight before `first_day`.
struct Model {
  solve::ScheduleJob job;
  std::vector<Step> steps;
  std::vector<Capacity> capacities;
  std::vector<std::vector<int>> first_step, last_step;       // by work and operation
  std::vector<std::vector<std::vector<std::size_t>>> needs;  // purchases, by work and operation
  std::vector<std::string> notes;
  Date first_day{};
  double hands_on = 1;  // hands-on minutes in a minute of the day
  std::int64_t day_minutes = 0;

  Moment moment(std::int64_t minute) const;
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

/// The odds of the finish and what makes them, by drawing as often as `limits` says.
void draw_odds(Calendar& calendar,
               const Model& model,
               const solve::ScheduleAnswer& answer,
               const std::vector<Work>& works,
               const shop::Shop& shop,
               const CalendarLimits& limits);

/// Who does what, so that nobody is in two places; helpers first at what they can do.
void name_people(Calendar& calendar, const shop::Shop& shop);

/// For each step the step it waited for last (itself when for none), by what is in use and what
/// precedes it.
std::vector<int> waited_for(const Model& model, const solve::ScheduleAnswer& answer);

}  // namespace plankwright::calendar
