// Sizes are kept as exact nanometres, in fractions of them if need be, until the end.
#include "measure/expression.h"

#include <algorithm>
#include <cmath>
#include <vector>

#include <fmt/format.h>

#include "base/quote.h"
#include "measure/characters.h"
#include "measure/exact_number.h"
#include "measure/term.h"

namespace plankwright::measure {

using base::Error;
using base::Result;

namespace {

using Term = Expression::Term;
using TermPointer = std::shared_ptr<const Term>;
using Kind = Term::Kind;

constexpr std::int64_t kKilometreNm = 1'000'000'000'000;

/// What a term comes to. A length counts nanometres; a condition is 0 or 1.
struct Amount {
  enum class Is { kNumber, kLength, kCondition };
  Is is = Is::kNumber;
  ExactNumber number;
};

std::string written(const Term& term);

bool is_two_sided(const Term& term) {
  return term.parts.size() == 2 && term.kind != Kind::kCall;
}

std::string written_part(const Term& term) {
  return is_two_sided(term) ? fmt::format("({})", written(term)) : written(term);
}

/// The words of a term put together again.
std::string written(const Term& term) {
  if (is_two_sided(term)) {
    return fmt::format(
        "{} {} {}", written_part(*term.parts[0]), term.text, written_part(*term.parts[1]));
  }
  if (term.kind == Kind::kNegative) {
    return fmt::format("-{}", written_part(*term.parts[0]));
  }
  return term.kind == Kind::kCall ? fmt::format("{}(...)", term.text) : term.text;
}

std::string quoted(const Term& term) {
  return base::quote(written(term));
}

class Evaluator {
 public:
  Evaluator(LengthUnit unit, const Lookup& lookup) : unit_{unit}, lookup_{lookup} {}

  Result<Amount> of(const Term& term) const;

 private:
  Result<Amount> size_of(const Term& term) const;  // of(), and no condition
  Result<Amount> name(const Term& term) const;
  Result<Amount> negative(const Term& term) const;
  Result<Amount> two_sided(const Term& term) const;
  Result<Amount> product(const Term& term, const Amount& a, const Amount& b) const;
  Result<Amount> quotient(const Term& term, const Amount& a, const Amount& b) const;
  Result<Amount> call(const Term& term) const;
  Result<Amount> choice(const Term& term) const;
  Result<Amount> extreme(const Term& term, std::vector<Amount> amounts) const;
  Result<Amount> round_to(const Term& term, const Amount& size, const Amount& step) const;

  /// Both as numbers of the same kind: if one is a length, a bare number is one in the document's
  /// unit.
  Amount::Is common(std::vector<Amount>& amounts) const;
  ExactNumber one() const;

  LengthUnit unit_;
  const Lookup& lookup_;
};

ExactNumber Evaluator::one() const {
  return ExactNumber::whole(unit_ == LengthUnit::kInch ? 25'400'000 : 1'000'000);
}

Amount::Is Evaluator::common(std::vector<Amount>& amounts) const {
  const bool any_length =
      std::ranges::any_of(amounts, [](const Amount& a) { return a.is == Amount::Is::kLength; });
  for (Amount& amount : amounts) {
    if (any_length && amount.is == Amount::Is::kNumber) {
      amount = {Amount::Is::kLength, amount.number * one()};
    }
  }
  return any_length ? Amount::Is::kLength : Amount::Is::kNumber;
}

Result<Amount> Evaluator::of(const Term& term) const {
  auto amount = [&]() -> Result<Amount> {
    switch (term.kind) {
      case Kind::kNumber:
        return Amount{term.is_length ? Amount::Is::kLength : Amount::Is::kNumber, term.number};
      case Kind::kName:
        return name(term);
      case Kind::kNegative:
        return negative(term);
      case Kind::kCall:
        return term.text == "if" ? choice(term) : call(term);
      default:
        return two_sided(term);
    }
  }();
  if (amount.ok() && !amount.value().number.finite()) {
    return fault(term.column, "the result is too large");
  }
  return amount;
}

Result<Amount> Evaluator::size_of(const Term& term) const {
  auto amount = of(term);
  if (amount.ok() && amount.value().is == Amount::Is::kCondition) {
    return fault(term.column,
                 fmt::format("found `{}` where a size is expected; a comparison stands only as the "
                             "first part of if(condition, then, else)",
                             term.text));
  }
  return amount;
}

Result<Amount> Evaluator::name(const Term& term) const {
  const auto found =
      lookup_
          ? lookup_(term.text)
          : Result<Value>{Error{.message = fmt::format("unknown name {}", base::quote(term.text))}};
  if (!found.ok()) {
    Error error = found.error();
    if (!error.at) {
      error.at = base::Position{.line = 1, .column = term.column};
    }
    return error;
  }
  const Value& value = found.value();
  return value.is_length ? Amount{Amount::Is::kLength, ExactNumber::whole(value.length.nm())}
                         : Amount{Amount::Is::kNumber, ExactNumber::from_double(value.number)};
}

Result<Amount> Evaluator::negative(const Term& term) const {
  const auto of = size_of(*term.parts[0]);
  if (!of.ok()) {
    return of;
  }
  return Amount{of.value().is, -of.value().number};
}

bool holds(const std::string& comparison, const ExactNumber& a, const ExactNumber& b) {
  return comparison == "<"    ? a < b
         : comparison == "<=" ? a <= b
         : comparison == ">"  ? a > b
         : comparison == ">=" ? a >= b
         : comparison == "==" ? a == b
                              : a != b;
}

Result<Amount> Evaluator::two_sided(const Term& term) const {
  const auto left = size_of(*term.parts[0]);
  if (!left.ok()) {
    return left;
  }
  const auto right = size_of(*term.parts[1]);
  if (!right.ok()) {
    return right;
  }
  if (term.kind == Kind::kProduct) {
    return product(term, left.value(), right.value());
  }
  if (term.kind == Kind::kQuotient) {
    return quotient(term, left.value(), right.value());
  }
  std::vector<Amount> sides{left.value(), right.value()};
  const Amount::Is is = common(sides);
  const ExactNumber& a = sides[0].number;
  const ExactNumber& b = sides[1].number;
  if (term.kind == Kind::kComparison) {
    return Amount{Amount::Is::kCondition, ExactNumber::whole(holds(term.text, a, b) ? 1 : 0)};
  }
  return Amount{is, term.kind == Kind::kSum ? a + b : a - b};
}

Result<Amount> Evaluator::product(const Term& term, const Amount& a, const Amount& b) const {
  if (a.is == Amount::Is::kLength && b.is == Amount::Is::kLength) {
    return fault(term.column,
                 fmt::format("{} times {} multiplies a length by a length, expected a plain "
                             "number on one side",
                             quoted(*term.parts[0]),
                             quoted(*term.parts[1])));
  }
  const bool length = a.is == Amount::Is::kLength || b.is == Amount::Is::kLength;
  return Amount{length ? Amount::Is::kLength : Amount::Is::kNumber, a.number * b.number};
}

Result<Amount> Evaluator::quotient(const Term& term, const Amount& a, const Amount& b) const {
  if (b.number.is_zero()) {
    return fault(
        term.parts[1]->first_column,
        fmt::format(
            "{} divided by {}, which is zero", quoted(*term.parts[0]), quoted(*term.parts[1])));
  }
  if (a.is == Amount::Is::kNumber && b.is == Amount::Is::kLength) {
    return fault(term.column,
                 fmt::format("{} divided by {} divides a plain number by a length; a fraction "
                             "is written without spaces, `3/4 in`",
                             quoted(*term.parts[0]),
                             quoted(*term.parts[1])));
  }
  const bool length = a.is == Amount::Is::kLength && b.is == Amount::Is::kNumber;
  return Amount{length ? Amount::Is::kLength : Amount::Is::kNumber, a.number / b.number};
}

Result<Amount> Evaluator::choice(const Term& term) const {
  const auto condition = of(*term.parts[0]);
  if (!condition.ok()) {
    return condition;
  }
  if (condition.value().is != Amount::Is::kCondition) {
    return fault(term.parts[0]->first_column,
                 fmt::format("found {}, expected a condition such as `long > 1200 mm`",
                             quoted(*term.parts[0])));
  }
  return size_of(*term.parts[condition.value().number.is_zero() ? 2 : 1]);
}

Result<Amount> Evaluator::call(const Term& term) const {
  std::vector<Amount> amounts;
  for (const TermPointer& part : term.parts) {
    auto amount = size_of(*part);
    if (!amount.ok()) {
      return amount;
    }
    amounts.push_back(amount.value());
  }
  const Amount::Is is = common(amounts);
  if (term.text == "round_to") {
    return round_to(term, amounts[0], amounts[1]);
  }
  auto best = amounts[0].number;
  for (const Amount& amount : amounts) {
    const bool better = term.text == "min" ? amount.number < best : amount.number > best;
    best = better ? amount.number : best;
  }
  return Amount{is, best};
}

Result<Amount> Evaluator::round_to(const Term& term, const Amount& size, const Amount& step) const {
  if (step.number <= ExactNumber{}) {
    return fault(term.parts[1]->first_column,
                 fmt::format("found the step {}, expected one above zero", quoted(*term.parts[1])));
  }
  return Amount{size.is, (size.number / step.number).rounded() * step.number};
}

Result<Value> as_value(const Amount& amount) {
  if (amount.is == Amount::Is::kNumber) {
    return Value{.is_length = false, .length = {}, .number = amount.number.value()};
  }
  const double nm = amount.number.rounded().value();
  if (std::abs(nm) > static_cast<double>(kKilometreNm)) {
    return fault(1, "the result is longer than 1 km");
  }
  return Value{
      .is_length = true, .length = Length::from_nm(static_cast<std::int64_t>(nm)), .number = 0};
}

}  // namespace

Result<Expression> Expression::parse(std::string_view text) {
  auto root = parse_term(text);
  if (!root.ok()) {
    return root.error();
  }
  Expression expression;
  expression.root_ = root.value();
  return expression;
}

Result<Value> Expression::evaluate(LengthUnit unit, const Lookup& lookup) const {
  const auto amount = Evaluator{unit, lookup}.of(*root_);
  if (!amount.ok()) {
    return amount.error();
  }
  if (amount.value().is == Amount::Is::kCondition) {
    return fault(root_->column,
                 fmt::format("found the comparison {}, expected a size", quoted(*root_)));
  }
  return as_value(amount.value());
}

Length as_length(const Value& value, LengthUnit unit) {
  if (value.is_length) {
    return value.length;
  }
  const double nm = value.number * (unit == LengthUnit::kInch ? 25.4e6 : 1e6);
  const double most = static_cast<double>(kKilometreNm);
  return Length::from_nm(static_cast<std::int64_t>(std::round(std::clamp(nm, -most, most))));
}

Result<Length> length_of(const Value& value, LengthUnit unit) {
  const double nm = value.number * (unit == LengthUnit::kInch ? 25.4e6 : 1e6);
  if (!value.is_length && !(std::abs(nm) <= static_cast<double>(kKilometreNm))) {
    return fault(1, "the result is longer than 1 km");
  }
  return as_length(value, unit);
}

Result<Length> parse_length(std::string_view text, LengthUnit unit) {
  const auto expression = Expression::parse(text);
  if (!expression.ok()) {
    return expression.error();
  }
  const auto value = expression.value().evaluate(unit, nullptr);
  return value.ok() ? length_of(value.value(), unit) : Result<Length>{value.error()};
}

bool is_name(std::string_view text) {
  const Characters chars{text};
  for (std::size_t i = 0; i < chars.size(); ++i) {
    if (!(i == 0 ? is_letter(chars[i]) : is_name_part(chars[i]))) {
      return false;
    }
  }
  return chars.size() > 0;
}

}  // namespace plankwright::measure
