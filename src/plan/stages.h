#pragma once
// One pass from the documents through all stages, without comparing choices.

#include "plan/plan.h"

namespace plankwright::plan {

/// A commission and its shop, read once and planned as often as choices are compared.
struct Documents {
  document::Node root;
  std::string file;
  shop::Shop shop;
  stock::Tally tally;
  base::Errors errors;
};

/// Reads the commission text and its shop: `shop_file`, or the one it names. Errors of both.
Documents read_documents(const std::string& text,
                         const std::string& file,
                         const shop::OpenFile& open,
                         const std::string& shop_file = {});

/// Runs the stages for these picks. `order_work` is for the order of operations alone, which
/// changes nothing that choices are compared by.
Planned run_stages(const Documents& documents,
                   const Reference& reference,
                   const commission::Picks& picks,
                   double work,
                   double order_work = 0);

/// The calendar of one plan and the days to order by, or why there is none. Not part of a pass:
/// comparing choices does not ask for it.
void place_in_days(Plan& plan, const Reference& reference, const calendar::CalendarLimits& limits);

}  // namespace plankwright::plan
