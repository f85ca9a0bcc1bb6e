#pragma once
// Views of many solids with the hidden lines taken out.

#include <optional>
#include <span>
#include <vector>

#include "base/result.h"
#include "solid/camera.h"
#include "solid/solid.h"
#include "solid/view.h"

namespace plankwright::solid {

/// A solid to be drawn, under the caller's own number for it.
struct DrawnSolid {
  int id = 0;
  Solid solid;
  /// Whether its hidden edges are wanted; a whole cabinet's would be a thicket.
  bool show_hidden = true;
  /// Along which axis its grain runs, for the painted view.
  std::optional<measure::Axis> grain = std::nullopt;
};

/// One exact view a camera, in the order of `cameras`; the same input gives the same lines in the
/// same order. Error kBadInput when a perspective's eye is inside the piece or nearer than a tenth
/// of the viewing distance to it.
base::Result<std::vector<View>> hidden_line_views(std::span<const DrawnSolid> solids,
                                                  std::span<const Camera> cameras);

/// The error of a perspective's eye that is too near, if it is.
std::optional<base::Error> refuse_near_eye(std::span<const DrawnSolid> solids,
                                           const Camera& camera);

}  // namespace plankwright::solid
