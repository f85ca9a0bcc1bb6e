#include "solve/schedule_replay.h"

#include <algorithm>

#include "solve/schedule_model.h"

namespace plankwright::solve {
namespace {

ScheduleJob as_planned(ScheduleJob job, const ScheduleAnswer& plan) {
  for (std::size_t i = 0; i < job.activities.size(); ++i) {
    Activity& activity = job.activities[i];
    ActivityMode mode = activity.modes[static_cast<std::size_t>(plan.mode[i])];
    activity.modes = {std::move(mode)};
    activity.deadline.reset();
  }
  return job;
}

}  // namespace

ScheduleReplay::ScheduleReplay(const ScheduleJob& job, const ScheduleAnswer& plan)
    : model_{std::make_unique<ScheduleModel>(as_planned(job, plan))},
      profile_{std::make_unique<CapacityProfile>(*model_)},
      timetable_{std::make_unique<Timetable>()},
      list_{model_->order},
      ways_(job.activities.size(), 0) {
  std::ranges::stable_sort(list_, [&](int a, int b) {
    return plan.start[static_cast<std::size_t>(a)] < plan.start[static_cast<std::size_t>(b)];
  });
}

ScheduleReplay::~ScheduleReplay() = default;

std::optional<std::int64_t> ScheduleReplay::run(const std::vector<std::int64_t>& durations) {
  for (std::size_t i = 0; i < durations.size(); ++i) {
    Way& way = model_->ways[i].front();
    way.span = way.span.lasting(durations[i]);
  }
  build_timetable(*model_, list_, ways_, 0, *profile_, *timetable_);
  return timetable_->makespan >= kNever ? std::nullopt : std::optional{timetable_->makespan};
}

const std::vector<std::int64_t>& ScheduleReplay::start() const {
  return timetable_->start;
}

const std::vector<std::int64_t>& ScheduleReplay::finish() const {
  return timetable_->finish;
}

}  // namespace plankwright::solve
