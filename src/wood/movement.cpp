#include "wood/movement.h"

#include <array>
#include <cmath>
#include <numbers>

#include <fmt/format.h>

#include "base/nearest.h"

namespace plankwright::wood {
namespace {

using base::Error;
using base::ErrorCode;
using base::Result;
using measure::Degrees;
using measure::Length;
using measure::Percent;

constexpr std::array<std::string_view, 3> kCutWords = {"flat_sawn", "quarter_sawn", "rift_sawn"};
constexpr double kSmallLeast = 6.0;
constexpr double kSmallMost = 14.0;

bool is_within(Percent moisture, double least, double most) {
  return moisture.count() >= least && moisture.count() <= most;
}

Error outside(Percent moisture, double least, double most) {
  return Error{.code = ErrorCode::kOutOfTable,
               .message = fmt::format(
                   "{:.1f} % moisture is outside {} to {} %", moisture.count(), least, most)};
}

/// How much of the tangential and of the radial figure a size takes.
struct Blend {
  double tangential = 0;
  double radial = 0;
  std::string_view direction() const {
    return radial < 1e-9 ? "tangential" : tangential < 1e-9 ? "radial" : "blended";
  }
};

Blend blend_of(Side side, Degrees rings_to_face) {
  const double angle = rings_to_face.count() * std::numbers::pi / 180.0;
  const double along_rings = std::cos(angle) * std::cos(angle);
  const double across_rings = 1.0 - along_rings;
  return side == Side::kWidth ? Blend{along_rings, across_rings} : Blend{across_rings, along_rings};
}

/// A figure of the wood in the direction of a size.
struct Directed {
  double value = 0;
  Mark mark = Mark::kVerified;
  std::string source;

  void add(double share, double figure, const Provenance& from) {
    if (share < 1e-9) {
      return;
    }
    value += share * figure;
    mark = weaker(mark, from.mark);
    if (source.find(from.source) == std::string::npos) {
      source += (source.empty() ? "" : ";") + from.source;
    }
  }
};

std::optional<Directed> coefficient_of(const Species& species, const Blend& blend) {
  Directed figure;
  if (blend.tangential >= 1e-9) {
    if (!species.tangential_coefficient) {
      return std::nullopt;
    }
    const auto& cited = *species.tangential_coefficient;
    figure.add(blend.tangential, cited.value, cited.from);
  }
  if (blend.radial >= 1e-9) {
    if (!species.radial_coefficient) {
      return std::nullopt;
    }
    figure.add(blend.radial, species.radial_coefficient->value, species.radial_coefficient->from);
  }
  return figure;
}

Directed shrinkage_of(const Species& species, const Blend& blend) {
  const auto& tangential = species.tangential_shrinkage;
  const auto& radial = species.radial_shrinkage;
  Directed figure;
  figure.add(blend.tangential, tangential.value.count(), tangential.from);
  figure.add(blend.radial, radial.value.count(), radial.from);
  return figure;
}

Result<Movement> wide_movement(const Species& species,
                               const Directed& shrinkage,
                               std::string_view direction,
                               Length size,
                               Percent from,
                               Percent to) {
  const Result<Length> change =
      wide_size_change(size, from, to, Percent{shrinkage.value}, species.fibre_saturation.value);
  if (!change.ok()) {
    return change.error();
  }
  return Movement{
      .change = change.value(),
      .formula = MovementFormula::kWideChange,
      .from = {.mark = weaker(shrinkage.mark, Mark::kMemory),
               .source = shrinkage.source + ";GTR133",
               .how = fmt::format("{}: {:.3g} % {} shrinkage from green to oven-dry, equation 13-3",
                                  species.common_name,
                                  shrinkage.value,
                                  direction)}};
}

}  // namespace

std::string_view word(Cut cut) {
  return kCutWords[static_cast<std::size_t>(cut)];
}

Result<Cut> parse_cut(std::string_view name) {
  for (std::size_t i = 0; i < kCutWords.size(); ++i) {
    if (name == kCutWords[i]) {
      return static_cast<Cut>(i);
    }
  }
  return Error{.code = ErrorCode::kBadInput,
               .message = fmt::format(
                   "`{}` is no way of sawing, expected {}", name, base::list_words(kCutWords)),
               .at = std::nullopt,
               .nearest = base::nearest_word(name, kCutWords)};
}

Degrees ring_angle(Cut cut) {
  return Degrees{cut == Cut::kFlatSawn ? 0.0 : cut == Cut::kQuarterSawn ? 90.0 : 45.0};
}

Result<Length> small_size_change(Length size, Percent from, Percent to, double coefficient) {
  for (const Percent moisture : {from, to}) {
    if (!is_within(moisture, kSmallLeast, kSmallMost)) {
      return outside(moisture, kSmallLeast, kSmallMost);
    }
  }
  return measure::scaled(size, coefficient * (to - from).count());
}

Result<Length> wide_size_change(
    Length size, Percent from, Percent to, Percent shrinkage, Percent fibre_saturation) {
  for (const Percent moisture : {from, to}) {
    if (!is_within(moisture, 0.0, fibre_saturation.count())) {
      return outside(moisture, 0.0, fibre_saturation.count());
    }
  }
  const double saturation = fibre_saturation.count();
  const double divisor = saturation * 100.0 / shrinkage.count() - saturation + from.count();
  return measure::scaled(size, (to - from).count() / divisor);
}

Result<Movement> movement(const Species& species,
                          Side side,
                          Degrees rings_to_face,
                          Length size,
                          Percent from,
                          Percent to) {
  if (side == Side::kLength) {
    const Directed along{.value = 0.2, .mark = Mark::kVerified, .source = "WDB"};
    return wide_movement(species, along, "lengthwise", size, from, to);
  }
  if (!(rings_to_face.count() >= 0.0 && rings_to_face.count() <= 90.0)) {
    return Error{
        .code = ErrorCode::kOutOfTable,
        .message = fmt::format("growth rings at {:.1f} degrees to the face, expected 0 to 90",
                               rings_to_face.count())};
  }
  const Blend blend = blend_of(side, rings_to_face);
  const auto coefficient = coefficient_of(species, blend);
  const Result<Length> small =
      small_size_change(size, from, to, coefficient ? coefficient->value : 0.0);
  if (!coefficient || !small.ok()) {
    return wide_movement(species, shrinkage_of(species, blend), blend.direction(), size, from, to);
  }
  return Movement{.change = small.value(),
                  .formula = MovementFormula::kSmallChange,
                  .from = {.mark = coefficient->mark,
                           .source = coefficient->source + ";WH4",
                           .how = fmt::format("{}: {:.5f} {} per 1 % moisture, equation 13-2",
                                              species.common_name,
                                              coefficient->value,
                                              blend.direction())}};
}

Result<Movement> movement(
    const Species& species, Side side, Cut cut, Length size, Percent from, Percent to) {
  return movement(species, side, ring_angle(cut), size, from, to);
}

}  // namespace plankwright::wood
