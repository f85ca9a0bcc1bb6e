// The papers for the shop, sheet by sheet.

#include <algorithm>

#include <fmt/format.h>

#include "papers/page_output.h"
#include "papers/papers.h"
#include "papers/table.h"
#include "papers/title_block.h"
#include "papers/wording.h"

namespace plankwright::papers {
namespace {

SheetInfo sheet_info(const plan::Plan& plan, const std::string& part_title) {
  using namespace std::chrono;
  return {.legal_owner = plan.shop.name,
          .title = plan.commission.name,
          .part_title = part_title,
          .document_type = part_title,
          .identification = plan.commission.number,
          .revision = plan.commission.revision,
          .date = plan.commission.quoted.value_or(year{1970} / 1 / 1),
          .created_by = plan.shop.owner,
          .approved_by = "",
          .scale = ""};
}

void add_parts(SheetSet& sheets, const plan::Plan& plan) {
  Flow flow = sheets.flow(sheet_info(plan, "Parts list"));
  Table table{.columns = {{.header = "Code", .width = ColumnWidth::fit()},
                          {.header = "Part"},
                          {.header = "Quantity", .width = ColumnWidth::fit(), .numbers = true},
                          {.header = "Finished", .width = ColumnWidth::fit(), .numbers = true},
                          {.header = "Stock"}},
              .rows = {},
              .empty_text = "No parts in this piece."};
  for (const piece::PartLine& line : piece::part_lines(plan.piece)) {
    const piece::Part& part = plan.piece.parts[line.parts.front()];
    table.rows.push_back({.cells = {{line.code},
                                    {part.name},
                                    {std::to_string(line.parts.size())},
                                    {size(plan, part.finished)},
                                    {stock_name(plan, part.stock)}}});
  }
  set_table(flow, table);
}

}  // namespace

std::string shop_packet(const plan::Plan& plan) {
  using namespace std::chrono;
  Paper paper{.info = {.title = "Shop packet: " + plan.commission.name,
                       .author = plan.shop.name,
                       .subject = plan.commission.number,
                       .date = plan.commission.quoted.value_or(year{1970} / 1 / 1)},
              .pages = {}};
  SheetSet sheets{paper, page_size(plan.shop)};
  add_parts(sheets, plan);
  sheets.finish();
  return to_pdf(paper);
}

}  // namespace plankwright::papers
