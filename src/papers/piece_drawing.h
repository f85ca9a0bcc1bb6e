#pragma once
// The piece drawn: its views, and a perspective in the colours of its woods.

#include <vector>

#include "base/result.h"
#include "papers/drawing.h"
#include "plan/plan.h"
#include "solid/painted.h"

namespace plankwright::papers {

/// Everything that is drawn of the piece, doors and drawers closed. A solid's number is its part's
/// index; pulls come after the parts.
struct PiecePicture {
  std::vector<solid::DrawnSolid> solids;
  std::vector<piece::PartIndex> part_of;  // by the solid's number; of a pull: the front it sits on
  solid::View front, side, top, perspective;
  std::vector<solid::PaintedFace> painted;  // of the perspective
  solid::Camera eye;                        // of the perspective
};

/// Error when there is nothing to draw or the geometry of the piece cannot be worked out.
base::Result<PiecePicture> picture_of(const plan::Plan& plan);

/// Third angle for a shop of inches, first angle for one of millimetres.
Projection projection_of(const plan::Plan& plan);

/// The colour of a wood as a crayon gives it; of a board without a face of wood, a light grey.
Colour wood_colour(const piece::Part& part);

/// The perspective in the middle of `room`, as large as fits.
void draw_perspective(Page& page,
                      const Rectangle& room,
                      const PiecePicture& picture,
                      const plan::Plan& plan);

/// The same with width, depth and height along its near edges.
void draw_perspective_with_sizes(Page& page,
                                 const Rectangle& room,
                                 const PiecePicture& picture,
                                 const plan::Plan& plan);

}  // namespace plankwright::papers
