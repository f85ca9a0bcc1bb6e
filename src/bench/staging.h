#pragma once
// Glue-ups in stages: which joints close together, and in which order.

#include <cstddef>
#include <limits>
#include <vector>

#include "bench/clamps.h"
#include "piece/piece.h"

namespace plankwright::bench {

/// Joints that are glued and closed in one go.
struct GlueStage {
  std::vector<std::size_t> joints;  // indices into Piece::joints; loose ones that close with them
                                    // included
  std::vector<piece::PartIndex> parts;  // that those joints tie
  std::size_t assembly = 0;             // stages of one assembly follow one another
  int number = 1;                       // within the assembly, from 1
  int of = 1;
  int glued = 0;  // joints that get glue
  std::vector<ClampLine> clamps;
};

/// A piece in stages, or why it cannot be.
struct GlueUp {
  std::vector<GlueStage> stages;
  int bound = 0;  // fewest stages these sub-assemblies could be glued in
  /// Joints that keep each other from closing: no part of what they hold comes off in any
  /// direction. Empty for a piece that can be built. Their stage is listed all the same.
  std::vector<std::vector<std::size_t>> blocked;

  bool proven() const { return static_cast<int>(stages.size()) == bound; }
};

/// Takes the assembly apart in thought, along the ways home of its joints, and glues it in the
/// opposite order: parts come off in the direction in which all that holds them pulls out together
/// and nothing stands in the way, along the assembly's longest way first, so that short flat frames
/// are glued before the long rails that make them boxes. Parts glued edge to edge or face to face
/// count as one body; screwed, undone and left-out parts do not take part. What one set of parts
/// closes is a task of solve/staging: as few stages as the room for joints and clamps allows, what
/// is inside hard before what goes round it. A set that closes only as a whole is a stage even when
/// it is more than the room allows.
GlueUp glue_up(const piece::Piece& piece, const std::vector<bool>& left_out, const StageRoom& room);

}  // namespace plankwright::bench
