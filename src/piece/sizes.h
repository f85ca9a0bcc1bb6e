#pragma once
// What follows from all kits together: sizes with their joints, what the joints cut, masses.

#include "piece/piece.h"
#include "shop/shop.h"

namespace plankwright::piece {

/// Finished size: the body and what the joints let into other parts, the deepest at each end once.
void work_out_finished_sizes(Piece& piece);

/// Cut size: finished less bands plus what is trimmed on site. Rough size: plus the shop's
/// allowances, a strip each for parts glued up from several boards, at the nominal thickness of the
/// stock. Sheets are cut to size at once. Strips and layers that no kit set are worked out from the
/// usual board.
void work_out_cut_sizes(Piece& piece, const shop::Shop& shop);

/// Mortises, housings, grooves, tenons: what each joint cuts into its two parts, and tapers and
/// arches.
void add_features_of_joints(Piece& piece);

/// Mass and centre of gravity of each part and of the piece. Densities: species table at 12 %
/// moisture, panel table for sheets.
void weigh(Piece& piece, const shop::Shop& shop);

/// Volume of the finished part less tapers and arch; housings and holes are left in.
measure::CubicMillimetres volume_of(const Part& part);

/// Codes of the parts list: a letter for each unit of the piece from the floor up, and a number.
void give_codes(Piece& piece);

/// What leaves the shop as one: parts tied by joints that are not undone.
void pack(Piece& piece);

}  // namespace plankwright::piece
