#pragma once
// Whether a piece stands: moments about the line of its front feet, and the rule for clothing
// storage. A tip-over margin worked out here is no test to a standard; anchoring is always the safe
// answer.

#include <span>
#include <string>
#include <string_view>

#include "base/result.h"
#include "measure/length.h"
#include "measure/quantity.h"
#include "wood/provenance.h"

namespace plankwright::wood {

/// Turning force about a line.
using NewtonMillimetres = measure::Quantity<struct NewtonMillimetresUnit>;

/// The force with which a mass bears down, standard gravity.
measure::Newtons weight(measure::Kilograms mass);

/// Something that bears down on a piece.
struct Bearing {
  std::string what;        // "open drawer 2", "child"
  measure::Newtons force;  // downwards
  measure::Length ahead;  // of the front foot line; negative behind it, where it steadies the piece
  measure::Length height;  // above the floor
};

/// A push or pull towards the front at a height.
struct Pull {
  std::string what;
  measure::Newtons force;
  measure::Length height;
};

struct Balance {
  NewtonMillimetres steadying;
  NewtonMillimetres tipping;
  /// Restoring moment over tipping moment: over 1 it stands. Infinite when nothing tips it.
  double margin = 0;
};

/// Moments about the front foot line of a piece on a floor that falls `forward_tilt` to the front:
/// a height h comes forward by h x sin(tilt). Source: statics.
Balance balance(std::span<const Bearing> loads,
                std::span<const Pull> pulls = {},
                measure::Degrees forward_tilt = {});

/// The tilt when the rear of a piece `depth` deep (front foot line to rear foot line) is raised, as
/// on carpet over a gripper strip.
measure::Degrees tilt_of(measure::Length rear_raised, measure::Length depth);

/// Figures of the rule for clothing storage units in the USA (16 CFR 1261, ASTM F2057-23).
struct StorageRule {
  Cited<measure::Length> scope_height;
  Cited<measure::Kilograms> scope_mass;
  Cited<measure::CubicMillimetres> scope_volume;
  Cited<measure::Kilograms> child_mass;
  Cited<measure::KilogramsPerCubicMetre> contents_density;
  Cited<measure::Newtons> pull_force;
  Cited<measure::Length> pull_height_most;
  Cited<measure::Length> rear_raise;
};

/// Reads data/storage_rule.csv. Errors with place; also a figure that is missing.
base::Result<StorageRule> read_storage_rule(std::string_view csv_text, const std::string& file);

/// True for a free-standing unit with drawers or doors meant for clothing that is high, heavy and
/// large enough for the rule. Whether it is one of the kinds left out is for the maker to judge.
bool is_in_scope(const StorageRule& rule,
                 measure::Length height,
                 measure::Kilograms mass,
                 measure::CubicMillimetres enclosed);

}  // namespace plankwright::wood
