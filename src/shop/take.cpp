#include "shop/take.h"

#include <algorithm>

#include <fmt/format.h>

#include "wood/table.h"

namespace plankwright::shop {
namespace {

using document::Fields;
using document::Node;

std::string written(const Fields& from, std::string_view key) {
  const Node* node = from.node(key);
  return node == nullptr ? "nothing" : document::kind_of(*node);
}

/// The value under `key` when it is written well and lies within the limits; otherwise there is one
/// complaint. `read` gives the value, `count` its number, `unit` stands behind the limits: ` %`.
template <class T, class Read, class Count>
void take_counted(const Fields& from,
                  std::string_view key,
                  Limits limits,
                  std::string_view unit,
                  T& into,
                  Read read,
                  Count count) {
  if (!from.has(key)) {
    return;
  }
  const std::size_t before = from.mistakes();
  const T value = read();
  if (from.mistakes() != before) {
    return;
  }
  if (count(value) >= limits.least && count(value) <= limits.most) {
    into = value;
    return;
  }
  from.complain(
      key,
      fmt::format(
          "found {}, expected {} to {}{}", written(from, key), limits.least, limits.most, unit));
}

}  // namespace

void take(const Fields& from, std::string_view key, measure::Length& into) {
  if (from.has(key)) {
    into = from.length(key);
  }
}

void take(const Fields& from, std::string_view key, measure::Minutes& into) {
  if (from.has(key)) {
    into = from.minutes(key);
  }
}

void take(const Fields& from, std::string_view key, measure::Kilograms& into) {
  if (from.has(key)) {
    into = from.kilograms(key);
  }
}

void take(const Fields& from, std::string_view key, int& into) {
  if (from.has(key)) {
    into = from.count(key);
  }
}

void take(const Fields& from, std::string_view key, bool& into) {
  if (from.has(key)) {
    into = from.yes(key);
  }
}

void take(const Fields& from, std::string_view key, measure::Money& into) {
  constexpr double kMost = 1e9;
  if (!from.has(key)) {
    return;
  }
  into = from.money(key);
  if (into.major() > kMost) {
    from.complain(key, fmt::format("found {}, expected at most 1000000000", written(from, key)));
    into = {};
  }
}

void take_within(const Fields& from, std::string_view key, Limits limits, double& into) {
  take_counted(
      from, key, limits, "", into, [&] { return from.number(key); }, [](double n) { return n; });
}

void take_within(const Fields& from, std::string_view key, Limits limits, int& into) {
  take_counted(
      from,
      key,
      limits,
      "",
      into,
      [&] { return from.count(key); },
      [](int n) { return static_cast<double>(n); });
}

void take_within(const Fields& from, std::string_view key, Limits limits, measure::Percent& into) {
  take_counted(
      from,
      key,
      limits,
      " %",
      into,
      [&] { return from.percent(key); },
      [](measure::Percent p) { return p.count(); });
}

void take_within(const Fields& from, std::string_view key, Limits limits, measure::Celsius& into) {
  take_counted(
      from,
      key,
      limits,
      " C",
      into,
      [&] { return from.celsius(key); },
      [](measure::Celsius c) { return c.count(); });
}

void take_text(const Fields& from, std::string_view key, std::string& into) {
  if (from.has(key)) {
    into = from.text(key);
  }
}

void take_word(const Fields& from, std::string_view key, std::string& into) {
  if (from.has(key)) {
    into = from.word(key);
  }
}

void take_identifier(const Fields& from, std::string_view key, std::string& into) {
  if (from.has(key)) {
    into = from.identifier(key);
  }
}

void take_texts(const Fields& from, std::string_view key, std::vector<std::string>& into) {
  const Node* node = from.node(key);
  if (node == nullptr) {
    return;
  }
  into.clear();
  const std::vector<Node> one{*node};
  for (const Node& item : node->kind == Node::Kind::kList ? node->items : one) {
    if (item.kind == Node::Kind::kScalar) {
      into.push_back(item.text);
    } else if (item.kind != Node::Kind::kEmpty) {
      from.complain(key,
                    fmt::format("found {} in line {}, expected text", kind_of(item), item.at.line));
    }
  }
}

void need(const Fields& fields,
          std::string_view whose,
          std::initializer_list<std::string_view> keys) {
  for (const std::string_view key : keys) {
    if (!fields.has(key)) {
      fields.complain(key, fmt::format("{} needs `{}`, which is not written", whose, key));
    }
  }
}

void need_known(const Fields& fields,
                std::string_view key,
                std::string_view what,
                const std::string& id,
                const std::vector<std::string>& ids) {
  if (!id.empty() && !ids.empty() && std::ranges::find(ids, id) == ids.end()) {
    base::Error error = wood::no_such_row(what, id, ids);
    fields.complain(key, std::move(error.message), std::move(error.nearest));
  }
}

}  // namespace plankwright::shop
