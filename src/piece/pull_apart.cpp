// Least squares over the joints: the places d of the parts for which the sum of
// (d_b - d_a - home)^2 over all joints is least, each part also drawn back to its own place by a
// weak spring. The normal equations are strictly diagonally dominant, so that going round the parts
// (Gauss-Seidel) converges; a fixed number of rounds gives one piece one picture.
#include "piece/pull_apart.h"

#include <array>

namespace plankwright::piece {
namespace {

constexpr double kSpring = 0.02;
constexpr double kDoorStep = 2;
constexpr double kDrawerStep = 4;
constexpr int kRounds = 400;

/// What a part is tied to along one axis, and how far from it it would stand.
struct Tie {
  PartIndex other = 0;
  double step = 0;
};

/// Which way, and how far, `b` goes out from `a`. Doors and drawers come out to the front (+y is
/// home for them) whichever way their hinges and slides are screwed on, drawers far enough to be
/// looked into.
struct Step {
  Direction home;
  double far = 1;
};

Step step_of(const Joint& joint) {
  switch (joint.kind) {
    case JointKind::kHinge:
      return {{Axis::kY, 1}, kDoorStep};
    case JointKind::kSlide:
      return {{Axis::kY, 1}, kDrawerStep};
    default:
      return {joint.home, 1};
  }
}

std::vector<std::vector<Tie>> ties_along(const Piece& piece, Axis axis) {
  std::vector<std::vector<Tie>> ties(piece.parts.size());
  for (const Joint& joint : piece.joints) {
    const Step out = step_of(joint);
    const double step = out.home.axis == axis ? out.home.sign * out.far : 0;
    ties[joint.a].push_back({joint.b, -step});
    ties[joint.b].push_back({joint.a, step});
  }
  return ties;
}

std::vector<double> places_along(const Piece& piece, Axis axis) {
  const auto ties = ties_along(piece, axis);
  std::vector<double> at(piece.parts.size(), 0.0);
  for (int round = 0; round < kRounds; ++round) {
    for (PartIndex i = 0; i < at.size(); ++i) {
      double sum = 0;
      for (const Tie& tie : ties[i]) {
        sum += at[tie.other] + tie.step;
      }
      at[i] = sum / (static_cast<double>(ties[i].size()) + kSpring);
    }
  }
  return at;
}

}  // namespace

std::vector<PulledOut> pull_apart(const Piece& piece) {
  const std::array<std::vector<double>, 3> at{
      places_along(piece, Axis::kX), places_along(piece, Axis::kY), places_along(piece, Axis::kZ)};
  std::vector<PulledOut> pulled(piece.parts.size());
  for (PartIndex i = 0; i < pulled.size(); ++i) {
    pulled[i] = {at[0][i], at[1][i], at[2][i]};
  }
  return pulled;
}

}  // namespace plankwright::piece
