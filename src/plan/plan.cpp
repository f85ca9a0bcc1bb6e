#include "plan/plan.h"

#include <algorithm>
#include <tuple>

#include "document/node.h"
#include "piece/build_piece.h"
#include "plan/choices.h"
#include "plan/nudges.h"
#include "plan/stages.h"
#include "shop/rack.h"
#include "stock/odds.h"

namespace plankwright::plan {
namespace {

/// In the order of the text, each mistake once.
void tidy(base::Errors& errors) {
  const auto place = [](const base::Error& e) {
    return e.at ? std::tuple{e.at->file, e.at->line, e.at->column, e.message}
                : std::tuple{std::string{}, 0, 0, e.message};
  };
  std::ranges::stable_sort(errors, {}, place);
  const auto repeated = std::ranges::unique(errors, {}, place);
  errors.erase(repeated.begin(), repeated.end());
}

}  // namespace

std::vector<calendar::Work> works_of(const std::vector<const Plan*>& plans) {
  std::vector<calendar::Work> works;
  for (const Plan* plan : plans) {
    works.push_back({&plan->commission, &plan->piece, &plan->stock, &plan->bench});
  }
  return works;
}

calendar::Planned plan_together(const std::vector<const Plan*>& plans,
                                const Reference& reference,
                                measure::Date start,
                                const calendar::CalendarLimits& limits) {
  return calendar::plan_calendar(
      works_of(plans), plans.front()->shop, reference.rules, reference.day_rules, start, limits);
}

void place_in_days(Plan& plan, const Reference& reference, const calendar::CalendarLimits& limits) {
  const std::optional<measure::Date> start = calendar::first_day(works_of({&plan}), plan.shop);
  if (!start) {
    plan.calendar_missing.push_back(
        plan.commission.quoted
            ? "the shop has no working day after the quotation; write fewer days under `closed`"
            : "a calendar begins the working day after the quotation; write its date as `quoted`");
    return;
  }
  calendar::Planned planned = plan_together({&plan}, reference, *start, limits);
  plan.calendar = std::move(planned.calendar);
  for (const base::Error& error : planned.errors) {
    plan.calendar_missing.push_back(error.message);
  }
  if (plan.calendar) {
    for (const calendar::Delivery& delivery : plan.calendar->deliveries) {
      plan.stock.purchases[delivery.purchase].order_by = delivery.order_by;
    }
  }
}

Documents read_documents(const std::string& text,
                         const std::string& file,
                         const shop::OpenFile& open,
                         const std::string& wanted_shop) {
  Documents documents;
  documents.file = file;
  document::Parsed parsed = document::parse_yaml(text, file);
  documents.root = std::move(parsed.root);
  documents.errors = std::move(parsed.errors);
  if (!documents.errors.empty()) {
    return documents;
  }
  const std::string named =
      wanted_shop.empty() ? commission::shop_named_by(documents.root) : wanted_shop;
  const std::string shop_file = named.empty() ? "shop.yaml" : named;
  const base::Result<std::string> shop_text = open(shop_file);
  if (!shop_text.ok()) {
    base::Error error = shop_text.error();
    const document::Node* at = documents.root.find("shop");
    error.at = at != nullptr ? at->at : documents.root.at;
    documents.errors.push_back(std::move(error));
    return documents;
  }
  shop::ReadShop read = shop::read_shop(shop_text.value(), shop_file, open);
  documents.shop = std::move(read.shop);
  documents.errors = std::move(read.errors);
  return documents;
}

Planned run_stages(const Documents& documents,
                   const Reference& reference,
                   const commission::Picks& picks,
                   double work,
                   double order_work) {
  Planned planned;
  Plan plan;
  plan.shop = documents.shop;
  plan.tally = documents.tally;
  commission::ReadCommission read =
      commission::read_commission(documents.root, documents.file, plan.shop, picks);
  plan.commission = std::move(read.commission);
  planned.errors = std::move(read.errors);
  piece::BuiltPiece built = piece::build_piece(plan.commission, plan.shop);
  plan.piece = std::move(built.piece);
  planned.errors.insert(planned.errors.end(), built.errors.begin(), built.errors.end());
  if (planned.errors.empty()) {
    plan.findings = checks::check_piece(plan.piece, plan.commission, plan.shop, reference.wood);
    plan.stock = stock::plan_stock(plan.piece,
                                   plan.shop,
                                   plan.commission.finish,
                                   work,
                                   plan.tally,
                                   reference.wood.board_faults);
    planned.errors = plan.findings.errors;
    planned.errors.insert(planned.errors.end(), plan.stock.errors.begin(), plan.stock.errors.end());
  }
  tidy(planned.errors);
  if (planned.errors.empty()) {
    plan.bench = bench::plan_bench(
        plan.piece, plan.stock, plan.shop, plan.commission, reference.rules, order_work);
    plan.price = price::plan_price(plan.commission, plan.shop, plan.stock, plan.bench);
    planned.plan = std::move(plan);
  }
  return planned;
}

Planned plan_commission(const std::string& text,
                        const std::string& file,
                        const shop::OpenFile& open,
                        const Reference& reference,
                        const commission::Picks& picks,
                        const PlanLimits& limits) {
  Documents documents = read_documents(text, file, open, limits.shop_file);
  if (documents.errors.empty() && !limits.rack_file.empty()) {
    shop::ReadRack rack = shop::read_rack(limits.rack, limits.rack_file, documents.shop);
    documents.shop.rack = std::move(rack.pieces);
    documents.errors = std::move(rack.errors);
  }
  if (documents.errors.empty()) {
    stock::ReadTally tally = stock::read_tally(limits.tally, limits.tally_file, documents.shop);
    documents.tally = std::move(tally.boards);
    documents.errors = std::move(tally.errors);
  }
  if (!documents.errors.empty()) {
    return {std::nullopt, documents.errors};
  }
  Planned planned = run_stages(documents, reference, picks, limits.work, limits.work);
  if (planned.plan) {
    place_in_days(*planned.plan, reference, limits.calendar);
  }
  if (planned.plan && limits.draw_purchases) {
    stock::add_buying_odds(
        planned.plan->stock, planned.plan->piece, planned.plan->shop, reference.wood.board_faults);
  }
  if (planned.plan && limits.look_for_nudges) {
    look_for_nudges(*planned.plan, documents, reference, limits.work);
  }
  if (planned.plan && limits.compare_choices) {
    compare_choices(*planned.plan, documents, reference, limits.work);
  }
  return planned;
}

}  // namespace plankwright::plan
