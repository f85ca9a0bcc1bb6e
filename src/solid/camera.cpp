#include "solid/camera.h"

#include <cassert>
#include <cmath>
#include <numbers>

namespace plankwright::solid {
namespace {

constexpr double kDegree = std::numbers::pi / 180;
constexpr double kIsometricTurn = 45;
constexpr double kComfortableDistance = 2.5;  // diagonals; nearer than about 2 corners look pulled

Vector direction(double turn, double lift) {
  const double level = std::cos(lift * kDegree);
  return {std::sin(turn * kDegree) * level,
          -std::cos(turn * kDegree) * level,
          std::sin(lift * kDegree)};
}

Vector upright_right(Vector to_eye) {
  return unit(cross({0, 0, 1}, to_eye));
}

}  // namespace

Camera front_view() {
  return {.name = "front"};
}
Camera back_view() {
  return {.name = "back", .to_eye = {0, 1, 0}, .right = {-1, 0, 0}};
}
Camera left_view() {
  return {.name = "left", .to_eye = {-1, 0, 0}, .right = {0, -1, 0}};
}
Camera right_view() {
  return {.name = "right", .to_eye = {1, 0, 0}, .right = {0, 1, 0}};
}
Camera top_view() {
  return {.name = "top", .to_eye = {0, 0, 1}, .right = {1, 0, 0}};
}
Camera bottom_view() {
  return {.name = "bottom", .to_eye = {0, 0, -1}, .right = {1, 0, 0}};
}

Camera axonometric_view(double turn, double lift) {
  const Vector to_eye = direction(turn, lift);
  return {.name = "axonometric", .to_eye = to_eye, .right = upright_right(to_eye)};
}

Camera isometric_view() {
  // Seen along a cube's diagonal, which rises at atan(1 / sqrt 2).
  Camera camera = axonometric_view(kIsometricTurn, std::atan(1 / std::numbers::sqrt2) / kDegree);
  camera.name = "isometric";
  return camera;
}

Camera perspective_view(measure::Point eye, measure::Point target) {
  const Vector back = to_vector(eye) - to_vector(target);
  assert(back.x != 0 || back.y != 0);
  return {.name = "perspective",
          .to_eye = unit(back),
          .right = upright_right(back),
          .target = to_vector(target),
          .eye_distance = norm(back)};
}

Camera perspective_view(const measure::Box& piece, double turn, double lift) {
  const Vector to_eye = direction(turn, lift);
  return {.name = "perspective",
          .to_eye = to_eye,
          .right = upright_right(to_eye),
          .target = to_vector(piece.centre()),
          .eye_distance = kComfortableDistance * norm(to_vector(piece.size))};
}

double depth(const Camera& camera, Vector place) {
  return dot(place - camera.target, camera.to_eye);
}

ViewPoint project(const Camera& camera, Vector place) {
  const Vector from_target = place - camera.target;
  const Vector up = cross(camera.to_eye, camera.right);
  const double scale = camera.eye_distance
                           ? *camera.eye_distance / (*camera.eye_distance - depth(camera, place))
                           : 1.0;
  return {dot(from_target, camera.right) * scale, dot(from_target, up) * scale};
}

Vector to_vector(measure::Point place) {
  return {place.x.mm(), place.y.mm(), place.z.mm()};
}

}  // namespace plankwright::solid
