// A shop that is based on another is that one with a few changes, so the other is read first and
// the readers of the parts change it in place. The tables come before everything that names their
// rows.

#include "shop/read_shop.h"

#include <algorithm>
#include <optional>
#include <tuple>
#include <utility>

#include <fmt/format.h>

#include "document/node.h"
#include "shop/hour_rate.h"
#include "shop/labour_standards.h"
#include "shop/rack.h"
#include "shop/read_entries.h"

namespace plankwright::shop {
namespace {

using document::Fields;
using document::Node;

/// What every document of a chain of shops is read with.
struct Reading {
  const OpenFile& open;
  base::Errors errors;
  std::vector<std::string> chain;  // the files that are being read, outermost first
};

/// Nothing when the text cannot be understood.
std::optional<Shop> read_document(std::string_view text, const std::string& file, Reading& reading);

std::string scalar(const Node& root, std::string_view key) {
  const Node* node = root.find(key);
  return node != nullptr && node->kind == Node::Kind::kScalar ? node->text : std::string{};
}

/// The text of a file named in the document; nothing, with a complaint at `at`, when there is none.
std::optional<std::string> open_file(const std::string& name,
                                     const base::Position& at,
                                     Reading& reading) {
  base::Result<std::string> text = reading.open(name);
  if (text.ok()) {
    return std::move(text).value();
  }
  base::Error error = text.error();
  error.at = at;
  reading.errors.push_back(std::move(error));
  return std::nullopt;
}

/// Puts the mistakes from `first` on in the order of their files and lines.
void sort_by_place(base::Errors& errors, std::size_t first) {
  std::stable_sort(errors.begin() + static_cast<std::ptrdiff_t>(first),
                   errors.end(),
                   [](const base::Error& a, const base::Error& b) {
                     const base::Position none;
                     const base::Position& x = a.at ? *a.at : none;
                     const base::Position& y = b.at ? *b.at : none;
                     return std::tie(x.file, x.line, x.column) < std::tie(y.file, y.line, y.column);
                   });
}

/// The shop that this one is based on, an empty one when it stands on its own, nothing when the
/// other cannot be read: then nobody knows what is new here.
std::optional<Shop> read_base(const Node& root, Reading& reading) {
  const Node* based_on = root.find("based_on");
  if (based_on == nullptr) {
    return Shop{};
  }
  constexpr std::size_t kDeepest = 8;
  const auto refuse = [&](std::string why) {
    reading.errors.push_back({.message = std::move(why), .at = based_on->at});
    return std::nullopt;
  };
  const std::string& name = based_on->text;
  if (based_on->kind != Node::Kind::kScalar || name.empty()) {
    return refuse(fmt::format("found {}, expected the file of another shop", kind_of(*based_on)));
  }
  if (std::ranges::find(reading.chain, name) != reading.chain.end()) {
    return refuse(fmt::format("shops are based on each other in a circle: {} -> {}",
                              fmt::join(reading.chain, " -> "),
                              name));
  }
  if (reading.chain.size() >= kDeepest) {
    return refuse("shops are based on each other more than 8 deep");
  }
  const std::optional<std::string> text = open_file(name, based_on->at, reading);
  return text ? read_document(*text, name, reading) : std::nullopt;
}

measure::LengthUnit unit_of(const Node& root, measure::LengthUnit otherwise) {
  const std::string word = scalar(root, "units");
  if (word == "inch") {
    return measure::LengthUnit::kInch;
  }
  return word == "mm" ? measure::LengthUnit::kMillimetre : otherwise;
}

// ---- Money of another shop ----------------------------------------------------------------------

template <class T>
void exchange(std::vector<T>& list, std::initializer_list<Money T::*> prices, double rate) {
  for (T& entry : list) {
    for (Money T::*price : prices) {
      entry.*price = measure::scaled(entry.*price, rate);
    }
  }
}

/// Every price, wage and overhead in another currency. What the price is rounded to is a habit, not
/// a price, and stays.
void exchange_prices(Shop& shop, double rate) {
  exchange(shop.people, {&Person::wage}, rate);
  exchange(shop.overheads, {&Overhead::per_year}, rate);
  exchange(shop.solids, {&SolidStock::price}, rate);
  exchange(shop.sheets, {&SheetStock::price}, rate);
  for (BarStock& bar : shop.bars) {
    exchange(bar.lengths, {&SoldLength::price}, rate);
  }
  exchange(shop.bands, {&BandStock::price_per_metre}, rate);
  for (BandStock& band : shop.bands) {
    exchange(band.strips, {&SoldLength::price}, rate);
  }
  exchange(shop.rack, {&RackPiece::value}, rate);
  exchange(shop.hardware, {&Hardware::price, &Hardware::freight}, rate);
  exchange(shop.finishes, {&Finish::price_per_litre, &Finish::price_per_square_metre}, rate);
  exchange(shop.glues, {&Glue::price_per_litre}, rate);
  shop.consumables_per_hour = measure::scaled(shop.consumables_per_hour, rate);
  shop.delivery_trip = measure::scaled(shop.delivery_trip, rate);
}

/// Prices taken over from a shop with other money must be changed into this one's.
void take_exchange(const Fields& from, const std::string& base_currency, Shop& shop) {
  const bool based = from.has("based_on");
  if (!based && from.has("exchange")) {
    from.complain("exchange", "`exchange` is for a shop that is based on another");
    return;
  }
  double rate = 1;
  take_within(from, "exchange", {0.0001, 10'000}, rate);
  if (based && shop.currency.code != base_currency && !from.has("exchange")) {
    from.complain("currency",
                  fmt::format("the prices of {} are in {}; write `exchange`, how many {} one {} is",
                              from.text("based_on"),
                              base_currency,
                              shop.currency.code,
                              base_currency));
  }
  if (rate != 1) {
    exchange_prices(shop, rate);
  }
}

// ---- Tables -------------------------------------------------------------------------------------

/// Reads one table that the document names, or the usual one when there is no other shop to have it
/// from.
template <class T, class Read>
void read_table(const Fields& tables, std::string_view key, Reading& reading, T& into, Read read) {
  const std::string name = tables.text(key);
  const std::optional<std::string> text = open_file(name, tables.at(key), reading);
  if (!text) {
    return;
  }
  auto table = read(*text, name);
  if (table.ok()) {
    into = std::move(table).value();
  } else {
    reading.errors.push_back(table.error());
  }
}

bool names_table(const Fields& from, const Fields& tables, std::string_view key) {
  return tables.has(key) || !from.has("based_on");
}

void read_reference(const Fields& from, Reading& reading, Shop& shop) {
  const Fields tables = from.map("tables");
  if (names_table(from, tables, "species")) {
    read_table(tables, "species", reading, shop.species, wood::read_species);
  }
  if (names_table(from, tables, "panels")) {
    read_table(tables, "panels", reading, shop.panels, wood::read_panels);
  }
  if (names_table(from, tables, "adhesives")) {
    read_table(tables, "adhesives", reading, shop.adhesives, wood::read_adhesives);
  }
  if (names_table(from, tables, "finishes")) {
    read_table(tables, "finishes", reading, shop.finish_types, wood::read_finishes);
  }
}

void read_standards_table(const Fields& from, Reading& reading, Shop& shop) {
  const Fields tables = from.map("tables");
  if (!names_table(from, tables, "labour_standards")) {
    return;
  }
  const std::string name = tables.text("labour_standards");
  const auto text = open_file(name, tables.at("labour_standards"), reading);
  if (!text) {
    return;
  }
  const std::vector<std::string> machines = ids_of(shop.machines);
  for (LabourStandard& standard : read_labour_standards(*text, name, machines, reading.errors)) {
    const auto it = std::ranges::find(shop.standards, standard.id, &LabourStandard::id);
    if (it == shop.standards.end()) {
      shop.standards.push_back(std::move(standard));
    } else {
      *it = std::move(standard);
    }
  }
}

// ---- The document -------------------------------------------------------------------------------

/// A shop that stands on its own must say all that no other shop can say for it.
void need_all(const Fields& from) {
  need(from,
       "a shop that is not based on another",
       {"shop", "currency", "units", "people", "utilisation", "allowances", "terms"});
  if (from.has("allowances")) {
    need(from.map("allowances"),
         "a shop that is not based on another",
         {"rough_length", "rough_width", "glued_width", "sheet_trim", "sheet_kerf", "saw_kerf"});
  }
  if (from.has("terms")) {
    need(
        from.map("terms"), "a shop that is not based on another", {"margin", "tax", "instalments"});
  }
}

void reckon_hour(const Fields& from, Reading& reading, Shop& shop) {
  const bool people_are_good = std::ranges::all_of(
      shop.people, [](const Person& p) { return p.wage > Money{} && p.paid_hours > 0; });
  if (shop.people.empty() && !from.has("people")) {
    return;  // said already: either here or in the shop this one is based on
  }
  if (!people_are_good) {
    return;
  }
  base::Result<HourRate> rate = hour_rate(shop.people, shop.overheads, shop.utilisation);
  if (rate.ok()) {
    shop.hour = rate.value();
    return;
  }
  base::Error error = rate.error();
  error.at = from.at("people");
  reading.errors.push_back(std::move(error));
}

/// The rack stands in a file of its own, because it changes every week.
void read_rack_file(const Fields& from, Reading& reading, Shop& shop) {
  std::erase_if(shop.rack, [&](const RackPiece& piece) {  // of what this shop does not have
    return shop.solid(piece.stock) == nullptr && shop.sheet(piece.stock) == nullptr &&
           shop.bar(piece.stock) == nullptr;
  });
  if (!from.has("rack")) {
    return;
  }
  const std::string name = from.text("rack");
  if (const auto text = open_file(name, from.at("rack"), reading)) {
    ReadRack read = read_rack(*text, name, shop);
    shop.rack = std::move(read.pieces);
    reading.errors.insert(reading.errors.end(), read.errors.begin(), read.errors.end());
  }
}

void read_parts(const Fields& from, Reading& reading, Shop& shop) {
  read_reference(from, reading, shop);
  read_people(from, shop);
  read_machines(from, shop);
  read_standards_table(from, reading, shop);
  read_standards(from, shop);
  read_clamps(from, shop);
  read_solids(from, shop);
  read_sheets(from, shop);
  read_bars(from, shop);
  read_bands(from, shop);
  read_hardware(from, shop);
  read_finishes(from, shop);
  read_glues(from, shop);
  read_allowances(from, shop);
  read_working_days(from, shop);
  read_habits(from, shop);
  leave_out(from, shop);
  read_rack_file(from, reading, shop);
  reckon_hour(from, reading, shop);
}

std::optional<Shop> read_document(std::string_view text,
                                  const std::string& file,
                                  Reading& reading) {
  document::Parsed parsed = document::parse_yaml(text, file);
  reading.errors.insert(reading.errors.end(), parsed.errors.begin(), parsed.errors.end());
  if (!parsed.readable) {
    return std::nullopt;
  }
  reading.chain.push_back(file);
  std::optional<Shop> shop = read_base(parsed.root, reading);
  reading.chain.pop_back();
  if (!shop) {
    return std::nullopt;
  }
  const std::size_t errors_of_base = reading.errors.size();
  const std::string base_currency = shop->currency.code;
  const document::Names names{unit_of(parsed.root, shop->unit)};
  const Fields from{parsed.root, shop_fields(), names, reading.errors};
  if (!from.has("based_on")) {
    need_all(from);
  }
  from.word("units");
  read_names(from, *shop);
  take_exchange(from, base_currency, *shop);
  read_parts(from, reading, *shop);
  sort_by_place(reading.errors, errors_of_base);
  return shop;
}

}  // namespace

ReadShop read_shop(std::string_view text, const std::string& file, const OpenFile& open) {
  Reading reading{.open = open, .errors = {}, .chain = {}};
  ReadShop read;
  read.shop = read_document(text, file, reading).value_or(Shop{});
  read.errors = std::move(reading.errors);
  return read;
}

}  // namespace plankwright::shop
