#pragma once
// A schedule job made ready to search, and schedules built from lists.

#include <cstdint>
#include <vector>

#include "solve/schedule.h"
#include "solve/work_times.h"

namespace plankwright::solve {

/// `amount` of `resource` (or of a store).
struct Use {
  int resource = 0;
  std::int64_t amount = 0;
};

/// A mode that can be used at all. `number` is its index in the job.
struct Way {
  int number = 0;
  Span span;
  std::vector<Use> uses;
  std::vector<Use> takes;
  std::uint64_t packed = 0;  // the uses in lanes of 16 bits, in a model that packs
};

/// A lag as seen from one of its ends.
struct Link {
  int other = 0;
  std::int64_t least = 0;
};

/// Refers into itself (spans point at calendars), so it stays where it was made.
struct ScheduleModel {
  explicit ScheduleModel(const ScheduleJob& job);
  ScheduleModel(const ScheduleModel&) = delete;
  ScheduleModel& operator=(const ScheduleModel&) = delete;

  int activities = 0;
  std::vector<WorkTimes> calendars;
  std::vector<std::vector<Way>> ways;
  std::vector<std::int64_t> release;
  std::vector<std::int64_t> deadline;  // kNever without one
  std::vector<std::vector<Link>> earlier;
  std::vector<std::vector<Link>> later;
  std::vector<int> order;                           // every activity after its predecessors
  std::vector<std::vector<CapacityStep>> capacity;  // of each resource, the first at nought
  std::vector<bool> held_in_pauses;
  std::vector<std::int64_t> stores;
  bool has_calendars = false;  // any calendar or any capacity that changes
  /// Up to four resources in small numbers, no calendar, and all over before this time: then what
  /// is left at a time fits into one word, and times into a list. Nought when not.
  std::int64_t packs_until = 0;
};

/// How much of each resource is left over time while a schedule is built: step by step, or unit of
/// time by unit of time in a model that packs.
class CapacityProfile {
 public:
  explicit CapacityProfile(const ScheduleModel& model);

  void clear();
  /// The first start from `time` on at which the way has its resources; kNever when there is none.
  std::int64_t fit(const Way& way, std::int64_t time) const;
  void take(const Way& way, std::int64_t start);

 private:
  std::size_t point_at(std::int64_t time) const;
  std::size_t split(std::int64_t time);
  void take(const Use& use, std::int64_t from, std::int64_t to);
  std::int64_t fit_packed(const Way& way, std::int64_t time) const;
  bool works_in(const Way& way, const Use& use, std::int64_t from, std::int64_t to) const;

  const ScheduleModel& model_;
  std::size_t resources_ = 0;
  std::vector<std::int64_t> first_times_;
  std::vector<std::int64_t> first_left_;
  std::vector<std::int64_t> times_;
  std::vector<std::int64_t> left_;  // row by row, a row for each time
  std::uint64_t full_ = 0;          // packed
  std::vector<std::uint64_t> packed_left_;
  std::size_t touched_ = 0;  // of packed_left_
};

/// A schedule in the making: a start for each activity (kNever when it found no place) and a way.
struct Timetable {
  std::vector<std::int64_t> start;
  std::vector<std::int64_t> finish;
  std::vector<int> way;
  std::int64_t makespan = 0;  // kNever when something found no place
  std::int64_t late = 0;      // time past deadlines, in all
};

/// Starts the activities one after the other, in the order of `list` (every one after its
/// predecessors), each as soon as it finds its resources, none before `not_before`.
void build_timetable(const ScheduleModel& model,
                     const std::vector<int>& list,
                     const std::vector<int>& ways,
                     std::int64_t not_before,
                     CapacityProfile& profile,
                     Timetable& timetable);

/// The same job with time running backwards from `end`: what finished at t starts at end - t. A
/// schedule of one is a schedule of the other.
ScheduleJob mirrored(const ScheduleJob& job, std::int64_t end);

/// The time each activity would finish at the soonest if there were resources for everything, in
/// its quickest way; kNever when the calendar leaves no time.
std::vector<std::int64_t> earliest_finishes(const ScheduleModel& model);

/// For each activity the longest way from its start to the end of everything, calendars left aside.
std::vector<std::int64_t> tails(const ScheduleModel& model);

}  // namespace plankwright::solve
