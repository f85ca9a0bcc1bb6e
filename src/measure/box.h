#pragma once
// Places in a piece. x runs from left to right, y from front to back, z from the floor up.

#include <algorithm>
#include <array>
#include <cstddef>

#include "measure/length.h"
#include "measure/quantity.h"

namespace plankwright::measure {

enum class Axis : std::size_t { kX = 0, kY = 1, kZ = 2 };

/// One of the six directions along the axes, such as the one in which a tenon goes home.
struct Direction {
  Axis axis = Axis::kX;
  int sign = 1;
  friend bool operator==(const Direction&, const Direction&) = default;
};

/// A length along each axis: a place, or the size of a box.
struct Point {
  Length x, y, z;
  constexpr Length operator[](Axis axis) const {
    return axis == Axis::kX ? x : axis == Axis::kY ? y : z;
  }
  constexpr Length& operator[](Axis axis) {
    return axis == Axis::kX ? x : axis == Axis::kY ? y : z;
  }
  friend constexpr Point operator+(Point a, Point b) { return {a.x + b.x, a.y + b.y, a.z + b.z}; }
  friend constexpr Point operator-(Point a, Point b) { return {a.x - b.x, a.y - b.y, a.z - b.z}; }
  friend bool operator==(const Point&, const Point&) = default;
};

/// A box with edges along the axes, from its lowest corner `at`.
struct Box {
  Point at;
  Point size;
  constexpr Point end() const { return at + size; }
  constexpr Length begin(Axis axis) const { return at[axis]; }
  constexpr Length end(Axis axis) const { return at[axis] + size[axis]; }
  constexpr Point centre() const {
    return {at.x + size.x / 2, at.y + size.y / 2, at.z + size.z / 2};
  }
  constexpr bool empty() const {
    return size.x <= Length{} || size.y <= Length{} || size.z <= Length{};
  }
  friend bool operator==(const Box&, const Box&) = default;
};

/// The shared part of two boxes; a size may be zero (they touch) or negative (they are apart).
constexpr Box intersection(const Box& a, const Box& b) {
  Box shared;
  for (const Axis axis : {Axis::kX, Axis::kY, Axis::kZ}) {
    shared.at[axis] = std::max(a.begin(axis), b.begin(axis));
    shared.size[axis] = std::min(a.end(axis), b.end(axis)) - shared.at[axis];
  }
  return shared;
}

/// The smallest box around both.
constexpr Box hull(const Box& a, const Box& b) {
  Box whole;
  for (const Axis axis : {Axis::kX, Axis::kY, Axis::kZ}) {
    whole.at[axis] = std::min(a.begin(axis), b.begin(axis));
    whole.size[axis] = std::max(a.end(axis), b.end(axis)) - whole.at[axis];
  }
  return whole;
}

constexpr SquareMillimetres area(Length a, Length b) {
  return SquareMillimetres{a.mm() * b.mm()};
}
constexpr CubicMillimetres volume(Length a, Length b, Length c) {
  return CubicMillimetres{a.mm() * b.mm() * c.mm()};
}
constexpr CubicMillimetres volume(const Box& box) {
  return volume(box.size.x, box.size.y, box.size.z);
}

}  // namespace plankwright::measure
