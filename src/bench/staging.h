#pragma once
// Glue-ups in stages: which joints close together, and in which order.

#include <cstddef>
#include <vector>

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
};

/// Takes the assembly apart in thought, along the ways home of its joints, and glues it in the
/// opposite order: parts come off in the direction in which all that holds them pulls out together,
/// along the assembly's longest way first, so that short frames are glued before long rails. Parts
/// glued edge to edge or face to face count as one body; screwed, undone and left-out parts do not
/// take part. A stage holds at most `most_joints` glued joints unless they can only close together.
///
/// Every joint is closed exactly once, and no part has to pass through another to its place.
std::vector<GlueStage> glue_stages(const piece::Piece& piece,
                                   const std::vector<bool>& left_out,
                                   int most_joints);

}  // namespace plankwright::bench
