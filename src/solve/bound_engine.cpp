#include "solve/bound_engine.h"

#include <algorithm>

namespace plankwright::solve {
namespace {

std::size_t at(int index) {
  return static_cast<std::size_t>(index);
}

}  // namespace

int BoundEngine::add_variable(std::int64_t low, std::int64_t high) {
  const int variable = static_cast<int>(low_.size() / 2);
  low_.push_back(static_cast<std::int32_t>(low));
  low_.push_back(static_cast<std::int32_t>(-high));
  last_step_.resize(low_.size(), kNone);
  concerned_.resize(low_.size());
  watches_.resize(low_.size());
  wanted_.resize(low_.size(), 0);
  has_want_.resize(low_.size(), 0);
  want_step_.resize(low_.size(), kNone);
  taken_.emplace_back();
  latest_.push_back(static_cast<std::int32_t>(low));
  return variable;
}

void BoundEngine::add_rule(std::unique_ptr<Rule> rule, const std::vector<int>& views, bool heavy) {
  const int number = static_cast<int>(rules_.size());
  rules_.push_back(std::move(rule));
  heavy_.push_back(heavy);
  queued_.push_back(true);
  (heavy ? heavy_queue_ : light_queue_).push_back(number);
  for (const int view : views) {
    concerned_[at(view)].push_back(number);
  }
}

void BoundEngine::add_clause(const std::vector<Atom>& atoms) {
  if (atoms.size() == 1) {
    impossible_ = impossible_ || !post(atoms.front(), {});
    return;
  }
  clauses_.push_back({atoms, 0, 0, false});
  watch(static_cast<int>(clauses_.size()) - 1, 0);
  watch(static_cast<int>(clauses_.size()) - 1, 1);
}

void BoundEngine::watch(int clause, std::size_t position) {
  const auto& atoms = clauses_[at(clause)].atoms;
  const Atom failed = opposite(atoms[position]);
  watches_[at(failed.view)].push_back({failed.least, clause, atoms[1 - position]});
}

void BoundEngine::raise(Atom atom, int clause, const std::vector<Atom>& reasons) {
  const int step = static_cast<int>(steps_.size());
  steps_.push_back({atom,
                    low_[at(atom.view)],
                    last_step_[at(atom.view)],
                    level(),
                    clause,
                    static_cast<int>(arena_.size()),
                    static_cast<int>(reasons.size())});
  if (level() > 0) {
    arena_.insert(arena_.end(), reasons.begin(), reasons.end());
  }
  low_[at(atom.view)] = atom.least;
  last_step_[at(atom.view)] = step;
  for (const int rule : concerned_[at(atom.view)]) {
    if (!queued_[at(rule)]) {
      queued_[at(rule)] = true;
      (heavy_[at(rule)] ? heavy_queue_ : light_queue_).push_back(rule);
    }
  }
}

bool BoundEngine::post(Atom atom, const std::vector<Atom>& reasons) {
  if (holds(atom)) {
    return true;
  }
  if (fails(atom)) {
    conflict_ = reasons;
    conflict_.push_back(opposite(atom));
    return false;
  }
  raise(atom, kNone, reasons);
  return true;
}

bool BoundEngine::contradict(const std::vector<Atom>& reasons) {
  conflict_ = reasons;
  return false;
}

// The clause's failed atom goes second; if another that does not fail is found it is watched
// instead, otherwise the first must hold.
bool BoundEngine::visit_clause(std::vector<Watch>& watches,
                               std::size_t& kept,
                               Watch watch,
                               int view) {
  auto& atoms = clauses_[at(watch.clause)].atoms;
  if (atoms[0].view == (view ^ 1) && opposite(atoms[0]).least == watch.threshold) {
    std::swap(atoms[0], atoms[1]);
  }
  watches[kept++] = {watch.threshold, watch.clause, atoms[0]};
  if (holds(atoms[0])) {
    return true;
  }
  for (std::size_t i = 2; i < atoms.size(); ++i) {
    if (!fails(atoms[i])) {
      std::swap(atoms[1], atoms[i]);
      --kept;
      this->watch(watch.clause, 1);
      return true;
    }
  }
  work_ += static_cast<std::int64_t>(atoms.size());
  if (fails(atoms[0])) {
    conflict_.clear();
    for (const Atom& atom : atoms) {
      conflict_.push_back(opposite(atom));
    }
    return false;
  }
  raise(atoms[0], watch.clause, {});
  return true;
}

bool BoundEngine::visit_clauses(const Step& step) {
  // A clause moves its watch to another view, or to a higher threshold of this one at the end.
  auto& watches = watches_[at(step.atom.view)];
  std::size_t kept = 0;
  bool sound = true;
  const std::size_t count = watches.size();
  work_ += static_cast<std::int64_t>(count) + 10;
  std::size_t i = 0;
  for (; i < count && sound; ++i) {
    const Watch watch = watches[i];
    if (watch.threshold <= step.before || watch.threshold > step.atom.least || holds(watch.other)) {
      watches[kept++] = watch;
      continue;
    }
    sound = visit_clause(watches, kept, watch, step.atom.view);
  }
  for (; i < watches.size(); ++i) {
    watches[kept++] = watches[i];
  }
  watches.resize(kept);
  return sound;
}

bool BoundEngine::propagate() {
  while (true) {
    while (seen_steps_ < steps_.size()) {
      const Step step = steps_[seen_steps_++];
      if (!visit_clauses(step)) {
        return false;
      }
    }
    auto& queue = light_queue_.empty() ? heavy_queue_ : light_queue_;
    if (queue.empty()) {
      return true;
    }
    const int rule = queue.back();
    queue.pop_back();
    queued_[at(rule)] = false;
    if (!rules_[at(rule)]->propagate(*this)) {
      return false;
    }
  }
}

void BoundEngine::new_level() {
  levels_.push_back(static_cast<int>(steps_.size()));
}

void BoundEngine::cancel(int level) {
  if (this->level() <= level) {
    return;
  }
  const auto keep = at(levels_[at(level)]);
  arena_.resize(keep < steps_.size() ? at(steps_[keep].first) : arena_.size());
  for (std::size_t i = steps_.size(); i-- > keep;) {
    const Step& step = steps_[i];
    const std::size_t variable = at(step.atom.view / 2);
    latest_[variable] = low_[2 * variable];
    low_[at(step.atom.view)] = step.before;
    last_step_[at(step.atom.view)] = step.previous;
  }
  for (std::size_t i = steps_.size(); i-- > keep;) {
    auto& taken = taken_[at(steps_[i].atom.view / 2)];
    std::erase_if(taken, [&](int guess) {
      const Atom atom = guesses_[at(guess)].atom;
      if (holds(atom) || fails(atom)) {
        return false;
      }
      push_guess(guess);
      return true;
    });
  }
  steps_.resize(keep);
  levels_.resize(at(level));
  seen_steps_ = steps_.size();
  for (auto* queue : {&light_queue_, &heavy_queue_}) {
    for (const int rule : *queue) {
      queued_[at(rule)] = false;
    }
    queue->clear();
  }
}

bool BoundEngine::settle(Atom atom) {
  cancel(0);
  if (!impossible_ && !post(atom, {})) {
    impossible_ = true;
  }
  return !impossible_;
}

Verdict BoundEngine::search(Atom assumption, std::int64_t work, std::int64_t conflicts) {
  cancel(0);
  const std::int64_t last_work = work_ + work;
  const std::int64_t last_conflict = conflicts_ + conflicts;
  while (!impossible_) {
    if (!propagate()) {
      ++conflicts_;
      if (!learn()) {
        impossible_ = true;
        break;
      }
      continue;
    }
    if (fails(assumption)) {
      cancel(0);
      return Verdict::kNotUnderAssumption;
    }
    if (work_ >= last_work || conflicts_ >= last_conflict) {
      cancel(0);
      return Verdict::kLimit;
    }
    if (level() == 0 && learnt_ > learnt_limit_) {
      forget_clauses();
    }
    const Atom next = level() == 0 && !holds(assumption) ? assumption : next_decision();
    if (holds(next)) {
      return Verdict::kSolved;
    }
    new_level();
    raise(next, kNone, {});
  }
  return Verdict::kImpossible;
}

}  // namespace plankwright::solve
