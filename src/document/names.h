#pragma once
// The names of a document and what they stand for: `long: 1900`, `joint: housed`, `wood:
// cherry_4_4`.

#include <map>
#include <memory>
#include <optional>
#include <string>
#include <string_view>
#include <vector>

#include "base/result.h"
#include "document/node.h"
#include "measure/expression.h"

namespace plankwright::document {

/// What each name was given, and by which line. Values are looked at only when asked for, so names
/// may use each other in any order; going round in a circle is an error that names the circle.
class Names {
 public:
  explicit Names(measure::LengthUnit unit) : unit_{unit} {}

  measure::LengthUnit unit() const { return unit_; }

  /// Gives `name` a meaning; a later call replaces it (a choice's option sets names this way).
  void set(const std::string& name, Node value);

  /// The node behind `name`, or nullptr. For words, texts and lists.
  const Node* find(std::string_view name) const;

  /// The size or number behind `name`. An error in what the name was given carries its place; an
  /// unknown name, one that stands for no size, and a circle have none: whoever uses the name is to
  /// blame.
  base::Result<measure::Value> value(std::string_view name) const;

  /// `node` as an expression over these names. The error's place is in the document.
  base::Result<measure::Value> evaluate(const Node& node) const;

  /// The defined name nearest to `typed`, or "".
  std::string nearest(std::string_view typed) const;

 private:
  std::optional<base::Error> not_a_size(std::string_view name, const Node& node) const;
  std::optional<base::Error> circle_to(std::string_view name) const;

  measure::LengthUnit unit_;
  std::map<std::string, Node, std::less<>> nodes_;
  // Values found so far, so that names which use each other twice are not looked at 2^n times.
  mutable std::map<std::string, base::Result<measure::Value>, std::less<>> known_;
  // Names being evaluated now, to see circles; mutable state of one call chain only.
  mutable std::vector<std::string> open_;
};

}  // namespace plankwright::document
