#pragma once
// A calendar of activities: who does what when, on which machine, in which of several ways, so that
// all is finished soonest.

#include <cstdint>
#include <functional>
#include <optional>
#include <stop_token>
#include <string>
#include <vector>

#include "base/result.h"
#include "solve/precedence.h"
#include "solve/sheets.h"

namespace plankwright::solve {

/// From `from` up to, not including, `to`. All times are whole numbers of the caller's unit
/// (minutes, say), from nought on and below 10^9.
struct OpenInterval {
  std::int64_t from = 0;
  std::int64_t to = 0;
};

/// When work is done at all: working days less holidays. Intervals in order, none empty, none
/// overlapping; two may touch and still count as two. After the last one nothing is done.
struct ScheduleCalendar {
  std::vector<OpenInterval> open;
};

/// From time `at` on there is `capacity`.
struct CapacityStep {
  std::int64_t at = 0;
  std::int64_t capacity = 0;
};

/// People of one skill, machines of one kind, clamps, bench space. `steps`, in order of time,
/// change the capacity: a machine that is away, a helper on Fridays. A resource `held_in_pauses`
/// stays taken while an activity that uses it pauses (bench space does, people do not).
struct ScheduleResource {
  std::int64_t capacity = 0;
  std::vector<CapacityStep> steps;
  bool held_in_pauses = false;
};

/// One way to do an activity: how long it works, what it `uses` of each resource while it does, and
/// what it `takes` from each store for good. Shorter lists mean nought of the rest.
struct ActivityMode {
  std::int64_t duration = 0;
  std::vector<std::int64_t> uses;
  std::vector<std::int64_t> takes;
};

/// Done once, in one of its modes, not begun before `release`, finished by `deadline`. Without a
/// `calendar` it runs day and night (a cure). With one it runs only while that is open: if it
/// `may_pause`, it stops when the calendar closes and goes on when it opens; if not, it begins and
/// ends within one open interval (a glue-up that must be closed the same day). What takes no time
/// heeds neither calendar nor resources.
struct Activity {
  std::vector<ActivityMode> modes;
  std::int64_t release = 0;
  std::optional<std::int64_t> deadline = std::nullopt;
  int calendar = -1;
  bool may_pause = false;
};

/// `second` does not start until `least` has passed since `first` finished (day and night).
struct Lag {
  int first = 0;
  int second = 0;
  std::int64_t least = 0;
};

/// `stores` is how much there is in all of each thing that modes take.
struct ScheduleJob {
  std::vector<Activity> activities;
  std::vector<Lag> lags;
  std::vector<ScheduleResource> resources;
  std::vector<std::int64_t> stores;
  std::vector<ScheduleCalendar> calendars;
};

/// When each activity starts and finishes and in which mode. `makespan` is the last finish, `bound`
/// what no schedule can go below, `proven` that they meet. `work` is what was spent, about a
/// nanosecond each.
struct ScheduleAnswer {
  std::vector<std::int64_t> start;
  std::vector<std::int64_t> finish;
  std::vector<int> mode;
  std::int64_t makespan = 0;
  std::int64_t bound = 0;
  bool proven = false;
  Stopped stopped = Stopped::kWorkLimit;
  std::int64_t work = 0;
  std::int64_t first_work = 0;
};

struct ScheduleProgress {
  std::int64_t makespan = 0;
  std::int64_t bound = 0;
  std::int64_t work = 0;
};

/// How long to try, in work and never in seconds. `stop` may be asked at any time; the best
/// schedule so far is returned.
struct ScheduleLimits {
  std::int64_t work = 1'000'000'000;
  int threads = 2;
  std::uint64_t seed = 1;
  std::stop_token stop = {};
  std::function<void(const ScheduleProgress&)> progress = {};
};

enum class ScheduleObstacleKind : std::uint8_t {
  kBadNumber,      // a negative or too large number, no mode, an index that names nothing
  kBadCalendar,    // open intervals or capacity steps out of order
  kCircle,         // activities that wait for each other
  kNeedsMore,      // every mode needs more of some resource than there ever is
  kNoTime,         // no open time, or no free time of its resources, is long enough for it
  kTooLate,        // what precedes it leaves no time before its deadline
  kStoreTooSmall,  // even the most sparing modes take more than there is
  kNoSchedule      // all together: the search has tried everything
};

/// Why there is no schedule. `activities` are the culprits (for kTooLate the chain that is too
/// long, first to last), `resource` the resource, store or calendar, `needed` and `available` what
/// would be needed (or the earliest finish) and what there is (or the deadline).
struct ScheduleObstacle {
  ScheduleObstacleKind kind = ScheduleObstacleKind::kBadNumber;
  std::vector<int> activities;
  int resource = -1;
  std::int64_t needed = 0;
  std::int64_t available = 0;
};

/// Everything that can be seen to keep a job from being scheduled without searching.
std::vector<ScheduleObstacle> find_schedule_obstacles(const ScheduleJob& job);

/// An obstacle in words, activities by index.
base::Error describe(const ScheduleObstacle& obstacle);

/// The schedule that is finished soonest, with a proven bound. The first obstacle as an error:
/// kBadInput for numbers and circles, kDoesNotFit for the others and when the search proves that
/// there is no schedule, kCancelled when it stopped without finding one.
base::Result<ScheduleAnswer> solve_schedule(const ScheduleJob& job,
                                            const ScheduleLimits& limits = {});

/// Everything wrong with an answer, in words; empty when it is sound. Shares no code with the
/// solver.
std::vector<std::string> check_schedule(const ScheduleJob& job, const ScheduleAnswer& answer);

}  // namespace plankwright::solve
