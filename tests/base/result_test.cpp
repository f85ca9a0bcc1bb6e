#include "base/result.h"

#include <string>

#include <gtest/gtest.h>

namespace plankwright::base {
namespace {

TEST(Describe, ShowsTheLineWithACaretUnderTheCharacter) {
  const std::string source = "title: stool\nwidth: 3O cm\n";
  const Error error{.message = "found `3O`, expected a size", .at = Position{"stool.yaml", 2, 8}};
  EXPECT_EQ(describe(error, source),
            "stool.yaml:2:8: error: found `3O`, expected a size\n"
            "  width: 3O cm\n"
            "         ^\n");
}

TEST(Describe, OffersTheNearestWord) {
  const Error error{
      .message = "unknown `widht`", .at = Position{"a.yaml", 1, 1}, .nearest = "width"};
  EXPECT_EQ(describe(error), "a.yaml:1:1: error: unknown `widht`; did you mean `width`?\n");
}

TEST(Describe, SaysWhatIsWrongWithoutAPlace) {
  EXPECT_EQ(describe(Error{.message = "no such file"}), "error: no such file\n");
}

struct CaretCase {
  std::string_view why;
  std::string source;
  int line, column;
  std::string shown;
};

TEST(Describe, PutsTheCaretRightInOddLines) {
  const CaretCase cases[] = {
      {"a letter of two bytes counts one", "é: x\n", 1, 4, "  é: x\n     ^\n"},
      {"a tab stays a tab", "\ta: x\n", 1, 5, "  \ta: x\n  \t   ^\n"},
      {"behind the end of the line", "a:\n", 1, 4, "  a:\n     ^\n"},
      {"the line end of other systems", "a: 1\r\nb: 2\r\n", 2, 1, "  b: 2\n  ^\n"},
      {"no such line", "a: 1\n", 7, 1, ""},
      {"an empty line", "\n\n", 2, 1, ""},
      {"a line nobody can read", std::string(200, 'x'), 1, 1, ""}};
  for (const CaretCase& c : cases) {
    SCOPED_TRACE(c.why);
    const std::string head =
        "f:" + std::to_string(c.line) + ":" + std::to_string(c.column) + ": error: wrong\n";
    EXPECT_EQ(describe(Error{.message = "wrong", .at = Position{"f", c.line, c.column}}, c.source),
              head + c.shown);
  }
}

TEST(ResultOf, HoldsAValueOrAnError) {
  const Result<int> good{3};
  const Result<int> bad{Error{.code = ErrorCode::kOutOfTable, .message = "not in the table"}};
  ASSERT_TRUE(good.ok());
  EXPECT_EQ(good.value(), 3);
  ASSERT_FALSE(bad.ok());
  EXPECT_EQ(bad.error().code, ErrorCode::kOutOfTable);
  EXPECT_EQ(bad.error().message, "not in the table");
}

}  // namespace
}  // namespace plankwright::base
