#pragma once
// A view as a painter lays it down: faces from the farthest to the nearest, each with its light and
// the grain of its wood, so that a picture can show what the piece is made of.

#include <span>
#include <vector>

#include "base/result.h"
#include "solid/camera.h"
#include "solid/hidden_lines.h"
#include "solid/view.h"

namespace plankwright::solid {

/// One face, or the part of it that a nearer face does not ask to be painted later. The inside is
/// where an odd number of loops goes round (holes are loops too).
struct PaintedFace {
  int solid = 0;
  std::vector<std::vector<ViewPoint>> loops = {};
  /// 0 is turned away from the light, 1 faces it. The light comes from above, left and in front.
  double light = 0;
  /// Whether the grain ends in this face.
  bool end_grain = false;
  /// Strokes along the grain, two points each.
  std::vector<std::pair<ViewPoint, ViewPoint>> grain = {};
};

/// The faces turned to the eye, in painting order: each covers what it hides of those before it.
/// Grain is drawn on solids that say where it runs, in strokes about `grain_pitch` apart on the
/// wood; a pitch of zero leaves it out. Errors as hidden_line_views.
base::Result<std::vector<PaintedFace>> painted_view(std::span<const DrawnSolid> solids,
                                                    const Camera& camera,
                                                    measure::Length grain_pitch);

}  // namespace plankwright::solid
