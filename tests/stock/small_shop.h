#pragma once
// A shop of one sheet and one rough board, and parts cut from them: what the tests of stock share.

#include <string>

#include "piece/piece.h"
#include "shop/shop.h"

namespace plankwright::stock {

/// Sheets `board` of 2440 x 1220 trimmed by 10 (2420 x 1200 to lay out), saw cuts of 4; boards
/// `ash`, 4/4, of 96 x 7 in, saw cuts of 3.2.
inline shop::Shop sheet_and_board_shop() {
  using namespace measure;  // NOLINT(google-build-using-namespace): length literals
  shop::Shop shop;
  shop.unit = LengthUnit::kMillimetre;
  shop::SheetStock board;
  board.id = "board";
  board.name = "board 18 mm";
  board.length = 2440_mm;
  board.width = 1220_mm;
  board.thickness = 18_mm;
  board.price = Money::from_major(100);
  shop.sheets = {board};
  shop::SolidStock ash;
  ash.id = "ash";
  ash.name = "ash 4/4";
  ash.rough_thickness = 1_in;
  ash.surfaced_thickness = 0.8125_in;
  ash.price = Money::from_major(8);
  ash.board_length = 96_in;
  ash.board_width = 7_in;
  ash.buy_factor = 1.3;
  shop.solids = {ash};
  shop.allowances.sheet_kerf = 4_mm;
  shop.allowances.sheet_trim = 10_mm;
  shop.allowances.saw_kerf = 3.2_mm;
  shop.allowances.offcut_length = 600_mm;
  shop.allowances.offcut_width = 200_mm;
  shop.allowances.offcut_value = Percent{40};
  return shop;
}

/// So many parts alike, of one size finished, cut and rough.
inline void add(piece::Piece& piece,
                const std::string& stock,
                measure::Length length,
                measure::Length width,
                int count,
                measure::Length thickness = measure::Length::from_mm(18)) {
  for (int i = 0; i < count; ++i) {
    piece::Part part;
    part.name = "part";
    part.path = "p" + std::to_string(piece.parts.size());
    part.stock = stock;
    part.finished = part.cut = part.rough = {length, width, thickness};
    piece.parts.push_back(part);
  }
}

}  // namespace plankwright::stock
