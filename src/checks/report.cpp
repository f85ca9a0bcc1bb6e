#include "checks/report.h"

#include <algorithm>
#include <cmath>

#include <fmt/format.h>

#include "wood/moisture.h"

namespace plankwright::checks {
namespace {

measure::Percent moisture_in(measure::Celsius temperature, measure::Percent humidity) {
  const auto moisture = wood::equilibrium_moisture(temperature, humidity);
  // Rooms outside the table are refused when the commission is read; 8 % is the usual indoor value.
  return moisture.ok() ? moisture.value() : measure::Percent{8};
}

}  // namespace

std::string Inspection::size(Length length) const {
  return measure::print_with_unit(length, commission.unit());
}

std::string Inspection::fine(Length length) const {
  return commission.unit() == measure::LengthUnit::kInch ? fmt::format("{:.3f} in", length.inches())
                                                         : fmt::format("{:.1f} mm", length.mm());
}

std::string Inspection::mass(measure::Kilograms mass) const {
  return commission.unit() == measure::LengthUnit::kInch
             ? fmt::format("{:.0f} lb", mass.count() / 0.45359237)
             : fmt::format("{:.0f} kg", mass.count());
}

Length Inspection::rule_below(Length length) const {
  const bool inches = commission.unit() == measure::LengthUnit::kInch;
  const std::int64_t mark = inches ? Length::from_inches(1.0 / 32).nm() : Length::from_mm(0.5).nm();
  return Length::from_nm(length.nm() / mark * mark);
}

Length Inspection::rule_above(Length length) const {
  const Length below = rule_below(length);
  const bool inches = commission.unit() == measure::LengthUnit::kInch;
  return below == length ? below
                         : below + (inches ? Length::from_inches(1.0 / 32) : Length::from_mm(0.5));
}

Inspection::Moisture Inspection::moisture() const {
  const commission::Room& room = commission.room;
  return {moisture_in(shop.climate.temperature, shop.climate.humidity),
          moisture_in(room.temperature, room.humidity_low),
          moisture_in(room.temperature, room.humidity_high)};
}

std::string counted(std::size_t count, const std::string& name) {
  if (count == 1) {
    return name;
  }
  if (name.ends_with("f")) {
    return fmt::format("{} {}ves", count, name.substr(0, name.size() - 1));
  }
  return fmt::format("{} {}s", count, name);
}

void merge_like(std::vector<Finding>& findings) {
  std::vector<Finding> merged;
  for (Finding& finding : findings) {
    const auto like = std::ranges::find_if(merged, [&](const Finding& other) {
      return other.kind == finding.kind && other.severity == finding.severity &&
             other.title == finding.title && other.figure == finding.figure &&
             other.limit == finding.limit;
    });
    if (like == merged.end()) {
      merged.push_back(std::move(finding));
    } else {
      like->parts.insert(like->parts.end(), finding.parts.begin(), finding.parts.end());
    }
  }
  findings = std::move(merged);
}

}  // namespace plankwright::checks
