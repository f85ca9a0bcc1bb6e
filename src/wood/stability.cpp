#include "wood/stability.h"

#include <cmath>
#include <limits>
#include <numbers>

#include <fmt/format.h>

#include "wood/table.h"

namespace plankwright::wood {
namespace {

using base::CsvRow;
using measure::CubicMillimetres;
using measure::Degrees;
using measure::Kilograms;
using measure::KilogramsPerCubicMetre;
using measure::Length;
using measure::Newtons;

constexpr double kGravity = 9.80665;  // m/s2, standard
constexpr double kKilogramsPerPound = 0.45359237;
constexpr double kCubicMillimetresPerCubicFoot = 304.8 * 304.8 * 304.8;

double radians(Degrees angle) {
  return angle.count() * std::numbers::pi / 180.0;
}

/// A row of the rule before it is known which figure it is.
struct Figure {
  std::string id;
  double value = 0;
  std::string unit;
  Provenance from;
};

/// Picks figures by id and unit; the first one that is missing or has another unit is remembered.
class FigurePicker {
 public:
  FigurePicker(const Table<Figure>& table, std::string file)
      : table_{table}, file_{std::move(file)} {}

  template <class T, class Make>
  Cited<T> pick(std::string_view id, std::string_view unit, const Make& make) {
    const Figure* figure = table_.get(id);
    if (figure == nullptr || figure->unit != unit) {
      if (!error_) {
        error_ = base::Error{.message = fmt::format("expected a row `{}` in {}", id, unit),
                             .at = base::Position{file_, 1, 1}};
      }
      return {};
    }
    return {make(figure->value), figure->from};
  }

  const std::optional<base::Error>& error() const { return error_; }

 private:
  const Table<Figure>& table_;
  std::string file_;
  std::optional<base::Error> error_;
};

}  // namespace

Newtons weight(Kilograms mass) {
  return Newtons{mass.count() * kGravity};
}

Balance balance(std::span<const Bearing> loads, std::span<const Pull> pulls, Degrees forward_tilt) {
  const double sine = std::sin(radians(forward_tilt));
  const double cosine = std::cos(radians(forward_tilt));
  double steadying = 0;
  double tipping = 0;
  for (const Bearing& load : loads) {
    const double ahead = load.ahead.mm() * cosine + load.height.mm() * sine;
    (ahead > 0 ? tipping : steadying) += load.force.count() * std::abs(ahead);
  }
  for (const Pull& pull : pulls) {
    tipping += pull.force.count() * pull.height.mm() * cosine;
  }
  return {.steadying = NewtonMillimetres{steadying},
          .tipping = NewtonMillimetres{tipping},
          .margin = tipping > 0 ? steadying / tipping : std::numeric_limits<double>::infinity()};
}

Degrees tilt_of(Length rear_raised, Length depth) {
  return Degrees{std::atan2(rear_raised.mm(), depth.mm()) * 180.0 / std::numbers::pi};
}

base::Result<StorageRule> read_storage_rule(std::string_view csv_text, const std::string& file) {
  const auto table =
      read_table<Figure>("figure of the storage rule", csv_text, file, [](const CsvRow& row) {
        return Figure{.id = {},
                      .value = row.number("value", 0, 1e6),
                      .unit = row.word("unit"),
                      .from = read_provenance(row)};
      });
  if (!table.ok()) {
    return table.error();
  }
  const auto inches = [](double value) { return Length::from_inches(value); };
  const auto pounds = [](double value) { return Kilograms{value * kKilogramsPerPound}; };
  FigurePicker figures{table.value(), file};
  StorageRule rule;
  rule.scope_height = figures.pick<Length>("scope_height", "in", inches);
  rule.scope_mass = figures.pick<Kilograms>("scope_mass", "lb", pounds);
  rule.scope_volume = figures.pick<CubicMillimetres>("scope_volume", "ft3", [](double value) {
    return CubicMillimetres{value * kCubicMillimetresPerCubicFoot};
  });
  rule.child_mass = figures.pick<Kilograms>("child_mass", "lb", pounds);
  rule.contents_density =
      figures.pick<KilogramsPerCubicMetre>("contents_density", "lb/ft3", [](double value) {
        return KilogramsPerCubicMetre{value * kKilogramsPerPound /
                                      (kCubicMillimetresPerCubicFoot / 1e9)};
      });
  rule.pull_force = figures.pick<Newtons>(
      "pull_force", "lb", [&](double value) { return weight(pounds(value)); });
  rule.pull_height_most = figures.pick<Length>("pull_height_most", "in", inches);
  rule.rear_raise = figures.pick<Length>("rear_raise", "in", inches);
  if (figures.error()) {
    return *figures.error();
  }
  return rule;
}

bool is_in_scope(const StorageRule& rule,
                 Length height,
                 Kilograms mass,
                 CubicMillimetres enclosed) {
  return height >= rule.scope_height.value && mass >= rule.scope_mass.value &&
         enclosed >= rule.scope_volume.value;
}

}  // namespace plankwright::wood
