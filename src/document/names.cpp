#include "document/names.h"

#include <algorithm>

#include <fmt/format.h>

#include "base/nearest.h"
#include "base/quote.h"

namespace plankwright::document {
namespace {

using base::Error;
using base::Result;
using measure::Value;

Error unplaced(std::string message, std::string nearest = {}) {
  return Error{.message = std::move(message), .nearest = std::move(nearest)};
}

}  // namespace

void Names::set(const std::string& name, Node value) {
  nodes_[name] = std::move(value);
  known_.clear();
}

const Node* Names::find(std::string_view name) const {
  const auto found = nodes_.find(name);
  return found == nodes_.end() ? nullptr : &found->second;
}

std::string Names::nearest(std::string_view typed) const {
  std::vector<std::string_view> names;
  for (const auto& [name, node] : nodes_) {
    names.emplace_back(name);
  }
  return base::nearest_word(typed, names);
}

Result<Value> Names::value(std::string_view name) const {
  const Node* node = find(name);
  if (node == nullptr) {
    return unplaced(fmt::format("unknown name {}", base::quote(name)), nearest(name));
  }
  if (const auto known = known_.find(name); known != known_.end()) {
    return known->second;
  }
  if (auto error = not_a_size(name, *node)) {
    return *error;
  }
  if (auto circle = circle_to(name)) {
    return *circle;
  }
  open_.emplace_back(name);
  auto result = evaluate(*node);
  open_.pop_back();
  known_.emplace(name, result);
  return result;
}

/// A name that stands for a word, a text or a list cannot be measured; the line that wants to
/// measure it is to blame, so the error has no place yet.
std::optional<Error> Names::not_a_size(std::string_view name, const Node& node) const {
  if (node.kind != Node::Kind::kScalar) {
    return unplaced(fmt::format(
        "{} stands for {}, expected a size or a number", base::quote(name), kind_of(node)));
  }
  const bool word = measure::is_name(node.text) && find(node.text) == nullptr;
  if (node.quoted || (word && nearest(node.text).empty())) {
    return unplaced(fmt::format("{} stands for the word {}, expected a size or a number",
                                base::quote(name),
                                base::quote(node.text)));
  }
  return std::nullopt;
}

std::optional<Error> Names::circle_to(std::string_view name) const {
  constexpr std::size_t kDeepest = 100;
  const auto start = std::ranges::find(open_, name);
  if (start == open_.end()) {
    return open_.size() < kDeepest
               ? std::nullopt
               : std::optional{unplaced("names stand for one another more than 100 deep")};
  }
  const std::vector<std::string> circle(start, open_.end());
  return unplaced(
      fmt::format("`{0}` goes round in a circle: {1} -> {0}", name, fmt::join(circle, " -> ")));
}

Result<Value> Names::evaluate(const Node& node) const {
  if (node.kind != Node::Kind::kScalar || node.quoted) {
    return Error{
        .message = node.quoted
                       ? fmt::format("found the text \"{}\", expected a size; leave the quotes off",
                                     node.text)
                       : fmt::format("found {}, expected a size", kind_of(node)),
        .at = node.at};
  }
  // An error that already has a place is about another line, the one that gave the name its
  // meaning.
  bool placed = false;
  const auto lookup = [&](std::string_view name) {
    auto found = value(name);
    placed = placed || (!found.ok() && found.error().at.has_value());
    return found;
  };
  const auto expression = measure::Expression::parse(node.text);
  auto result = expression.ok() ? expression.value().evaluate(unit_, lookup)
                                : Result<Value>{expression.error()};
  if (result.ok() || placed) {
    return result;
  }
  Error error = result.error();
  const int column = error.at ? error.at->column : 1;
  error.at = node.at;
  error.at->column += column - 1;
  return error;
}

}  // namespace plankwright::document
