// The paper for the client.

#include <fmt/format.h>

#include "papers/page_output.h"
#include "papers/papers.h"
#include "papers/table.h"
#include "papers/wording.h"

namespace plankwright::papers {
namespace {

constexpr double kSideMargin = 22;
constexpr double kFootMargin = 20;
constexpr double kHeadMargin = 18;

measure::Date date_of(const plan::Plan& plan) {
  using namespace std::chrono;
  return plan.commission.quoted.value_or(year{1970} / 1 / 1);
}

void set_price(Flow& flow, const plan::Plan& plan) {
  const std::string tax =
      plan.commission.terms.tax_name.empty() ? "tax" : plan.commission.terms.tax_name;
  const Table table{
      .columns = {{.header = ""}, {.header = "", .align = Align::kRight, .numbers = true}},
      .rows = {{.cells = {{"Price"}, {money(plan, plan.price.price)}}},
               {.cells = {{fmt::format(
                              "{} {:g} %", sentence(tax), plan.commission.terms.tax.count())},
                          {money(plan, plan.price.tax)}}},
               {.cells = {{"Total"}, {money(plan, plan.price.total)}}, .kind = Row::Kind::kTotal}},
      .empty_text = "",
      .shaded = false};
  set_table(flow, table);
}

}  // namespace

std::string quotation(const plan::Plan& plan) {
  Paper paper{.info = {.title = "Quotation: " + plan.commission.name,
                       .author = plan.shop.name,
                       .subject = plan.commission.number,
                       .date = date_of(plan)},
              .pages = {}};
  const PageSize size = page_size(plan.shop);
  Flow flow{paper, size, [](Page& page, int) {
              return Rectangle{kSideMargin,
                               kHeadMargin,
                               page.size().width - 2 * kSideMargin,
                               page.size().height - kHeadMargin - kFootMargin};
            }};
  flow.heading(plan.shop.name, kTitleText);
  flow.paragraph(plan.commission.client.name);
  flow.heading(plan.commission.name);
  flow.paragraph(plan.commission.says);
  set_price(flow, plan);
  return to_pdf(paper);
}

}  // namespace plankwright::papers
