// What is bought: fittings by place, and the list for the shops.

#include <algorithm>

#include <fmt/format.h>

#include "papers/packet.h"
#include "papers/table.h"
#include "papers/wording.h"

namespace plankwright::papers {
namespace {

const std::string kTick = "\u2610";

Column tick_column() {
  return {.header = "", .width = ColumnWidth::fixed(7)};
}

Column right_fit(std::string header) {
  return {.header = std::move(header),
          .width = ColumnWidth::fit(),
          .align = Align::kRight,
          .numbers = true};
}

std::string order_by(const stock::Purchase& purchase) {
  return purchase.order_by ? measure::print(*purchase.order_by) : "";
}

std::string lead(int days) {
  return days > 0 ? fmt::format("{} working {}", days, days == 1 ? "day" : "days") : "";
}

/// Of many places the first two, and how many more: the hardware list names them all.
std::string shortened(const std::string& places) {
  constexpr std::size_t kMost = 3;
  constexpr std::string_view kBetween = ", ";
  const auto count = [&] {
    std::size_t n = 1;
    for (std::size_t at = places.find(kBetween); at != std::string::npos;
         at = places.find(kBetween, at + 1)) {
      ++n;
    }
    return n;
  }();
  if (count <= kMost || places.find(" more") != std::string::npos) {
    return places;
  }
  const std::size_t second = places.find(kBetween, places.find(kBetween) + 1);
  return fmt::format("{} and {} more", places.substr(0, second), count - 2);
}

/// Half a sheet as one says it.
std::string quantity(const stock::Purchase& purchase) {
  constexpr std::string_view kHalf = "0.5 ";
  const std::string text = plain(purchase.quantity);
  return text.starts_with(kHalf) ? "1/2 " + text.substr(kHalf.size()) : text;
}

/// What must be ordered first stands first; the rest as it was.
std::vector<stock::Purchase> by_day(const plan::Plan& plan) {
  std::vector<stock::Purchase> purchases = plan.stock.purchases;
  std::ranges::stable_sort(purchases, [](const stock::Purchase& a, const stock::Purchase& b) {
    if (a.order_by && b.order_by) {
      return std::chrono::sys_days{*a.order_by} < std::chrono::sys_days{*b.order_by};
    }
    return a.order_by.has_value() && !b.order_by.has_value();
  });
  return purchases;
}

measure::Money sum_of(const std::vector<stock::Purchase>& purchases) {
  measure::Money sum;
  for (const stock::Purchase& purchase : purchases) {
    sum += purchase.price;
  }
  return sum;
}

}  // namespace

void add_hardware(const Packet& packet) {
  const plan::Plan& plan = packet.plan;
  Flow flow = packet.sheets.flow(packet.info("Hardware", "Hardware list"));
  flow.paragraph(
      "Have the fittings here before the first hole is bored, and hold their sheets against the "
      "sizes used.",
      kShopText);
  Table table{.columns = {tick_column(),
                          {.header = "Fitting"},
                          right_fit("Pieces"),
                          right_fit("Packs"),
                          {.header = "Where"}},
              .rows = {},
              .empty_text = "No hardware in this piece.",
              .style = kShopText};
  for (const stock::HardwareNeed& need : plan.stock.hardware) {
    std::string where;
    for (const std::string& place : need.where) {
      where += (where.empty() ? "" : "; ") + place;
    }
    table.rows.push_back({.cells = {{kTick},
                                    {.text = stock_name(plan, need.id),
                                     .note = need.client_item ? "the client brings it" : ""},
                                    {.text = std::to_string(need.count), .strong = true},
                                    {std::to_string(need.packs)},
                                    {plain(where)}}});
  }
  set_table(flow, table);
}

void add_shopping_list(const Packet& packet) {
  const plan::Plan& plan = packet.plan;
  Flow flow = packet.sheets.flow(packet.info("Shopping list", "Shopping list"), true);
  Table table{.columns = {tick_column(),
                          {.header = "What"},
                          {.header = "Quantity", .width = ColumnWidth::share(0.8)},
                          {.header = "For"},
                          {.header = "From", .width = ColumnWidth::share(0.7)},
                          right_fit("Order by"),
                          {.header = "Lead", .width = ColumnWidth::fit()},
                          right_fit("Price")},
              .rows = {},
              .empty_text = "Nothing is bought for this piece.",
              .style = kShopText};
  const std::vector<stock::Purchase> purchases = by_day(plan);
  for (const stock::Purchase& purchase : purchases) {
    table.rows.push_back({.cells = {{kTick},
                                    {.text = purchase.what, .strong = true},
                                    {quantity(purchase)},
                                    {shortened(plain(purchase.what_for))},
                                    {purchase.supplier},
                                    {order_by(purchase)},
                                    {lead(purchase.lead_days)},
                                    {money(plan, purchase.price)}}});
  }
  if (!purchases.empty()) {
    table.rows.push_back({.cells = {{""},
                                    {"All together"},
                                    {""},
                                    {""},
                                    {""},
                                    {""},
                                    {""},
                                    {money(plan, sum_of(purchases))}},
                          .kind = Row::Kind::kTotal});
  }
  set_table(flow, table);
}

}  // namespace plankwright::papers
