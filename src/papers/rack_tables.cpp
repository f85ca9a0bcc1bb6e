#include "papers/rack_tables.h"

#include <fmt/format.h>

#include "papers/packet.h"
#include "papers/stock_wording.h"
#include "papers/table.h"
#include "papers/wording.h"

namespace plankwright::papers {
namespace {

const std::string kTick = "\u2610";

Column figures(std::string header) {
  return {.header = std::move(header),
          .width = ColumnWidth::fit(),
          .align = Align::kRight,
          .numbers = true};
}

Column tick_column() {
  return {.header = "", .width = ColumnWidth::fixed(7)};
}

Row bar_row(const plan::Plan& plan, const stock::BarNeed& need) {
  return {.cells = {{.text = stock_name(plan, need.stock)},
                    {.text = plain(bars_bought(plan, need)), .strong = true},
                    {fmt::format("{:.0f} %", 100 * need.used_share)},
                    {sentence(bar_bound_text(plan, need)) + "."}}};
}

}  // namespace

void set_bars(Flow& flow, const plan::Plan& plan) {
  Table table{.columns = {{.header = "Bar", .width = ColumnWidth::share(0.8)},
                          {.header = "Buy", .width = ColumnWidth::share(0.7)},
                          figures("Used"),
                          {.header = "How good the cutting is"}},
              .rows = {},
              .empty_text = "",
              .style = kShopText};
  for (const stock::BarNeed& need : plan.stock.bars) {
    table.rows.push_back(bar_row(plan, need));
  }
  for (const stock::BandNeed& need : plan.stock.bands) {
    if (need.strips) {
      table.rows.push_back(bar_row(plan, *need.strips));
    }
  }
  if (!table.rows.empty()) {
    flow.heading("Bars and strips");
    set_table(flow, table);
  }
}

void set_out_of_rack(Flow& flow, const plan::Plan& plan) {
  if (plan.stock.from_rack.empty()) {
    return;
  }
  flow.heading("Out of the rack");
  Table table{.columns = {tick_column(),
                          {.header = "Label", .width = ColumnWidth::fit()},
                          {.header = "What"},
                          {.header = "Size", .width = ColumnWidth::fit()},
                          figures("Pieces"),
                          {.header = "For"},
                          figures("Value")},
              .rows = {},
              .empty_text = "",
              .style = kShopText};
  for (const stock::FromRack& each : plan.stock.from_rack) {
    table.rows.push_back({.cells = {{kTick},
                                    {.text = each.label, .strong = true},
                                    {stock_name(plan, each.stock)},
                                    {rack_size(plan, each.kind, each.length, each.width)},
                                    {std::to_string(each.count)},
                                    {codes(plan, each.parts)},
                                    {money(plan, each.value)}}});
  }
  set_table(flow, table);
}

void set_into_rack(Flow& flow, const plan::Plan& plan) {
  if (plan.stock.to_rack.empty()) {
    return;
  }
  flow.heading("Into the rack when it is cut");
  Table table{.columns = {tick_column(),
                          {.header = "What"},
                          {.header = "Size", .width = ColumnWidth::fit()},
                          figures("Pieces"),
                          {.header = "Left of"},
                          figures("Worth, each")},
              .rows = {},
              .empty_text = "",
              .style = kShopText};
  for (const stock::ToRack& each : plan.stock.to_rack) {
    table.rows.push_back(
        {.cells = {{kTick},
                   {stock_name(plan, each.stock)},
                   {.text = rack_size(plan, each.kind, each.length, each.width), .strong = true},
                   {std::to_string(each.count)},
                   {each.from.empty() ? "new stock" : each.from},
                   {money(plan, each.value)}}});
  }
  set_table(flow, table);
}

void set_nudges(Flow& flow, const plan::Plan& plan) {
  if (plan.nudges.empty()) {
    return;
  }
  flow.heading("What a small change would save");
  Table table{.columns = {{.header = "Size"},
                          {.header = "Change", .width = ColumnWidth::fit()},
                          {.header = "Saves"},
                          figures("Cost less")},
              .rows = {},
              .empty_text = "",
              .style = kShopText};
  for (const stock::Nudge& nudge : plan.nudges) {
    table.rows.push_back({.cells = {{.text = sentence(plain(nudge.what)),
                                     .note = nudge.parts.empty() ? "" : codes(plan, nudge.parts)},
                                    {.text = nudge_change(plan, nudge), .strong = true},
                                    {plain(listed(nudge.saves))},
                                    {money(plan, nudge.money)}}});
  }
  set_table(flow, table);
}

}  // namespace plankwright::papers
