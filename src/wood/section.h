#pragma once
// Beams glued up from strips of different stiffness: a board with a nosing, a lipped shelf.

#include <span>
#include <string>

#include "base/result.h"
#include "measure/length.h"
#include "measure/quantity.h"

namespace plankwright::wood {

/// Resistance to bending, E x I.
using Rigidity = measure::Quantity<struct NewtonSquareMillimetresUnit>;

/// One rectangle of a section. Strips may stand beside or above each other; they must be glued so
/// that they bend as one.
struct Strip {
  std::string what;                // "shelf", "oak nosing"
  measure::Length width;           // across the beam
  measure::Length thickness;       // in the direction of the load
  measure::Length top;             // of this strip below a level common to all strips
  measure::Megapascals stiffness;  // modulus of elasticity along the beam
};

/// A section as a whole.
struct Section {
  Rigidity rigidity;
  measure::Length neutral_axis;  // below the level from which `top` is counted
};

/// A plain board lying flat: E b t3 / 12. Error as for composed_section.
base::Result<Section> plain_section(measure::Length width,
                                    measure::Length thickness,
                                    measure::Megapascals stiffness);

/// Strips that bend as one. Error kBadInput when there are none, or a size or stiffness is not
/// positive. Source: transformed section, any text on mechanics (from memory).
base::Result<Section> composed_section(std::span<const Strip> strips);

}  // namespace plankwright::wood
