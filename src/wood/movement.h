#pragma once
// How wide a board gets when its moisture changes.

#include <string_view>

#include "base/result.h"
#include "measure/length.h"
#include "measure/quantity.h"
#include "wood/provenance.h"
#include "wood/species.h"

namespace plankwright::wood {

/// How a board was sawn out of the log, by the angle of its growth rings to its face.
enum class Cut { kFlatSawn, kQuarterSawn, kRiftSawn };

/// `flat_sawn`, `quarter_sawn`, `rift_sawn`.
std::string_view word(Cut cut);

/// The cut of that name. Error kBadInput with the nearest name.
base::Result<Cut> parse_cut(std::string_view name);

/// The angle between growth rings and face at which a cut is reckoned: 0 for flat-sawn, 90 for
/// quarter-sawn, 45 for rift-sawn boards. Real boards are seldom so pure: the width of flat-sawn
/// boards comes out high and their thickness low (Wood Handbook chapter 13, WH4, verified).
measure::Degrees ring_angle(Cut cut);

/// A size of a board.
enum class Side { kLength, kWidth, kThickness };

/// Change of a size across the grain. `size` is measured at moisture `from`; `coefficient` is per 1
/// %. Positive: the board swells. Error kOutOfTable when a moisture is outside 6 to 14 %. Source:
/// Wood Handbook FPL-GTR-190 equation 13-2 (WH4, verified).
base::Result<measure::Length> small_size_change(measure::Length size,
                                                measure::Percent from,
                                                measure::Percent to,
                                                double coefficient);

/// The same over any range below fibre saturation, from the `shrinkage` between green and oven-dry.
/// Error kOutOfTable when a moisture is below 0 or above `fibre_saturation`.
/// Source: Wood Handbook FPL-GTR-190 equation 13-3 (GTR133, from memory), where fibre saturation is
/// 30 %; other woods put their own in its place, which is the same straight line.
base::Result<measure::Length> wide_size_change(measure::Length size,
                                               measure::Percent from,
                                               measure::Percent to,
                                               measure::Percent shrinkage,
                                               measure::Percent fibre_saturation);

/// Which of the two was used.
enum class MovementFormula { kSmallChange, kWideChange };

/// A change of size and where it comes from.
struct Movement {
  measure::Length change;  // positive: swells
  MovementFormula formula = MovementFormula::kSmallChange;
  Provenance from;  // names the figure, its table and the formula
};

/// Change of one size of a board of this wood. Takes the small-change formula when both moistures
/// are within 6 to 14 % and the wood has published coefficients, else the wider one with the
/// shrinkage. Between flat-sawn (0) and quarter-sawn (90) the figure is blended as a strain turned
/// by the ring angle, tangential x cos2 + radial x sin2, for the thickness the other way round
/// (plane geometry of strain, any text on mechanics). Along the grain 0.2 % from green to oven-dry,
/// the upper end of what normal wood does (WDB, verified). Error kOutOfTable when a moisture is
/// below 0 or above fibre saturation, or the angle outside 0..90.
base::Result<Movement> movement(const Species& species,
                                Side side,
                                measure::Degrees rings_to_face,
                                measure::Length size,
                                measure::Percent from,
                                measure::Percent to);
base::Result<Movement> movement(const Species& species,
                                Side side,
                                Cut cut,
                                measure::Length size,
                                measure::Percent from,
                                measure::Percent to);

}  // namespace plankwright::wood
