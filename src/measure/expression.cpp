// A Pratt parser (Pratt 1973): each sign has a strength, and a term goes on to the right as long as
// the next sign is stronger than the one before it. Sizes are kept as exact nanometres until the
// end.
#include "measure/expression.h"

#include <algorithm>
#include <array>
#include <cmath>
#include <optional>
#include <vector>

#include <fmt/format.h>

#include "base/nearest.h"
#include "measure/characters.h"
#include "measure/exact_number.h"
#include "measure/tokens.h"

namespace plankwright::measure {

using base::Error;
using base::Result;

/// One node of a parsed expression.
struct Expression::Term {
  enum class Kind {
    kNumber,
    kName,
    kNegative,
    kSum,
    kDifference,
    kProduct,
    kQuotient,
    kComparison,
    kCall
  };
  Kind kind = Kind::kNumber;
  int column = 1;        // of the literal, the name or the sign
  int first_column = 1;  // of the leftmost word
  std::string text;      // the literal, the name, the comparison or the function
  ExactNumber number;    // of a literal
  bool is_length = false;
  std::vector<std::shared_ptr<const Term>> parts;
};

namespace {

using Term = Expression::Term;
using TermPointer = std::shared_ptr<const Term>;
using Kind = Term::Kind;

constexpr std::int64_t kKilometreNm = 1'000'000'000'000;
constexpr std::array<std::string_view, 4> kFunctions{"min", "max", "round_to", "if"};

Error fault(int column, std::string message, std::string nearest = {}) {
  return Error{.message = std::move(message),
               .at = base::Position{.line = 1, .column = column},
               .nearest = std::move(nearest)};
}

// ---- Reading ------------------------------------------------------------------------------------

/// How strongly a sign between two terms holds them; 0 for what is no such sign.
int strength(const Token& token) {
  if (token.kind != Token::Kind::kSign) {
    return 0;
  }
  const std::string& sign = token.text;
  if (sign == "*" || sign == "/") {
    return 3;
  }
  if (sign == "+" || sign == "-") {
    return 2;
  }
  return sign == "(" || sign == ")" || sign == "," ? 0 : 1;
}
constexpr int kComparisonStrength = 1;
constexpr int kNegativeStrength = 4;

Kind kind_of(const std::string& sign) {
  return sign == "+"   ? Kind::kSum
         : sign == "-" ? Kind::kDifference
         : sign == "*" ? Kind::kProduct
         : sign == "/" ? Kind::kQuotient
                       : Kind::kComparison;
}

class Parser {
 public:
  explicit Parser(std::vector<Token> tokens) : tokens_{std::move(tokens)} {}

  Result<TermPointer> run() {
    auto term = between_signs(0, 0);
    if (term.ok() && next().kind != Token::Kind::kEnd) {
      return unexpected("expected a sign such as `+` or the end");
    }
    return term;
  }

 private:
  const Token& next() const { return tokens_[at_]; }
  bool take(std::string_view sign) {
    const bool found = next().kind == Token::Kind::kSign && next().text == sign;
    at_ += found ? 1 : 0;
    return found;
  }
  Error unexpected(std::string_view expected) const {
    return next().kind == Token::Kind::kEnd
               ? fault(next().column, fmt::format("found the end, {}", expected))
               : fault(next().column, fmt::format("found `{}`, {}", next().text, expected));
  }

  Result<TermPointer> between_signs(int weakest, int depth);
  Result<TermPointer> operand(int depth);
  Result<TermPointer> negative(int depth);
  Result<TermPointer> bracket(int depth);
  Result<TermPointer> call(const Token& function, int depth);
  static std::optional<Error> count_parts(const Term& call);

  std::vector<Token> tokens_;
  std::size_t at_ = 0;
};

Result<TermPointer> Parser::between_signs(int weakest, int depth) {
  auto left = operand(depth);
  while (left.ok() && strength(next()) > weakest) {
    const Token sign = next();
    ++at_;
    auto right = between_signs(strength(sign), depth);
    if (!right.ok()) {
      return right;
    }
    if (strength(sign) == kComparisonStrength && strength(next()) == kComparisonStrength) {
      return unexpected("expected one comparison, not two in a row");
    }
    Term term;
    term.kind = kind_of(sign.text);
    term.column = sign.column;
    term.first_column = left.value()->first_column;
    term.text = sign.text;
    term.parts = {left.value(), right.value()};
    left = TermPointer{std::make_shared<const Term>(std::move(term))};
  }
  return left;
}

Result<TermPointer> Parser::operand(int depth) {
  constexpr int kDeepest = 64;
  const Token token = next();
  if (depth > kDeepest) {
    return fault(token.column, "found brackets more than 64 deep");
  }
  if (take("-")) {
    return negative(depth);
  }
  if (take("+")) {
    return operand(depth + 1);
  }
  if (take("(")) {
    return bracket(depth);
  }
  if (token.kind != Token::Kind::kNumber && token.kind != Token::Kind::kName) {
    return unexpected("expected a size or a name");
  }
  ++at_;
  if (token.kind == Token::Kind::kName && take("(")) {
    return call(token, depth);
  }
  Term term;
  term.kind = token.kind == Token::Kind::kNumber ? Kind::kNumber : Kind::kName;
  term.column = term.first_column = token.column;
  term.text = token.text;
  term.number = token.number;
  term.is_length = token.is_length;
  return TermPointer{std::make_shared<const Term>(std::move(term))};
}

Result<TermPointer> Parser::negative(int depth) {
  const int column = tokens_[at_ - 1].column;
  auto of = between_signs(kNegativeStrength, depth + 1);
  if (!of.ok()) {
    return of;
  }
  Term term;
  term.kind = Kind::kNegative;
  term.column = term.first_column = column;
  term.parts = {of.value()};
  return TermPointer{std::make_shared<const Term>(std::move(term))};
}

Result<TermPointer> Parser::bracket(int depth) {
  const int opened = tokens_[at_ - 1].column;
  auto inside = between_signs(0, depth + 1);
  if (!inside.ok() || take(")")) {
    return inside;
  }
  if (next().kind == Token::Kind::kEnd) {
    return fault(opened, "found `(` without its `)`");
  }
  return unexpected("expected `)` or a sign such as `+`");
}

std::optional<Error> Parser::count_parts(const Term& call) {
  const std::size_t parts = call.parts.size();
  if (call.text == "round_to" && parts != 2) {
    return fault(call.column, "round_to wants two parts, `round_to(size, step)`");
  }
  if (call.text == "if" && parts != 3) {
    return fault(call.column, "if wants three parts, `if(condition, then, else)`");
  }
  return std::nullopt;
}

Result<TermPointer> Parser::call(const Token& function, int depth) {
  if (std::ranges::find(kFunctions, function.text) == kFunctions.end()) {
    return fault(function.column,
                 fmt::format("found `{}(`, expected {} before a bracket, or a `*`",
                             function.text,
                             base::list_words(kFunctions)),
                 base::nearest_word(function.text, kFunctions));
  }
  Term term;
  term.kind = Kind::kCall;
  term.column = term.first_column = function.column;
  term.text = function.text;
  do {
    auto part = between_signs(0, depth + 1);
    if (!part.ok()) {
      return part;
    }
    term.parts.push_back(part.value());
  } while (take(","));
  if (!take(")")) {
    return next().kind == Token::Kind::kEnd
               ? fault(function.column, fmt::format("found `{}(` without its `)`", function.text))
               : unexpected("expected `,` or `)`");
  }
  if (auto error = count_parts(term)) {
    return *error;
  }
  return TermPointer{std::make_shared<const Term>(std::move(term))};
}

// ---- Evaluating ---------------------------------------------------------------------------------

/// What a term comes to. A length counts nanometres; a condition is 0 or 1.
struct Amount {
  enum class Is { kNumber, kLength, kCondition };
  Is is = Is::kNumber;
  ExactNumber number;
};

/// The words of a term put together again, for messages.
std::string written(const Term& term) {
  switch (term.kind) {
    case Kind::kNumber:
    case Kind::kName:
      return term.text;
    case Kind::kNegative:
      return fmt::format("-{}", written(*term.parts[0]));
    case Kind::kCall:
      return term.text + "(...)";
    default:
      return fmt::format("({} {} {})", written(*term.parts[0]), term.text, written(*term.parts[1]));
  }
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
      lookup_ ? lookup_(term.text)
              : Result<Value>{Error{.message = fmt::format("unknown name `{}`", term.text)}};
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
                 fmt::format("`{}` times `{}` multiplies a length by a length, expected a plain "
                             "number on one side",
                             written(*term.parts[0]),
                             written(*term.parts[1])));
  }
  const bool length = a.is == Amount::Is::kLength || b.is == Amount::Is::kLength;
  return Amount{length ? Amount::Is::kLength : Amount::Is::kNumber, a.number * b.number};
}

Result<Amount> Evaluator::quotient(const Term& term, const Amount& a, const Amount& b) const {
  if (b.number.is_zero()) {
    return fault(term.parts[1]->first_column,
                 fmt::format("`{}` divided by `{}`, which is zero",
                             written(*term.parts[0]),
                             written(*term.parts[1])));
  }
  if (a.is == Amount::Is::kNumber && b.is == Amount::Is::kLength) {
    return fault(term.column,
                 fmt::format("`{}` divided by `{}` divides a plain number by a length; a fraction "
                             "is written without spaces, `3/4 in`",
                             written(*term.parts[0]),
                             written(*term.parts[1])));
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
                 fmt::format("found `{}`, expected a condition such as `long > 1200 mm`",
                             written(*term.parts[0])));
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
    return fault(
        term.parts[1]->first_column,
        fmt::format("found the step `{}`, expected one above zero", written(*term.parts[1])));
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
  auto tokens = tokens_of(text);
  if (!tokens.ok()) {
    return tokens.error();
  }
  auto root = Parser{std::move(tokens).value()}.run();
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
                 fmt::format("found the comparison `{}`, expected a size", written(*root_)));
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
