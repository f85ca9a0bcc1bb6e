// What to branch on: the atom that took part in contradictions most, and lately (VSIDS, Moskewicz
// et al., DAC 2001), in the direction of a preferred or the last value.

#include <algorithm>

#include "solve/bound_engine.h"

namespace plankwright::solve {
namespace {

std::size_t at(int index) {
  return static_cast<std::size_t>(index);
}

}  // namespace

void BoundEngine::bump(Atom atom) {
  if ((atom.view & 1) != 0) {
    atom = opposite(atom);
  }
  const std::uint64_t key =
      (static_cast<std::uint64_t>(atom.view) << 32U) | static_cast<std::uint32_t>(atom.least);
  const auto [known, is_new] = guess_of_.try_emplace(key, static_cast<int>(guesses_.size()));
  const int guess = known->second;
  if (is_new) {
    guesses_.push_back({atom, 0, kNone});
    taken_[at(atom.view / 2)].push_back(guess);
  }
  guesses_[at(guess)].activity += guess_step_;
  if (guesses_[at(guess)].place != kNone) {
    sift_up(guesses_[at(guess)].place);
  }
  if (guesses_[at(guess)].activity > 1e100) {
    for (Guess& each : guesses_) {
      each.activity *= 1e-100;
    }
    guess_step_ *= 1e-100;
  }
}

void BoundEngine::push_guess(int guess) {
  guesses_[at(guess)].place = static_cast<int>(heap_.size());
  heap_.push_back(guess);
  sift_up(guesses_[at(guess)].place);
}

void BoundEngine::sift_up(int place) {
  const int guess = heap_[at(place)];
  while (place > 0) {
    const int parent = (place - 1) / 2;
    if (guesses_[at(heap_[at(parent)])].activity >= guesses_[at(guess)].activity) {
      break;
    }
    heap_[at(place)] = heap_[at(parent)];
    guesses_[at(heap_[at(place)])].place = place;
    place = parent;
  }
  heap_[at(place)] = guess;
  guesses_[at(guess)].place = place;
}

void BoundEngine::sift_down(int place) {
  const int guess = heap_[at(place)];
  const int size = static_cast<int>(heap_.size());
  while (2 * place + 1 < size) {
    int child = 2 * place + 1;
    if (child + 1 < size &&
        guesses_[at(heap_[at(child + 1)])].activity > guesses_[at(heap_[at(child)])].activity) {
      ++child;
    }
    if (guesses_[at(heap_[at(child)])].activity <= guesses_[at(guess)].activity) {
      break;
    }
    heap_[at(place)] = heap_[at(child)];
    guesses_[at(heap_[at(place)])].place = place;
    place = child;
  }
  heap_[at(place)] = guess;
  guesses_[at(guess)].place = place;
}

int BoundEngine::pop_guess() {
  const int guess = heap_.front();
  guesses_[at(guess)].place = kNone;
  const int last = heap_.back();
  heap_.pop_back();
  if (!heap_.empty()) {
    heap_.front() = last;
    guesses_[at(last)].place = 0;
    sift_down(0);
  }
  taken_[at(guesses_[at(guess)].atom.view / 2)].push_back(guess);
  return guess;
}

Atom BoundEngine::next_decision() {
  work_ += 50;
  while (!heap_.empty()) {
    const Atom atom = guesses_[at(pop_guess())].atom;
    if (holds(atom) || fails(atom)) {
      continue;
    }
    const std::size_t variable = at(atom.view / 2);
    const std::int64_t value = preferred_.empty() ? latest_[variable] : preferred_[variable];
    return value >= atom.least ? atom : opposite(atom);
  }
  return decide();
}

}  // namespace plankwright::solve
