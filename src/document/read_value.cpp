#include "document/read_value.h"

#include <algorithm>
#include <cmath>
#include <limits>
#include <optional>

#include <fmt/format.h>

#include "base/nearest.h"
#include "measure/expression.h"

namespace plankwright::document {

using base::Error;
using base::Position;
using base::Result;
using measure::Length;
using measure::Value;

bool is_word(std::string_view text) {
  return !text.empty() && std::ranges::all_of(text, [](char c) {
    return (c >= '0' && c <= '9') || (c >= 'a' && c <= 'z') || (c >= 'A' && c <= 'Z') || c == '_' ||
           c == '.' || static_cast<unsigned char>(c) >= 0x80;
  });
}

namespace {

bool stands_as_word(const Node& node) {
  return node.kind == Node::Kind::kScalar && is_word(node.text);
}

bool is_number(const Node& node) {
  return node.text.find_first_not_of("0123456789.") == std::string::npos;
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

struct MeasuredKind {
  Result<double> (*parse)(std::string_view);
  std::string_view such_as;
};

MeasuredKind measured_kind(FieldKind kind) {
  switch (kind) {
    case FieldKind::kMinutes:
      return {measure::parse_minutes, "minutes such as `45 min` or `1 h 30 min`"};
    case FieldKind::kCelsius:
      return {measure::parse_celsius, "a temperature such as `20 C` or `68 F`"};
    case FieldKind::kKilograms:
      return {measure::parse_kilograms, "a weight such as `30 kg` or `60 lb`"};
    case FieldKind::kLineLoad:
      return {measure::parse_line_load, "a load such as `30 kg/m` or `20 lb/ft`"};
    default:
      return {measure::parse_percent, "percent such as `35 %`"};
  }
}

}  // namespace

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
  // A share of a count that went through a name is a double: 49 * (1/49) is a hair less than 1.
  constexpr double kHair = 1e-9;
  const double n = std::round(number.value());
  if (n < 0 || std::abs(n - number.value()) > kHair || n > std::numeric_limits<int>::max()) {
    return at_node(node, fmt::format("found {}, expected a whole number", kind_of(node)));
  }
  return static_cast<int>(n);
}

Result<double> read_measured(const Node& node,
                             const Names& names,
                             FieldKind kind,
                             FieldRange range) {
  const MeasuredKind measured = measured_kind(kind);
  auto number = read_text<double>(node, names, measured.such_as, measured.parse);
  const auto error = number.ok() ? out_of_range(node, range, number.value()) : std::nullopt;
  return error ? Result<double>{*error} : number;
}

Result<measure::Money> read_money(const Node& node, const Names& names, FieldRange range) {
  auto money = read_text<measure::Money>(
      node, names, "money such as `120` or `1,250.50`", measure::parse_money);
  const auto error = money.ok() ? out_of_range(node, range, money.value().major()) : std::nullopt;
  return error ? Result<measure::Money>{*error} : money;
}

Result<measure::Date> read_date(const Node& node, const Names& names) {
  return read_text<measure::Date>(node, names, "a day such as `2026-03-14`", measure::parse_date);
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
  if (stands_as_word(meant) && !is_number(meant)) {
    return meant.text;
  }
  if (stands_as_word(node)) {
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

}  // namespace plankwright::document
