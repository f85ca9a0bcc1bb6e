#pragma once
// Circular arcs on parts: arched rails, bowed fronts, and curves glued from thin plies.

#include "base/result.h"
#include "measure/length.h"
#include "measure/quantity.h"

namespace plankwright::wood {

/// An arc by what a maker measures of it.
struct Arc {
  measure::Length span;  // chord
  measure::Length rise;  // of the arc over its chord, in the middle
  measure::Length radius;
  measure::Length length;      // along the curve
  measure::Degrees end_slope;  // between curve and chord at the ends
  /// Grain run-out at the ends when the grain lies along the chord: the grain leaves the edge at 1
  /// in so many. Short grain breaks; under about 1 in 6 it must not carry a load (common practice).
  double run_out = 0;
};

/// radius = span2 / (8 rise) + rise / 2. Error kBadInput when span or rise is not positive, or the
/// rise is over half the span, which is more than a half circle.
base::Result<Arc> arc_from_rise(measure::Length span, measure::Length rise);

/// The arc of a radius over a span. Error kBadInput when the span is over twice the radius.
base::Result<Arc> arc_from_radius(measure::Length span, measure::Length radius);

/// Height of the arc over its chord at `from_middle` along the chord, zero beyond its ends: offsets
/// to set out a template.
measure::Length height_over_chord(const Arc& arc, measure::Length from_middle);

/// A curve glued from plies over a form.
struct BentLamination {
  int plies = 0;
  measure::Length ply_thickness;
  measure::Length form_radius;  // tighter than the curve wanted, by the springback
  double springback = 0;        // share of the curvature that is lost on release
};

/// Plies for a part `thickness` thick whose inner face has `radius`: as few as keep each ply no
/// thicker than radius / `radius_to_ply` (about 100 for dry plies bent cold, common practice), but
/// at least two. Springback is about 1 / plies2 of the curvature (common practice, no source); a
/// trial bend tells. Error kBadInput when a size is not positive, kDoesNotFit over 200 plies.
base::Result<BentLamination> bent_lamination(measure::Length thickness,
                                             measure::Length radius,
                                             double radius_to_ply);

}  // namespace plankwright::wood
