#pragma once
// What it costs, what to charge, and how sure that is.

#include <string>
#include <vector>

#include "bench/bench.h"
#include "commission/commission.h"
#include "measure/money.h"
#include "shop/shop.h"
#include "stock/stock.h"

namespace plankwright::price {

using measure::Money;
using measure::Percent;

/// One line of the cost sheet.
struct CostLine {
  std::string kind;  // "timber", "sheets", "banding", "hardware", "finish", "consumables",
                     // "subcontract", "delivery", "labour", "office", "reserve", "allowance"
  std::string what;
  Money cost;
  std::string from;  // how it was reckoned
};

struct Payment {
  Percent share;
  std::string event;
  Money amount;  // without tax
  Money with_tax;
};

/// What is left when the hours turn out so.
struct Outcome {
  std::string name;  // "P50", "P80", "P90"
  double hours = 0;
  Money cost;
  Money profit;
  Percent margin;
};

struct Price {
  std::vector<CostLine> lines;
  Money materials, labour, reserve, cost;
  Percent margin_wanted;
  Money exact;     // cost / (1 - margin)
  Money price;     // rounded up
  Percent margin;  // realised at the mean hours
  Percent markup;  // the same as a share of cost
  Money tax;
  Money total;
  std::vector<Payment> payments;
  bool deposit_covers_purchases = false;
  std::vector<Outcome> outcomes;
  double chance_of_loss = 0;  // 0..1
  double hours_to_lose = 0;   // hours at which nothing is left
};

/// Reckons the price of a planned piece. Overhead stands in the hour rate and nowhere else.
Price plan_price(const commission::Commission& commission,
                 const shop::Shop& shop,
                 const stock::Stock& stock,
                 const bench::Bench& bench);

/// Price for a margin on price, and back. Margin m and markup k: m = k / (1 + k).
Money price_for_margin(Money cost, Percent margin);
Percent margin_of(Money cost, Money price);
Percent markup_of(Money cost, Money price);
Percent markup_from_margin(Percent margin);
Percent margin_from_markup(Percent markup);

/// Something that can be made here or bought in: drawer boxes, doors, a bent part.
struct MakeOrBuy {
  std::string what;
  int pieces = 0;
  Money make_cost, buy_cost;    // all in, labour at the hour rate
  measure::Minutes make_time;   // of all pieces, beyond what buying leaves to do
  measure::Minutes break_even;  // of all pieces: making pays when it takes less
  int lead_days = 0;
  std::string advice;
};

/// One side of a make-or-buy question: what it costs beside the work, and the work.
struct Way {
  Money bought;
  measure::Minutes work;
};

/// Break-even: the minutes of making at which both ways cost the same,
/// (what buying costs, its work included, less what making costs beside the work) / hour rate.
MakeOrBuy make_or_buy(
    std::string what, int pieces, const Way& make, const Way& buy, Money hour_cost, int lead_days);

}  // namespace plankwright::price
