#pragma once
// Boards as they are measured in the yard or in the rack, written down one line each.

#include <string>
#include <string_view>
#include <vector>

#include "base/result.h"
#include "measure/length.h"
#include "shop/shop.h"

namespace plankwright::stock {

/// Boards of one line of a tally: `count` alike. Boards of one `lot` agree in colour; lines without
/// a lot are of one lot.
struct TallyBoard {
  std::string stock;  // id in the shop
  measure::Length length, width;
  int count = 1;
  std::string lot;
  base::Position at;
};

using Tally = std::vector<TallyBoard>;

struct ReadTally {
  Tally boards;
  base::Errors errors;
};

/// Reads lines of `STOCK, LENGTH, WIDTH` with any of these behind: the thickness (`5/4` or a size),
/// `x3` for three alike, `lot NAME`; `#` begins a comment. Sizes are read as everywhere, bare
/// numbers in the shop's unit. Every mistake with its place: a stock the shop does not have, a size
/// that is none, a board too thin to give its stock's surfaced thickness.
ReadTally read_tally(std::string_view text, const std::string& file, const shop::Shop& shop);

}  // namespace plankwright::stock
