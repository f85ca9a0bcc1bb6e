// Margin and markup against published tables and examples.

#include <string_view>

#include <gtest/gtest.h>

#include "price/price.h"

namespace plankwright::price {
namespace {

struct Converted {
  std::string_view why;
  double markup, margin;
};

// Markup and margin table: BZ1 (brrinc.org, "markup and gross profit", verified); the source prints
// whole percents.
TEST(Margin, AgreesWithThePublishedTable) {
  const Converted cases[] = {{"quarter", 25, 20},
                             {"third", 33, 25},
                             {"two fifths", 40, 28.6},
                             {"half", 50, 33},
                             {"three quarters", 75, 43},
                             {"double", 100, 50},
                             {"150", 150, 60},
                             {"200", 200, 67},
                             {"300", 300, 75}};
  for (const Converted& c : cases) {
    SCOPED_TRACE(c.why);
    EXPECT_NEAR(margin_from_markup(Percent{c.markup}).count(), c.margin, 0.5);
  }
}

// BZ4 (verified): cost 100, price 150 is a markup of 50 % and a margin of 33.33 %.
// BZ7 (verified): cost 75, price 100 is a margin of 25 % and a markup of 33.3 %.
TEST(Margin, AgreesWithThePublishedExamples) {
  const auto money = [](double major) { return Money::from_major(major); };
  EXPECT_NEAR(markup_of(money(100), money(150)).count(), 50, 1e-9);
  EXPECT_NEAR(margin_of(money(100), money(150)).count(), 33.33, 0.01);
  EXPECT_NEAR(margin_of(money(75), money(100)).count(), 25, 1e-9);
  EXPECT_NEAR(markup_of(money(75), money(100)).count(), 33.3, 0.05);
}

// Common practice, no source: a cost of 3,800 at 40 % margin asks 6,333.33; rounded up to the next
// 100 it is 6,400 and the margin 40.6 %; 40 % taken as a markup would ask only 5,320.
TEST(Margin, IsNotAMarkup) {
  const Money cost = Money::from_major(3800);
  EXPECT_EQ(price_for_margin(cost, Percent{40}), Money::from_major(6333.33));
  const Money asked =
      measure::round_up(price_for_margin(cost, Percent{40}), Money::from_major(100));
  EXPECT_EQ(asked, Money::from_major(6400));
  EXPECT_NEAR(margin_of(cost, asked).count(), 40.6, 0.05);
  EXPECT_EQ(measure::scaled(cost, 1.40), Money::from_major(5320));
  EXPECT_NEAR(markup_from_margin(Percent{40}).count(), 66.7, 0.05);
}

}  // namespace
}  // namespace plankwright::price
