#pragma once
// Bodies for the tests, and what they come to, worked out without the geometry library.

#include <algorithm>
#include <array>
#include <cstdint>
#include <vector>

#include <rapidcheck.h>

#include "measure/box.h"
#include "solid/body.h"

namespace plankwright::solid {

inline measure::Length mm(double v) {
  return measure::Length::from_mm(v);
}
inline OutlinePoint at(double u, double v) {
  return {mm(u), mm(v)};
}
inline measure::Box box(double x, double y, double z, double a, double b, double c) {
  return {.at = {mm(x), mm(y), mm(z)}, .size = {mm(a), mm(b), mm(c)}};
}

/// Boxes with whole millimetre corners in a small room, as whole numbers: low x y z, high x y z.
using GridBox = std::array<int, 6>;

inline measure::Box to_box(const GridBox& g) {
  return box(g[0], g[1], g[2], g[3] - g[0], g[4] - g[1], g[5] - g[2]);
}

inline rc::Gen<GridBox> grid_box(int room) {
  const auto side = rc::gen::map(
      rc::gen::pair(rc::gen::inRange(0, room - 1), rc::gen::inRange(1, room)), [=](auto p) {
        return std::pair{p.first, std::min(room, p.first + p.second)};
      });
  return rc::gen::map(rc::gen::tuple(side, side, side), [](auto t) {
    const auto& [x, y, z] = t;
    return GridBox{x.first, y.first, z.first, x.second, y.second, z.second};
  });
}

inline rc::Gen<std::vector<GridBox>> few_boxes(int room, int most) {
  return rc::gen::mapcat(rc::gen::inRange(0, most + 1), [room](int count) {
    return rc::gen::container<std::vector<GridBox>>(static_cast<std::size_t>(count),
                                                    grid_box(room));
  });
}

inline bool holds(const GridBox& g, int x, int y, int z) {
  return x >= g[0] && x < g[3] && y >= g[1] && y < g[4] && z >= g[2] && z < g[5];
}

/// A body of boxes, counted cube by cube.
struct GridBody {
  std::vector<GridBox> wood;
  std::vector<GridBox> cuts;
  bool holds_wood(int x, int y, int z) const {
    const auto inside = [&](const GridBox& g) { return holds(g, x, y, z); };
    return std::ranges::any_of(wood, inside) && std::ranges::none_of(cuts, inside);
  }
  Body body() const {
    Body made;
    for (const auto& g : wood) {
      made.wood.push_back(to_box(g));
    }
    for (const auto& g : cuts) {
      made.cuts.push_back(to_box(g));
    }
    return made;
  }
};

/// How many unit cubes of a room fulfil `test`.
template <class Test>
int count_cubes(int room, Test test) {
  int count = 0;
  for (int x = 0; x < room; ++x) {
    for (int y = 0; y < room; ++y) {
      for (int z = 0; z < room; ++z) {
        count += test(x, y, z) ? 1 : 0;
      }
    }
  }
  return count;
}

/// Boxes that share no wood but may touch.
inline std::vector<GridBox> apart(const std::vector<GridBox>& boxes) {
  std::vector<GridBox> kept;
  for (const GridBox& b : boxes) {
    const bool clash = std::ranges::any_of(kept, [&](const GridBox& k) {
      return b[0] < k[3] && k[0] < b[3] && b[1] < k[4] && k[1] < b[4] && b[2] < k[5] && k[2] < b[5];
    });
    if (!clash) {
      kept.push_back(b);
    }
  }
  return kept;
}

}  // namespace plankwright::solid
