// The shop itself: people, overheads, machines, clamps, standards and habits.

#include <algorithm>
#include <optional>
#include <utility>

#include <fmt/format.h>

#include "shop/read_entries.h"
#include "shop/terms.h"

namespace plankwright::shop {
namespace {

using document::Fields;

constexpr double kHoursOfYear = 8784;

void take_limit(const Fields& from, std::string_view key, std::optional<Length>& limit) {
  if (from.has(key)) {
    limit = from.length(key);
  }
}

void read_machine(const Fields& from, Machine& machine) {
  take_text(from, "name", machine.name);
  take_limit(from, "widest", machine.widest);
  take_limit(from, "thickest", machine.thickest);
  take_limit(from, "longest", machine.longest);
  take_limit(from, "shortest", machine.shortest);
  take_limit(from, "kerf", machine.kerf);
  take_within(from, "count", {1, 100}, machine.count);
  if (machine.longest && machine.shortest && *machine.longest < *machine.shortest) {
    from.complain(
        "longest",
        fmt::format("the longest piece of `{}` is shorter than its shortest", machine.id));
  }
}

void read_standard(const Fields& from, const Shop& shop, LabourStandard& standard) {
  take_text(from, "name", standard.name);
  take_word(from, "phase", standard.phase);
  take(from, "setup", standard.setup);
  take_word(from, "setup_per", standard.setup_per);
  take(from, "per_unit", standard.per_unit);
  take_identifier(from, "unit", standard.unit);
  take_within(from, "sigma", {0, 2}, standard.sigma);
  take_identifier(from, "machine", standard.machine);
  need_known(from, "machine", "machine", standard.machine, ids_of(shop.machines));
  take(from, "unattended", standard.unattended);
  take_within(from, "people", {1, 10}, standard.people);
  take_text(from, "note", standard.note);
  if (from.has("setup") || from.has("per_unit") || from.has("sigma")) {
    standard.source = "the shop's own figure";
  }
  take_text(from, "source", standard.source);
}

/// ISO 4217 codes whose amounts have no cents, or thousandths (from memory).
bool has_cents(std::string_view code) {
  constexpr std::string_view kOthers[] = {"BHD", "BIF", "CLP", "DJF", "GNF", "IQD", "ISK", "JOD",
                                          "JPY", "KMF", "KRW", "KWD", "LYD", "OMR", "PYG", "RWF",
                                          "TND", "UGX", "VND", "VUV", "XAF", "XOF", "XPF"};
  return std::ranges::find(kOthers, code) == std::end(kOthers);
}

bool is_currency_code(std::string_view code) {
  return code.size() == 3 && std::ranges::all_of(code, [](char c) { return c >= 'A' && c <= 'Z'; });
}

void take_currency(const Fields& from, measure::Currency& currency) {
  if (!from.has("currency")) {
    return;
  }
  const std::size_t before = from.mistakes();
  const std::string code = from.identifier("currency");
  if (from.mistakes() != before) {
    return;
  }
  if (!is_currency_code(code)) {
    from.complain("currency",
                  fmt::format("found `{}`, expected three capitals such as EUR, GBP or USD", code));
  } else if (!has_cents(code)) {
    from.complain("currency",
                  fmt::format("found `{}`, expected a currency with a hundred cents", code));
  } else {
    currency.code = code;
  }
}

template <class T>
void leave_out(const std::string& id, std::vector<T>& list, bool& found) {
  found = std::erase_if(list, [&](const T& entry) { return entry.id == id; }) > 0 || found;
}

std::vector<std::string> all_ids(const Shop& shop) {
  std::vector<std::string> all;
  const auto add = [&](std::vector<std::string> ids) {
    all.insert(all.end(), ids.begin(), ids.end());
  };
  add(ids_of(shop.machines));
  add(shop.stock_ids());
  add(ids_of(shop.bands));
  add(shop.fitting_ids());
  add(ids_of(shop.finishes));
  add(ids_of(shop.glues));
  return all;
}

}  // namespace

void read_names(const Fields& from, Shop& shop) {
  take_text(from, "shop", shop.name);
  take_text(from, "owner", shop.owner);
  take_texts(from, "address", shop.address);
  take_currency(from, shop.currency);
  shop.unit = from.unit();
}

void read_people(const Fields& from, Shop& shop) {
  if (from.has("people")) {
    shop.people.clear();
    for (const Fields& one : from.maps("people")) {
      Person& person = shop.people.emplace_back();
      take_text(one, "name", person.name);
      take_word(one, "role", person.role);
      take(one, "wage", person.wage);
      take_within(one, "paid_hours", {1, kHoursOfYear}, person.paid_hours);
      take_weekdays(one, "days", person.days);
    }
  }
  if (from.has("overheads")) {
    shop.overheads.clear();
    for (const Fields& one : from.maps("overheads")) {
      Overhead& overhead = shop.overheads.emplace_back();
      take_text(one, "what", overhead.what);
      take(one, "per_year", overhead.per_year);
    }
  }
  take_within(from, "utilisation", {1, 100}, shop.utilisation);
}

void read_machines(const Fields& from, Shop& shop) {
  merge_entries(from, "machines", shop.machines, {"name"}, read_machine);
}

void read_clamps(const Fields& from, Shop& shop) {
  if (!from.has("clamps")) {
    return;
  }
  constexpr double kGravity = 9.806'65;  // m/s2, exact by definition
  shop.clamps.clear();
  for (const Fields& one : from.maps("clamps")) {
    ClampSet& clamps = shop.clamps.emplace_back();
    take(one, "reach", clamps.reach);
    take_within(one, "count", {1, 10'000}, clamps.count);
    measure::Kilograms force;
    take(one, "force", force);
    clamps.force = measure::Newtons{force.count() * kGravity};
  }
}

void read_standards(const Fields& from, Shop& shop) {
  merge_entries(from,
                "standards",
                shop.standards,
                {"name", "phase", "setup", "setup_per", "per_unit", "unit", "sigma"},
                [&](const Fields& f, LabourStandard& s) { read_standard(f, shop, s); });
}

void read_allowances(const Fields& from, Shop& shop) {
  const Fields written = from.map("allowances");
  Allowances& a = shop.allowances;
  take(written, "rough_length", a.rough_length);
  take(written, "rough_width", a.rough_width);
  take(written, "glued_width", a.glued_width);
  take(written, "lamination_width", a.lamination_width);
  take(written, "sheet_trim", a.sheet_trim);
  take(written, "sheet_kerf", a.sheet_kerf);
  take(written, "saw_kerf", a.saw_kerf);
  take(written, "offcut_length", a.offcut_length);
  take(written, "offcut_width", a.offcut_width);
  take_within(written, "offcut_value", {0, 100}, a.offcut_value);
  take_within(written, "spare_boards", {0, 100}, a.spare_boards);
  take(written, "band_extra", a.band_extra);
  take_within(written, "band_waste", {0, 100}, a.band_waste);
  take(written, "show_gap", a.show_gap);
}

void read_habits(const Fields& from, Shop& shop) {
  const Fields climate = from.map("climate");
  take_within(climate, "temperature", {-20, 50}, shop.climate.temperature);
  take_within(climate, "humidity", {5, 95}, shop.climate.humidity);
  take_within(from, "job_spread", {0, 1}, shop.job_sigma);
  take(from, "consumables_per_hour", shop.consumables_per_hour);
  take(from, "delivery_trip", shop.delivery_trip);
  take_terms(from.map("terms"), shop.terms);
}

void leave_out(const Fields& from, Shop& shop) {
  for (const std::string& id : from.identifiers("without")) {
    bool found = false;
    leave_out(id, shop.machines, found);
    leave_out(id, shop.solids, found);
    leave_out(id, shop.sheets, found);
    leave_out(id, shop.bars, found);
    leave_out(id, shop.bands, found);
    leave_out(id, shop.hardware, found);
    leave_out(id, shop.finishes, found);
    leave_out(id, shop.glues, found);
    if (!found && !id.empty()) {
      base::Error error = wood::no_such_row("entry", id, all_ids(shop));
      from.complain("without",
                    fmt::format("`{}` is not in this shop, so it cannot be left out", id),
                    std::move(error.nearest));
    }
  }
}

}  // namespace plankwright::shop
