#pragma once
// Where a piece is looked at from, and where a place in space comes to lie on the paper.

#include <optional>
#include <string>

#include "measure/box.h"
#include "solid/vector.h"

namespace plankwright::solid {

/// A place on the picture, in millimetres at full size; x to the right, y up.
struct ViewPoint {
  double x = 0;
  double y = 0;
  friend constexpr bool operator==(ViewPoint, ViewPoint) = default;
};

/// A way of looking. Parallel views keep the piece's own sizes; in a perspective only what is as
/// far away as `target` is at full size. Made by the functions below.
struct Camera {
  std::string name;
  Vector to_eye{0, -1, 0};  // unit, from the piece towards the eye
  Vector right{1, 0, 0};    // unit, square to to_eye; to the right on the picture
  Vector target{};          // mm; lies at 0,0 of the picture
  std::optional<double> eye_distance = std::nullopt;  // mm from target; none is a parallel view
};

/// The six views along the axes, each as it is seen when one walks round the piece. In the front
/// and back views y is z of the piece; in the top view the back of the piece is up. Whether the
/// left view is set out to the right of the front view (first angle) or to the left (third angle)
/// is for the sheet to decide; the view is the same.
Camera front_view();
Camera back_view();
Camera left_view();
Camera right_view();
Camera top_view();
Camera bottom_view();

/// A parallel view from the front, turned `turn` degrees to the right and `lift` degrees up.
/// Verticals stay upright.
Camera axonometric_view(double turn, double lift);

/// The axonometric view that shortens all three axes alike.
Camera isometric_view();

/// A true perspective from `eye`, looking at `target`, the picture plane through the target.
/// The eye must not be straight above or below the target.
Camera perspective_view(measure::Point eye, measure::Point target);

/// A perspective as a person sees a piece of this size: from the front, turned and lifted as in
/// axonometric_view, about two and a half times its diagonal away, aimed at its middle.
Camera perspective_view(const measure::Box& piece, double turn, double lift);

/// Where `place` (mm) comes to lie. In a perspective `place` must be in front of the eye.
ViewPoint project(const Camera& camera, Vector place);

/// How far `place` is towards the eye from the picture plane, mm.
double depth(const Camera& camera, Vector place);

Vector to_vector(measure::Point place);

}  // namespace plankwright::solid
