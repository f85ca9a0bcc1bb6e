#include "measure/expression.h"

#include <map>
#include <string>

#include <gtest/gtest.h>

namespace plankwright::measure {
namespace {

/// The names of a small table: two lengths in inches, a count and an old-fashioned dotted one.
base::Result<Value> look_up(std::string_view name) {
  static const std::map<std::string_view, Value> kNames{{"long", {true, 74.8125_in, 0}},
                                                        {"side", {true, 2_in, 0}},
                                                        {"legs", {false, {}, 4}},
                                                        {"carcase.width", {true, 900_mm, 0}}};
  const auto found = kNames.find(name);
  if (found == kNames.end()) {
    return base::Error{.message = "unknown name `" + std::string{name} + "`"};
  }
  return found->second;
}

base::Result<Value> come_to(std::string_view text, LengthUnit unit = LengthUnit::kInch) {
  const auto expression = Expression::parse(text);
  return expression.ok() ? expression.value().evaluate(unit, look_up)
                         : base::Result<Value>{expression.error()};
}

struct SizeCase {
  std::string_view text;
  Length length;
};

TEST(Expressions, ReadSizesAsMakersWriteThem) {
  const SizeCase cases[] = {{"3/4 in", 0.75_in},
                            {"3/4in", 0.75_in},
                            {"3/4\"", 0.75_in},
                            {"34 7/8 in", 34.875_in},
                            {"34-7/8 in", 34.875_in},
                            {"1 1/2 in", 1.5_in},
                            {"2½\"", 2.5_in},
                            {"2 ½ in", 2.5_in},
                            {"2-½ in", 2.5_in},
                            {"⅞ in", 0.875_in},
                            {"7⁄8 in", 0.875_in},
                            {"6'", 72_in},
                            {"6\"", 6_in},
                            {"5' 2-1/2\"", 62.5_in},
                            {"5' 2 1/2\"", 62.5_in},
                            {"5'2\"", 62_in},
                            {"5'-2\"", 62_in},
                            {"5'-2-1/2\"", 62.5_in},
                            {"5' 2", 62_in},
                            {"5′ 2½″", 62.5_in},
                            {"5’ 2”", 62_in},
                            {"5 ft 2 in", 62_in},
                            {"5 feet 2 inches", 62_in},
                            {"1/2'", 6_in},
                            {"60 cm", 600_mm},
                            {"18mm", 18_mm},
                            {"18.5 mm", 18.5_mm},
                            {".5 in", 0.5_in},
                            {"1.2 m", 1200_mm},
                            {"0.001 mm", Length::from_nm(1000)},
                            {"-1/2 in", -Length::from_inches(0.5)},
                            {"−1/2 in", -Length::from_inches(0.5)},
                            {"1/64 in", Length::from_nm(396'875)}};
  for (const SizeCase& c : cases) {
    SCOPED_TRACE(c.text);
    const auto value = come_to(c.text);
    ASSERT_TRUE(value.ok()) << value.error().message;
    EXPECT_TRUE(value.value().is_length);
    EXPECT_EQ(value.value().length, c.length);
  }
}

struct NumberCase {
  std::string_view text;
  double number;
};

TEST(Expressions, KeepPlainNumbersPlain) {
  const NumberCase cases[] = {{"34 7/8", 34.875},
                              {"34-7/8", 34.875},
                              {"2½", 2.5},
                              {"-1/2", -0.5},
                              {"-34-7/8", -34.875},
                              {"0.1 + 0.2", 0.3},
                              {"2 * 3", 6},
                              {"2 × 3", 6},
                              {"7 ÷ 2", 3.5},
                              {"6 / 3 / 2", 1},
                              {"10 - 4 - 3", 3},
                              {"2 + 3 * 4", 14},
                              {"(2 + 3) * 4", 20},
                              {"--2", 2},
                              {"+2", 2},
                              {"2 * -3", -6},
                              {"-2 * 3", -6},
                              {"1/2-1/4", 0.25},
                              {"34 - 7/8", 33.125},
                              {"34 -7/8", 33.125},
                              {"6*3/4", 4.5},
                              {"2/3/4 * 6", 1},
                              {"6 / (3/4)", 8},
                              {"long / side", 37.40625},
                              {"side / 1 in * legs", 8},
                              {"legs", 4},
                              {"1/3 * 3", 1},
                              {"min(3, 1, 2)", 1},
                              {"max(3, 1, 2)", 3},
                              {"max(-3)", -3},
                              {"round_to(17, 5)", 15},
                              {"round_to(17.5, 5)", 20},
                              {"round_to(-17.5, 5)", -20},
                              {"if(1 < 2, 3, 4)", 3},
                              {"if(1 > 2, 3, 4)", 4},
                              {"if(2 <= 2, 3, 4)", 3},
                              {"if(2 >= 3, 3, 4)", 4},
                              {"if(1/2 == 0.5, 3, 4)", 3},
                              {"if(1/3 + 1/3 + 1/3 != 1, 3, 4)", 4},
                              {"if(25.4 mm == 1 in, 3, 4)", 3},
                              {"if(legs == 4, 1, 1 / 0)", 1},
                              {"if(if(1 < 2, 1, 2) == 1, 7, 8)", 7},
                              {"  7  ", 7}};
  for (const NumberCase& c : cases) {
    SCOPED_TRACE(c.text);
    const auto value = come_to(c.text);
    ASSERT_TRUE(value.ok()) << value.error().message;
    EXPECT_FALSE(value.value().is_length);
    EXPECT_DOUBLE_EQ(value.value().number, c.number);
  }
}

TEST(Expressions, CalculateWithLengths) {
  const SizeCase cases[] = {{"long - 2", 72.8125_in},
                            {"long - 2 * side", 70.8125_in},
                            {"2 - long", Length::from_inches(-72.8125)},
                            {"long/4", Length::from_nm(475'059'375)},
                            {"long / 3 * 3", 74.8125_in},
                            {"64 * 1/64 in", 1_in},
                            {"(long - side) / 2 + 1/4", Length::from_inches(36.65625)},
                            {"side * legs", 8_in},
                            {"legs * side", 8_in},
                            {"long-side", 72.8125_in},
                            {"long-2", 72.8125_in},
                            {"long-8-1/2", Length::from_inches(66.3125)},
                            {"long + 8-1/2", Length::from_inches(83.3125)},
                            {"long - 1 mm", Length::from_nm(1'900'237'500 - 1'000'000)},
                            {"carcase.width / 2", 450_mm},
                            {"min(long, 2, side)", 2_in},
                            {"max(side, 3)", 3_in},
                            {"round_to(long, 1/4)", 74.75_in},
                            {"round_to(long, 10 mm)", 1900_mm},
                            {"if(long > 60, side, 1)", 2_in},
                            {"-side", -(2_in)},
                            {"1/2\" + 3", 3.5_in},
                            {"5' 2 + 1", 63_in},
                            {"5'-side", 58_in}};
  for (const SizeCase& c : cases) {
    SCOPED_TRACE(c.text);
    const auto value = come_to(c.text);
    ASSERT_TRUE(value.ok()) << value.error().message;
    EXPECT_TRUE(value.value().is_length);
    EXPECT_EQ(value.value().length, c.length);
  }
}

TEST(Expressions, TakeBareNumbersInTheDocumentsUnit) {
  EXPECT_EQ(come_to("900 mm - 2", LengthUnit::kMillimetre).value().length, 898_mm);
  EXPECT_EQ(come_to("900 mm - 2", LengthUnit::kInch).value().length, 849.2_mm);
  EXPECT_EQ(parse_length("18", LengthUnit::kMillimetre).value(), 18_mm);
  EXPECT_EQ(parse_length("3/4", LengthUnit::kInch).value(), 0.75_in);
  EXPECT_EQ(as_length(Value{false, {}, 2.5}, LengthUnit::kInch), 2.5_in);
  EXPECT_EQ(as_length(Value{true, 7_mm, 0}, LengthUnit::kInch), 7_mm);
}

struct MistakeCase {
  std::string_view text;
  int column;
  std::string_view message;
};

// The text with a caret under the culprit, as a maker sees it.
std::string told(std::string_view text) {
  const auto value = come_to(text);
  return value.ok() ? "no error\n" : base::describe(value.error(), text);
}

TEST(Expressions, PointToTheMistake) {
  const MistakeCase cases[] = {
      {"", 1, "found the end, expected a size or a name"},
      {"long +", 7, "found the end, expected a size or a name"},
      {"long + * 2", 8, "found `*`, expected a size or a name"},
      {"2 3", 3, "found `3`, expected a sign such as `+` or the end"},
      {"long 2", 6, "found `2`, expected a sign such as `+` or the end"},
      {"(long", 1, "found `(` without its `)`"},
      {"((1) 2", 6, "found `2`, expected `)` or a sign such as `+`"},
      {"long)", 5, "found `)`, expected a sign such as `+` or the end"},
      {"min(long, 2", 1, "found `min(` without its `)`"},
      {"min()", 5, "found `)`, expected a size or a name"},
      {"min(1 2)", 7, "found `2`, expected `,` or `)`"},
      {"maxx(1)", 1, "found `maxx(`, expected min, max, round_to or if before a bracket, or a `*`"},
      {"round_to(long)", 1, "round_to wants two parts, `round_to(size, step)`"},
      {"if(1 < 2, 3)", 1, "if wants three parts, `if(condition, then, else)`"},
      {"if(legs, 1, 2)", 4, "found `legs`, expected a condition such as `long > 1200 mm`"},
      {"round_to(long, 0)", 16, "found the step `0`, expected one above zero"},
      {"2 + lnog", 5, "unknown name `lnog`"},
      {"é * 2", 1, "unknown name `é`"},
      {"½ + @", 5, "found `@`, expected a size, a name or a sign such as `+`"},
      {"2,5", 2, "found `,`, expected a sign such as `+` or the end"},
      {"3 / 4 in",
       3,
       "`3` divided by `4 in` divides a plain number by a length; a fraction is written without "
       "spaces, `3/4 in`"},
      {"long * side",
       6,
       "`long` times `side` multiplies a length by a length, expected a plain number on one side"},
      {"(long + 2) * -side",
       12,
       "`long + 2` times `-side` multiplies a length by a length, expected a plain number on one "
       "side"},
      {"long / (2 - 2)", 9, "`long` divided by `2 - 2`, which is zero"},
      {"1/0", 1, "found `1/0`, a fraction with nothing below its bar"},
      {"long > 2", 6, "found the comparison `long > 2`, expected a size"},
      {"1 + (1 < 2)",
       8,
       "found `<` where a size is expected; a comparison stands only as the first part of "
       "if(condition, then, else)"},
      {"if(1 < 2 < 3, 1, 2)", 10, "found `<`, expected one comparison, not two in a row"},
      {"2 foot_rail",
       3,
       "found `foot_rail` behind a number, expected in, ft, mm, cm or m, or a sign such as `*`"},
      {"3 in in", 6, "found `in`, expected a sign such as `+` or the end"},
      {"20-40/2",
       4,
       "found `40/2` behind a whole number, expected a fraction below 1; to take away write spaces "
       "around the `-`"},
      {"34 9/8", 4, "found `9/8` behind a whole number, expected a fraction below 1"},
      {"5' 13\"", 4, "found `13\"` behind feet, expected less than 12 inches"},
      {"5' 2 mm", 4, "found `2 mm` behind feet, expected inches"},
      {"5'-2",
       3,
       "`5'-2` has two readings; write `5' 2\"` for feet and inches, or spaces around the `-` to "
       "take away"},
      {"long/3/4",
       6,
       "`/` before `3/4` has two readings; write `/ (3/4)` or leave spaces inside it"},
      {"long*8-1/2", 6, "`*8-1/2` has two readings; leave spaces around the signs that take away"},
      {"1000000 in * 100", 1, "the result is longer than 1 km"},
      {"-40000 in", 1, "the result is longer than 1 km"},
      {"9999999999999999999", 1, "found a number of more than 18 digits"},
      {"0.123456789012345678", 2, "found more than 17 decimal places"},
      {"34 . 2", 4, "found `.`, expected a size, a name or a sign such as `+`"}};
  for (const MistakeCase& c : cases) {
    SCOPED_TRACE(c.text);
    const auto value = come_to(c.text);
    ASSERT_FALSE(value.ok());
    EXPECT_EQ(value.error().message, c.message);
    ASSERT_TRUE(value.error().at.has_value());
    EXPECT_EQ(value.error().at->line, 1);
    EXPECT_EQ(value.error().at->column, c.column);
  }
}

TEST(Expressions, ShowTheMistakeWithACaret) {
  EXPECT_EQ(told("½ in * (long - sied)"),
            ":1:16: error: unknown name `sied`\n"
            "  ½ in * (long - sied)\n"
            "                 ^\n");
  EXPECT_EQ(
      told("minn(2, 3)"),
      ":1:1: error: found `minn(`, expected min, max, round_to or if before a bracket, or a `*`; "
      "did you mean `min`?\n"
      "  minn(2, 3)\n"
      "  ^\n");
}

TEST(Expressions, KeepThePlaceThatTheNameBrings) {
  const auto expression = Expression::parse("2 * long");
  const auto value = expression.value().evaluate(LengthUnit::kInch, [](std::string_view /*name*/) {
    return base::Result<Value>{
        base::Error{.message = "wrong", .at = base::Position{"table.yaml", 9, 3}}};
  });
  ASSERT_FALSE(value.ok());
  EXPECT_EQ(*value.error().at, (base::Position{"table.yaml", 9, 3}));
}

TEST(Expressions, KnowNoNamesWithoutALookup) {
  const auto length = parse_length("long", LengthUnit::kInch);
  ASSERT_FALSE(length.ok());
  EXPECT_EQ(length.error().message, "unknown name `long`");
}

std::string repeated(std::string_view text, int times) {
  std::string all;
  for (int i = 0; i < times; ++i) {
    all += text;
  }
  return all;
}

TEST(Expressions, RefuseWhatNobodyWrites) {
  EXPECT_EQ(come_to(repeated("(", 500)).error().message, "found brackets more than 64 deep");
  EXPECT_EQ(come_to(repeated("-", 5000) + "1").error().message,
            "found an expression of more than 1000 words");
  EXPECT_EQ(come_to(repeated("-", 500) + "1").error().message, "found brackets more than 64 deep");
  EXPECT_EQ(come_to(repeated("1+", 600) + "1").error().message,
            "found an expression of more than 1000 words");
  EXPECT_EQ(come_to(repeated("min(", 100)).error().message, "found brackets more than 64 deep");
  EXPECT_EQ(come_to(repeated("long", 3000)).error().message,
            "found a text of more than 10000 letters, expected a size or a sum of sizes");
}

TEST(Expressions, TakeNestingAndLengthThatSomebodyMightWrite) {
  EXPECT_EQ(come_to(repeated("(", 60) + "7" + repeated(")", 60)).value().number, 7);
  EXPECT_EQ(come_to(repeated("1 + ", 400) + "1").value().number, 401);
}

TEST(Expressions, GrowOutOfExactNumbersWithoutHarm) {
  // 10^15 to the twentieth is far beyond 64 bits, and to the twenty-first beyond a double at last.
  const std::string large = "1000000000000000";
  const auto twentieth = come_to(large + repeated(" * " + large, 19));
  ASSERT_TRUE(twentieth.ok());
  EXPECT_NEAR(twentieth.value().number, 1e300, 1e288);
  const auto beyond = come_to(large + repeated(" * " + large, 20));
  ASSERT_FALSE(beyond.ok());
  EXPECT_EQ(beyond.error().message, "the result is too large");
  EXPECT_EQ(length_of(twentieth.value(), LengthUnit::kInch).error().message,
            "the result is longer than 1 km");
  EXPECT_EQ(as_length(twentieth.value(), LengthUnit::kInch), 1_mm * 1'000'000);
}

TEST(IsName, TellsNamesFromTheRest) {
  for (const std::string_view name : {"a", "long", "_x", "carcase.width", "a1", "Länge"}) {
    EXPECT_TRUE(is_name(name)) << name;
  }
  for (const std::string_view other : {"", "1a", ".a", "a b", "a-b", "½", "a'", "a\xff"}) {
    EXPECT_FALSE(is_name(other)) << other;
  }
}

}  // namespace
}  // namespace plankwright::measure
