#pragma once
// Directions and places in space as plain numbers, for looking at a piece from somewhere.

#include <cmath>

namespace plankwright::solid {

/// A direction, or a place in millimetres. x runs from left to right, y from front to back, z up.
struct Vector {
  double x = 0;
  double y = 0;
  double z = 0;
  friend constexpr Vector operator+(Vector a, Vector b) {
    return {a.x + b.x, a.y + b.y, a.z + b.z};
  }
  friend constexpr Vector operator-(Vector a, Vector b) {
    return {a.x - b.x, a.y - b.y, a.z - b.z};
  }
  friend constexpr Vector operator*(Vector a, double n) { return {a.x * n, a.y * n, a.z * n}; }
  friend constexpr bool operator==(Vector, Vector) = default;
};

constexpr double dot(Vector a, Vector b) {
  return a.x * b.x + a.y * b.y + a.z * b.z;
}
constexpr Vector cross(Vector a, Vector b) {
  return {a.y * b.z - a.z * b.y, a.z * b.x - a.x * b.z, a.x * b.y - a.y * b.x};
}
inline double norm(Vector a) {
  return std::sqrt(dot(a, a));
}
/// `a` with length 1. `a` must not be zero.
inline Vector unit(Vector a) {
  return a * (1.0 / norm(a));
}

}  // namespace plankwright::solid
