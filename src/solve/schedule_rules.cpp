#include "solve/schedule_rules.h"

#include <algorithm>

namespace plankwright::solve {
namespace {

std::size_t at(int index) {
  return static_cast<std::size_t>(index);
}

/// An activity as the rules see it: its start and which of its ways are still possible.
class Placed {
 public:
  Placed(const ScheduleModel& model, const ScheduleVariables& variables, int activity)
      : ways_{&model.ways[at(activity)]},
        start_{variables.start[at(activity)]},
        chosen_{variables.chosen[at(activity)]} {}

  int start() const { return start_; }
  std::size_t count() const { return ways_->size(); }
  const Way& way(std::size_t k) const { return (*ways_)[k]; }
  bool possible(const BoundEngine& engine, std::size_t k) const {
    return chosen_.empty() || engine.high(chosen_[k]) == 1;
  }
  bool open_choice(const BoundEngine& engine, std::size_t k) const {
    return !chosen_.empty() && engine.high(chosen_[k]) == 1 && engine.low(chosen_[k]) == 0;
  }
  Atom ruled_out(std::size_t k) const { return at_most(chosen_[k], 0); }
  std::vector<int> views() const {
    std::vector<int> views;
    for (const int variable : chosen_) {
      views.push_back(2 * variable + 1);
    }
    return views;
  }

  /// The soonest finish (or start) of any way still possible; adds to `reasons` why no sooner way
  /// is.
  template <class TimeOf>
  std::int64_t least(const BoundEngine& engine, TimeOf time_of, std::vector<Atom>& reasons) const {
    std::int64_t soonest = kNever;
    for (std::size_t k = 0; k < count(); ++k) {
      if (possible(engine, k)) {
        soonest = std::min(soonest, time_of(way(k)));
      }
    }
    for (std::size_t k = 0; k < count(); ++k) {
      if (!possible(engine, k) && time_of(way(k)) < soonest) {
        reasons.push_back(ruled_out(k));
      }
    }
    return soonest;
  }
  template <class TimeOf>
  std::int64_t most(const BoundEngine& engine, TimeOf time_of, std::vector<Atom>& reasons) const {
    return -least(
        engine, [&](const Way& each) { return -time_of(each); }, reasons);
  }

 private:
  const std::vector<Way>* ways_;
  int start_;
  std::vector<int> chosen_;
};

std::int64_t finish_from(const Way& way, std::int64_t time) {
  const std::int64_t start = way.span.fit(time);
  return start >= kNever ? kNever : way.span.finish(start);
}

/// The activity starts only when one of its ways can, and ends by its deadline.
class StartRule : public Rule {
 public:
  StartRule(Placed placed, std::int64_t deadline)
      : placed_{std::move(placed)}, deadline_{deadline} {}

  bool propagate(BoundEngine& engine) override {
    const std::int64_t low = engine.low(placed_.start());
    const std::int64_t high = engine.high(placed_.start());
    engine.charge(20);
    for (std::size_t k = 0; k < placed_.count(); ++k) {
      const bool too_late = std::max(low, placed_.way(k).span.fit(low)) > latest(k, high);
      reasons_ = {at_least(placed_.start(), low), at_most(placed_.start(), high)};
      if (too_late && placed_.open_choice(engine, k) &&
          !engine.post(placed_.ruled_out(k), reasons_)) {
        return false;
      }
    }
    reasons_ = {at_least(placed_.start(), low)};
    const std::int64_t first = placed_.least(
        engine, [&](const Way& way) { return way.span.fit(low); }, reasons_);
    if (!engine.post(at_least(placed_.start(), std::min(first, high + 1)), reasons_)) {
      return false;
    }
    reasons_ = {at_most(placed_.start(), high)};
    const std::int64_t last = placed_.most(
        engine, [&](const Way& way) { return latest_of(way, high); }, reasons_);
    return engine.post(at_most(placed_.start(), std::max<std::int64_t>(last, -1)), reasons_);
  }

 private:
  std::int64_t latest_of(const Way& way, std::int64_t high) const {
    const std::int64_t last = way.span.fit_back(high);
    return deadline_ >= kNever ? last : std::min(last, way.span.start_to_finish(deadline_));
  }
  std::int64_t latest(std::size_t k, std::int64_t high) const {
    return latest_of(placed_.way(k), high);
  }

  Placed placed_;
  std::int64_t deadline_;
  std::vector<Atom> reasons_;
};

/// `target` is at least `lag` after the finish of an activity.
class LagRule : public Rule {
 public:
  LagRule(Placed placed, int target, std::int64_t lag)
      : placed_{std::move(placed)}, target_{target}, lag_{lag} {}

  bool propagate(BoundEngine& engine) override {
    engine.charge(10);
    const std::int64_t low = engine.low(placed_.start());
    const std::int64_t high = engine.high(target_);
    for (std::size_t k = 0; k < placed_.count(); ++k) {
      if (placed_.open_choice(engine, k) && finish_from(placed_.way(k), low) + lag_ > high) {
        reasons_ = {at_least(placed_.start(), low), at_most(target_, high)};
        if (!engine.post(placed_.ruled_out(k), reasons_)) {
          return false;
        }
      }
    }
    reasons_ = {at_least(placed_.start(), low)};
    const std::int64_t finish = placed_.least(
        engine, [&](const Way& way) { return finish_from(way, low); }, reasons_);
    if (!engine.post(at_least(target_, std::min(finish + lag_, high + 1)), reasons_)) {
      return false;
    }
    reasons_ = {at_most(target_, high)};
    const std::int64_t last = placed_.most(
        engine, [&](const Way& way) { return way.span.start_to_finish(high - lag_); }, reasons_);
    return engine.post(at_most(placed_.start(), std::max<std::int64_t>(last, -1)), reasons_);
  }

 private:
  Placed placed_;
  int target_;
  std::int64_t lag_;
  std::vector<Atom> reasons_;
};

/// No more is taken from a store than it has.
class StoreRule : public Rule {
 public:
  StoreRule(std::vector<Placed> activities, int store, std::int64_t amount)
      : activities_{std::move(activities)}, store_{store}, amount_{amount} {
    least_.resize(activities_.size());
  }

  bool propagate(BoundEngine& engine) override {
    engine.charge(static_cast<std::int64_t>(activities_.size()) * 10);
    std::int64_t sum = 0;
    for (std::size_t i = 0; i < activities_.size(); ++i) {
      std::vector<Atom> unused;
      least_[i] = activities_[i].least(
          engine, [&](const Way& way) { return taken(way); }, unused);
      sum += least_[i];
    }
    if (sum > amount_) {
      return engine.contradict(why(engine, activities_.size()));
    }
    for (std::size_t i = 0; i < activities_.size(); ++i) {
      for (std::size_t k = 0; k < activities_[i].count(); ++k) {
        if (activities_[i].open_choice(engine, k) &&
            sum - least_[i] + taken(activities_[i].way(k)) > amount_ &&
            !engine.post(activities_[i].ruled_out(k), why(engine, i))) {
          return false;
        }
      }
    }
    return true;
  }

 private:
  std::int64_t taken(const Way& way) const {
    for (const Use& use : way.takes) {
      if (use.resource == store_) {
        return use.amount;
      }
    }
    return 0;
  }

  /// The more sparing ways that are ruled out, of all but one activity.
  std::vector<Atom> why(const BoundEngine& engine, std::size_t without) const {
    std::vector<Atom> reasons;
    for (std::size_t i = 0; i < activities_.size(); ++i) {
      if (i != without) {
        activities_[i].least(
            engine, [&](const Way& way) { return taken(way); }, reasons);
      }
    }
    return reasons;
  }

  std::vector<Placed> activities_;
  int store_;
  std::int64_t amount_;
  std::vector<std::int64_t> least_;
};

void add_choices(const ScheduleModel& model, ScheduleVariables& variables, BoundEngine& engine) {
  for (int i = 0; i < model.activities; ++i) {
    std::vector<int>& chosen = variables.chosen[at(i)];
    const std::size_t count = model.ways[at(i)].size();
    std::vector<Atom> one;
    for (std::size_t k = 0; count > 1 && k < count; ++k) {
      chosen.push_back(engine.add_variable(0, 1));
      one.push_back(at_least(chosen.back(), 1));
    }
    for (std::size_t k = 0; k < chosen.size(); ++k) {
      for (std::size_t m = k + 1; m < chosen.size(); ++m) {
        engine.add_clause({at_most(chosen[k], 0), at_most(chosen[m], 0)});
      }
    }
    if (!one.empty()) {
      engine.add_clause(one);
    }
  }
}

void add_times(const ScheduleModel& model,
               const ScheduleVariables& variables,
               BoundEngine& engine) {
  for (int i = 0; i < model.activities; ++i) {
    const Placed placed{model, variables, i};
    std::vector<int> views = placed.views();
    views.push_back(2 * placed.start());
    views.push_back(2 * placed.start() + 1);
    engine.add_rule(std::make_unique<StartRule>(placed, model.deadline[at(i)]), views, false);
    const auto add_lag = [&](int target, std::int64_t lag) {
      views = placed.views();
      views.push_back(2 * placed.start());
      views.push_back(2 * target + 1);
      engine.add_rule(std::make_unique<LagRule>(placed, target, lag), views, false);
    };
    for (const Link& link : model.later[at(i)]) {
      add_lag(variables.start[at(link.other)], link.least);
    }
    add_lag(variables.makespan, 0);
  }
}

void add_resources(const ScheduleModel& model,
                   const ScheduleVariables& variables,
                   BoundEngine& engine) {
  for (std::size_t r = 0; r < model.capacity.size(); ++r) {
    std::vector<ResourceTask> tasks;
    std::vector<int> views;
    for (int i = 0; i < model.activities; ++i) {
      const std::vector<int>& chosen = variables.chosen[at(i)];
      for (std::size_t k = 0; k < model.ways[at(i)].size(); ++k) {
        const Way& way = model.ways[at(i)][k];
        for (const Use& use : way.uses) {
          if (use.resource != static_cast<int>(r)) {
            continue;
          }
          const int start = variables.start[at(i)];
          tasks.push_back({i,
                           start,
                           chosen.empty() ? -1 : chosen[k],
                           &way.span,
                           use.amount,
                           way.span.pauses() && !model.held_in_pauses[r]});
          views.insert(views.end(), {2 * start, 2 * start + 1});
          if (!chosen.empty()) {
            views.push_back(2 * chosen[k]);
          }
        }
      }
    }
    engine.add_rule(
        std::make_unique<ResourceRule>(std::move(tasks), model.capacity[r]), views, true);
  }
}

}  // namespace

ScheduleVariables add_schedule_rules(const ScheduleModel& model,
                                     std::int64_t horizon,
                                     BoundEngine& engine) {
  ScheduleVariables variables;
  variables.chosen.resize(at(model.activities));
  for (int i = 0; i < model.activities; ++i) {
    variables.start.push_back(engine.add_variable(model.release[at(i)], horizon));
  }
  variables.makespan = engine.add_variable(0, horizon);
  add_choices(model, variables, engine);
  add_times(model, variables, engine);
  add_resources(model, variables, engine);
  for (std::size_t s = 0; s < model.stores.size(); ++s) {
    std::vector<Placed> activities;
    std::vector<int> views;
    for (int i = 0; i < model.activities; ++i) {
      activities.emplace_back(model, variables, i);
      const std::vector<int> more = activities.back().views();
      views.insert(views.end(), more.begin(), more.end());
    }
    engine.add_rule(
        std::make_unique<StoreRule>(std::move(activities), static_cast<int>(s), model.stores[s]),
        views,
        false);
  }
  return variables;
}

}  // namespace plankwright::solve
