#pragma once
// Good schedules soon: lists of activities bred from one another, each schedule pushed to the end
// and back to the start.

#include <cstdint>
#include <functional>
#include <optional>
#include <vector>

#include "solve/random.h"
#include "solve/schedule_model.h"

namespace plankwright::solve {

/// Keeps a population of activity lists (Hartmann, Naval Res. Logist. 45, 1998) and improves every
/// schedule by forward-backward passes (Valls, Ballestin & Quintanilla, EJOR 165, 2005).
class ScheduleSearch {
 public:
  ScheduleSearch(const ScheduleJob& job, const ScheduleModel& model, std::uint64_t seed);

  /// Goes on until `work` more is used up, `stop` says so, or a schedule no later than `goal` is
  /// found.
  void run(std::int64_t work, std::int64_t goal, const std::function<bool()>& stop);

  /// The best schedule so far that keeps deadlines and stores.
  const std::optional<Timetable>& best() const { return best_; }
  /// A schedule found elsewhere joins the population.
  void learn(const Timetable& timetable);
  std::int64_t work() const { return work_; }
  /// A time by which everything that can be done at all is done.
  std::int64_t end() const { return end_; }

 private:
  struct Member {
    std::vector<int> list;
    std::vector<int> ways;
    std::int64_t worth = 0;  // less is better
  };

  Member random_member();
  Member near_best();
  std::vector<int> random_ways();
  std::int64_t store_excess(const std::vector<int>& ways) const;
  void spare_stores(std::vector<int>& ways);
  Member child_of(const Member& mother, const Member& father);
  void mutate(Member& member);
  bool may_swap(int first, int second) const;
  void evaluate(Member& member);
  bool there_and_back(Member& member);
  std::int64_t worth_of(const std::vector<int>& ways) const;
  void build(const ScheduleModel& model, const Member& member, std::int64_t not_before);
  void sort_by_start(std::vector<int>& list) const;
  void keep(const std::vector<int>& ways);
  void next_generation();

  const ScheduleModel& model_;
  std::int64_t end_ = 0;
  std::optional<ScheduleModel> mirror_;
  Random random_;
  CapacityProfile profile_;
  std::optional<CapacityProfile> mirror_profile_;
  std::vector<std::int64_t> tail_;
  Timetable built_;
  std::vector<Member> members_;
  std::optional<Timetable> best_;
  std::int64_t work_ = 0;
  int stale_ = 0;  // generations without a better best
  bool around_best_ = false;
};

}  // namespace plankwright::solve
