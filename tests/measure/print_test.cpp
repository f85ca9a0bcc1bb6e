#include <cstdlib>

#include <gtest/gtest.h>
#include <rapidcheck/gtest.h>

#include "measure/expression.h"

namespace plankwright::measure {
namespace {

struct PrintCase {
  Length length;
  std::string_view inches, millimetres;
};

TEST(Print, ReadsAsAMakerReadsARule) {
  // One inch is 25.4 mm (NIST Handbook 44, appendix C), so the millimetres are worked out by hand.
  const PrintCase cases[] = {{0_in, "0", "0"},
                             {1_in, "1", "25.4"},
                             {34.875_in, "34 7/8", "885.8"},  // 885.825
                             {0.1875_in, "3/16", "4.8"},      // 4.7625
                             {0.03125_in, "1/32", "0.8"},     // 0.79375
                             {12.5_in, "12 1/2", "317.5"},
                             {18_mm, "23/32-", "18"},  // 22.677 thirty-seconds
                             {886_mm, "34 7/8+", "886"},
                             {600_mm, "23 5/8-", "600"},  // 23.622
                             {-Length::from_inches(0.5), "-1/2", "-12.7"},
                             {-Length::from_inches(2.25), "-2 1/4", "-57.2"},  // 57.15
                             {-Length::from_mm(18), "-23/32+", "-18"},
                             {0.02_mm, "0+", "0"},
                             {-Length::from_mm(0.02), "0-", "0"},
                             {0.05_mm, "0+", "0.1"},
                             // 31.75 thirty-seconds round up to the next inch
                             {Length::from_inches(31.75 / 32), "1-", "25.2"},
                             {Length::from_inches(100.0 / 64), "1 9/16", "39.7"},
                             {Length::from_inches(101.0 / 64), "1 19/32-", "40.1"}};
  for (const PrintCase& c : cases) {
    SCOPED_TRACE(c.length.mm());
    EXPECT_EQ(print(c.length, LengthUnit::kInch), c.inches);
    EXPECT_EQ(print(c.length, LengthUnit::kMillimetre), c.millimetres);
  }
}

TEST(Print, ShowsNoSignForASharesLastNanometre) {
  const Length third = 1_in / 3;
  EXPECT_EQ(print(third * 3, LengthUnit::kInch), "1");
  EXPECT_LT(third * 3, 1_in);
}

TEST(PrintWithUnit, NamesTheUnit) {
  EXPECT_EQ(print_with_unit(34.875_in, LengthUnit::kInch), "34 7/8 in");
  EXPECT_EQ(print_with_unit(886_mm, LengthUnit::kMillimetre), "886 mm");
  EXPECT_EQ(print_with_unit(886_mm, LengthUnit::kInch), "34 7/8+ in");
}

Length read_back(std::string printed, LengthUnit unit) {
  if (printed.ends_with('+') || printed.ends_with('-')) {
    printed.pop_back();
  }
  const auto length = parse_length(printed, unit);
  RC_ASSERT(length.ok());
  return length.value();
}

RC_GTEST_PROP(PrintProperty, IsReadBackWithinHalfAStep, ()) {
  const Length length =
      Length::from_nm(*rc::gen::inRange<std::int64_t>(-20'000'000'000, 20'000'000'000));
  const Length inches = read_back(print(length, LengthUnit::kInch), LengthUnit::kInch);
  RC_ASSERT(std::abs((inches - length).nm()) * 64 <= (1_in).nm());
  const Length metric = read_back(print(length, LengthUnit::kMillimetre), LengthUnit::kMillimetre);
  RC_ASSERT(std::abs((metric - length).nm()) <= (0.05_mm).nm());
}

RC_GTEST_PROP(PrintProperty, MarksExactlyWhatIsNotOnTheRule, ()) {
  const auto parts = *rc::gen::inRange<std::int64_t>(-10'000, 10'000);
  const Length on_the_rule = 1_in * parts / 32;
  const std::string printed = print(on_the_rule, LengthUnit::kInch);
  RC_ASSERT(!printed.ends_with('+'));
  RC_ASSERT(!printed.ends_with('-'));
  RC_ASSERT(read_back(printed, LengthUnit::kInch) == on_the_rule);
  const Length off = Length::from_nm(*rc::gen::inRange<std::int64_t>(1'001, 396'874));
  RC_ASSERT(print(on_the_rule + off, LengthUnit::kInch) == printed + "+");
  RC_ASSERT(print(on_the_rule - off, LengthUnit::kInch) == printed + "-");
}

}  // namespace
}  // namespace plankwright::measure
