// From a contradiction to a clause: resolve backwards until one atom of the last level is left (the
// first unique implication point), then drop what the rest implies.

#include <algorithm>

#include "solve/bound_engine.h"

namespace plankwright::solve {
namespace {

std::size_t at(int index) {
  return static_cast<std::size_t>(index);
}

}  // namespace

/// The step that first made an atom hold; kNone when it held from the start.
int BoundEngine::step_of(Atom atom) const {
  int step = last_step_[at(atom.view)];
  while (step != kNone && steps_[at(step)].before >= atom.least) {
    step = steps_[at(step)].previous;
  }
  return step;
}

void BoundEngine::reasons_of(int step, std::vector<Atom>& reasons) const {
  const Step& taken = steps_[at(step)];
  reasons.clear();
  if (taken.clause == kNone) {
    reasons.assign(arena_.begin() + taken.first, arena_.begin() + taken.first + taken.count);
    return;
  }
  for (const Atom& atom : clauses_[at(taken.clause)].atoms) {
    if (!(atom == taken.atom)) {
      reasons.push_back(opposite(atom));
    }
  }
}

void BoundEngine::mark(Atom atom, int level) {
  const int step = step_of(atom);
  if (step == kNone || steps_[at(step)].level == 0) {
    return;
  }
  bump(atom);
  if (steps_[at(step)].level == level) {
    if (marked_[at(step)] == 0) {
      marked_[at(step)] = 1;
      needed_[at(step)] = atom.least;
      ++open_marks_;
    } else {
      needed_[at(step)] = std::max(needed_[at(step)], atom.least);
    }
    return;
  }
  if (has_want_[at(atom.view)] == 0) {
    has_want_[at(atom.view)] = 1;
    wanted_[at(atom.view)] = atom.least;
    wants_.push_back(atom.view);
  } else {
    wanted_[at(atom.view)] = std::max(wanted_[at(atom.view)], atom.least);
  }
}

/// Whether an atom follows from what is learnt. Only atoms made to hold before step `limit` may
/// imply it: of two that imply each other one has to stay.
bool BoundEngine::follows(Atom atom, int limit, int depth) {
  if (has_want_[at(atom.view)] != 0 && wanted_[at(atom.view)] >= atom.least &&
      want_step_[at(atom.view)] < limit) {
    return true;
  }
  const int step = step_of(atom);
  return step == kNone || steps_[at(step)].level == 0 || is_implied(step, limit, depth);
}

bool BoundEngine::is_implied(int step, int limit, int depth) {
  if (implied_[at(step)] != 0) {
    return implied_[at(step)] > 0;
  }
  const Step& taken = steps_[at(step)];
  bool implied = depth < 30 && (taken.clause != kNone || taken.count > 0);
  if (implied) {
    std::vector<Atom> reasons;
    reasons_of(step, reasons);
    work_ += static_cast<std::int64_t>(reasons.size()) * 5;
    implied = std::ranges::all_of(
        reasons, [&](const Atom& atom) { return follows(atom, limit, depth + 1); });
  }
  implied_[at(step)] = implied ? 1 : -1;
  implied_steps_.push_back(step);
  return implied;
}

/// Earliest first, so that what was found to follow stays so for the later ones.
void BoundEngine::drop_implied(Atom first) {
  implied_.resize(std::max(implied_.size(), steps_.size()), 0);
  for (const int view : wants_) {
    want_step_[at(view)] = step_of({view, wanted_[at(view)]});
  }
  std::ranges::sort(wants_, {}, [&](int view) { return want_step_[at(view)]; });
  std::vector<int> kept;
  for (const int view : wants_) {
    const int step = want_step_[at(view)];
    if ((view != first.view || first.least < wanted_[at(view)]) && !is_implied(step, step, 0)) {
      kept.push_back(view);
    }
  }
  for (const int view : wants_) {
    has_want_[at(view)] = 0;
  }
  for (const int step : implied_steps_) {
    implied_[at(step)] = 0;
  }
  implied_steps_.clear();
  wants_ = std::move(kept);
}

bool BoundEngine::learn() {
  int level = 0;
  for (const Atom& atom : conflict_) {
    const int step = step_of(atom);
    level = std::max(level, step == kNone ? 0 : steps_[at(step)].level);
  }
  if (level == 0) {
    return false;
  }
  cancel(level);
  marked_.resize(std::max(marked_.size(), steps_.size()), 0);
  needed_.resize(std::max(needed_.size(), steps_.size()), 0);
  wants_.clear();
  open_marks_ = 0;
  for (const Atom& atom : conflict_) {
    mark(atom, level);
  }
  int step = static_cast<int>(steps_.size()) - 1;
  std::vector<Atom> reasons;
  while (true) {
    while (marked_[at(step)] == 0) {
      --step;
    }
    marked_[at(step)] = 0;
    if (--open_marks_ == 0) {
      break;
    }
    if (steps_[at(step)].clause != kNone) {
      clauses_[at(steps_[at(step)].clause)].activity += clause_step_;
    }
    reasons_of(step, reasons);
    work_ += static_cast<std::int64_t>(reasons.size()) * 20 + 20;
    for (const Atom& atom : reasons) {
      mark(atom, level);
    }
  }
  const Atom last{steps_[at(step)].atom.view, needed_[at(step)]};
  drop_implied(last);
  std::vector<Atom> atoms = {opposite(last)};
  for (const int view : wants_) {
    atoms.push_back(opposite({view, wanted_[at(view)]}));
  }
  add_learnt(std::move(atoms));
  guess_step_ /= 0.95;
  clause_step_ /= 0.999;
  return true;
}

/// Goes back to the level at which the clause first says something, and lets it.
void BoundEngine::add_learnt(std::vector<Atom> atoms) {
  if (atoms.size() == 1) {
    cancel(0);
    raise(atoms[0], kNone, {});
    return;
  }
  std::vector<int> levels;
  for (std::size_t i = 1; i < atoms.size(); ++i) {
    levels.push_back(steps_[at(step_of(opposite(atoms[i])))].level);
    if (levels.back() > levels.front()) {
      std::swap(levels.front(), levels.back());
      std::swap(atoms[1], atoms[i]);
    }
  }
  const int back = levels.front();
  std::ranges::sort(levels);
  const auto distinct = std::unique(levels.begin(), levels.end()) - levels.begin();
  cancel(back);
  const Atom asserted = atoms[0];
  clauses_.push_back({std::move(atoms), clause_step_, static_cast<int>(distinct) + 1, true});
  ++learnt_;
  const int clause = static_cast<int>(clauses_.size()) - 1;
  watch(clause, 0);
  watch(clause, 1);
  raise(asserted, clause, {});
}

/// At level nought: drops the less useful half of the learnt clauses and what holds anyway.
void BoundEngine::forget_clauses() {
  std::vector<double> activities;
  for (const Clause& clause : clauses_) {
    if (clause.learnt && clause.levels > 2) {
      activities.push_back(clause.activity);
    }
  }
  const auto middle = activities.begin() + static_cast<std::ptrdiff_t>(activities.size() / 2);
  std::nth_element(activities.begin(), middle, activities.end());
  const double limit = activities.empty() ? 0 : *middle;
  std::erase_if(clauses_, [&](const Clause& clause) {
    return std::ranges::any_of(clause.atoms, [&](Atom atom) { return holds(atom); }) ||
           (clause.learnt && clause.levels > 2 && clause.activity < limit);
  });
  for (auto& watches : watches_) {
    watches.clear();
  }
  learnt_ = 0;
  for (std::size_t i = 0; i < clauses_.size(); ++i) {
    auto& atoms = clauses_[i].atoms;
    // What fails for good goes, but two must stay to be watched; after propagation two do not fail.
    std::erase_if(atoms, [&](Atom atom) { return fails(atom); });
    learnt_ += clauses_[i].learnt ? 1 : 0;
    watch(static_cast<int>(i), 0);
    watch(static_cast<int>(i), 1);
  }
  for (Step& step : steps_) {
    step.clause = kNone;
  }
  if (clause_step_ > 1e100) {
    for (Clause& clause : clauses_) {
      clause.activity *= 1e-100;
    }
    clause_step_ *= 1e-100;
  }
  learnt_limit_ += 500;
  work_ += static_cast<std::int64_t>(clauses_.size()) * 50;
}

}  // namespace plankwright::solve
