#pragma once
// Sizes as makers write them, with names and arithmetic: `34 7/8`, `5' 2-1/2"`, `long - 2 * side`.

#include <functional>
#include <memory>
#include <string>
#include <string_view>

#include "base/result.h"
#include "measure/length.h"

namespace plankwright::measure {

/// The unit in which a document's bare numbers are read and its sizes are printed.
enum class LengthUnit { kMillimetre, kInch };

/// What an expression comes to: a length (exact) or a plain number. A plain number becomes a length
/// in the document's unit where a length is wanted: added to a length, or asked for as one.
struct Value {
  bool is_length = false;
  Length length;      // when is_length
  double number = 0;  // when not
};

/// How a name in an expression is looked up. The error it gives needs no place; the expression adds
/// the column of the name.
using Lookup = std::function<base::Result<Value>(std::string_view name)>;

/// A parsed expression. Grammar: literals `[feet'] [whole[-| ]num/den | decimal] ["|in|ft|mm|cm|m]`
/// read as one number, names (letters, digits, `_` and `.`), + - * / and brackets, and the
/// functions min, max, round_to(size, step), if(condition, then, else) with < <= > >= == !=. `3/4
/// in` is one literal; `side / 4` is a division. What has two readings is refused with both spelled
/// out: `long/3/4`, `side*8-1/2`, `5'-2`. Calculated exactly, in fractions of a nanometre while
/// they fit into 64 bits, and rounded once at the end.
class Expression {
 public:
  /// Error columns count characters from 1 within `text`; `at->line` is 1.
  static base::Result<Expression> parse(std::string_view text);

  /// Errors: unknown name (from `lookup`), length times length, number divided by length, division
  /// by zero, a result outside +-1 km.
  base::Result<Value> evaluate(LengthUnit unit, const Lookup& lookup) const;

  struct Term;

 private:
  std::shared_ptr<const Term> root_;
};

/// `text` as a length without names, such as a size typed at a prompt.
base::Result<Length> parse_length(std::string_view text, LengthUnit unit);

/// The value as a length in `unit` when it is a bare number.
Length as_length(const Value& value, LengthUnit unit);
/// The same, with an error when the bare number stands for more than 1 km (as_length stops there).
base::Result<Length> length_of(const Value& value, LengthUnit unit);

/// Whether `text` can be a name in an expression: a letter or `_`, then letters, digits, `_`, `.`.
bool is_name(std::string_view text);

/// A size as a maker reads it: in inches the nearest 1/32 (`34 7/8`), with `+` or `-` behind it
/// when the true size is a little more or less; in millimetres to 0.1 (`886.0` prints as `886`).
/// Without the unit.
std::string print(Length length, LengthUnit unit);
/// The same with the unit: `34 7/8 in`, `886 mm`.
std::string print_with_unit(Length length, LengthUnit unit);

/// Reading of single measured values with their unit, as they stand in documents:
/// `45 min`, `1 h 30 min`; `35 %`; `20 C`, `68 F`; `30 kg`, `60 lb`; `30 kg/m`, `20 lb/ft`.
/// The results are in minutes, percent, degrees Celsius, kilograms and newtons per millimetre.
base::Result<double> parse_minutes(std::string_view text);
base::Result<double> parse_percent(std::string_view text);
base::Result<double> parse_celsius(std::string_view text);
base::Result<double> parse_kilograms(std::string_view text);
base::Result<double> parse_line_load(std::string_view text);

}  // namespace plankwright::measure
