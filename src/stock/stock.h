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

/// What is left over and worth keeping.
struct Offcut {
  Length x, y, length, width;
  Money value;
};

/// How the parts lie on one board: of the usual size, where the real boards decide at the bench, or
/// one that was measured (`tallied`), or one out of the rack.
struct BoardLayout {
  Length length, width;
  std::vector<BoardPiece> pieces;
  int line = 0;               // of the tally; 0: a board of the usual size
  std::string rack;           // label in the rack, or ""
  std::vector<Offcut> rests;  // of a board out of the rack
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
  double rack_board_feet = 0;   // of them on boards of the rack
  double asked_board_feet = 0;  // of the boards asked for, as large as they come
  double buy_board_feet = 0;
  double buy_sold = 0;  // in the unit sold, rounded as it is sold
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

struct SheetLayout {
  Length length, width;  // of the whole sheet, or of the piece of the rack
  std::string rack;      // label in the rack, or ""
  std::vector<SheetPiece> pieces;
  std::vector<SheetCut> cuts;
  std::vector<Offcut> offcuts;
  int copies = 1;  // sheets cut just so
};

/// Everything cut from one kind of sheet.
struct SheetNeed {
  std::string stock;
  std::vector<SheetLayout> layouts;
  int sheets = 0;       // cut up: new ones and rack pieces
  int rack_pieces = 0;  // of them
  int bound = 0;        // no layout can do with fewer
  bool proven = false;
  std::vector<PartIndex> unplaced;  // larger than the sheet; a finding says so
  double buy_sheets = 0;            // as sold; a half sheet where the supplier cuts
  Money price;
  Money offcut_value;
  Money rack_value;                // of the rack pieces cut up
  double used_share = 0;           // of the area of the sheets and rack pieces cut
  std::vector<std::string> notes;  // why nothing is laid out
};

/// A part on a bar, by its distance from the bar's first end.
struct BarPiece {
  PartIndex part = 0;
  Length from, length;
};

/// One bar, cut in the order of its pieces. `rest` is what is left at the far end.
struct BarLayout {
  Length length;
  std::string rack;  // label in the rack, or ""
  std::vector<BarPiece> pieces;
  Length rest;
  bool keep = false;  // the rest, because it is long enough
  Money rest_value;
};

/// So many bars or strips of one length.
struct BarBuy {
  Length length;
  int count = 0;
  Money price;  // of all
};

/// Everything cut from one kind of bar, or from edge band sold in strips. Both money figures are of
/// the bars, rack pieces at their value, less the rests worth keeping.
struct BarNeed {
  std::string stock;
  std::vector<BarLayout> layouts;
  std::vector<BarBuy> buys;
  int bars = 0;    // new ones and rack pieces
  int fewest = 0;  // no cutting can do with fewer
  Money cost;
  Money bound;                      // no cutting costs less
  bool proven = false;              // the two meet
  Money price;                      // of the new ones
  Money rest_value;                 // of the rests kept
  double used_share = 0;            // of the length cut up
  std::vector<PartIndex> unplaced;  // longer than every bar; an error says so
};

struct BandNeed {
  std::string stock;
  Length net;
  Length buy;
  int edges = 0;
  Money price;
  std::optional<BarNeed> strips;  // where it is sold in strips
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

/// A piece of the rack that is cut up for this piece of furniture, `count` of one label.
struct FromRack {
  std::string label;
  std::string stock;
  shop::RackKind kind = shop::RackKind::kSheet;
  Length length, width;
  int count = 1;
  Money value;  // of all, charged in the price
  std::vector<PartIndex> parts;
};

/// What is left of this work and worth keeping: it goes into the rack.
struct ToRack {
  std::string stock;
  shop::RackKind kind = shop::RackKind::kSheet;
  Length length, width;  // length along the grain
  int count = 1;
  Money value;       // of one
  std::string from;  // "sheet 3", "R7"
};

/// A size that misses a saving by a hair: what changing it would save, found by planning again.
struct Nudge {
  std::string what;  // "width of the doors", "bay"
  Length from, to;
  std::vector<PartIndex> parts;
  std::vector<std::string> saves;  // "1 sheet of oak board 18 mm", "2 settings"
  Money money;                     // of the cost
  base::Position at;               // where it is written
};

/// One line of the shopping list.
struct Purchase {
  std::string what;
  std::string stock;     // id
  std::string kind;      // "solid", "sheet", "bar", "band", "hardware", "finish", "other"
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
  std::vector<BarNeed> bars;
  std::vector<BandNeed> bands;
  std::vector<HardwareNeed> hardware;
  std::optional<FinishNeed> finish;
  std::vector<Purchase> purchases;
  std::vector<FromRack> from_rack;
  std::vector<ToRack> to_rack;
  Money solid_price, sheet_price, bar_price, band_price, hardware_price, finish_price;
  Money rack_price;     // of what comes from the rack
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
