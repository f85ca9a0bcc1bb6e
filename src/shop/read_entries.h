#pragma once
// The parts of a Shop document: each function reads one of them and changes the shop by what is
// written. Internal to this room; what may be written is in shop_fields().

#include <algorithm>
#include <initializer_list>
#include <string>
#include <string_view>
#include <vector>

#include "document/fields.h"
#include "shop/shop.h"
#include "shop/take.h"

namespace plankwright::shop {

/// Working days that anybody waits for something.
constexpr Limits kLeadDays{.least = 0, .most = 1000};

/// Reads a map of entries by id: an id that is in the list already changes its entry, another one
/// is added at the end and must write all of `needed`. `read` reads one entry.
template <class T, class Read>
void merge_entries(const document::Fields& from,
                   std::string_view key,
                   std::vector<T>& list,
                   std::initializer_list<std::string_view> needed,
                   const Read& read) {
  for (const auto& [id, fields] : from.named_maps(key)) {
    auto it = std::ranges::find(list, id, &T::id);
    if (it == list.end()) {
      need(fields, "`" + id + "`, which is new here,", needed);
      list.emplace_back().id = id;
      it = list.end() - 1;
    }
    read(fields, *it);
  }
}

// What is bought (read_stock.cpp, read_fittings.cpp).
void read_solids(const document::Fields& from, Shop& shop);
void read_sheets(const document::Fields& from, Shop& shop);
void read_bars(const document::Fields& from, Shop& shop);
void read_bands(const document::Fields& from, Shop& shop);
void read_hardware(const document::Fields& from, Shop& shop);
void read_finishes(const document::Fields& from, Shop& shop);
void read_glues(const document::Fields& from, Shop& shop);

// What the shop is (read_house.cpp).
void read_names(const document::Fields& from, Shop& shop);
void read_people(const document::Fields& from, Shop& shop);
void read_machines(const document::Fields& from, Shop& shop);
void read_clamps(const document::Fields& from, Shop& shop);
void read_standards(const document::Fields& from, Shop& shop);
void read_allowances(const document::Fields& from, Shop& shop);
void read_working_days(const document::Fields& from, Shop& shop);
void read_habits(const document::Fields& from, Shop& shop);

/// The days of the week listed under `key`, or complaints; `days` stays when it is not written.
void take_weekdays(const document::Fields& from, std::string_view key, Weekdays& days);
void take_weekdays(const document::Fields& from,
                   std::string_view key,
                   std::optional<Weekdays>& days);

/// Takes out what is named under `without`.
void leave_out(const document::Fields& from, Shop& shop);

}  // namespace plankwright::shop
