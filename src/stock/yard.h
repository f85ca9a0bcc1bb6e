#pragma once
// Standing in the yard: what the boards measured so far cover, and what to ask for next.

#include <vector>

#include "piece/piece.h"
#include "stock/stock.h"

namespace plankwright::stock {

/// One kind of rough board in the yard. A part is covered when all of it, every strip and layer,
/// lies on tallied boards.
struct YardStock {
  std::string stock;
  int tallied = 0;  // boards
  double tallied_board_feet = 0;
  int used = 0;  // of them
  std::vector<PartIndex> covered;
  std::vector<PartIndex> missing;
  std::vector<BoardAsk> asks;     // for what is missing
  std::vector<TallyBoard> spare;  // lines of which boards are not needed; `count`: how many
};

/// A plan laid out with a tally, seen from the yard: every stock the piece needs, and after them
/// tallied ones it does not.
std::vector<YardStock> look_in_the_yard(const piece::Piece& piece,
                                        const shop::Shop& shop,
                                        const Stock& stock,
                                        const Tally& tally);

}  // namespace plankwright::stock
