#pragma once
// Finishes by generic type, and how much of one is needed.

#include <optional>
#include <string>
#include <string_view>

#include "base/result.h"
#include "measure/length.h"
#include "measure/quantity.h"
#include "wood/provenance.h"
#include "wood/table.h"

namespace plankwright::wood {

using Litres = measure::Quantity<struct LitresUnit>;
using SquareMetresPerLitre = measure::Quantity<struct SquareMetresPerLitreUnit>;

/// From the least to the most of a figure.
template <class T>
struct Range {
  T least{};
  T most{};
};

/// A generic type of finish, brushed or wiped unless the name says otherwise. The maker's data
/// sheet always wins.
struct FinishType {
  std::string id;                      // "oil_varnish"
  std::string name;                    // "oil and varnish blend wiped"
  Range<SquareMetresPerLitre> spread;  // a coat, nothing lost on the way
  Range<int> coats;
  Range<measure::Minutes> recoat;                 // from one coat to the next
  std::optional<measure::Minutes> recoat_within;  // later it must be sanded first
  std::optional<Range<measure::Minutes>> cure;    // to full hardness
  std::optional<measure::Minutes> pot_life;       // once mixed, the short end
  /// Keys of the source that says so when rags of this finish heat themselves and can catch fire.
  std::string rags_source;
  std::string note;
  Provenance from;

  /// Rags must be spread singly to dry outdoors, or lie in a closed metal can or under water, away
  /// from the building, the same day.
  bool rags_can_catch_fire() const { return !rags_source.empty(); }
};

using FinishTable = Table<FinishType>;

/// Reads data/finishes.csv. Errors with place.
base::Result<FinishTable> read_finishes(std::string_view csv_text, const std::string& file);

/// A way to put a finish on and how much of it arrives on the work.
struct FinishTransfer {
  std::string id;  // "sprayed_low_pressure"
  std::string name;
  Range<measure::Percent> arrives;
  Provenance from;
};

using FinishTransferTable = Table<FinishTransfer>;

/// Reads data/finish_transfer.csv. Errors with place.
base::Result<FinishTransferTable> read_finish_transfers(std::string_view csv_text,
                                                        const std::string& file);

/// Litres for `coats` coats on `area`. Error kBadInput when spread or transfer is not positive or
/// the transfer is over 100 %.
base::Result<Litres> litres_needed(measure::SquareMillimetres area,
                                   int coats,
                                   SquareMetresPerLitre spread,
                                   measure::Percent transfer);

/// How far a litre goes: 1000 x solids by volume / dry film in micrometres (FN2, verified). Error
/// kBadInput when the film is not positive or the solids are outside 0 to 100 %.
base::Result<SquareMetresPerLitre> spread_of_solids(measure::Percent solids_by_volume,
                                                    measure::Length dry_film);

/// Square feet per US gallon, as labels print it.
constexpr SquareMetresPerLitre from_square_feet_per_gallon(double spread) {
  return SquareMetresPerLitre{spread * 0.09290304 / 3.785411784};
}

}  // namespace plankwright::wood
