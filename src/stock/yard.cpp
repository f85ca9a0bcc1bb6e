#include "stock/yard.h"

#include <algorithm>
#include <set>

namespace plankwright::stock {
namespace {

void count_boards(YardStock& yard,
                  const Tally& tally,
                  const std::vector<BoardLayout>& boards,
                  const shop::SolidStock* stock) {
  for (const TallyBoard& board : tally) {
    if (board.stock != yard.stock) {
      continue;
    }
    yard.tallied += board.count;
    if (stock != nullptr) {
      yard.tallied_board_feet +=
          board.count *
          measure::board_feet(measure::volume(board.length, board.width, stock->rough_thickness));
    }
    const auto used =
        static_cast<int>(std::ranges::count(boards, board.at.line, &BoardLayout::line));
    yard.used += used;
    if (used < board.count) {
      yard.spare.push_back(board);
      yard.spare.back().count = board.count - used;
    }
  }
}

void sort_parts(YardStock& yard,
                const piece::Piece& piece,
                const std::vector<BoardLayout>& boards) {
  std::set<PartIndex> lying;
  std::set<PartIndex> open;
  for (const BoardLayout& board : boards) {
    for (const BoardPiece& placed : board.pieces) {
      (board.tallied() || !board.rack.empty() ? lying : open).insert(placed.part);
    }
  }
  for (PartIndex i = 0; i < piece.parts.size(); ++i) {
    if (piece.parts[i].stock == yard.stock) {
      (lying.contains(i) && !open.contains(i) ? yard.covered : yard.missing).push_back(i);
    }
  }
}

}  // namespace

std::vector<YardStock> look_in_the_yard(const piece::Piece& piece,
                                        const shop::Shop& shop,
                                        const Stock& stock,
                                        const Tally& tally) {
  std::vector<YardStock> all;
  const auto add = [&](const std::string& id) -> YardStock& {
    all.emplace_back();
    all.back().stock = id;
    return all.back();
  };
  for (const SolidNeed& need : stock.solids) {
    YardStock& yard = add(need.stock);
    count_boards(yard, tally, need.boards, shop.solid(need.stock));
    sort_parts(yard, piece, need.boards);
    yard.asks = need.asks;
  }
  for (const TallyBoard& board : tally) {
    if (std::ranges::find(all, board.stock, &YardStock::stock) == all.end()) {
      count_boards(add(board.stock), tally, {}, shop.solid(board.stock));
    }
  }
  return all;
}

}  // namespace plankwright::stock
