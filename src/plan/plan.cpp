#include "plan/plan.h"

#include <algorithm>
#include <cmath>
#include <tuple>

#include "document/node.h"
#include "piece/build_piece.h"
#include "plan/choices.h"
#include "plan/stages.h"
#include "stock/parts.h"

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

/// Sizes that miss a saving by a hair, tried out; only for the plan that is shown.
void look_for_nudges(Plan& plan, double work) {
  for (stock::SheetNeed& need : plan.stock.sheets) {
    if (const shop::SheetStock* sheet = plan.shop.sheet(need.stock)) {
      const std::vector<std::string> notes =
          stock::sheet_nudges(plan.piece, plan.shop, *sheet, need, work);
      need.notes.insert(need.notes.end(), notes.begin(), notes.end());
    }
  }
}

/// Working days the hours fill, one person at the bench, four times in five enough. The calendar
/// stage will know what waits on what.
int days_of_work(const Plan& plan) {
  const shop::Workday& day = plan.shop.workday;
  const double hours = day.hours * day.hands_on.count() / 100;
  return hours > 0 ? static_cast<int>(std::ceil(plan.bench.bench.p80 / hours)) : 0;
}

}  // namespace

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
                   double work) {
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
    plan.stock = stock::plan_stock(plan.piece, plan.shop, plan.commission.finish, work, plan.tally);
    planned.errors = plan.findings.errors;
    planned.errors.insert(planned.errors.end(), plan.stock.errors.begin(), plan.stock.errors.end());
  }
  tidy(planned.errors);
  if (planned.errors.empty()) {
    plan.bench =
        bench::plan_bench(plan.piece, plan.stock, plan.shop, plan.commission, reference.rules);
    if (plan.commission.wanted) {
      stock::set_order_dates(plan.stock, *plan.commission.wanted, days_of_work(plan));
    }
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
  if (documents.errors.empty()) {
    stock::ReadTally tally = stock::read_tally(limits.tally, limits.tally_file, documents.shop);
    documents.tally = std::move(tally.boards);
    documents.errors = std::move(tally.errors);
  }
  if (!documents.errors.empty()) {
    return {std::nullopt, documents.errors};
  }
  Planned planned = run_stages(documents, reference, picks, limits.work);
  if (planned.plan && limits.look_for_nudges) {
    look_for_nudges(*planned.plan, limits.work);
  }
  if (planned.plan && limits.compare_choices) {
    compare_choices(*planned.plan, documents, reference, limits.work);
  }
  return planned;
}

}  // namespace plankwright::plan
