#pragma once
// The three views with the few sizes that one looks for first.

#include <vector>

#include "papers/piece_drawing.h"

namespace plankwright::papers {

/// Draws front, side and top view and their sizes: overall, the heights of the units from the floor
/// up, the openings from left to right, the fronts of drawers, depths that differ. Returns the
/// scale.
DrawingScale draw_three_views(Page& page,
                              const Rectangle& room,
                              const PiecePicture& picture,
                              const plan::Plan& plan);

enum class ShownView { kFront, kSide, kTop, kPerspective };

/// One view with its sizes on a page just large enough for it, to be looked at on a screen; the
/// perspective in the colours of its woods.
Page view_page(ShownView shown, const PiecePicture& picture, const plan::Plan& plan);

/// Whether they come out larger on a sheet that lies across.
bool views_want_landscape(const PiecePicture& picture, const plan::Plan& plan, PageSize size);

}  // namespace plankwright::papers
