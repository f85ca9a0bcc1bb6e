#pragma once
// Sizes that miss a saving by a hair: which, and what they would save.

#include <string>
#include <vector>

#include "piece/piece.h"
#include "shop/shop.h"
#include "stock/stock.h"

namespace plankwright::stock {

/// No size is changed by more.
constexpr double kMostChange = 0.02;

/// Sizes as a maker would change this one, from the smallest change to the largest: whole
/// millimetres, or sixteenths of an inch, in the direction of `sign`.
std::vector<Length> nearby_sizes(Length size, measure::LengthUnit unit, int sign);

/// Stocks of which less could be cut when the parts of `piece` become those of `changed`: their
/// area, length or rough area would go into one sheet, bar or board less. Never leaves one out that
/// can be saved.
std::vector<std::string> could_save(const piece::Piece& piece,
                                    const piece::Piece& changed,
                                    const shop::Shop& shop,
                                    const Stock& stock);

/// Only the parts of one stock, laid out and bought.
Stock plan_one_stock(const piece::Piece& piece,
                     const shop::Shop& shop,
                     const std::string& id,
                     double work,
                     const Tally& tally,
                     const wood::BoardFaultTable& faults);

/// What `after` does with less of: `1 sheet of oak board 18 mm`. Stocks that `after` knows nothing
/// of are passed over.
std::vector<std::string> saved_pieces(const shop::Shop& shop,
                                      const Stock& before,
                                      const Stock& after);

/// Money for all that parts are cut from, rack pieces included.
Money money_of(const Stock& stock, const std::string& id);

/// Parts of one stock and one size, narrower or shorter by up to 2 %: each size that saves a sheet,
/// a board or a bar, with the smallest change that does, found by laying out again. Whether the
/// piece allows it is for the maker to say. The largest saving first; at most `most_tries` layouts.
std::vector<Nudge> part_nudges(const piece::Piece& piece,
                               const shop::Shop& shop,
                               const Stock& stock,
                               double work,
                               const Tally& tally,
                               const wood::BoardFaultTable& faults,
                               int most_tries);

}  // namespace plankwright::stock
