// A Pratt parser (Pratt 1973): each sign has a strength, and a term goes on to the right as long as
// the next sign is stronger than the one before it.
#include <algorithm>
#include <array>
#include <optional>
#include <utility>

#include <fmt/format.h>

#include "base/nearest.h"
#include "base/quote.h"
#include "measure/term.h"
#include "measure/tokens.h"

namespace plankwright::measure {

using base::Error;
using base::Result;

namespace {

using Term = Expression::Term;
using TermPointer = std::shared_ptr<const Term>;
using Kind = Term::Kind;

constexpr std::array<std::string_view, 4> kFunctions{"min", "max", "round_to", "if"};

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
               : fault(next().column,
                       fmt::format("found {}, {}", base::quote(next().text), expected));
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

}  // namespace

Error fault(int column, std::string message, std::string nearest) {
  return Error{.message = std::move(message),
               .at = base::Position{.line = 1, .column = column},
               .nearest = std::move(nearest)};
}

Result<TermPointer> parse_term(std::string_view text) {
  auto tokens = tokens_of(text);
  if (!tokens.ok()) {
    return tokens.error();
  }
  return Parser{std::move(tokens).value()}.run();
}

}  // namespace plankwright::measure
