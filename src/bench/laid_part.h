#pragma once
// A part as it lies on the bench to be marked: from which of its sides lengths are taken.

#include <string>
#include <vector>

#include "piece/piece.h"

namespace plankwright::bench {

using measure::Length;

/// References of one part. Each points out of the part.
struct LaidPart {
  measure::Direction end, edge, face;
  measure::Box outline;  // tenons and tongues included

  const measure::Direction& reference(measure::Axis axis) const;
  /// How far `at`, along `axis` in the piece, is from the reference side.
  Length from(measure::Axis axis, Length at) const;
  /// +1 or -1: mirror images have the other one.
  int handedness() const;
};

/// The ways to lay a part, the liked one first: see mark_out. `cut_into` are the sides that
/// something is cut into.
std::vector<LaidPart> ways_to_lay(const piece::Piece& piece,
                                  piece::PartIndex part,
                                  const std::vector<measure::Direction>& cut_into);

/// "front edge", "left face", "lower end".
std::string side_name(const piece::Part& part, measure::Direction side);

}  // namespace plankwright::bench
