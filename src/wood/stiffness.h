#pragma once
// How far shelves, tops and rails sag at once, when the load comes on.

#include "base/result.h"
#include "measure/length.h"
#include "measure/quantity.h"
#include "wood/section.h"

namespace plankwright::wood {

/// How a beam is held.
enum class Ends {
  kSimple,      // lies on both ends: a shelf on pins
  kFixed,       // both ends held so that they cannot turn
  kCantilever,  // one end held, the other free: an overhang
  kPropped,     // one end held, the other lying on
  kTwoSpans     // runs over three supports; the span is one half, both halves are loaded
};

/// Largest sag under a load spread evenly over the span.
/// 5wL4/384EI, wL4/384EI, wL4/8EI, wL4/185EI, wL4/185EI in the order of Ends.
/// Handbook stiffness already includes the usual share of shear (about 10 %, WH6).
/// Error kBadInput when span or rigidity is not positive, kOutOfTable when the sag passes 1 km.
/// Source: beam tables (BM1, BM2, verified; the last two from memory).
base::Result<measure::Length> sag_under_even_load(Ends ends,
                                                  measure::NewtonsPerMillimetre load,
                                                  measure::Length span,
                                                  Rigidity rigidity);

/// Largest sag under one load: in the middle of the span, or at the free end of a cantilever; over
/// two spans one such load in the middle of each. PL3/48EI, PL3/192EI, PL3/3EI, PL3/(48 sqrt5 EI),
/// PL3/(48 sqrt5 EI). Errors as above. Source: beam tables (BM2, verified; the last two from
/// memory).
base::Result<measure::Length> sag_under_point_load(Ends ends,
                                                   measure::Newtons load,
                                                   measure::Length span,
                                                   Rigidity rigidity);

/// Sag in the middle of a beam lying on both ends under two equal loads, each `from_end` away from
/// its end: Pa(3L2 - 4a2)/24EI. Errors as above, also when `from_end` is outside 0 to half the
/// span. Source: beam tables (from memory).
base::Result<measure::Length> sag_under_two_loads(measure::Newtons each,
                                                  measure::Length from_end,
                                                  measure::Length span,
                                                  Rigidity rigidity);

/// The longest span that sags by no more than span / `span_per_sag` under an even load.
/// Errors as above, also when the load or `span_per_sag` is not positive.
base::Result<measure::Length> longest_span(Ends ends,
                                           measure::NewtonsPerMillimetre load,
                                           Rigidity rigidity,
                                           double span_per_sag);

}  // namespace plankwright::wood
