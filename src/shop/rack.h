#pragma once
// What is left over from other work and stands in the rack, written down one line each.

#include <string>
#include <string_view>
#include <vector>

#include "base/result.h"
#include "shop/shop.h"

namespace plankwright::shop {

struct ReadRack {
  std::vector<RackPiece> pieces;
  base::Errors errors;
};

/// Reads lines of `LABEL, STOCK, LENGTH, WIDTH` with any of these behind: `x3` for three alike,
/// `lot NAME`, `value 12.50` for what one is worth. A bar has no width. Sizes are read as
/// everywhere, bare numbers in the shop's unit; the length runs along the grain. Without a value a
/// piece is worth its share of the price of a new one, times the shop's `offcut_value`. Every
/// mistake with its place: a stock the shop does not have, a label that stands twice, a size that
/// is none.
ReadRack read_rack(std::string_view text, const std::string& file, const Shop& shop);

/// Price of a rough board of this size, as its stock is sold.
Money price_of_board(const SolidStock& stock, Length length, Length width);

/// What a piece of this size of a stock is worth in the rack by the shop's own rule.
Money rack_value(const Shop& shop, std::string_view stock, Length length, Length width);

}  // namespace plankwright::shop
