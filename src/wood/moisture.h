#pragma once
// The moisture that wood settles at in the air around it.

#include "base/result.h"
#include "measure/quantity.h"

namespace plankwright::wood {

/// Equilibrium moisture content, percent of the oven-dry mass, of wood that has lain long enough in
/// air of this temperature and relative humidity.
/// Error kOutOfTable outside -1.1 to 93.3 C (30 to 200 F) and 5 to 95 % humidity: there the
/// equation was checked against the printed table and nowhere else. Source: Hailwood-Horrobin
/// equation for two hydrates, Wood Handbook FPL-GTR-190 equation 4-5; form verified, constants from
/// memory (GTR45), which give table 4-2 (WH5) to 0.06 % moisture.
base::Result<measure::Percent> equilibrium_moisture(measure::Celsius temperature,
                                                    measure::Percent relative_humidity);

}  // namespace plankwright::wood
