#pragma once
// What may stand in a map of a document, said once: the same table reads the map, reports what is
// wrong with it, and is published as JSON Schema for editors.

#include <initializer_list>
#include <optional>
#include <span>
#include <string>
#include <string_view>
#include <utility>
#include <vector>

#include "base/result.h"
#include "document/names.h"
#include "document/node.h"
#include "measure/date.h"
#include "measure/length.h"
#include "measure/money.h"
#include "measure/quantity.h"

namespace plankwright::document {

enum class FieldKind {
  kLength,       // an expression; a bare number is in the document's unit
  kNumber,       // a plain number (an expression)
  kCount,        // a whole number, not negative (an expression)
  kPercent,      // `35 %`
  kMoney,        // `120` or `120.50`, in the document's currency
  kMinutes,      // `45 min`, `2 h`
  kCelsius,      // `20 C`, `68 F`
  kKilograms,    // `30 kg`, `60 lb`
  kLineLoad,     // `30 kg/m`, `20 lb/ft`
  kDate,         // `2026-03-14`
  kYesNo,        // yes, no, true, false
  kWord,         // one of `words`, or a name that stands for one of them
  kIdentifier,   // one word (letters, digits, _), or a name that stands for one, e.g. a stock
  kText,         // any text
  kLengths,      // a list of lengths, or one
  kIdentifiers,  // a list of words, or one
  kPercents,     // a list of percents, or one
  kMap,          // a map described by `inner`
  kMaps,         // a list of such maps
  kNamedMaps,    // a map whose keys are names of the user's own and whose values are such maps
  kAny           // looked at by whoever asks for it
};

/// Which numbers make sense; checked when a value is asked for.
enum class FieldRange { kAny, kNotNegative, kPositive };

struct Field {
  std::string_view key;
  FieldKind kind = FieldKind::kAny;
  std::string_view says;  // for the handbook and the editor: one sentence in trade words
  bool required = false;
  std::string_view fallback = {};  // what is taken when it is not written, as it would be written
  FieldRange range = FieldRange::kAny;
  std::span<const std::string_view> words = {};  // of kWord
  std::span<const Field> inner = {};             // of kMap, kMaps, kNamedMaps
};
using FieldTable = std::span<const Field>;

/// The values of one map, read by a table. Asking for a value that is wrong adds an error with its
/// place to the list given at the start and returns the fallback, or zero; so a reader asks for all
/// it needs and looks at the list once. A wrong value is reported once however often it is asked
/// for, and no list grows beyond 100 errors. Except for lengths, numbers and counts, which are
/// expressions, a value may be a name that stands for it.
class Fields {
 public:
  /// Reports unknown keys (with the nearest right one), missing required keys (at the map's place)
  /// and a value that is not a map. `errors` and `names` must outlive this.
  Fields(const Node& map, FieldTable table, const Names& names, base::Errors& errors);

  bool has(std::string_view key) const;
  /// Of the value when it is written, else of the map.
  base::Position at(std::string_view key) const;
  base::Position at() const { return at_; }
  const Node& node() const { return *map_; }
  const Node* node(std::string_view key) const;
  const Names& names() const { return *names_; }
  measure::LengthUnit unit() const { return names_->unit(); }

  measure::Length length(std::string_view key) const;
  std::optional<measure::Length> optional_length(std::string_view key) const;
  std::vector<measure::Length> lengths(std::string_view key) const;
  double number(std::string_view key) const;
  int count(std::string_view key) const;
  measure::Percent percent(std::string_view key) const;
  std::vector<double> percents(std::string_view key) const;
  measure::Money money(std::string_view key) const;
  measure::Minutes minutes(std::string_view key) const;
  measure::Celsius celsius(std::string_view key) const;
  measure::Kilograms kilograms(std::string_view key) const;
  measure::NewtonsPerMillimetre line_load(std::string_view key) const;
  std::optional<measure::Date> date(std::string_view key) const;
  bool yes(std::string_view key) const;
  std::string word(std::string_view key) const;
  std::string identifier(std::string_view key) const;
  std::vector<std::string> identifiers(std::string_view key) const;
  std::string text(std::string_view key) const;

  /// The map under `key` read by its inner table; an empty map when it is not written.
  Fields map(std::string_view key) const;
  std::vector<Fields> maps(std::string_view key) const;
  std::vector<std::pair<std::string, Fields>> named_maps(std::string_view key) const;

  /// How many mistakes stand in the list by now; unchanged after asking means that the answer is
  /// good.
  std::size_t mistakes() const { return errors_->size(); }

  /// Adds an error of the caller's own at `key`.
  void complain(std::string_view key, std::string message, std::string nearest = {}) const;

 private:
  /// Of a map that is not written, so that nothing in it is missing; `at` is where it would stand.
  Fields(const base::Position& at, FieldTable table, const Names& names, base::Errors& errors);

  void report_unknown() const;
  void report_missing() const;
  void report(base::Error error) const;
  // Throw std::logic_error when the table has no such field, or one of another kind: the reader and
  // its table disagree, which the schema would publish.
  const Field& field(std::string_view key) const;
  const Field& field(std::string_view key, std::initializer_list<FieldKind> kinds) const;
  template <class T, class Read>
  T value(const Field& field, Read read) const;
  template <class T, class Read>
  std::vector<T> values(const Field& field, Read read) const;
  double measured(std::string_view key, FieldKind kind) const;

  const Node* map_;
  base::Position at_;
  FieldTable table_;
  const Names* names_;
  base::Errors* errors_;
};

/// JSON Schema (draft 2020-12) of a map read by `table`, as JSON text, with `title` and
/// descriptions.
std::string json_schema(FieldTable table, std::string_view title);

}  // namespace plankwright::document
