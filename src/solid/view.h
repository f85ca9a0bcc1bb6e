#pragma once
// A drawn view: lines on the picture, those that are seen and those that are hidden.

#include <string>
#include <vector>

#include "solid/camera.h"

namespace plankwright::solid {

/// A line of a view: two points, or more along a curve. Chords are within 0.05 mm of the curve at
/// full size; in a perspective, which is a picture only, a curve is fourteen chords.
/// `solid` is the caller's own number of the solid whose edge it is.
struct ViewLine {
  int solid = 0;
  std::vector<ViewPoint> points = {};
  friend bool operator==(const ViewLine&, const ViewLine&) = default;
};

/// A box on the picture; empty when `high` is not above `low`.
struct ViewBox {
  ViewPoint low{1, 1};
  ViewPoint high{0, 0};
  bool empty() const { return high.x < low.x || high.y < low.y; }
  double width() const { return empty() ? 0 : high.x - low.x; }
  double height() const { return empty() ? 0 : high.y - low.y; }
  ViewPoint centre() const { return {(low.x + high.x) / 2, (low.y + high.y) / 2}; }
  /// Grows to take in `p`.
  void add(ViewPoint p);
};

/// One view. No stretch of line is in it twice: where edges lie over each other on the picture the
/// seen one stays, and of two seen or two hidden ones the one whose solid was given first.
struct View {
  std::string name;  // of the camera
  std::vector<ViewLine> visible = {};
  std::vector<ViewLine> hidden = {};
  ViewBox bounds = {};  // around all lines
};

}  // namespace plankwright::solid
