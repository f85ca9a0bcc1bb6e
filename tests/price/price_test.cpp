#include "price/price.h"

#include <cmath>

#include <gtest/gtest.h>
#include <rapidcheck/gtest.h>

namespace plankwright::price {
namespace {

RC_GTEST_PROP(Margin, GoesThereAndBack, ()) {
  const double markup = *rc::gen::inRange(1, 100'000) / 100.0;
  RC_ASSERT(std::abs(markup_from_margin(margin_from_markup(Percent{markup})).count() - markup) <
            1e-6 * markup);
}

// Common practice, no source: eight drawers bought for 500 with their slides; made, slides are 34 a
// pair and stock 12.50 a drawer, at 50 an hour: making pays below 19.2 minutes a drawer.
TEST(MakeOrBuy, FindsTheBreakEvenMinutes) {
  const Way make{Money::from_major(8 * (34 + 12.50)), measure::Minutes{8 * 65.0}};
  const Way buy{Money::from_major(500), measure::Minutes{0}};
  const MakeOrBuy question = make_or_buy("drawers", 8, make, buy, Money::from_major(50), 12);
  EXPECT_NEAR(question.break_even.count() / 8, 19.2, 0.01);
  EXPECT_GT(question.make_cost, question.buy_cost);
  EXPECT_NE(question.advice.find("buying saves"), std::string::npos);
  EXPECT_NE(question.advice.find("12 working days"), std::string::npos);
}

RC_GTEST_PROP(MakeOrBuy, CostsTheSameAtTheBreakEven, ()) {
  const auto whole = [](int low, int high) { return *rc::gen::inRange(low, high); };
  const Money rate = Money::from_major(whole(20, 120));
  const Way buy{Money::from_major(whole(0, 5000)), measure::Minutes{double(whole(0, 500))}};
  Way make{Money::from_major(whole(0, 5000)), measure::Minutes{0}};
  const MakeOrBuy asked = make_or_buy("boxes", 4, make, buy, rate, 0);
  make.work = asked.break_even + buy.work;
  const MakeOrBuy even = make_or_buy("boxes", 4, make, buy, rate, 0);
  RC_ASSERT(std::abs((even.make_cost - even.buy_cost).minor()) <= 2);
}

/// A job whose figures are easy to add up by hand.
struct Fixture {
  shop::Shop shop;
  commission::Commission commission;
  stock::Stock stock;
  bench::Bench bench;

  Fixture() {
    shop.hour.cost = Money::from_major(60);
    stock::Purchase purchase;
    purchase.what = "boards";
    purchase.kind = "solid";
    purchase.price = Money::from_major(1000);
    stock.purchases.push_back(purchase);
    bench.total = {45, 49, 50, 40, 56, 60};
    bench.office = {5, 5, 5, 4, 6, 6};
    bench.bench = {40, 44, 45, 36, 50, 54};
    commission.risks.push_back(
        {"split", Percent{25}, measure::Minutes{120}, Money::from_major(80), {}});
    commission.terms.margin = Percent{20};
    commission.terms.round_to = Money::from_major(50);
    commission.terms.tax = Percent{7};
    commission.terms.instalments = {{Percent{50}, "on order"}, {Percent{50}, "on delivery"}};
  }
};

TEST(Price, AddsUpEveryLineOnce) {
  const Fixture f;
  const Price price = plan_price(f.commission, f.shop, f.stock, f.bench);
  EXPECT_EQ(price.materials, Money::from_major(1000));
  EXPECT_EQ(price.labour, Money::from_major(3000));  // 50 h at 60
  EXPECT_EQ(price.reserve, Money::from_major(50));   // 25 % of 80 + 2 h at 60
  EXPECT_EQ(price.cost, Money::from_major(4050));
  EXPECT_EQ(price.exact, Money::from_major(5062.50));  // / 0.8
  EXPECT_EQ(price.price, Money::from_major(5100));
  EXPECT_EQ(price.tax, Money::from_major(357));
  EXPECT_EQ(price.total, Money::from_major(5457));
  Money lines;
  for (const CostLine& line : price.lines) {
    lines += line.cost;
  }
  EXPECT_EQ(lines, price.cost);
}

TEST(Price, SaysWhatIsLeftWhenHoursRunOver) {
  const Fixture f;
  const Price price = plan_price(f.commission, f.shop, f.stock, f.bench);
  ASSERT_EQ(price.outcomes.size(), 3U);
  EXPECT_EQ(price.outcomes[2].cost, Money::from_major(1050 + 60 * 60));
  EXPECT_NEAR(price.hours_to_lose, (5100 - 1050) / 60.0, 1e-9);
  EXPECT_GT(price.chance_of_loss, 0.0);
  EXPECT_LT(price.chance_of_loss, 0.1);  // 67.5 h is well above the P90 of 60 h
}

TEST(Price, PaymentsAddUpAndTheDepositIsHeldAgainstThePurchases) {
  Fixture f;
  Price price = plan_price(f.commission, f.shop, f.stock, f.bench);
  EXPECT_EQ(price.payments[0].amount + price.payments[1].amount, price.price);
  EXPECT_EQ(price.payments[0].with_tax + price.payments[1].with_tax, price.total);
  EXPECT_TRUE(price.deposit_covers_purchases);
  f.commission.terms.instalments = {{Percent{10}, "on order"}, {Percent{90}, "on delivery"}};
  EXPECT_FALSE(plan_price(f.commission, f.shop, f.stock, f.bench).deposit_covers_purchases);
}

TEST(Price, PricesAtTheHoursTheTermsAskFor) {
  Fixture f;
  const Money at_mean = plan_price(f.commission, f.shop, f.stock, f.bench).labour;
  f.commission.terms.contingency_quantile = Percent{80};
  EXPECT_GT(plan_price(f.commission, f.shop, f.stock, f.bench).labour, at_mean);
}

// Demo figures worked by hand from the written rules: (55.6 h x 62 + 1,153 + 125) / 0.8 up to the
// next 50 is 5,950, a margin of 20.5 %, and 10.5 % at the 65.3 hours of P90.
TEST(Price, GivesTheWorkedFiguresOfTheHallCabinet) {
  Fixture f;
  f.shop.hour.cost = Money::from_major(62);
  f.stock.purchases[0].price = Money::from_major(1153);
  f.commission.risks = {
      {"all risks", Percent{100}, measure::Minutes{0}, Money::from_major(125), {}}};
  f.bench.total = {53.2, 55.2, 55.6, 46.6, 61.6, 65.3};
  const Price price = plan_price(f.commission, f.shop, f.stock, f.bench);
  EXPECT_NEAR(price.cost.major(), 4727, 3);
  EXPECT_EQ(price.price, Money::from_major(5950));
  EXPECT_NEAR(price.margin.count(), 20.5, 0.1);
  EXPECT_NEAR(price.outcomes[2].margin.count(), 10.5, 0.1);
  EXPECT_EQ(price.total, Money::from_major(6366.50));
}

}  // namespace
}  // namespace plankwright::price
