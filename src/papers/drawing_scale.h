#pragma once
// How much smaller than the piece a drawing is, in the steps a rule or a scale stick can read.

#include <string>
#include <vector>

#include "measure/expression.h"
#include "papers/page.h"
#include "solid/view.h"

namespace plankwright::papers {

/// `factor` is millimetres on paper for each millimetre of the piece.
struct DrawingScale {
  double factor = 1;
  std::string name = "1:1";
  friend bool operator==(const DrawingScale&, const DrawingScale&) = default;
};

/// The scales in use, largest first, from full size down: 1:1, 1:2, 1:5 and on (ISO 5455, from
/// memory) with 1:15 and 1:25 between (common practice, no source), or full size, 6" = 1', 3" = 1'
/// and on (common practice, no source).
std::vector<DrawingScale> drawing_scales(measure::LengthUnit unit);

/// The largest scale at which something `width` by `height` (mm of the piece) fits into `room`.
/// When even the smallest is too large: just small enough to fit, named "not to scale".
DrawingScale fitting_scale(double width,
                           double height,
                           const Rectangle& room,
                           measure::LengthUnit unit);

/// For pictures, such as perspectives: as large as fits, named "not to scale".
DrawingScale picture_scale(const solid::ViewBox& picture, const Rectangle& room);

/// Where a view comes to lie on the page.
struct Placement {
  double factor = 1;
  PagePoint zero;  // of the view's 0,0
  PagePoint at(solid::ViewPoint p) const { return {zero.x + factor * p.x, zero.y - factor * p.y}; }
};

/// The box of a view on the page. With the margin around it, it is a frame for the view's labels.
Rectangle page_box(const solid::ViewBox& view, const Placement& placement);

/// The middle of `view` on the middle of `room`.
Placement centred(const solid::ViewBox& view, double factor, const Rectangle& room);

/// First angle sets each view out on the side away from where it is seen (Europe), third angle on
/// the side it is seen from (America); ISO 5456-2, from memory.
enum class Projection { kFirstAngle, kThirdAngle };

/// The side view that stands to the right of the front view: the left view in first angle, the
/// right view in third angle.
solid::Camera side_view(Projection projection);

/// Front, side and top view in line with each other.
struct ThreeViews {
  DrawingScale scale;
  Placement front, side, top;
};

}  // namespace plankwright::papers
