#pragma once
// The rules of scheduling for the search that learns: lags, calendars, resources, stores.

#include <cstdint>
#include <memory>
#include <vector>

#include "solve/bound_engine.h"
#include "solve/schedule_model.h"

namespace plankwright::solve {

/// Which variables of the engine stand for what. `chosen` is empty for an activity with one way,
/// else nought-or-one for each way.
struct ScheduleVariables {
  std::vector<int> start;
  std::vector<std::vector<int>> chosen;
  int makespan = 0;
};

/// Makes the variables of a model for starts up to `horizon` and adds all its rules.
ScheduleVariables add_schedule_rules(const ScheduleModel& model,
                                     std::int64_t horizon,
                                     BoundEngine& engine);

/// What an activity may use of a resource, in one of its ways.
struct ResourceTask {
  int activity = 0;
  int start = 0;    // variable
  int chosen = -1;  // variable, -1 when there is no choice
  const Span* span = nullptr;
  std::int64_t amount = 0;
  bool only_at_work = false;  // takes nothing while it pauses
};

/// No more of a resource is taken than there is, at any time: timetable reasoning with explanations
/// for single moments (Schutt, Feydy, Stuckey & Wallace, Constraints 16, 2011).
class ResourceRule : public Rule {
 public:
  ResourceRule(std::vector<ResourceTask> tasks, const std::vector<CapacityStep>& capacity);
  bool propagate(BoundEngine& engine) override;

 private:
  /// A time in which a task is sure to run: all it can still be started at covers it.
  struct Part {
    std::int64_t from = 0;
    std::int64_t to = 0;
    int task = 0;
  };
  struct Stretch {
    std::int64_t from = 0;
    std::int64_t taken = 0;
  };

  bool chosen(const BoundEngine& engine, const ResourceTask& task) const;
  void add_parts(const ResourceTask& task, int number, std::int64_t from, std::int64_t to);
  void find_parts(const BoundEngine& engine);
  void build_profile();
  bool check_overload(BoundEngine& engine);
  bool exclude(BoundEngine& engine, const ResourceTask& task);
  bool push_later(BoundEngine& engine, const ResourceTask& task, int number);
  bool push_earlier(BoundEngine& engine, const ResourceTask& task, int number);
  std::int64_t own_part(int number, std::int64_t time) const;
  std::size_t stretch_at(std::int64_t time) const;
  std::int64_t end_of(std::size_t stretch) const;
  void explain(std::int64_t time, std::int64_t more, int without);

  std::vector<ResourceTask> tasks_;
  std::vector<CapacityStep> missing_;  // what is away, as steps
  std::int64_t most_ = 0;              // the greatest capacity
  std::vector<Part> parts_;
  std::vector<std::pair<std::int64_t, std::int64_t>> events_;
  std::vector<Stretch> profile_;
  std::vector<int> first_part_;  // of each task, -1 without
  std::vector<Atom> reasons_;
  std::vector<int> covering_;
};

}  // namespace plankwright::solve
