#pragma once
// What is bought, and what each part is cut from. Values only.

#include <optional>
#include <string>
#include <vector>

#include "measure/date.h"
#include "measure/length.h"
#include "measure/money.h"
#include "measure/quantity.h"
#include "piece/piece.h"
#include "shop/shop.h"
#include "stock/tally.h"
#include "wood/board_faults.h"

namespace plankwright::stock {

using measure::Length;
using measure::Money;
using piece::PartIndex;

/// Boards to ask for in the yard: not a volume, but boards that the parts fit into.
struct BoardAsk {
  int count = 1;
  Length length;        // at least
  Length width;         // at least
  std::string quality;  // "clear one face"
  std::string why;      // "drawer fronts end to end"
  bool spare = false;   // for what a board hides
};

/// A part, or one strip of a glued-up part, on a board: distances from the board's first end and
/// edge.
struct BoardPiece {
  PartIndex part = 0;
  int strip = 0;
  Length x, y;
  Length length, width;  // rough
};

/// How the parts lie on one board: of the usual size, where the real boards decide at the bench, or
/// one that was measured (`tallied`).
struct BoardLayout {
  Length length, width;
  std::vector<BoardPiece> pieces;
  int line = 0;  // of the tally; 0: a board of the usual size
  bool tallied() const { return line > 0; }
};

/// So much is enough in `odds` of all purchases.
struct EnoughBoards {
  double odds = 0;  // 0.95
  double board_feet = 0;
  int boards = 0;
};

/// How a purchase of one stock may go, from purchases drawn one after the other: the boards asked
/// for and more of the same, all of the shop's grade, until everything can be cut.
/// `best_board_feet` costs least on average when what is bought too much loses part of its price
/// and what is missing costs another trip.
struct BuyingOdds {
  int purchases = 0;  // drawn; none when there is nothing to buy
  std::vector<EnoughBoards> enough;
  double planned_board_feet = 0;
  double planned_odds = 0;
  double best_board_feet = 0;
  double best_odds = 0;
  Money trip;
  Money left_over;  // lost on a board foot too much
  std::string from;
};

/// Everything cut from one kind of rough board.
struct SolidNeed {
  std::string stock;
  double net_board_feet = 0;    // of the finished parts
  double rough_board_feet = 0;  // laid out rough, at the nominal thickness
  double asked_board_feet = 0;  // of the boards asked for, as large as they come
  double buy_board_feet = 0;
  double buy_sold = 0;          // in the unit sold, rounded as it is sold
  Money price;
  std::vector<BoardAsk> asks;
  std::vector<BoardLayout> boards;
  std::string from;             // how the figures came about
  double laid_board_feet = 0;   // of the boards laid out, whole
  double bound_board_feet = 0;  // no layout on boards of these sizes can do with less
  bool proven = false;
  std::optional<BuyingOdds> odds;  // when they were asked for (odds.h)
};

/// A part on a sheet. `turned`: the part's length lies across the sheet's length.
struct SheetPiece {
  PartIndex part = 0;
  Length x, y;           // x along the sheet's length
  Length length, width;  // as cut, along x and y
  bool turned = false;
};

/// One cut through, in the order of sawing.
struct SheetCut {
  int number = 0;
  int stage = 1;      // 1: through the whole sheet
  bool along = true;  // parallel to the sheet's length (a rip)
  Length at;          // distance of the cut from the sheet's edge
  Length from, to;    // its ends
  Length setting;     // width of the strip it frees
};

struct Offcut {
  Length x, y, length, width;
  Money value;
};

struct SheetLayout {
  std::vector<SheetPiece> pieces;
  std::vector<SheetCut> cuts;
  std::vector<Offcut> offcuts;
  int copies = 1;  // sheets cut just so
};

/// Everything cut from one kind of sheet.
struct SheetNeed {
  std::string stock;
  std::vector<SheetLayout> layouts;
  int sheets = 0;
  int bound = 0;  // no layout can do with fewer
  bool proven = false;
  std::vector<PartIndex> unplaced;  // larger than the sheet; a finding says so
  double buy_sheets = 0;            // as sold; a half sheet where the supplier cuts
  Money price;
  Money offcut_value;
  double used_share = 0;  // of the bought area
  std::vector<std::string>
      notes;  // "4 strips of 300 need 1212 of 1200: 296 would give 4, but still 7 sheets"
};

struct BandNeed {
  std::string stock;
  Length net;
  Length buy;
  int edges = 0;
  Money price;
};

struct HardwareNeed {
  std::string id;
  int count = 0;
  int packs = 0;
  Money price;
  bool client_item = false;
  std::vector<std::string> where;
};

struct FinishNeed {
  std::string finish;
  measure::SquareMillimetres area;  // of one coat
  double litres = 0;
  Money price;
  std::string from;
};

/// One line of the shopping list.
struct Purchase {
  std::string what;
  std::string stock;     // id
  std::string kind;      // "solid", "sheet", "band", "hardware", "finish", "other"
  std::string quantity;  // as it is sold: "42 board feet", "7 sheets", "2 packs of 10"
  std::string what_for;
  Money price;
  std::string supplier;
  int lead_days = 0;
  std::optional<measure::Date> order_by;  // set by the calendar
};

struct Stock {
  std::vector<SolidNeed> solids;
  std::vector<SheetNeed> sheets;
  std::vector<BandNeed> bands;
  std::vector<HardwareNeed> hardware;
  std::optional<FinishNeed> finish;
  std::vector<Purchase> purchases;
  Money solid_price, sheet_price, band_price, hardware_price, finish_price;
  base::Errors errors;  // a part longer than every sheet, thicker than every board
};

/// Lays out and buys for a piece. `work` bounds the layout search (1.0: what a first answer takes).
/// Parts are laid on the boards of `tally` as far as those go, the rest on boards of the usual
/// size. `faults` says how far boards of a grade run over the size asked for.
Stock plan_stock(const piece::Piece& piece,
                 const shop::Shop& shop,
                 const std::string& finish,
                 double work = 1.0,
                 const Tally& tally = {},
                 const wood::BoardFaultTable& faults = {});

}  // namespace plankwright::stock
