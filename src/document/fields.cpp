#include "document/fields.h"

#include <algorithm>
#include <stdexcept>

#include <fmt/format.h>

#include "base/nearest.h"
#include "base/quote.h"
#include "document/line_scan.h"
#include "document/read_value.h"

namespace plankwright::document {
namespace {

using base::Error;
using base::Position;
using base::Result;
using measure::Length;

const Node& empty_map() {
  static const Node kEmptyMap = make_node(Node::Kind::kMap);
  return kEmptyMap;
}

std::vector<std::string_view> keys_of(FieldTable table) {
  std::vector<std::string_view> keys;
  for (const Field& field : table) {
    keys.push_back(field.key);
  }
  return keys;
}

std::string_view without_stop(std::string_view sentence) {
  if (sentence.ends_with('.')) {
    sentence.remove_suffix(1);
  }
  return sentence;
}

Error at_node(const Node& node, std::string message) {
  return Error{.message = std::move(message), .at = node.at};
}

}  // namespace

Fields::Fields(const Node& map, FieldTable table, const Names& names, base::Errors& errors)
    : map_{&map}, at_{map.at}, table_{table}, names_{&names}, errors_{&errors} {
  if (map.kind != Node::Kind::kMap && map.kind != Node::Kind::kEmpty) {
    report(at_node(
        map,
        fmt::format(
            "found {}, expected a map of {}", kind_of(map), base::list_words(keys_of(table)))));
    map_ = &empty_map();
    return;
  }
  report_unknown();
  report_missing();
}

Fields::Fields(const Position& at, FieldTable table, const Names& names, base::Errors& errors)
    : map_{&empty_map()}, at_{at}, table_{table}, names_{&names}, errors_{&errors} {}

void Fields::report_unknown() const {
  const auto keys = keys_of(table_);
  for (const Node::Entry& entry : map_->entries) {
    if (std::ranges::find(keys, entry.key) == keys.end() && errors_->size() < kMostErrors) {
      report({.message = fmt::format(
                  "unknown {}, expected {}", base::quote(entry.key), base::list_words(keys)),
              .at = entry.key_at,
              .nearest = base::nearest_word(entry.key, keys)});
    }
  }
}

void Fields::report_missing() const {
  for (const Field& field : table_) {
    if (field.required && map_->find(field.key) == nullptr) {
      report(
          {.message = field.says.empty()
                          ? fmt::format("`{}` is missing", field.key)
                          : fmt::format("`{}` is missing: {}", field.key, without_stop(field.says)),
           .at = at_});
    }
  }
}

/// A mistake asked for twice, or met by way of a name that several values use, is one mistake.
void Fields::report(Error error) const {
  const bool known = std::ranges::any_of(*errors_, [&](const Error& other) {
    return other.message == error.message && other.at == error.at;
  });
  if (!known && errors_->size() < kMostErrors) {
    errors_->push_back(std::move(error));
  }
}

const Field& Fields::field(std::string_view key) const {
  const auto found = std::ranges::find_if(table_, [key](const Field& f) { return f.key == key; });
  if (found == table_.end()) {
    throw std::logic_error(fmt::format("the table has no field `{}`", key));
  }
  return *found;
}

const Field& Fields::field(std::string_view key, std::initializer_list<FieldKind> kinds) const {
  const Field& found = field(key);
  if (std::ranges::find(kinds, found.kind) == kinds.end()) {
    throw std::logic_error(
        fmt::format("the field `{}` is read as another kind than its table says", key));
  }
  return found;
}

bool Fields::has(std::string_view key) const {
  return node(key) != nullptr;
}

Position Fields::at(std::string_view key) const {
  const Node* value = node(key);
  return value == nullptr ? at_ : value->at;
}

const Node* Fields::node(std::string_view key) const {
  return map_->find(field(key).key);
}

void Fields::complain(std::string_view key, std::string message, std::string nearest) const {
  report({.message = std::move(message), .at = at(key), .nearest = std::move(nearest)});
}

/// The value under `key` read by `read`; when it is wrong, the fallback or nothing of its kind.
template <class T, class Read>
T Fields::value(const Field& field, Read read) const {
  if (const Node* written = map_->find(field.key)) {
    auto result = read(*written);
    if (result.ok()) {
      return std::move(result).value();
    }
    report(result.error());
  }
  if (field.fallback.empty()) {
    return T{};
  }
  auto result = read(as_written(field.fallback, at_));
  if (!result.ok()) {
    report(result.error());
    return T{};
  }
  return std::move(result).value();
}

template <class T, class Read>
std::vector<T> Fields::values(const Field& field, Read read) const {
  Node fallback;
  const Node* list = map_->find(field.key);
  if (list == nullptr && !field.fallback.empty()) {
    fallback = as_written(field.fallback, at_);
    list = &fallback;
  }
  std::vector<T> result;
  for (const Node* item : list == nullptr ? std::vector<const Node*>{} : items_of(*list, *names_)) {
    auto value = read(*item);
    if (value.ok()) {
      result.push_back(std::move(value).value());
    } else {
      report(value.error());
      result.emplace_back();
    }
  }
  return result;
}

Length Fields::length(std::string_view key) const {
  const Field& f = field(key, {FieldKind::kLength});
  return value<Length>(f, [&](const Node& n) { return read_length(n, *names_, f.range); });
}

std::optional<Length> Fields::optional_length(std::string_view key) const {
  const Field& f = field(key, {FieldKind::kLength});
  if (map_->find(key) == nullptr && f.fallback.empty()) {
    return std::nullopt;
  }
  return length(key);
}

std::vector<Length> Fields::lengths(std::string_view key) const {
  const Field& f = field(key, {FieldKind::kLengths});
  return values<Length>(f, [&](const Node& n) { return read_length(n, *names_, f.range); });
}

double Fields::number(std::string_view key) const {
  const Field& f = field(key, {FieldKind::kNumber, FieldKind::kCount});
  return value<double>(f, [&](const Node& n) { return read_number(n, *names_, f.range); });
}

int Fields::count(std::string_view key) const {
  const Field& f = field(key, {FieldKind::kCount});
  return value<int>(f, [&](const Node& n) { return read_count(n, *names_, f.range); });
}

measure::Percent Fields::percent(std::string_view key) const {
  return measure::Percent{measured(key, FieldKind::kPercent)};
}

std::vector<double> Fields::percents(std::string_view key) const {
  const Field& f = field(key, {FieldKind::kPercents});
  return values<double>(
      f, [&](const Node& n) { return read_measured(n, *names_, FieldKind::kPercent, f.range); });
}

measure::Money Fields::money(std::string_view key) const {
  const Field& f = field(key, {FieldKind::kMoney});
  return value<measure::Money>(f, [&](const Node& n) { return read_money(n, *names_, f.range); });
}

double Fields::measured(std::string_view key, FieldKind kind) const {
  const Field& f = field(key, {kind});
  return value<double>(f, [&](const Node& n) { return read_measured(n, *names_, kind, f.range); });
}

measure::Minutes Fields::minutes(std::string_view key) const {
  return measure::Minutes{measured(key, FieldKind::kMinutes)};
}

measure::Celsius Fields::celsius(std::string_view key) const {
  return measure::Celsius{measured(key, FieldKind::kCelsius)};
}

measure::Kilograms Fields::kilograms(std::string_view key) const {
  return measure::Kilograms{measured(key, FieldKind::kKilograms)};
}

measure::NewtonsPerMillimetre Fields::line_load(std::string_view key) const {
  return measure::NewtonsPerMillimetre{measured(key, FieldKind::kLineLoad)};
}

std::optional<measure::Date> Fields::date(std::string_view key) const {
  using Day = std::optional<measure::Date>;
  return value<Day>(field(key, {FieldKind::kDate}), [&](const Node& n) -> Result<Day> {
    const auto date = read_date(n, *names_);
    return date.ok() ? Result<Day>{date.value()} : Result<Day>{date.error()};
  });
}

bool Fields::yes(std::string_view key) const {
  const Field& f = field(key, {FieldKind::kYesNo});
  return value<bool>(f, [&](const Node& n) { return read_yes(n, *names_); });
}

std::string Fields::word(std::string_view key) const {
  const Field& f = field(key, {FieldKind::kWord});
  return value<std::string>(f, [&](const Node& n) { return read_word(n, *names_, f.words); });
}

std::string Fields::identifier(std::string_view key) const {
  const Field& f = field(key, {FieldKind::kIdentifier});
  return value<std::string>(f, [&](const Node& n) { return read_identifier(n, *names_); });
}

std::vector<std::string> Fields::identifiers(std::string_view key) const {
  const Field& f = field(key, {FieldKind::kIdentifiers});
  return values<std::string>(f, [&](const Node& n) { return read_identifier(n, *names_); });
}

std::string Fields::text(std::string_view key) const {
  return value<std::string>(field(key), [](const Node& n) { return read_any_text(n); });
}

Fields Fields::map(std::string_view key) const {
  const Field& f = field(key, {FieldKind::kMap});
  const Node* written = map_->find(key);
  return written == nullptr ? Fields{at_, f.inner, *names_, *errors_}
                            : Fields{*written, f.inner, *names_, *errors_};
}

std::vector<Fields> Fields::maps(std::string_view key) const {
  const Field& f = field(key, {FieldKind::kMaps});
  const Node* written = map_->find(key);
  std::vector<Fields> result;
  if (written == nullptr || written->kind == Node::Kind::kEmpty) {
    return result;
  }
  if (written->kind != Node::Kind::kList) {
    report(at_node(
        *written,
        fmt::format("found {}, expected a list whose lines begin with `-`", kind_of(*written))));
    return result;
  }
  for (const Node& item : written->items) {
    result.push_back(Fields{item, f.inner, *names_, *errors_});
  }
  return result;
}

std::vector<std::pair<std::string, Fields>> Fields::named_maps(std::string_view key) const {
  const Field& f = field(key, {FieldKind::kNamedMaps});
  const Node* written = map_->find(key);
  std::vector<std::pair<std::string, Fields>> result;
  if (written == nullptr || written->kind == Node::Kind::kEmpty) {
    return result;
  }
  if (written->kind != Node::Kind::kMap) {
    report(at_node(*written, fmt::format("found {}, expected a map of names", kind_of(*written))));
    return result;
  }
  for (const Node::Entry& entry : written->entries) {
    if (!is_word(entry.key)) {
      report({.message = fmt::format("found {}, expected a name of letters, digits and `_`",
                                     base::quote(entry.key)),
              .at = entry.key_at});
      continue;
    }
    result.emplace_back(entry.key, Fields{entry.value, f.inner, *names_, *errors_});
  }
  return result;
}

}  // namespace plankwright::document
