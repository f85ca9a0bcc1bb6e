#include "document/fields.h"

#include <algorithm>
#include <cmath>
#include <limits>
#include <stdexcept>

#include <fmt/format.h>

#include "base/nearest.h"
#include "document/line_scan.h"
#include "measure/expression.h"

namespace plankwright::document {
namespace {

using base::Error;
using base::Position;
using base::Result;
using measure::Length;
using measure::Value;

const Node& empty_map() {
  static const Node kEmptyMap{.kind = Node::Kind::kMap};
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

bool is_word(std::string_view text) {
  return !text.empty() && std::ranges::all_of(text, [](char c) {
    return (c >= '0' && c <= '9') || (c >= 'a' && c <= 'z') || (c >= 'A' && c <= 'Z') || c == '_' ||
           c == '.' || static_cast<unsigned char>(c) >= 0x80;
  });
}

bool is_word(const Node& node) {
  return node.kind == Node::Kind::kScalar && is_word(node.text);
}

Error at_node(const Node& node, std::string message, std::string nearest = {}) {
  return Error{.message = std::move(message), .at = node.at, .nearest = std::move(nearest)};
}

Error placed(Error error, const Node& node) {
  error.at = node.at;
  return error;
}

std::optional<Error> out_of_range(const Node& node, FieldRange range, double number) {
  if (range == FieldRange::kPositive && number <= 0) {
    return at_node(node, fmt::format("found {}, expected more than zero", kind_of(node)));
  }
  if (range == FieldRange::kNotNegative && number < 0) {
    return at_node(node, fmt::format("found {}, expected zero or more", kind_of(node)));
  }
  return std::nullopt;
}

// ---- One value ----------------------------------------------------------------------------------

/// What a name stands for, and what that stands for; the node itself when it is no name. A name
/// that comes round to itself stands for its own word.
const Node& behind_name(const Node& node, const Names& names) {
  const Node* at = &node;
  constexpr int kDeepest = 100;
  for (int depth = 0; depth < kDeepest; ++depth) {
    const Node* next =
        at->kind == Node::Kind::kScalar && !at->quoted ? names.find(at->text) : nullptr;
    if (next == nullptr) {
      return *at;
    }
    at = next;
  }
  return node;
}

/// A value written as one piece of text in its own way (`45 min`), read by `parse`.
template <class T, class Parse>
Result<T> read_text(const Node& node, const Names& names, std::string_view such_as, Parse parse) {
  const Node& meant = behind_name(node, names);
  if (meant.kind != Node::Kind::kScalar) {
    return at_node(node, fmt::format("found {}, expected {}", kind_of(meant), such_as));
  }
  auto value = parse(meant.text);
  if (!value.ok()) {
    return placed(value.error(), meant);
  }
  return T{value.value()};
}

Result<Value> read_expression(const Node& node, const Names& names, std::string_view such_as) {
  if (node.kind != Node::Kind::kScalar) {
    return at_node(node, fmt::format("found {}, expected {}", kind_of(node), such_as));
  }
  return names.evaluate(node);
}

Result<Length> read_length(const Node& node, const Names& names, FieldRange range) {
  const auto value = read_expression(node, names, "a size such as `34 7/8` or `60 cm`");
  if (!value.ok()) {
    return value.error();
  }
  const auto length = measure::length_of(value.value(), names.unit());
  if (!length.ok()) {
    return placed(length.error(), node);
  }
  if (auto error = out_of_range(node, range, length.value().mm())) {
    return *error;
  }
  return length;
}

Result<double> read_number(const Node& node, const Names& names, FieldRange range) {
  const auto value = read_expression(node, names, "a plain number");
  if (!value.ok()) {
    return value.error();
  }
  if (value.value().is_length) {
    return at_node(node,
                   fmt::format("found the length {}, expected a plain number", kind_of(node)));
  }
  if (auto error = out_of_range(node, range, value.value().number)) {
    return *error;
  }
  return value.value().number;
}

Result<int> read_count(const Node& node, const Names& names, FieldRange range) {
  const auto number = read_number(node, names, range);
  if (!number.ok()) {
    return number.error();
  }
  const double n = number.value();
  if (n < 0 || n != std::floor(n) || n > std::numeric_limits<int>::max()) {
    return at_node(node, fmt::format("found {}, expected a whole number", kind_of(node)));
  }
  return static_cast<int>(n);
}

Result<double> read_percent(const Node& node, const Names& names, FieldRange range) {
  auto percent = read_text<double>(node, names, "percent such as `35 %`", measure::parse_percent);
  if (percent.ok()) {
    if (auto error = out_of_range(node, range, percent.value())) {
      return *error;
    }
  }
  return percent;
}

Result<std::string> read_word(const Node& node,
                              const Names& names,
                              std::span<const std::string_view> words) {
  const auto is_one = [&](const Node& n) {
    return n.kind == Node::Kind::kScalar && std::ranges::find(words, n.text) != words.end();
  };
  if (is_one(node)) {
    return node.text;
  }
  const Node& meant = behind_name(node, names);
  if (is_one(meant)) {
    return meant.text;
  }
  return at_node(meant,
                 fmt::format("found {}, expected {}", kind_of(meant), base::list_words(words)),
                 base::nearest_word(meant.text, words));
}

Result<std::string> read_identifier(const Node& node, const Names& names) {
  const Node& meant = behind_name(node, names);
  if (is_word(meant)) {
    return meant.text;
  }
  if (is_word(node)) {
    return node.text;  // a word that is also the name of a size: the word was meant
  }
  return at_node(
      node, fmt::format("found {}, expected one word of letters, digits and `_`", kind_of(node)));
}

Result<bool> read_yes(const Node& node, const Names& names) {
  static constexpr std::string_view kWords[] = {"yes", "no", "true", "false"};
  const auto word = read_word(node, names, kWords);
  if (!word.ok()) {
    Error error = word.error();
    const Node& meant = behind_name(node, names);
    error.message = fmt::format("found {}, expected yes or no", kind_of(meant));
    return error;
  }
  return word.value() == "yes" || word.value() == "true";
}

Result<std::string> read_any_text(const Node& node) {
  if (node.kind == Node::Kind::kList || node.kind == Node::Kind::kMap) {
    return at_node(node, fmt::format("found {}, expected text", kind_of(node)));
  }
  return node.text;
}

/// The values of a list, or of one value that stands for a list of one. A name may stand for a
/// list.
std::vector<const Node*> items_of(const Node& node, const Names& names) {
  const Node& meant = behind_name(node, names);
  const Node& list = meant.kind == Node::Kind::kList ? meant : node;
  std::vector<const Node*> items;
  if (list.kind == Node::Kind::kList) {
    for (const Node& item : list.items) {
      items.push_back(&item);
    }
  } else if (list.kind != Node::Kind::kEmpty) {
    items.push_back(&list);
  }
  return items;
}

/// A fallback of a table, read as if the maker had written it at `at`.
Node as_written(std::string_view fallback, const Position& at) {
  Node node = parse_yaml(fallback, at.file).root;
  node.at = at;
  for (Node& item : node.items) {
    item.at = at;
  }
  return node;
}

}  // namespace

// ---- Fields -------------------------------------------------------------------------------------

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
      report(
          {.message = fmt::format("unknown `{}`, expected {}", entry.key, base::list_words(keys)),
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
  const Field& f = field(key, {FieldKind::kPercent});
  return measure::Percent{
      value<double>(f, [&](const Node& n) { return read_percent(n, *names_, f.range); })};
}

std::vector<double> Fields::percents(std::string_view key) const {
  const Field& f = field(key, {FieldKind::kPercents});
  return values<double>(f, [&](const Node& n) { return read_percent(n, *names_, f.range); });
}

measure::Money Fields::money(std::string_view key) const {
  const Field& f = field(key, {FieldKind::kMoney});
  return value<measure::Money>(f, [&](const Node& n) -> Result<measure::Money> {
    auto amount = read_text<measure::Money>(
        n, *names_, "money such as `120` or `1,250.50`", measure::parse_money);
    const auto error =
        amount.ok() ? out_of_range(n, f.range, amount.value().major()) : std::nullopt;
    return error ? Result<measure::Money>{*error} : amount;
  });
}

double Fields::measured(const Field& f,
                        std::string_view such_as,
                        Result<double> (*parse)(std::string_view)) const {
  return value<double>(f, [&](const Node& n) -> Result<double> {
    auto number = read_text<double>(n, *names_, such_as, parse);
    const auto error = number.ok() ? out_of_range(n, f.range, number.value()) : std::nullopt;
    return error ? Result<double>{*error} : number;
  });
}

measure::Minutes Fields::minutes(std::string_view key) const {
  return measure::Minutes{measured(field(key, {FieldKind::kMinutes}),
                                   "minutes such as `45 min` or `1 h 30 min`",
                                   measure::parse_minutes)};
}

measure::Celsius Fields::celsius(std::string_view key) const {
  return measure::Celsius{measured(field(key, {FieldKind::kCelsius}),
                                   "a temperature such as `20 C` or `68 F`",
                                   measure::parse_celsius)};
}

measure::Kilograms Fields::kilograms(std::string_view key) const {
  return measure::Kilograms{measured(field(key, {FieldKind::kKilograms}),
                                     "a weight such as `30 kg` or `60 lb`",
                                     measure::parse_kilograms)};
}

measure::NewtonsPerMillimetre Fields::line_load(std::string_view key) const {
  return measure::NewtonsPerMillimetre{measured(field(key, {FieldKind::kLineLoad}),
                                                "a load such as `30 kg/m` or `20 lb/ft`",
                                                measure::parse_line_load)};
}

std::optional<measure::Date> Fields::date(std::string_view key) const {
  const Field& f = field(key, {FieldKind::kDate});
  return value<std::optional<measure::Date>>(f, [&](const Node& n) {
    return read_text<std::optional<measure::Date>>(
        n, *names_, "a day such as `2026-03-14`", measure::parse_date);
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
      report({.message =
                  fmt::format("found `{}`, expected a name of letters, digits and `_`", entry.key),
              .at = entry.key_at});
      continue;
    }
    result.emplace_back(entry.key, Fields{entry.value, f.inner, *names_, *errors_});
  }
  return result;
}

}  // namespace plankwright::document
