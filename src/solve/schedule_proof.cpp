#include "solve/schedule_proof.h"

#include <algorithm>

namespace plankwright::solve {
namespace {

std::size_t at(int index) {
  return static_cast<std::size_t>(index);
}

/// 1 1 2 1 1 2 4 ...: after Luby, Sinclair & Zuckerman (1993).
std::int64_t luby(std::int64_t i) {
  std::int64_t size = 1;
  while (size < i + 1) {
    size = 2 * size + 1;
  }
  while (size - 1 != i) {
    size /= 2;
    i %= size;
  }
  return (size + 1) / 2;
}

}  // namespace

ScheduleProof::ScheduleProof(const ScheduleModel& model, std::int64_t horizon, std::uint64_t seed)
    : model_{model},
      horizon_{horizon},
      engine_{seed},
      variables_{add_schedule_rules(model, horizon, engine_)} {
  engine_.decide = [this] { return earliest_open(); };
}

/// The start that could be soonest, in its quickest way.
Atom ScheduleProof::earliest_open() const {
  int best = -1;
  for (int i = 0; i < model_.activities; ++i) {
    const int start = variables_.start[at(i)];
    const auto open_way = [&](int chosen) { return engine_.low(chosen) < engine_.high(chosen); };
    const bool open = engine_.low(start) < engine_.high(start) ||
                      std::ranges::any_of(variables_.chosen[at(i)], open_way);
    if (open && (best < 0 || engine_.low(start) < engine_.low(variables_.start[at(best)]) ||
                 (engine_.low(start) == engine_.low(variables_.start[at(best)]) &&
                  engine_.high(start) < engine_.high(variables_.start[at(best)])))) {
      best = i;
    }
  }
  if (best < 0) {
    return at_most(variables_.makespan, engine_.low(variables_.makespan));
  }
  int quickest = -1;
  for (std::size_t k = 0; k < variables_.chosen[at(best)].size(); ++k) {
    const int chosen = variables_.chosen[at(best)][k];
    const auto& ways = model_.ways[at(best)];
    if (engine_.low(chosen) < engine_.high(chosen) &&
        (quickest < 0 || ways[k].span.duration() < ways[at(quickest)].span.duration())) {
      quickest = static_cast<int>(k);
    }
  }
  if (quickest >= 0) {
    return at_least(variables_.chosen[at(best)][at(quickest)], 1);
  }
  return at_most(variables_.start[at(best)], engine_.low(variables_.start[at(best)]));
}

void ScheduleProof::read_solution() {
  found_ = {};
  for (int i = 0; i < model_.activities; ++i) {
    int way = 0;
    for (std::size_t k = 0; k < variables_.chosen[at(i)].size(); ++k) {
      way = engine_.low(variables_.chosen[at(i)][k]) == 1 ? static_cast<int>(k) : way;
    }
    const std::int64_t start = engine_.low(variables_.start[at(i)]);
    found_.way.push_back(way);
    found_.start.push_back(start);
    found_.finish.push_back(model_.ways[at(i)][at(way)].span.finish(start));
    found_.makespan = std::max(found_.makespan, found_.finish.back());
  }
}

void ScheduleProof::exhaust() {
  bound_ = horizon_ + 1;
}

void ScheduleProof::raise_bound(std::int64_t bound) {
  if (bound > bound_) {
    bound_ = bound;
    if (bound > horizon_ || !engine_.settle(at_least(variables_.makespan, bound))) {
      exhaust();
    }
  }
}

void ScheduleProof::lower_most(std::int64_t makespan) {
  if (makespan - 1 < horizon_) {
    horizon_ = makespan - 1;
    if (horizon_ < bound_ || !engine_.settle(at_most(variables_.makespan, horizon_))) {
      exhaust();
    }
  }
}

void ScheduleProof::prefer(const Timetable& timetable) {
  std::vector<std::int64_t> values = timetable.start;
  values.push_back(timetable.makespan);
  for (int i = 0; i < model_.activities; ++i) {
    for (std::size_t k = 0; k < variables_.chosen[at(i)].size(); ++k) {
      values.push_back(timetable.way[at(i)] == static_cast<int>(k) ? 1 : 0);
    }
  }
  engine_.prefer(std::move(values));
}

bool ScheduleProof::run(std::int64_t target, std::int64_t work) {
  const std::int64_t last = engine_.work() + work;
  while (engine_.work() < last && bound_ <= std::min(target, horizon_)) {
    const Verdict verdict = engine_.search(at_most(variables_.makespan, std::min(target, horizon_)),
                                           last - engine_.work(),
                                           100 * luby(restarts_++));
    if (verdict == Verdict::kSolved) {
      read_solution();
      return true;
    }
    if (verdict == Verdict::kImpossible) {
      exhaust();
    } else {
      bound_ = std::max(bound_, engine_.low(variables_.makespan));
    }
  }
  return false;
}

}  // namespace plankwright::solve
