#pragma once
// plan(): the stages composed. The plan is a value; everything a maker sees is a view of it.

#include <optional>
#include <string>
#include <vector>

#include "bench/bench.h"
#include "bench/rules.h"
#include "calendar/calendar.h"
#include "checks/checks.h"
#include "commission/commission.h"
#include "piece/piece.h"
#include "price/price.h"
#include "shop/read_shop.h"
#include "shop/shop.h"
#include "stock/stock.h"
#include "wood/reference.h"

namespace plankwright::plan {

/// What changes when one choice is taken differently, all else as picked.
struct ChoiceEffect {
  std::string choice;  // id
  std::string option;  // id
  std::string says;
  bool picked = false;
  measure::Money price;  // of the whole piece with it
  measure::Money price_change;
  measure::Money cost_change;
  double hours_change = 0;
  double days_change = 0;  // of the longest lead time
  measure::Kilograms mass_change;
  std::vector<std::string> findings_gone;
  std::vector<std::string> findings_new;
  base::Errors errors;  // when this option cannot be built
};

struct Plan {
  commission::Commission commission;
  shop::Shop shop;
  piece::Piece piece;
  checks::Findings findings;
  stock::Tally tally;  // the boards measured so far
  stock::Stock stock;
  bench::Bench bench;
  price::Price price;
  std::optional<calendar::Calendar> calendar;  // none without the date of the quotation
  std::vector<std::string> calendar_missing;   // why there is none, and the nearest way out
  std::vector<ChoiceEffect> choices;
  std::vector<price::MakeOrBuy> make_or_buy;
  std::vector<stock::Nudge> nudges;  // sizes that miss a saving by a hair, the largest saving first
};

/// The tables in data/ that every plan needs, read once.
struct Reference {
  wood::Reference wood;
  bench::Rules rules;
  calendar::DayRules day_rules;
};

/// A commission read, checked and planned, or every error in it.
struct Planned {
  std::optional<Plan> plan;
  base::Errors errors;
};

struct PlanLimits {
  double work = 1.0;  // of the layout search
  bool compare_choices = true;
  calendar::CalendarLimits calendar = {.draws = 200};  // enough for three dates; every edit waits
  bool look_for_nudges = true;  // tries other sizes; an edit wants its fresh figures first
  bool draw_purchases = false;  // says how sure the boards asked for are to be enough
  std::string shop_file;        // goes before the shop that the commission names
  std::string tally;            // the text of a tally of boards (stock/tally.h)
  std::string tally_file;       // what it is called in messages
  std::string rack;             // the text of a rack, instead of the one the shop names
  std::string rack_file;        // what it is called in messages; empty: the shop's own rack
};

/// Plans as the calendar takes them; they must outlive what it makes of them.
std::vector<calendar::Work> works_of(const std::vector<const Plan*>& plans);

/// Puts several planned commissions into the days of one shop, that of the first, from `start` on.
calendar::Planned plan_together(const std::vector<const Plan*>& plans,
                                const Reference& reference,
                                measure::Date start,
                                const calendar::CalendarLimits& limits = {});

/// Plans a commission. Pure: the same text gives the same plan.
Planned plan_commission(const std::string& text,
                        const std::string& file,
                        const shop::OpenFile& open,
                        const Reference& reference,
                        const commission::Picks& picks = {},
                        const PlanLimits& limits = {});

/// The price and figures of every combination of options (at most `most`), without the comparisons.
struct Combination {
  commission::Picks picks;
  measure::Money price;
  measure::Money cost;
  double hours_mean = 0;
  double hours_p80 = 0;
  double chance_of_loss = 0;
  std::size_t findings = 0;
  bool undominated = false;  // no other is both cheaper and quicker
};
std::vector<Combination> plan_combinations(const std::string& text,
                                           const std::string& file,
                                           const shop::OpenFile& open,
                                           const Reference& reference,
                                           std::size_t most);

}  // namespace plankwright::plan
