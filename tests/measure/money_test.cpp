#include "measure/money.h"

#include <cmath>
#include <limits>
#include <numeric>

#include <gtest/gtest.h>
#include <rapidcheck/gtest.h>

namespace plankwright::measure {
namespace {

Money cents(std::int64_t n) {
  return Money::from_minor(n);
}

TEST(PrintMoney, GroupsThousands) {
  const Currency euro{"EUR"};
  EXPECT_EQ(print(cents(0), euro), "0.00 EUR");
  EXPECT_EQ(print(cents(5), euro), "0.05 EUR");
  EXPECT_EQ(print(cents(99'999), euro), "999.99 EUR");
  EXPECT_EQ(print(cents(123'450), euro), "1,234.50 EUR");
  EXPECT_EQ(print(cents(123'456'789'01), Currency{"GBP"}), "123,456,789.01 GBP");
  EXPECT_EQ(print(cents(-123'450), euro), "-1,234.50 EUR");
  EXPECT_EQ(print(cents(-7), euro), "-0.07 EUR");
  EXPECT_EQ(print(cents(std::numeric_limits<std::int64_t>::min()), euro),
            "-92,233,720,368,547,758.08 EUR");
}

TEST(PrintWhole, LeavesOutOnlyZeroCents) {
  EXPECT_EQ(print_whole(cents(123'400), Currency{"USD"}), "1,234 USD");
  EXPECT_EQ(print_whole(cents(123'401), Currency{"USD"}), "1,234.01 USD");
  EXPECT_EQ(print_whole(cents(-200), Currency{"USD"}), "-2 USD");
}

struct RoundCase {
  std::string_view why;
  std::int64_t amount, step, rounded;
};

TEST(RoundUp, GoesUpToTheNextMultiple) {
  const RoundCase cases[] = {{"up to the next 50", 120'001, 5'000, 125'000},
                             {"already a multiple", 125'000, 5'000, 125'000},
                             {"one cent", 1, 1'000, 1'000},
                             {"no step", 123, 0, 123},
                             {"zero", 0, 500, 0},
                             {"up from below zero is towards zero", -1'250, 1'000, -1'000}};
  for (const RoundCase& c : cases) {
    SCOPED_TRACE(c.why);
    EXPECT_EQ(round_up(cents(c.amount), cents(c.step)).minor(), c.rounded);
  }
}

struct SplitCase {
  std::string_view why;
  std::int64_t amount;
  std::vector<double> percents;
  std::vector<std::int64_t> shares;
};

TEST(Split, GivesTheOddCentsToTheFirst) {
  const SplitCase cases[] = {
      {"no odd cent", 100'00, {50, 25, 25}, {50'00, 25'00, 25'00}},
      {"one odd cent", 100'01, {50, 50}, {50'01, 50'00}},
      {"thirds, two odd cents", 1'00, {33, 33, 34}, {33, 33, 34}},
      {"two cents over", 50, {33, 33, 34}, {17, 16, 17}},
      {"a percent with decimals is not a hair less", 10'00, {33.3, 66.7}, {3'33, 6'67}},
      {"thirds with many digits", 100'00, {100.0 / 3, 100.0 / 3, 100.0 / 3}, {33'34, 33'33, 33'33}},
      {"no share, no odd cent", 1'01, {0, 50, 50}, {0, 51, 50}},
      {"money given back", -100'01, {50, 50}, {-50'01, -50'00}},
      {"less than all", 1'000'00, {30}, {300'00}},
      {"nothing to share", 0, {60, 40}, {0, 0}},
      {"nobody to share", 5'00, {}, {}}};
  for (const SplitCase& c : cases) {
    SCOPED_TRACE(c.why);
    std::vector<std::int64_t> shares;
    for (const Money share : split(cents(c.amount), c.percents)) {
      shares.push_back(share.minor());
    }
    EXPECT_EQ(shares, c.shares);
  }
}

RC_GTEST_PROP(SplitProperty, SharesOfTheWholeAddUpAndAreFair, ()) {
  const auto amount = *rc::gen::inRange<std::int64_t>(-1'000'000'000'00, 1'000'000'000'00);
  auto weights =
      *rc::gen::nonEmpty(rc::gen::container<std::vector<int>>(rc::gen::inRange(0, 1000)));
  const int all = std::accumulate(weights.begin(), weights.end(), 0);
  RC_PRE(all > 0);
  RC_PRE(weights.size() <= 20U);
  std::vector<double> percents;
  for (const int weight : weights) {
    percents.push_back(100.0 * weight / all);
  }
  const auto shares = split(cents(amount), percents);
  std::int64_t sum = 0;
  for (std::size_t i = 0; i < shares.size(); ++i) {
    sum += shares[i].minor();
    // A percent is taken to a millionth, so a large sum may shift by that much besides the odd
    // cents.
    const double fair = static_cast<double>(amount) * percents[i] / 100;
    const double slack = 20 + std::abs(static_cast<double>(amount)) * 1e-8;
    RC_ASSERT(std::abs(static_cast<double>(shares[i].minor()) - fair) <= slack);
  }
  RC_ASSERT(sum == amount);
}

TEST(ParseMoney, ReadsWhatAMakerWrites) {
  const std::pair<std::string_view, std::int64_t> good[] = {
      {"120", 120'00},
      {"120.5", 120'50},
      {"120.50", 120'50},
      {"0.05", 5},
      {"1,250.50", 1'250'50},
      {"12,345,678", 12'345'678'00},
      {"-30", -30'00},
      {"999999999999999", 999'999'999'999'999'00}};
  for (const auto& [text, minor] : good) {
    SCOPED_TRACE(text);
    const auto money = parse_money(text);
    ASSERT_TRUE(money.ok());
    EXPECT_EQ(money.value().minor(), minor);
  }
}

TEST(ParseMoney, RefusesTheRest) {
  for (const std::string_view bad : {"",
                                     "-",
                                     ".",
                                     ".50",
                                     "12.",
                                     "1.234",
                                     "1,25",
                                     "12,34,567",
                                     ",123",
                                     "EUR 3",
                                     "3 EUR",
                                     "1e3",
                                     "1 000",
                                     "1000000000000000",
                                     "1.5.0",
                                     "--3",
                                     "12,"}) {
    SCOPED_TRACE(bad);
    const auto money = parse_money(bad);
    ASSERT_FALSE(money.ok());
    EXPECT_EQ(money.error().message,
              "found `" + std::string{bad} + "`, expected money such as `120` or `1,250.50`");
  }
}

RC_GTEST_PROP(ParseMoneyProperty, ReadsBackWhatIsPrinted, ()) {
  const auto minor = *rc::gen::inRange<std::int64_t>(-10'000'000'000'00, 10'000'000'000'00);
  const std::string printed = print(cents(minor), Currency{"EUR"});
  const auto read = parse_money(printed.substr(0, printed.size() - 4));
  RC_ASSERT(read.ok());
  RC_ASSERT(read.value().minor() == minor);
}

TEST(MoneyRounding, GoesToTheNearestCentHalvesAwayFromZero) {
  EXPECT_EQ(Money::from_major(1.005 + 1e-9).minor(), 101);
  EXPECT_EQ(Money::from_major(-0.125).minor(), -13);
  EXPECT_EQ(scaled(cents(999), 0.5).minor(), 500);
}

}  // namespace
}  // namespace plankwright::measure
