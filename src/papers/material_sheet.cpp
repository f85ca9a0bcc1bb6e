// What all parts together need: sheets with their bound, boards to ask for, edge bands.

#include <algorithm>
#include <cmath>

#include <fmt/format.h>

#include "papers/board_wording.h"
#include "papers/packet.h"
#include "papers/rack_tables.h"
#include "papers/stock_wording.h"
#include "papers/table.h"
#include "papers/wording.h"

namespace plankwright::papers {
namespace {

/// How near the layouts are to what cannot be beaten, in a maker's words.
std::string bound_of(const stock::SheetNeed& need) {
  if (need.sheets == 0) {
    return "nothing of it is cut";
  }
  const std::string fewest = counted(static_cast<std::size_t>(need.bound), "sheet");
  if (need.rack_pieces > 0) {
    return fmt::format(
        "{} new and {} out of the rack.", need.sheets - need.rack_pieces, need.rack_pieces);
  }
  if (need.sheets <= need.bound) {
    return fmt::format("No layout can do with fewer than {}, and this one uses no more.", fewest);
  }
  return fmt::format("No layout can do with fewer than {}; this one uses {}.", fewest, need.sheets);
}

/// Whole sheets and the half of the last one: `2 1/2`.
std::string sheets_bought(double sheets) {
  const double whole = std::floor(sheets);
  if (sheets - whole != 0.5) {
    return fmt::format("{:g}", sheets);
  }
  return whole > 0 ? fmt::format("{:g} 1/2", whole) : "1/2";
}

std::string size_of(const plan::Plan& plan, const shop::SheetStock& sheet) {
  return fmt::format("{} \u00d7 {} \u00d7 {}",
                     length(plan, sheet.length),
                     length(plan, sheet.width),
                     length(plan, sheet.thickness));
}

Row sheet_row(const plan::Plan& plan, const stock::SheetNeed& need) {
  const shop::SheetStock* sheet = plan.shop.sheet(need.stock);
  std::string says = bound_of(need);
  for (const std::string& note : need.notes) {
    says += fmt::format("\n{}.", sentence(note));
  }
  if (!need.unplaced.empty()) {
    says += fmt::format("\nLarger than the sheet, not laid out: {}.", codes(plan, need.unplaced));
  }
  return {.cells = {{.text = stock_name(plan, need.stock),
                     .note = sheet != nullptr ? size_of(plan, *sheet) : ""},
                    {.text = sheets_bought(need.buy_sheets), .strong = true},
                    {fmt::format("{:.0f} %", 100 * need.used_share)},
                    {says}}};
}

void set_sheets(Flow& flow, const plan::Plan& plan) {
  flow.heading("Sheets");
  Table table{
      .columns =
          {{.header = "Sheet", .width = ColumnWidth::share(0.8)},
           {.header = "Buy", .width = ColumnWidth::fit(), .align = Align::kRight, .numbers = true},
           {.header = "Used", .width = ColumnWidth::fit(), .align = Align::kRight, .numbers = true},
           {.header = "How good the layouts are"}},
      .rows = {},
      .empty_text = "No sheets in this piece.",
      .style = kShopText};
  for (const stock::SheetNeed& need : plan.stock.sheets) {
    table.rows.push_back(sheet_row(plan, need));
  }
  set_table(flow, table);
}

std::string ask_text(const plan::Plan& plan, const stock::BoardAsk& ask) {
  return fmt::format("{} at least {} long and {} wide, {}",
                     counted(static_cast<std::size_t>(ask.count), "board"),
                     length_with_unit(plan, ask.length),
                     length_with_unit(plan, ask.width),
                     ask.quality);
}

/// As it is sold, from the shopping list.
std::string bought_quantity(const plan::Plan& plan, const stock::SolidNeed& need) {
  const auto purchase =
      std::ranges::find(plan.stock.purchases, need.stock, &stock::Purchase::stock);
  return purchase != plan.stock.purchases.end()
             ? plain(purchase->quantity)
             : fmt::format("{:.1f} board feet", need.buy_board_feet);
}

/// How good the layouts are, and how sure the quantity.
void add_odds(const plan::Plan& plan, const stock::SolidNeed& need, Table& table) {
  const std::string bound = board_bound_text(plan, need);
  if (!bound.empty()) {
    table.rows.push_back({.cells = {{}, {.text = sentence(plain(bound))}, {}}});
  }
  if (need.odds) {
    table.rows.push_back(
        {.cells = {{}, {.text = sentence(plain(odds_text(plan, need)))}, {need.odds->from}}});
  }
}

void set_boards(Flow& flow, const plan::Plan& plan) {
  flow.heading("Boards to ask for in the yard");
  Table table{.columns = {{.header = "", .width = ColumnWidth::fixed(7)},
                          {.header = "Ask for", .width = ColumnWidth::share(1.2)},
                          {.header = "For"}},
              .rows = {},
              .empty_text = "No solid wood in this piece.",
              .style = kShopText};
  for (const stock::SolidNeed& need : plan.stock.solids) {
    table.rows.push_back({.cells = {{.text = fmt::format("{}: {} in all",
                                                         sentence(stock_name(plan, need.stock)),
                                                         bought_quantity(plan, need)),
                                     .note = plain(need.from)}},
                          .kind = Row::Kind::kHeading});
    for (const stock::BoardAsk& ask : need.asks) {
      table.rows.push_back(
          {.cells = {{"\u2610"}, {.text = ask_text(plan, ask), .strong = true}, {ask.why}}});
    }
    add_odds(plan, need, table);
  }
  set_table(flow, table);
}

void set_bands(Flow& flow, const plan::Plan& plan) {
  if (plan.stock.bands.empty()) {
    return;
  }
  flow.heading("Edge band");
  Table table{.columns = {{.header = "Band"},
                          {.header = "Edges", .width = ColumnWidth::fit(), .align = Align::kRight},
                          {.header = "On the parts", .align = Align::kRight},
                          {.header = "Buy", .align = Align::kRight}},
              .rows = {},
              .empty_text = "",
              .style = kShopText};
  for (const stock::BandNeed& need : plan.stock.bands) {
    table.rows.push_back({.cells = {{stock_name(plan, need.stock)},
                                    {std::to_string(need.edges)},
                                    {fmt::format("{:.1f} m", need.net.metres())},
                                    {need.strips ? plain(bars_bought(plan, *need.strips))
                                                 : fmt::format("{:.0f} m", need.buy.metres())}}});
  }
  set_table(flow, table);
}

}  // namespace

void add_material(const Packet& packet) {
  Flow flow = packet.sheets.flow(packet.info("Sheets and boards", "Material list"));
  set_sheets(flow, packet.plan);
  set_boards(flow, packet.plan);
  set_bars(flow, packet.plan);
  set_bands(flow, packet.plan);
  set_out_of_rack(flow, packet.plan);
  set_into_rack(flow, packet.plan);
  set_nudges(flow, packet.plan);
}

}  // namespace plankwright::papers
