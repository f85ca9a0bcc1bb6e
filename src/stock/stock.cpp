#include "stock/stock.h"

#include <algorithm>
#include <cmath>
#include <set>

#include <fmt/format.h>

#include "measure/expression.h"
#include "piece/surface.h"
#include "stock/parts.h"

namespace plankwright::stock {
namespace {

/// Ids in the order of the shop's list that any part of the piece asks for.
template <class Stocks, class Use>
void for_each_used(const Stocks& stocks, const std::set<std::string>& used, const Use& use) {
  for (const auto& stock : stocks) {
    if (used.contains(stock.id)) {
      use(stock);
    }
  }
}

std::set<std::string> used_ids(const piece::Piece& piece) {
  std::set<std::string> used;
  for (const piece::Part& part : piece.parts) {
    used.insert(part.stock);
    for (const piece::EdgeBand& band : part.bands) {
      used.insert(band.stock);
    }
  }
  for (const piece::HardwareUse& use : piece.hardware) {
    used.insert(use.id);
  }
  return used;
}

std::string what_for(const piece::Piece& piece, const std::string& stock) {
  std::vector<std::string> names;
  for (const piece::Part& part : piece.parts) {
    if (part.stock == stock && std::ranges::find(names, part.name) == names.end()) {
      names.push_back(part.name);
    }
  }
  std::string text;
  for (std::size_t i = 0; i < std::min<std::size_t>(names.size(), 4); ++i) {
    text += (i == 0 ? "" : ", ") + names[i];
  }
  return names.size() > 4 ? text + fmt::format(" and {} more", names.size() - 4) : text;
}

void buy_solid(Stock& stock,
               const piece::Piece& piece,
               const shop::Shop& shop,
               const shop::SolidStock& solid,
               double work,
               const Tally& tally,
               const wood::BoardFaultTable& faults) {
  SolidNeed need = solid_need(piece, shop, solid, work, tally, faults);
  stock.solid_price += need.price;
  const bool cubic = solid.sold_by == shop::SoldBy::kCubicMetre;
  if (need.buy_sold <= 0 && need.rack_board_feet > 0) {
    stock.solids.push_back(std::move(need));
    return;
  }
  stock.purchases.push_back({solid.name,
                             solid.id,
                             "solid",
                             cubic ? fmt::format("{:.3f} m3", need.buy_sold)
                                   : fmt::format("{:g} board feet", need.buy_sold),
                             what_for(piece, solid.id),
                             need.price,
                             solid.supplier,
                             solid.lead_days,
                             std::nullopt});
  stock.solids.push_back(std::move(need));
}

void buy_sheets(Stock& stock,
                const piece::Piece& piece,
                const shop::Shop& shop,
                const shop::SheetStock& sheet,
                double work) {
  SheetNeed need = sheet_need(piece, shop, sheet, work);
  stock.sheet_price += need.price;
  if (need.buy_sheets > 0 || need.rack_pieces == 0) {
    stock.purchases.push_back(
        {sheet.name,
         sheet.id,
         "sheet",
         fmt::format("{:g} sheet{}", need.buy_sheets, need.buy_sheets > 1 ? "s" : ""),
         what_for(piece, sheet.id),
         need.price,
         sheet.supplier,
         sheet.lead_days,
         std::nullopt});
  }
  stock.sheets.push_back(std::move(need));
}

/// `3 of 2400 mm, 1 of 3600 mm`.
std::string by_length(const std::vector<BarBuy>& buys, measure::LengthUnit unit) {
  std::string text;
  for (const BarBuy& buy : buys) {
    text += fmt::format("{}{} of {}",
                        text.empty() ? "" : ", ",
                        buy.count,
                        measure::print_with_unit(buy.length, unit));
  }
  return text;
}

void refuse_too_long(Stock& stock,
                     const piece::Piece& piece,
                     const shop::Shop& shop,
                     const shop::BarStock& bar,
                     const BarNeed& need) {
  Length longest;
  for (const shop::SoldLength& sold : bar.lengths) {
    longest = std::max(longest, sold.length - bar.end_trim * 2);
  }
  for (const PartIndex i : need.unplaced) {
    const piece::Part& part = piece.parts[i];
    stock.errors.push_back(
        {base::ErrorCode::kDoesNotFit,
         fmt::format("the {} is {} long, {} more than the longest {} gives ({})",
                     part.name,
                     measure::print_with_unit(part.cut.length, shop.unit),
                     measure::print_with_unit(part.cut.length - longest, shop.unit),
                     bar.name,
                     measure::print_with_unit(longest, shop.unit)),
         part.from});
  }
}

void buy_bars(Stock& stock,
              const piece::Piece& piece,
              const shop::Shop& shop,
              const shop::BarStock& bar,
              double work) {
  BarNeed need = bar_need(piece, shop, bar, work);
  refuse_too_long(stock, piece, shop, bar, need);
  stock.bar_price += need.price;
  if (!need.buys.empty()) {
    stock.purchases.push_back({bar.name,
                               bar.id,
                               "bar",
                               by_length(need.buys, shop.unit),
                               what_for(piece, bar.id),
                               need.price,
                               bar.supplier,
                               bar.lead_days,
                               std::nullopt});
  }
  stock.bars.push_back(std::move(need));
}

void refuse_long_edges(Stock& stock,
                       const piece::Piece& piece,
                       const shop::Shop& shop,
                       const shop::BandStock& band,
                       const BandNeed& need) {
  for (const PartIndex i : need.strips ? need.strips->unplaced : std::vector<PartIndex>{}) {
    stock.errors.push_back(
        {base::ErrorCode::kDoesNotFit,
         fmt::format("an edge of the {} with {} to trim is longer than every strip of {}",
                     piece.parts[i].name,
                     measure::print_with_unit(shop.allowances.band_extra, shop.unit),
                     band.name),
         piece.parts[i].from});
  }
}

void buy_band(Stock& stock,
              const piece::Piece& piece,
              const shop::Shop& shop,
              const shop::BandStock& band) {
  BandNeed need = band_need(piece, shop, band);
  refuse_long_edges(stock, piece, shop, band, need);
  stock.band_price += need.price;
  stock.purchases.push_back({band.name,
                             band.id,
                             "band",
                             need.strips ? by_length(need.strips->buys, shop.unit)
                                         : fmt::format("{:.0f} m", need.buy.metres()),
                             fmt::format("{} edges", need.edges),
                             need.price,
                             band.supplier,
                             band.lead_days,
                             std::nullopt});
  stock.bands.push_back(std::move(need));
}

void buy_fitting(Stock& stock, const piece::Piece& piece, const shop::Hardware& fitting) {
  HardwareNeed need = hardware_need(piece, fitting);
  stock.hardware_price += need.price;
  std::string where;
  for (const std::string& place : need.where) {
    where += (where.empty() ? "" : ", ") + place;
  }
  stock.purchases.push_back({fitting.name,
                             fitting.id,
                             "hardware",
                             fitting.pack > 1 ? fmt::format("{} pack{} of {} ({} used)",
                                                            need.packs,
                                                            need.packs == 1 ? "" : "s",
                                                            fitting.pack,
                                                            need.count)
                                              : fmt::format("{}", need.count),
                             where,
                             need.price,
                             need.client_item ? "the client" : fitting.supplier,
                             fitting.lead_days,
                             std::nullopt});
  stock.hardware.push_back(std::move(need));
}

void buy_finish(Stock& stock, const piece::Piece& piece, const shop::Finish& finish) {
  FinishNeed need = finish_need(piece, finish);
  stock.finish_price += need.price;
  if (need.litres > 0) {
    stock.purchases.push_back(
        {finish.name,
         finish.id,
         "finish",
         fmt::format("{:.1f} l", need.litres),
         fmt::format("{} coats on {:.1f} m2", finish.coats, measure::square_metres(need.area)),
         need.price,
         "",
         finish.lead_days,
         std::nullopt});
  }
  stock.finish = std::move(need);
}

}  // namespace

BandNeed band_need(const piece::Piece& piece,
                   const shop::Shop& shop,
                   const shop::BandStock& stock) {
  BandNeed need;
  need.stock = stock.id;
  std::vector<BarPiece> edges;
  for (PartIndex i = 0; i < piece.parts.size(); ++i) {
    const piece::Part& part = piece.parts[i];
    for (const piece::EdgeBand& band : part.bands) {
      if (band.stock == stock.id) {
        const bool end = band.side.axis == part.length_axis;
        const Length edge = end ? part.finished.width : part.finished.length;
        edges.push_back({i, {}, edge + shop.allowances.band_extra});
        need.net += edge;
        ++need.edges;
      }
    }
  }
  if (!stock.strips.empty()) {
    need.strips = strips_of_band(shop, stock, edges);
    need.price = need.strips->price;
    for (const BarBuy& buy : need.strips->buys) {
      need.buy += buy.length * buy.count;
    }
    return need;
  }
  const Length cut = need.net + shop.allowances.band_extra * need.edges;
  const Length step = stock.roll > Length{} ? stock.roll : Length::from_mm(1000);
  const Length wanted = measure::scaled(cut, 1 + shop.allowances.band_waste.count() / 100);
  need.buy = step * ((wanted.nm() + step.nm() - 1) / step.nm());
  need.price = measure::scaled(stock.price_per_metre, need.buy.metres());
  return need;
}

HardwareNeed hardware_need(const piece::Piece& piece, const shop::Hardware& fitting) {
  HardwareNeed need;
  need.id = fitting.id;
  need.client_item = fitting.client_item;
  for (const piece::HardwareUse& use : piece.hardware) {
    if (use.id == fitting.id) {
      need.count += use.count;
      if (std::ranges::find(need.where, use.where) == need.where.end()) {
        need.where.push_back(use.where);
      }
    }
  }
  const int pack = std::max(1, fitting.pack);
  need.packs = (need.count + pack - 1) / pack;
  need.price = fitting.client_item ? Money{} : fitting.price * need.packs + fitting.freight;
  return need;
}

FinishNeed finish_need(const piece::Piece& piece, const shop::Finish& finish) {
  FinishNeed need;
  need.finish = finish.id;
  for (const measure::SquareMillimetres area : piece::finished_areas(piece)) {
    need.area += area;
  }
  const double spread = finish.square_metres_per_litre * finish.transfer.count() / 100;
  if (spread > 0 && finish.applied != "outside") {
    constexpr double kHalfLitre = 0.5;  // how it is sold
    const double litres = measure::square_metres(need.area) * finish.coats / spread;
    need.litres = std::ceil(litres / kHalfLitre) * kHalfLitre;
    need.price = measure::scaled(finish.price_per_litre, need.litres);
    need.from = fmt::format("{:.1f} m2 x {} coats / ({:g} m2 a litre x {:.0f} %) = {:.2f} l",
                            measure::square_metres(need.area),
                            finish.coats,
                            finish.square_metres_per_litre,
                            finish.transfer.count(),
                            litres);
  }
  return need;
}

Stock plan_stock(const piece::Piece& piece,
                 const shop::Shop& shop,
                 const std::string& finish,
                 double work,
                 const Tally& tally,
                 const wood::BoardFaultTable& faults) {
  Stock stock;
  const std::set<std::string> used = used_ids(piece);
  for_each_used(shop.solids, used, [&](const auto& s) {
    buy_solid(stock, piece, shop, s, work, tally, faults);
  });
  for_each_used(shop.sheets, used, [&](const auto& s) { buy_sheets(stock, piece, shop, s, work); });
  for_each_used(shop.bars, used, [&](const auto& s) { buy_bars(stock, piece, shop, s, work); });
  for_each_used(shop.bands, used, [&](const auto& s) { buy_band(stock, piece, shop, s); });
  for_each_used(shop.hardware, used, [&](const auto& h) { buy_fitting(stock, piece, h); });
  if (const shop::Finish* chosen = shop.finish(finish)) {
    buy_finish(stock, piece, *chosen);
  }
  settle_the_rack(stock, shop);
  return stock;
}

}  // namespace plankwright::stock
