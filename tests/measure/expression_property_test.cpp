#include <cmath>
#include <string>

#include <fmt/format.h>
#include <gtest/gtest.h>
#include <rapidcheck/gtest.h>

#include "measure/expression.h"

namespace plankwright::measure {
namespace {

int upto(int most) {
  return *rc::gen::inRange(0, most);
}

/// An expression and what it comes to, worked out beside it in plain floating point: millimetres
/// when it is a length. The document's unit is the millimetre.
struct Written {
  std::string text;
  double value = 0;
  bool length = false;
  int strength = 9;  // of its outermost sign
  bool bare_fraction = false;
};

Written some_literal() {
  const int whole = 1 + upto(60);
  const int under = 1 << (1 + upto(6));
  const int top = 1 + upto(under - 1);
  const std::string fraction = std::to_string(top) + "/" + std::to_string(under);
  const double part = static_cast<double>(top) / under;
  switch (upto(8)) {
    case 0:
      return {std::to_string(whole), static_cast<double>(whole)};
    case 1:
      return {fraction, part, false, 9, true};
    case 2:
      return {std::to_string(whole) + " " + fraction, whole + part};
    case 3:
      return {std::to_string(whole) + "-" + fraction + "\"", (whole + part) * 25.4, true};
    case 4:
      return {std::to_string(whole) + "' " + fraction + "\"", (whole * 12 + part) * 25.4, true};
    case 5:
      return {std::to_string(whole) + "." + std::to_string(top % 10) + " cm",
              static_cast<double>(whole * 10 + top % 10),
              true};
    case 6:
      return {"side", 45.5, true};
    default:
      return {"count", 3};
  }
}

std::string bracketed(const Written& w, bool wanted) {
  return wanted ? fmt::format("({})", w.text) : w.text;
}

Written joined(const Written& a, const Written& b, char sign) {
  const int strength = sign == '*' || sign == '/' ? 2 : 1;
  const bool hidden = b.strength <= strength || (sign == '/' && b.bare_fraction);
  Written all;
  all.text =
      fmt::format("{} {} {}", bracketed(a, a.strength < strength), sign, bracketed(b, hidden));
  all.strength = strength;
  all.value = sign == '+'   ? a.value + b.value
              : sign == '-' ? a.value - b.value
              : sign == '*' ? a.value * b.value
                            : a.value / b.value;
  all.length = sign == '/' ? a.length && !b.length : a.length || b.length;
  return all;
}

Written some_expression(int depth);

Written some_call(int depth) {
  const Written a = some_expression(depth - 1);
  const Written b = some_expression(depth - 1);
  const bool any_length = a.length || b.length;
  switch (upto(3)) {
    case 0:
      return {fmt::format("min({}, {})", a.text, b.text), std::min(a.value, b.value), any_length};
    case 1:
      return {fmt::format("max({},{})", a.text, b.text), std::max(a.value, b.value), any_length};
    default: {
      const Written& taken = a.value < b.value ? a : b;
      // Equal values may be told apart by rounding in the reference; then both branches are the
      // same.
      const std::string other = a.value == b.value ? taken.text : b.text;
      return {fmt::format("if({} < {}, {}, {})", a.text, b.text, taken.text, other),
              taken.value,
              taken.length};
    }
  }
}

Written some_expression(int depth) {
  if (depth == 0 || upto(4) == 0) {
    return some_literal();
  }
  if (upto(6) == 0) {
    return some_call(depth);
  }
  const Written a = some_expression(depth - 1);
  if (upto(6) == 0) {
    return {fmt::format("-{}", bracketed(a, a.strength < 3)), -a.value, a.length, 3};
  }
  const Written b = some_expression(depth - 1);
  char sign = "+-*/"[upto(4)];
  if (sign == '*' && a.length && b.length) {
    sign = '/';
  }
  const bool no_quotient = (!a.length && b.length) || std::abs(b.value) < 1e-6;
  return joined(a, b, sign == '/' && no_quotient ? '-' : sign);
}

base::Result<Value> look_up(std::string_view name) {
  return name == "side" ? Value{true, 45.5_mm, 0} : Value{false, {}, 3};
}

RC_GTEST_PROP(ExpressionProperty, AgreesWithPlainArithmetic, ()) {
  const Written written = some_expression(4);
  RC_PRE(std::abs(written.value) < 1e5);
  const auto expression = Expression::parse(written.text);
  RC_ASSERT(expression.ok());
  const auto value = expression.value().evaluate(LengthUnit::kMillimetre, look_up);
  RC_LOG() << written.text << "\n";
  RC_ASSERT(value.ok());
  RC_ASSERT(value.value().is_length == written.length);
  const double found = written.length ? value.value().length.mm() : value.value().number;
  RC_ASSERT(std::abs(found - written.value) < 1e-6 + 1e-9 * std::abs(written.value));
}

RC_GTEST_PROP(ExpressionProperty, SharesOfALengthAddUpExactly, ()) {
  const int shares = 1 + upto(200);
  const int parts = 1 + upto(5000);  // sixty-fourths of an inch
  const std::string size = std::to_string(parts) + "/64 in";
  const std::string text = size + " / " + std::to_string(shares) + " * " + std::to_string(shares);
  const auto whole = parse_length(text, LengthUnit::kInch);
  RC_ASSERT(whole.ok());
  RC_ASSERT(whole.value().nm() == 396'875 * std::int64_t{parts});
}

RC_GTEST_PROP(ExpressionProperty, WholeAndSixtyFourthFactorsAreExact, ()) {
  const int factor = upto(2000) - 1000;
  const int parts = 1 + upto(64);
  const int size = 1 + upto(900);
  const std::string text = std::to_string(factor) + " * " + std::to_string(size) + " mm * (" +
                           std::to_string(parts) + "/64)";
  const auto length = parse_length(text, LengthUnit::kInch);
  RC_ASSERT(length.ok());
  RC_ASSERT(length.value().nm() * 64 == std::int64_t{factor} * size * parts * 1'000'000);
}

RC_GTEST_PROP(ExpressionProperty, AnythingTypedIsAValueOrAPlacedError, ()) {
  static const std::vector<std::string> kPieces{"1",
                                                "34",
                                                "7/8",
                                                ".",
                                                "-",
                                                "+",
                                                "*",
                                                "/",
                                                "(",
                                                ")",
                                                ",",
                                                "'",
                                                "\"",
                                                " ",
                                                "in",
                                                "mm",
                                                "ft",
                                                "long",
                                                "min(",
                                                "if(",
                                                "round_to(",
                                                "<",
                                                "<=",
                                                "==",
                                                "!",
                                                "½",
                                                "′",
                                                "é",
                                                "\xff",
                                                "\xe2\x80",
                                                "999999999999999999",
                                                "0",
                                                "1e9",
                                                "_",
                                                "@",
                                                "\n"};
  std::string text;
  const int pieces = upto(30);
  for (int i = 0; i < pieces; ++i) {
    text += kPieces[static_cast<std::size_t>(upto(static_cast<int>(kPieces.size())))];
  }
  const auto expression = Expression::parse(text);
  const auto value = expression.ok() ? expression.value().evaluate(LengthUnit::kInch, look_up)
                                     : base::Result<Value>{expression.error()};
  if (value.ok()) {
    RC_ASSERT(std::abs(value.value().length.metres()) <= 1000);
    RC_ASSERT(std::isfinite(value.value().number));
  } else {
    RC_ASSERT(value.error().at.has_value());
    RC_ASSERT(value.error().at->column >= 1);
    RC_ASSERT(value.error().at->column <= static_cast<int>(text.size()) + 1);
    RC_ASSERT(!value.error().message.empty());
  }
}

RC_GTEST_PROP(ExpressionProperty, AnyBytesAreAValueOrAnError, (const std::string& bytes)) {
  const auto length = parse_length(bytes, LengthUnit::kMillimetre);
  RC_ASSERT((length.ok() || !length.error().message.empty()));
  for (const auto parse :
       {parse_minutes, parse_percent, parse_celsius, parse_kilograms, parse_line_load}) {
    const auto value = parse(bytes);
    RC_ASSERT((value.ok() || !value.error().message.empty()));
  }
}

}  // namespace
}  // namespace plankwright::measure
