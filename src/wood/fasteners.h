#pragma once
// What a screw or nail in side grain may be pulled with. For furniture fixed to a building, local
// codes and a licensed person decide; these figures are for choosing a size, not for proving it.

#include "measure/length.h"
#include "measure/quantity.h"

namespace plankwright::wood {

/// Allowable pull on a wood screw in seasoned side grain: 2850 G2 D pounds per inch of thread in
/// the wood. `gravity` is specific gravity, `diameter` of the shank. Source: JN1, verified.
measure::Newtons allowable_screw_pull(double gravity,
                                      measure::Length diameter,
                                      measure::Length thread);

/// Allowable pull on a nail in side grain: 1380 G2.5 D pounds per inch in the wood. Source: JN3,
/// verified.
measure::Newtons allowable_nail_pull(double gravity,
                                     measure::Length diameter,
                                     measure::Length depth);

}  // namespace plankwright::wood
