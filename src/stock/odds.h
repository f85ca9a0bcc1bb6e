#pragma once
// Buying before the boards are seen: how sure a quantity is to be enough.

#include <cstdint>
#include <stop_token>
#include <vector>

#include "piece/piece.h"
#include "shop/shop.h"
#include "stock/stock.h"
#include "wood/board_faults.h"

namespace plankwright::stock {

/// The same seed gives the same purchases, and each is drawn apart: a change of the cutting bill
/// meets the same boards.
struct OddsLimits {
  int purchases = 120;
  std::uint64_t seed = 1;
  std::stop_token stop = {};
};

/// The row of the table for the grade a stock is bought in; the last, poorest one when the table
/// has no such grade, nullptr when it has no rows.
const wood::BoardFaults* faults_of_stock(const wood::BoardFaultTable& faults,
                                         const shop::SolidStock& stock);

/// How far a board handed over for an ask runs over it on average, as a factor: of the boards large
/// enough one of the smaller is taken, so the excess is half a normal spread (mean of its size).
double mean_over_ask(measure::Percent spread);

/// Odds for the parts of one stock, bought as its need in the plan says.
BuyingOdds odds_of_buying(const piece::Piece& piece,
                          const shop::Shop& shop,
                          const shop::SolidStock& stock,
                          const wood::BoardFaultTable& faults,
                          const SolidNeed& need,
                          const OddsLimits& limits = {});

/// Odds for every stock of a plan that has something to ask for.
void add_buying_odds(Stock& stock,
                     const piece::Piece& piece,
                     const shop::Shop& shop,
                     const wood::BoardFaultTable& faults,
                     const OddsLimits& limits = {});

/// The odds of enough at which one more foot costs as much as it saves: shortage over shortage and
/// overbuying, each for a foot (the newsvendor's fractile).
double critical_ratio(double shortage, double overbuying);

/// The quantity of `wanted` (what each purchase turned out to need) that costs least on average
/// when a unit too much costs `left_over` and any shortage costs `trip`.
double least_costly_quantity(std::vector<double> wanted, double left_over, double trip);

}  // namespace plankwright::stock
