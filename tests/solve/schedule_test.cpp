#include "solve/schedule.h"

#include <algorithm>
#include <optional>
#include <string>

#include <gtest/gtest.h>
#include <rapidcheck.h>

#include "solve/schedule_replay.h"

namespace plankwright::solve {
namespace {

constexpr std::int64_t kEnd = 16;  // small jobs are over by then or not at all

std::string faults_of(const ScheduleJob& job, const ScheduleAnswer& answer) {
  std::string text;
  for (const std::string& fault : check_schedule(job, answer)) {
    text += fault + "; ";
  }
  return text;
}

/// Tries every mode and every start of every activity, with time cut into single units.
class ScheduleOracle {
 public:
  explicit ScheduleOracle(const ScheduleJob& job)
      : job_{job}, finish_(job.activities.size(), -1), left_(job.stores) {
    for (const ScheduleResource& resource : job.resources) {
      std::vector<std::int64_t> free;
      for (std::int64_t t = 0; t < kEnd; ++t) {
        std::int64_t capacity = resource.capacity;
        for (const CapacityStep& step : resource.steps) {
          capacity = t >= step.at ? step.capacity : capacity;
        }
        free.push_back(capacity);
      }
      free_.push_back(free);
    }
  }

  std::optional<std::int64_t> least() {
    place(0, 0);
    return best_;
  }

 private:
  bool is_open(const Activity& activity, std::int64_t t) const {
    if (activity.calendar < 0) {
      return true;
    }
    const auto& open = job_.calendars[static_cast<std::size_t>(activity.calendar)].open;
    return std::ranges::any_of(open,
                               [&](const OpenInterval& i) { return i.from <= t && t < i.to; });
  }

  /// A night, or the seam of two shifts, between the units before and at t.
  bool is_seam(const Activity& activity, std::int64_t t) const {
    if (activity.calendar < 0) {
      return false;
    }
    const auto& open = job_.calendars[static_cast<std::size_t>(activity.calendar)].open;
    return std::ranges::any_of(open, [&](const OpenInterval& i) { return i.from == t; });
  }

  /// Takes (or gives back) what a unit of time needs; false when there is too little.
  bool take(const ActivityMode& mode, std::int64_t t, bool works, int sign) {
    bool enough = true;
    for (std::size_t r = 0; r < mode.uses.size(); ++r) {
      if (works || job_.resources[r].held_in_pauses) {
        free_[r][static_cast<std::size_t>(t)] -= sign * mode.uses[r];
        enough = enough && free_[r][static_cast<std::size_t>(t)] >= 0;
      }
    }
    return enough;
  }

  void start(std::size_t i, const ActivityMode& mode, std::int64_t from, std::int64_t latest) {
    const Activity& activity = job_.activities[i];
    std::int64_t work = 0;
    std::int64_t t = from;
    bool sound = mode.duration == 0 || is_open(activity, from);
    std::vector<std::pair<std::int64_t, bool>> units;
    for (; sound && work < mode.duration; ++t) {
      if (t >= kEnd) {
        sound = false;
        break;
      }
      const bool open = is_open(activity, t);
      sound = activity.may_pause || (open && (t == from || !is_seam(activity, t)));
      units.emplace_back(t, open);
      sound = take(mode, t, open, 1) && sound;
      work += open ? 1 : 0;
    }
    if (sound && (!activity.deadline || t <= *activity.deadline)) {
      finish_[i] = t;
      place(i + 1, std::max(latest, t));
    }
    for (const auto& [unit, open] : units) {
      take(mode, unit, open, -1);
    }
  }

  void place(std::size_t i, std::int64_t latest) {
    if (best_ && latest >= *best_) {
      return;
    }
    if (i == job_.activities.size()) {
      best_ = latest;
      return;
    }
    std::int64_t ready = job_.activities[i].release;
    for (const Lag& lag : job_.lags) {
      if (lag.second == static_cast<int>(i)) {
        ready = std::max(ready, finish_[static_cast<std::size_t>(lag.first)] + lag.least);
      }
    }
    for (const ActivityMode& mode : job_.activities[i].modes) {
      bool enough = true;
      for (std::size_t s = 0; s < mode.takes.size(); ++s) {
        left_[s] -= mode.takes[s];
        enough = enough && left_[s] >= 0;
      }
      for (std::int64_t t = ready; enough && t <= kEnd; ++t) {
        start(i, mode, t, latest);
      }
      for (std::size_t s = 0; s < mode.takes.size(); ++s) {
        left_[s] += mode.takes[s];
      }
    }
  }

  const ScheduleJob& job_;
  std::vector<std::int64_t> finish_;
  std::vector<std::int64_t> left_;
  std::vector<std::vector<std::int64_t>> free_;
  std::optional<std::int64_t> best_;
};

Activity random_activity(int calendars, int resources, int stores) {
  Activity activity;
  const int modes = *rc::gen::inRange(1, 3);
  for (int m = 0; m < modes; ++m) {
    ActivityMode mode;
    mode.duration = *rc::gen::inRange(0, 4);
    for (int r = 0; r < resources; ++r) {
      mode.uses.push_back(*rc::gen::inRange(0, 3));
    }
    for (int s = 0; s < stores; ++s) {
      mode.takes.push_back(*rc::gen::inRange(0, 3));
    }
    activity.modes.push_back(mode);
  }
  activity.release = *rc::gen::element(0, 0, 0, 2);
  if (*rc::gen::inRange(0, 4) == 0) {
    activity.deadline = *rc::gen::inRange(4, 14);
  }
  activity.calendar = *rc::gen::inRange(-1, calendars);
  activity.may_pause = *rc::gen::arbitrary<bool>();
  return activity;
}

/// Up to four activities on short days, all within kEnd; the lags run from lower to higher indices.
ScheduleJob random_schedule_job() {
  ScheduleJob job;
  const int calendars = *rc::gen::inRange(0, 3);
  for (int c = 0; c < calendars; ++c) {
    ScheduleCalendar calendar;
    std::int64_t t = *rc::gen::inRange(0, 3);
    while (t < kEnd - 4) {
      const std::int64_t to = t + *rc::gen::inRange(1, 5);
      calendar.open.push_back({t, to});
      t = to + *rc::gen::inRange(0, 4);
    }
    job.calendars.push_back(calendar);
  }
  const int resources = *rc::gen::inRange(0, 3);
  for (int r = 0; r < resources; ++r) {
    ScheduleResource resource{*rc::gen::inRange(1, 4), {}, *rc::gen::arbitrary<bool>()};
    if (*rc::gen::arbitrary<bool>()) {
      const int at = *rc::gen::inRange(0, 6);
      resource.steps = {{at, *rc::gen::inRange(0, 3)}, {at + 3, *rc::gen::inRange(1, 4)}};
    }
    job.resources.push_back(resource);
  }
  const int stores = *rc::gen::inRange(0, 2);
  for (int s = 0; s < stores; ++s) {
    job.stores.push_back(*rc::gen::inRange(1, 7));
  }
  const int activities = *rc::gen::inRange(1, 5);
  for (int i = 0; i < activities; ++i) {
    job.activities.push_back(random_activity(calendars, resources, stores));
    if (i > 0 && *rc::gen::arbitrary<bool>()) {
      job.lags.push_back({*rc::gen::inRange(0, i), i, *rc::gen::inRange(0, 3)});
    }
  }
  return job;
}

ScheduleLimits small_limits() {
  ScheduleLimits limits;
  limits.threads = 1;
  return limits;
}

// Within kEnd the oracle has tried everything; beyond it only the checker speaks.
TEST(SolveSchedule, AgreesWithTryingEverything) {
  EXPECT_TRUE(rc::check([] {
    const ScheduleJob job = random_schedule_job();
    const auto least = ScheduleOracle{job}.least();
    const auto answer = solve_schedule(job, small_limits());
    RC_CLASSIFY(least.has_value());
    if (!answer.ok()) {
      RC_ASSERT(answer.error().code == base::ErrorCode::kDoesNotFit);
      RC_ASSERT(!least.has_value());
      return;
    }
    RC_ASSERT(faults_of(job, answer.value()) == "");
    RC_ASSERT(answer.value().proven);
    if (least || answer.value().makespan <= kEnd) {
      RC_ASSERT(answer.value().makespan == least.value_or(-1));
    }
  }));
}

TEST(SolveSchedule, GivesTheSameAnswerForOneThreadAndTwo) {
  EXPECT_TRUE(rc::check([] {
    const ScheduleJob job = random_schedule_job();
    ScheduleLimits two;
    two.threads = 2;
    const auto one = solve_schedule(job, small_limits());
    const auto other = solve_schedule(job, two);
    RC_ASSERT(one.ok() == other.ok());
    if (one.ok()) {
      RC_ASSERT(one.value().start == other.value().start);
      RC_ASSERT(one.value().work == other.value().work);
    }
  }));
}

Activity simple(std::int64_t duration, std::vector<std::int64_t> uses) {
  Activity activity;
  activity.modes.push_back({duration, std::move(uses), {}});
  return activity;
}

// Johnson's rule (Naval Res. Logist. Q. 1, 1954) on numbers of our own, worked by hand: times on
// the first machine 3, 5, 1, 6, 7 and on the second 6, 2, 2, 6, 5 are best in the order 3, 1, 4, 5,
// 2 and take 24.
TEST(SolveSchedule, PutsTwoMachinesInJohnsonsOrder) {
  ScheduleJob job;
  job.resources = {{1, {}, false}, {1, {}, false}};
  const std::int64_t times[][2] = {{3, 6}, {5, 2}, {1, 2}, {6, 6}, {7, 5}};
  for (const auto& pair : times) {
    const int first = static_cast<int>(job.activities.size());
    job.activities.push_back(simple(pair[0], {1, 0}));
    job.activities.push_back(simple(pair[1], {0, 1}));
    job.lags.push_back({first, first + 1, 0});
  }
  const auto answer = solve_schedule(job);
  ASSERT_TRUE(answer.ok());
  EXPECT_EQ(faults_of(job, answer.value()), "");
  EXPECT_EQ(answer.value().makespan, 24);
  EXPECT_TRUE(answer.value().proven);
}

// A hand-made week, eight hours from 8 to 16 a day: nine hours of cutting go on the next morning, a
// two-hour glue-up waits until it can be closed the same day, and twelve hours later it is cured.
TEST(SolveSchedule, PausesAtNightButNeverAGlueUp) {
  ScheduleJob job;
  job.calendars = {{{{8, 16}, {32, 40}, {56, 64}}}};
  job.resources = {{1, {}, false}};
  job.activities = {simple(15, {1}), simple(2, {1}), simple(12, {})};
  job.activities[0].calendar = job.activities[1].calendar = 0;
  job.activities[0].may_pause = true;
  job.lags = {{0, 1, 0}, {1, 2, 0}};
  const auto answer = solve_schedule(job);
  ASSERT_TRUE(answer.ok());
  EXPECT_EQ(faults_of(job, answer.value()), "");
  EXPECT_EQ(answer.value().finish, (std::vector<std::int64_t>{39, 58, 70}));
  EXPECT_TRUE(answer.value().proven);
}

struct BadCase {
  std::string why;
  ScheduleJob job;
  ScheduleObstacleKind kind;
  std::vector<int> activities;
  std::string message;
};

std::vector<BadCase> bad_cases() {
  using Kind = ScheduleObstacleKind;
  ScheduleJob base;
  base.activities = {simple(2, {1}), simple(3, {1}), simple(4, {1})};
  base.resources = {{2, {}, false}};
  std::vector<BadCase> cases;
  const auto add = [&](std::string why, Kind kind, std::vector<int> who, std::string message) {
    cases.push_back({std::move(why), base, kind, std::move(who), std::move(message)});
    return &cases.back().job;
  };
  add("a circle", Kind::kCircle, {0, 1, 2}, "activities 0, 1, 2 wait for each other in a circle")
      ->lags = {{0, 1, 0}, {1, 2, 0}, {2, 0, 0}};
  add("too many people",
      Kind::kNeedsMore,
      {1},
      "activity 1 needs 3 of resource 0, there are never more than 2")
      ->activities[1]
      .modes[0]
      .uses = {3};
  auto* late = add("a chain past its deadline",
                   Kind::kTooLate,
                   {0, 1},
                   "activities 0, 1 one after the other finish at 5 at the soonest, the deadline "
                   "of the last is 4");
  late->lags = {{0, 1, 0}};
  late->activities[1].deadline = 4;
  auto* holiday = add("a month of holidays",
                      Kind::kNoTime,
                      {2},
                      "activities 2 find no time long enough for the last");
  holiday->calendars = {{}};
  holiday->activities[2].calendar = 0;
  auto* day = add("longer than any day",
                  Kind::kNoTime,
                  {2},
                  "activities 2 find no time long enough for the last");
  day->calendars = {{{{0, 3}, {5, 8}}}};
  day->activities[2].calendar = 0;
  auto* store = add("a small store",
                    Kind::kStoreTooSmall,
                    {0, 2},
                    "activities 0, 2 take at least 5 from store 0, which has 4");
  store->stores = {4};
  store->activities[0].modes[0].takes = {2};
  store->activities[2].modes[0].takes = {3};
  add("no mode",
      Kind::kBadNumber,
      {0},
      "activities 0: a number below 0 or above 1000000000, no mode, or an index that names nothing")
      ->activities[0]
      .modes.clear();
  add("days out of order",
      Kind::kBadCalendar,
      {},
      "calendar 0: the open time from 2 is empty or out of order")
      ->calendars = {{{{0, 4}, {2, 6}}}};
  return cases;
}

TEST(SolveSchedule, NamesWhatStandsInTheWay) {
  for (const BadCase& bad : bad_cases()) {
    SCOPED_TRACE(bad.why);
    const auto obstacles = find_schedule_obstacles(bad.job);
    ASSERT_FALSE(obstacles.empty());
    EXPECT_EQ(obstacles.front().kind, bad.kind);
    EXPECT_EQ(obstacles.front().activities, bad.activities);
    const auto answer = solve_schedule(bad.job);
    ASSERT_FALSE(answer.ok());
    EXPECT_EQ(answer.error().message, bad.message);
  }
}

// One machine, four hours of work, all due in three: only searching finds that out.
TEST(SolveSchedule, ProvesThatDeadlinesCannotAllBeKept) {
  ScheduleJob job;
  job.resources = {{1, {}, false}};
  job.activities = {simple(2, {1}), simple(2, {1})};
  job.activities[0].deadline = job.activities[1].deadline = 3;
  const auto answer = solve_schedule(job);
  ASSERT_FALSE(answer.ok());
  EXPECT_EQ(answer.error().code, base::ErrorCode::kDoesNotFit);
  EXPECT_EQ(answer.error().message, "no schedule keeps the deadlines of 0, 1");
}

TEST(SolveSchedule, StopsWhenAsked) {
  ScheduleJob job;
  job.resources = {{5, {}, false}};
  for (int i = 0; i < 60; ++i) {
    job.activities.push_back(simple(3 + i % 7, {1 + i % 4}));
  }
  std::stop_source source;
  source.request_stop();
  ScheduleLimits limits;
  limits.stop = source.get_token();
  const auto answer = solve_schedule(job, limits);
  EXPECT_TRUE(!answer.ok() || answer.value().stopped == Stopped::kCancelled);
}

TEST(SolveSchedule, TakesNothingAtAll) {
  const auto answer = solve_schedule({});
  ASSERT_TRUE(answer.ok());
  EXPECT_EQ(answer.value().makespan, 0);
  EXPECT_TRUE(answer.value().proven);
}

// With the durations planned, keeping the order of the plan gives a schedule no later than it.
TEST(ScheduleReplay, EndsNoLaterThanThePlanWhenAllGoesAsPlanned) {
  EXPECT_TRUE(rc::check([] {
    const ScheduleJob job = random_schedule_job();
    const auto plan = solve_schedule(job, small_limits());
    if (!plan.ok()) {
      return;
    }
    ScheduleReplay replay{job, plan.value()};
    std::vector<std::int64_t> durations;
    for (std::size_t i = 0; i < job.activities.size(); ++i) {
      durations.push_back(
          job.activities[i].modes[static_cast<std::size_t>(plan.value().mode[i])].duration);
    }
    const auto end = replay.run(durations);
    RC_ASSERT(end.has_value());
    RC_ASSERT(*end <= plan.value().makespan);
    ScheduleAnswer again = plan.value();
    again.start = replay.start();
    again.finish = replay.finish();
    again.bound = again.makespan = *end;
    RC_ASSERT(faults_of(job, again) == "");
  }));
}

TEST(ScheduleReplay, MovesWhatWaitsAndSaysWhenTheCalendarEnds) {
  ScheduleJob job;
  job.calendars = {{{{8, 16}, {32, 40}}}};
  job.activities = {simple(4, {}), simple(3, {})};
  job.activities[0].calendar = job.activities[1].calendar = 0;
  job.activities[0].may_pause = true;
  job.lags = {{0, 1, 0}};
  const auto plan = solve_schedule(job);
  ASSERT_TRUE(plan.ok());
  EXPECT_EQ(plan.value().makespan, 15);
  ScheduleReplay replay{job, plan.value()};
  EXPECT_EQ(replay.run({6, 3}), 35);   // the second no longer fits before the night
  EXPECT_EQ(replay.run({10, 3}), 37);  // the first goes on the next morning
  EXPECT_EQ(replay.run({14, 3}), std::nullopt);
  EXPECT_EQ(replay.run({4, 3}), 15);
}

// 0 and 1 share a machine, 2 follows on 1, and 3 waits for nothing but its release.
TEST(ScheduleReplay, SaysWhatEachWaitedFor) {
  ScheduleJob job;
  job.resources = {{1, {}, false}};
  job.activities = {simple(4, {1}), simple(3, {1}), simple(2, {}), simple(1, {})};
  job.activities[3].release = 5;
  job.lags = {{1, 2, 0}};
  ScheduleAnswer plan;
  plan.start = {0, 4, 7, 5};
  plan.mode = {0, 0, 0, 0};
  ScheduleReplay replay{job, plan};
  EXPECT_EQ(replay.run({4, 3, 2, 1}), 9);
  EXPECT_EQ(replay.waited_for(), (std::vector<int>{-1, 0, 1, -1}));
  EXPECT_EQ(replay.waited_on(), (std::vector<int>{-1, 0, -1, -1}));
  ScheduleReplay copy{replay};
  EXPECT_EQ(copy.run({6, 3, 2, 1}), 11);
  EXPECT_EQ(replay.finish()[2], 9);  // each has runs of its own
  plan.start = {4, 0, 3, 5};         // only the order counts: 1 before 0
  EXPECT_EQ((ScheduleReplay{job, plan}.run({4, 3, 2, 1})), 7);
}

ScheduleJob two_on_one_machine() {
  ScheduleJob job;
  job.calendars = {{{{0, 4}, {6, 20}}}};
  job.resources = {{1, {{10, 0}}, false}};
  job.stores = {1};
  job.activities = {simple(2, {1}), simple(2, {1})};
  job.activities[0].modes[0].takes = {1};
  job.activities[0].modes.push_back({2, {1}, {2}});
  job.activities[0].calendar = job.activities[1].calendar = 0;
  job.activities[1].release = 1;
  job.activities[1].deadline = 9;
  job.lags = {{0, 1, 0}};
  return job;
}

struct Broken {
  std::string fault;
  std::vector<std::int64_t> start;
  std::vector<std::int64_t> finish;
  std::vector<int> mode;
};

TEST(CheckSchedule, FindsEachKindOfBrokenAnswer) {
  const ScheduleJob job = two_on_one_machine();
  const auto sound = solve_schedule(job);
  ASSERT_TRUE(sound.ok());
  EXPECT_EQ(faults_of(job, sound.value()), "");
  const Broken cases[] = {
      {"has a start", {0}, {2, 4}, {0, 0}},
      {"has a start", {0, 2}, {2, 4}, {0, 5}},
      {"cannot run from 0 to 3", {0, 3}, {3, 7}, {0, 0}},
      {"cannot run from 4 to 8", {0, 4}, {2, 8}, {0, 0}},
      {"activity 1 is interrupted", {0, 3}, {2, 7}, {0, 0}},
      {"before its release", {6, 0}, {8, 2}, {0, 0}},
      {"misses its deadline", {0, 8}, {2, 10}, {0, 0}},
      {"too soon after activity 0", {0, 1}, {2, 3}, {0, 0}},
      {"2 of resource 0 in use", {0, 1}, {2, 3}, {0, 0}},
      {"1 of resource 0 in use at 10, there are 0", {9, 2}, {11, 4}, {0, 0}},
      {"2 taken from store 0", {0, 2}, {2, 4}, {1, 0}},
  };
  for (const Broken& broken : cases) {
    SCOPED_TRACE(broken.fault);
    ScheduleAnswer answer = sound.value();
    answer.start = broken.start;
    answer.finish = broken.finish;
    answer.mode = broken.mode;
    EXPECT_NE(faults_of(job, answer).find(broken.fault), std::string::npos)
        << faults_of(job, answer);
  }
  ScheduleAnswer answer = sound.value();
  answer.makespan += 1;
  EXPECT_NE(faults_of(job, answer).find("the last finish is"), std::string::npos);
  answer = sound.value();
  answer.bound += 1;
  EXPECT_NE(faults_of(job, answer).find("proven claimed wrongly"), std::string::npos);
}

}  // namespace
}  // namespace plankwright::solve
