#pragma once
// piece(): from a commission to the piece as it will stand.

#include "base/result.h"
#include "commission/commission.h"
#include "piece/piece.h"
#include "shop/shop.h"

namespace plankwright::piece {

struct BuiltPiece {
  Piece piece;
  base::Errors errors;
};

/// Runs the kits of the commission, then works out what follows from all of them: finished, cut and
/// rough sizes, features that joints ask for, codes, masses, packages. Every error of the document
/// in one go; a piece with errors is not to be planned further.
BuiltPiece build_piece(const commission::Commission& commission, const shop::Shop& shop);

/// What may stand under `piece` in a Commission document, kits included; for the JSON Schema.
document::FieldTable piece_fields();

}  // namespace plankwright::piece
