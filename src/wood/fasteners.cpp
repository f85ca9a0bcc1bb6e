#include "wood/fasteners.h"

#include <cmath>

namespace plankwright::wood {
namespace {

constexpr double kNewtonsPerPoundForce = 4.4482216;

}  // namespace

measure::Newtons allowable_screw_pull(double gravity,
                                      measure::Length diameter,
                                      measure::Length thread) {
  return measure::Newtons{2850.0 * gravity * gravity * diameter.inches() * thread.inches() *
                          kNewtonsPerPoundForce};
}

measure::Newtons allowable_nail_pull(double gravity,
                                     measure::Length diameter,
                                     measure::Length depth) {
  return measure::Newtons{1380.0 * std::pow(gravity, 2.5) * diameter.inches() * depth.inches() *
                          kNewtonsPerPoundForce};
}

}  // namespace plankwright::wood
