#pragma once
// What can be seen, found out by following a ray: slow, simple, and nothing to do with the library.

#include <algorithm>
#include <array>
#include <cmath>
#include <optional>
#include <vector>

#include "solid/camera.h"
#include "solid/shapes.h"

namespace plankwright::solid {

/// How far from `from` (in lengths of `towards`) a ray runs inside the box grown by `grow`.
inline std::optional<std::pair<double, double>> crossing(const GridBox& box,
                                                         Vector from,
                                                         Vector towards,
                                                         double grow) {
  double enter = -1e300;
  double leave = 1e300;
  const std::array start{from.x, from.y, from.z};
  const std::array step{towards.x, towards.y, towards.z};
  for (std::size_t i = 0; i < 3; ++i) {
    const double low = box[i] - grow;
    const double high = box[i + 3] + grow;
    if (std::abs(step[i]) < 1e-12) {
      if (start[i] < low || start[i] > high) {
        return std::nullopt;
      }
      continue;
    }
    const double a = (low - start[i]) / step[i];
    const double b = (high - start[i]) / step[i];
    enter = std::max(enter, std::min(a, b));
    leave = std::min(leave, std::max(a, b));
  }
  return enter < leave ? std::optional{std::pair{enter, leave}} : std::nullopt;
}

inline Vector to_eye_from(const Camera& camera, Vector place) {
  return camera.eye_distance ? unit(camera.target + camera.to_eye * *camera.eye_distance - place)
                             : camera.to_eye;
}

enum class Sight { kSeen, kHidden, kGrazing };

/// Whether `place` is seen past `boxes`; grazing when a hair's breadth would decide.
inline Sight sight(const Camera& camera, const std::vector<GridBox>& boxes, Vector place) {
  constexpr double kHair = 1e-3;
  const Vector ray = to_eye_from(camera, place);
  const auto blocked = [&](double grow) {
    return std::ranges::any_of(boxes, [&](const GridBox& b) {
      const auto c = crossing(b, place, ray, grow);
      return c && c->second > kHair;
    });
  };
  if (blocked(-kHair)) {
    return Sight::kHidden;
  }
  // The place itself lies on a box, so a grown box always holds it; only what is ahead counts.
  const bool near_miss = std::ranges::any_of(boxes, [&](const GridBox& b) {
    const auto c = crossing(b, place, ray, kHair);
    return c && c->second > 10 * kHair;
  });
  return near_miss ? Sight::kGrazing : Sight::kSeen;
}

/// Points along the twelve edges of a box, away from the corners.
inline std::vector<Vector> edge_points(const GridBox& g, int count) {
  std::vector<Vector> points;
  for (std::size_t axis = 0; axis < 3; ++axis) {
    for (int side = 0; side < 4; ++side) {
      std::array<double, 3> p{};
      p[(axis + 1) % 3] = g[(axis + 1) % 3 + ((side & 1) != 0 ? 3 : 0)];
      p[(axis + 2) % 3] = g[(axis + 2) % 3 + ((side & 2) != 0 ? 3 : 0)];
      for (int i = 0; i < count; ++i) {
        p[axis] = g[axis] + (g[axis + 3] - g[axis]) * (i + 0.37) / count;
        points.push_back({p[0], p[1], p[2]});
      }
    }
  }
  return points;
}

}  // namespace plankwright::solid
