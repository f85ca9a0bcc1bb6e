// Combinations are counted like a number whose digits are options: the last choice runs fastest,
// and each digit begins with the document's own pick, so that the document itself comes first.

#include <algorithm>

#include "commission/commission.h"

namespace plankwright::commission {
namespace {

/// Ids of the options, the picked one first and the others as they are written.
std::vector<std::string> picked_first(const Choice& choice) {
  std::vector<std::string> ids;
  for (const Option& option : choice.options) {
    ids.push_back(option.id);
  }
  const auto picked = std::ranges::find(ids, choice.picked);
  if (picked != ids.end()) {
    std::rotate(ids.begin(), picked, picked + 1);
  }
  return ids;
}

/// One digit of the count. Choices without options, which are errors, are left out.
struct Wheel {
  std::string choice;
  std::vector<std::string> options;
  std::size_t at = 0;
};

std::vector<Wheel> wheels_of(const Commission& commission) {
  std::vector<Wheel> wheels;
  for (const Choice& choice : commission.choices) {
    if (!choice.options.empty()) {
      wheels.push_back({.choice = choice.id, .options = picked_first(choice)});
    }
  }
  return wheels;
}

/// False when the count is at its end.
bool turn(std::vector<Wheel>& wheels) {
  for (auto wheel = wheels.rbegin(); wheel != wheels.rend(); ++wheel) {
    if (++wheel->at < wheel->options.size()) {
      return true;
    }
    wheel->at = 0;
  }
  return false;
}

Picks picks_at(const std::vector<Wheel>& wheels) {
  Picks picks;
  for (const Wheel& wheel : wheels) {
    picks[wheel.choice] = wheel.options[wheel.at];
  }
  return picks;
}

}  // namespace

std::vector<Picks> combinations(const Commission& commission, std::size_t most) {
  std::vector<Wheel> wheels = wheels_of(commission);
  std::vector<Picks> all;
  while (all.size() < most) {
    all.push_back(picks_at(wheels));
    if (!turn(wheels)) {
      break;
    }
  }
  return all;
}

Picks picks_of(const Commission& commission) {
  return picks_at(wheels_of(commission));
}

}  // namespace plankwright::commission
