#include "calendar/day_rules.h"

#include <algorithm>
#include <array>

#include <fmt/format.h>

#include "base/csv.h"
#include "base/nearest.h"

namespace plankwright::calendar {
namespace {

constexpr double kMinutesOfMonth = 31.0 * 24 * 60;
constexpr std::array<std::string_view, 1> kYes = {"yes"};
constexpr std::array<std::string_view, 2> kPlaces = {"bench", "finishing"};

bool is_one_of(const base::CsvRow& row,
               std::string_view column,
               std::span<const std::string_view> words) {
  const std::string& text = row.text(column);
  if (text.empty()) {
    return false;
  }
  if (std::ranges::find(words, text) == words.end()) {
    row.complain(column,
                 fmt::format("found `{}`, expected {} or nothing", text, base::list_words(words)),
                 base::nearest_word(text, words));
  }
  return true;
}

Holds holds_of(const base::CsvRow& row) {
  if (!is_one_of(row, "holds", kPlaces)) {
    return Holds::kNothing;
  }
  return row.text("holds") == "bench" ? Holds::kBench : Holds::kFinishing;
}

DayRule read_row(const base::CsvRow& row) {
  DayRule rule;
  rule.standard = row.word("standard");
  rule.in_one_go = is_one_of(row, "in_one_go", kYes);
  rule.helper = is_one_of(row, "helper", kYes);
  rule.holds = holds_of(row);
  rule.dust = is_one_of(row, "dust", kYes);
  rule.rest = measure::Minutes{row.number_if_any("rest_min", 0, kMinutesOfMonth).value_or(0)};
  rule.source = row.word("source");
  return rule;
}

}  // namespace

DayRule DayRules::of(std::string_view standard) const {
  const auto found = std::ranges::find(rules, standard, &DayRule::standard);
  if (found != rules.end()) {
    return *found;
  }
  DayRule plain;
  plain.standard = standard;
  return plain;
}

base::Result<DayRules> read_day_rules(std::string_view csv_text, const std::string& file) {
  auto rows = base::read_csv_rows(csv_text, file, read_row);
  if (!rows.ok()) {
    return rows.error();
  }
  return DayRules{std::move(rows).value()};
}

}  // namespace plankwright::calendar
