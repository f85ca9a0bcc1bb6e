#pragma once
// Which sizes of a piece are worth writing at its views.

#include <string>
#include <vector>

#include "piece/piece.h"

namespace plankwright::papers {

/// One link of a chain of sizes, along one axis.
struct Span {
  measure::Length from, to;
  friend bool operator==(const Span&, const Span&) = default;
};

/// The part of a path before its `depth`th dot: unit_of("case.left.door", 1) is "case".
std::string unit_of(const std::string& path, std::size_t depth = 1);

/// Names of the units in the order of the piece.
std::vector<std::string> units_of(const piece::Piece& piece);

/// The box around all parts of a unit.
measure::Box hull_of_unit(const piece::Piece& piece, const std::string& unit);

/// Heights from the floor up, each to the top of the next unit. Empty with one unit only.
std::vector<Span> unit_heights(const piece::Piece& piece);

/// From left to right: the boxes of a row, or the openings between dividers or legs. From the
/// highest unit that has any.
std::vector<Span> widths_across(const piece::Piece& piece);

/// The fronts of drawers that stand above each other, from below.
std::vector<Span> drawer_fronts(const piece::Piece& piece);

/// Depths of cases and frames, doors left out, that differ from the whole and from each other; from
/// the floor up.
std::vector<Span> unit_depths(const piece::Piece& piece);

/// The clear height under a frame that stands on the floor, such as the knee room of a table.
std::vector<Span> clear_height(const piece::Piece& piece);

}  // namespace plankwright::papers
