// Boards, sheets, bars and edge bands.

#include <fmt/format.h>

#include "shop/read_entries.h"

namespace plankwright::shop {
namespace {

using document::Fields;

constexpr double kMostOfStock = 1000;  // board feet or sheets in one lot

/// A price belongs to the unit it is for: whoever changes one must write the other.
void take_unit_sold(const Fields& from, SolidStock& stock) {
  if (!from.has("sold_by")) {
    return;
  }
  const SoldBy before = stock.sold_by;
  const bool by_volume = from.word("sold_by") == "cubic_metre";
  stock.sold_by = by_volume ? SoldBy::kCubicMetre : SoldBy::kBoardFoot;
  if (stock.sold_by != before && !from.has("price")) {
    from.complain(
        "sold_by",
        fmt::format("`{}` is now sold by another unit, so its `price` must be written too",
                    stock.id));
  }
}

void take_thickness(const Fields& from, SolidStock& stock) {
  if (from.has("quarters")) {
    take_within(from, "quarters", {1, 32}, stock.quarters);
    stock.rough_thickness = Length::from_inches(stock.quarters / 4.0);
  }
  take(from, "rough_thickness", stock.rough_thickness);
  take(from, "surfaced", stock.surfaced_thickness);
  if (stock.surfaced_thickness > stock.rough_thickness) {
    from.complain("surfaced",
                  fmt::format("`{}` cannot be thicker surfaced ({}) than rough ({})",
                              stock.id,
                              print_with_unit(stock.surfaced_thickness, from.unit()),
                              print_with_unit(stock.rough_thickness, from.unit())));
  }
}

void read_solid(const Fields& from, const Shop& shop, SolidStock& stock) {
  take_text(from, "name", stock.name);
  take_identifier(from, "species", stock.species);
  need_known(from, "species", "wood", stock.species, shop.species.ids());
  take_word(from, "cut_kind", stock.cut_kind);
  take_thickness(from, stock);
  take_text(from, "grade", stock.grade);
  take_unit_sold(from, stock);
  take(from, "price", stock.price);
  take_within(from, "least", {0, kMostOfStock}, stock.least);
  take_within(from, "step", {0, kMostOfStock}, stock.step);
  take(from, "board_width", stock.board_width);
  take(from, "board_length", stock.board_length);
  take_within(from, "buy_factor", {1, 5}, stock.buy_factor);
  take_text(from, "supplier", stock.supplier);
  take_within(from, "lead_days", kLeadDays, stock.lead_days);
}

void read_sheet(const Fields& from, const Shop& shop, SheetStock& stock) {
  take_text(from, "name", stock.name);
  take_identifier(from, "panel", stock.panel);
  need_known(from, "panel", "kind of sheet", stock.panel, shop.panels.ids());
  take_identifier(from, "face_species", stock.face_species);
  need_known(from, "face_species", "wood", stock.face_species, shop.species.ids());
  take(from, "thickness", stock.thickness);
  take(from, "length", stock.length);
  take(from, "width", stock.width);
  take(from, "price", stock.price);
  take_within(from, "smallest_share", {0.1, 1}, stock.smallest_share);
  take(from, "grain", stock.grain);
  take_text(from, "supplier", stock.supplier);
  take_within(from, "lead_days", kLeadDays, stock.lead_days);
}

/// The lengths something is sold in, all anew when they are written.
void take_lengths(const Fields& from, std::string_view key, std::vector<SoldLength>& lengths) {
  if (!from.has(key)) {
    return;
  }
  constexpr std::size_t kMost = 20;
  lengths.clear();
  for (const Fields& one : from.maps(key)) {
    SoldLength sold;
    take(one, "length", sold.length);
    take(one, "price", sold.price);
    const bool twice = std::ranges::any_of(
        lengths, [&](const SoldLength& other) { return other.length == sold.length; });
    if (twice && sold.length > Length{}) {
      one.complain("length",
                   fmt::format("{} stands twice among these lengths",
                               print_with_unit(sold.length, from.unit())));
    }
    lengths.push_back(sold);
  }
  if (lengths.size() > kMost) {
    from.complain(key, fmt::format("expected at most {} lengths", kMost));
  }
}

/// The longest piece sold must leave something between its trimmed ends.
void check_bar(const Fields& from, const BarStock& stock) {
  Length longest;
  for (const SoldLength& sold : stock.lengths) {
    longest = std::max(longest, sold.length);
  }
  if (longest > Length{} && stock.end_trim * 2 >= longest) {
    from.complain(from.has("end_trim") ? "end_trim" : "lengths",
                  fmt::format("`{}` is trimmed by {} at each end, and its longest bar is {}",
                              stock.id,
                              print_with_unit(stock.end_trim, from.unit()),
                              print_with_unit(longest, from.unit())));
  }
  if (stock.lengths.empty()) {
    from.complain("lengths", fmt::format("`{}` needs at least one length it is sold in", stock.id));
  }
  if (stock.thickness > stock.width) {
    from.complain(from.has("thickness") ? "thickness" : "width",
                  fmt::format("`{}` is thicker ({}) than wide ({}): the larger side is its width",
                              stock.id,
                              print_with_unit(stock.thickness, from.unit()),
                              print_with_unit(stock.width, from.unit())));
  }
  if (stock.species.empty() && stock.kg_per_metre <= 0) {
    from.complain("kg_per_metre",
                  fmt::format("`{}` is of no wood of the table, so its `kg_per_metre` must be "
                              "written",
                              stock.id));
  }
}

void read_bar(const Fields& from, const Shop& shop, BarStock& stock) {
  const std::size_t before = from.mistakes();
  take_text(from, "name", stock.name);
  take_identifier(from, "species", stock.species);
  need_known(from, "species", "wood", stock.species, shop.species.ids());
  take_word(from, "cut_kind", stock.cut_kind);
  take(from, "width", stock.width);
  take(from, "thickness", stock.thickness);
  take_lengths(from, "lengths", stock.lengths);
  take(from, "end_trim", stock.end_trim);
  take_within(from, "kg_per_metre", {0, kMostOfStock}, stock.kg_per_metre);
  take_text(from, "supplier", stock.supplier);
  take_within(from, "lead_days", kLeadDays, stock.lead_days);
  if (from.mistakes() == before) {
    check_bar(from, stock);
  }
}

void read_band(const Fields& from, BandStock& stock) {
  take_text(from, "name", stock.name);
  take(from, "thickness", stock.thickness);
  take(from, "width", stock.width);
  take(from, "price_per_metre", stock.price_per_metre);
  take(from, "roll", stock.roll);
  take_lengths(from, "strips", stock.strips);
  if (from.has("strips") && from.has("roll")) {
    from.complain("strips",
                  fmt::format("`{}` is sold in strips or by the roll, not both", stock.id));
  } else if (stock.strips.empty() && stock.price_per_metre == Money{} &&
             !from.has("price_per_metre")) {
    from.complain(
        "price_per_metre",
        fmt::format("`{}`, which is new here, needs its `price_per_metre` or the `strips` "
                    "it is sold in",
                    stock.id));
  }
  take_text(from, "supplier", stock.supplier);
  take_within(from, "lead_days", kLeadDays, stock.lead_days);
}

}  // namespace

void read_solids(const Fields& from, Shop& shop) {
  merge_entries(from,
                "solids",
                shop.solids,
                {"name", "species", "quarters", "surfaced", "price", "board_width", "board_length"},
                [&](const Fields& f, SolidStock& stock) { read_solid(f, shop, stock); });
}

void read_sheets(const Fields& from, Shop& shop) {
  merge_entries(from,
                "sheets",
                shop.sheets,
                {"name", "panel", "thickness", "length", "width", "price"},
                [&](const Fields& f, SheetStock& stock) { read_sheet(f, shop, stock); });
}

void read_bars(const Fields& from, Shop& shop) {
  merge_entries(from,
                "bars",
                shop.bars,
                {"name", "width", "thickness", "lengths"},
                [&](const Fields& f, BarStock& stock) { read_bar(f, shop, stock); });
}

void read_bands(const Fields& from, Shop& shop) {
  merge_entries(from, "bands", shop.bands, {"name", "thickness", "width"}, read_band);
}

}  // namespace plankwright::shop
