#pragma once
// The stages of buying, each for one kind of stock; plan_stock puts them together.

#include <string>
#include <vector>

#include "piece/piece.h"
#include "shop/shop.h"
#include "stock/stock.h"
#include "wood/board_faults.h"

namespace plankwright::stock {

/// Rough boards of one stock: volumes at the nominal thickness, and the parts laid on the boards of
/// the tally that are of this stock, the rest on usual boards, for the least board money. What is
/// asked for are boards the parts fit into, and the shop's spare ones. A board nobody has seen is
/// only a guess: what is bought is the rough volume times the stock's buy factor, and never less
/// than the boards asked for come to when each runs over its size as boards of its grade do. Boards
/// of a tally were seen, so they count as they are.
SolidNeed solid_need(const piece::Piece& piece,
                     const shop::Shop& shop,
                     const shop::SolidStock& stock,
                     double work = 1.0,
                     const Tally& tally = {},
                     const wood::BoardFaultTable& faults = {});

/// Sheets of one stock, laid out edge to edge with a proven bound.
SheetNeed sheet_need(const piece::Piece& piece,
                     const shop::Shop& shop,
                     const shop::SheetStock& stock,
                     double work);

/// Parts of one section on bars of the lengths sold and on those of the rack, for the least money.
BarNeed bar_need(const piece::Piece& piece,
                 const shop::Shop& shop,
                 const shop::BarStock& stock,
                 double work = 1.0);

/// Edges, with what is added to each, snapped off strips of the lengths sold.
BarNeed strips_of_band(const shop::Shop& shop,
                       const shop::BandStock& stock,
                       const std::vector<BarPiece>& edges);

/// Gathers what the layouts take out of the rack and what they leave worth keeping.
void settle_the_rack(Stock& stock, const shop::Shop& shop);

BandNeed band_need(const piece::Piece& piece, const shop::Shop& shop, const shop::BandStock& stock);

HardwareNeed hardware_need(const piece::Piece& piece, const shop::Hardware& fitting);

/// Litres = area x coats / (coverage x share that arrives), from the shop's own figures.
FinishNeed finish_need(const piece::Piece& piece, const shop::Finish& finish);

}  // namespace plankwright::stock
