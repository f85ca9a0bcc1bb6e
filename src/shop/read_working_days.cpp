// When the shop works: the days of the week, the hours of a day, the days it is closed.

#include <algorithm>
#include <array>
#include <chrono>

#include <fmt/format.h>

#include "base/nearest.h"
#include "base/quote.h"
#include "shop/read_entries.h"

namespace plankwright::shop {
namespace {

using document::Fields;

constexpr std::array<std::string_view, 7> kDayNames = {
    "monday", "tuesday", "wednesday", "thursday", "friday", "saturday", "sunday"};
constexpr int kMinutesOfDay = 24 * 60;

bool is_digit(char c) {
  return c >= '0' && c <= '9';
}

/// `8:00` as minutes after midnight; nothing when it is no time of day.
std::optional<int> time_of_day(std::string_view text) {
  const std::size_t colon = text.find(':');
  if (colon == 0 || colon > 2 || text.size() != colon + 3) {
    return std::nullopt;
  }
  std::string digits{text};
  digits.erase(colon, 1);
  if (!std::ranges::all_of(digits, is_digit)) {
    return std::nullopt;
  }
  const int number = std::stoi(digits);
  const int minutes = number / 100 * 60 + number % 100;
  return number % 100 < 60 && minutes < kMinutesOfDay ? std::optional{minutes} : std::nullopt;
}

void take_start(const Fields& from, int& starts) {
  if (!from.has("starts")) {
    return;
  }
  const std::string text = from.text("starts");
  if (const std::optional<int> minutes = time_of_day(text)) {
    starts = *minutes;
  } else if (!text.empty()) {
    from.complain("starts",
                  fmt::format("found {}, expected a time of day such as 8:00", base::quote(text)));
  }
}

void read_workday(const Fields& from, Workday& day) {
  take_within(from, "hours", {0.5, 24}, day.hours);
  take_within(from, "hands_on", {5, 100}, day.hands_on);
  take_start(from, day.starts);
  take_weekdays(from, "days", day.days);
  if (day.starts + day.hours * 60 > kMinutesOfDay) {
    from.complain(from.has("starts") ? "starts" : "hours", "the day does not end before midnight");
  }
}

void read_closed(const Fields& from, Shop& shop) {
  if (!from.has("closed")) {
    return;
  }
  shop.closed.clear();
  for (const Fields& one : from.maps("closed")) {
    const std::optional<measure::Date> first = one.date("from");
    const std::optional<measure::Date> last = one.has("to") ? one.date("to") : first;
    if (!first || !last) {
      continue;
    }
    if (*last < *first) {
      one.complain("to", "the last day stands before the first");
      continue;
    }
    shop.closed.push_back({.from = *first, .to = *last, .says = {}});
    take_text(one, "says", shop.closed.back().says);
  }
}

}  // namespace

void take_weekdays(const Fields& from, std::string_view key, Weekdays& days) {
  if (!from.has(key)) {
    return;
  }
  Weekdays found{};
  for (const std::string& name : from.identifiers(key)) {
    const auto day = std::ranges::find(kDayNames, name);
    if (day != kDayNames.end()) {
      found[static_cast<std::size_t>(day - kDayNames.begin())] = true;
    } else if (!name.empty()) {
      from.complain(key,
                    fmt::format("`{}` is no day of the week", name),
                    base::nearest_word(name, kDayNames));
    }
  }
  if (found != Weekdays{}) {
    days = found;
  }
}

void take_weekdays(const Fields& from, std::string_view key, std::optional<Weekdays>& days) {
  Weekdays found{};
  take_weekdays(from, key, found);
  if (found != Weekdays{}) {
    days = found;
  }
}

void read_working_days(const Fields& from, Shop& shop) {
  read_workday(from.map("workday"), shop.workday);
  read_closed(from, shop);
  const Fields places = from.map("places");
  take_within(places, "bench", {1, 100}, shop.places.bench);
  take_within(places, "finishing", {0, 100}, shop.places.finishing);
  take_within(from, "order_slack", {0, 100}, shop.order_slack);
}

}  // namespace plankwright::shop
