#include "solve/schedule.h"

#include <algorithm>

#include "solve/schedule_model.h"

namespace plankwright::solve {
namespace {

std::size_t at(int index) {
  return static_cast<std::size_t>(index);
}

ScheduleAnswer to_answer(const ScheduleModel& model, const Timetable& timetable) {
  ScheduleAnswer answer;
  answer.start = timetable.start;
  answer.finish = timetable.finish;
  answer.makespan = timetable.makespan;
  for (int i = 0; i < model.activities; ++i) {
    answer.mode.push_back(model.ways[at(i)][at(timetable.way[at(i)])].number);
  }
  return answer;
}

}  // namespace

base::Result<ScheduleAnswer> solve_schedule(const ScheduleJob& job,
                                            const ScheduleLimits& /*limits*/) {
  if (const auto obstacles = find_schedule_obstacles(job); !obstacles.empty()) {
    return describe(obstacles.front());
  }
  const ScheduleModel model{job};
  const std::vector<int>& list = model.order;
  CapacityProfile profile{model};
  Timetable timetable;
  build_timetable(model, list, std::vector<int>(at(model.activities), 0), profile, timetable);
  if (timetable.makespan >= kNever || timetable.late > 0) {
    return base::Error{base::ErrorCode::kCancelled, "no schedule was found within the limits"};
  }
  ScheduleAnswer answer = to_answer(model, timetable);
  for (const std::int64_t finish : earliest_finishes(model)) {
    answer.bound = std::max(answer.bound, finish);
  }
  answer.proven = answer.bound == answer.makespan;
  return answer;
}

}  // namespace plankwright::solve
