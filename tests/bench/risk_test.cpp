#include "bench/risk.h"

#include <algorithm>
#include <numeric>
#include <random>

#include <gtest/gtest.h>
#include <rapidcheck/gtest.h>

#include "bench_fixture.h"

namespace plankwright::bench {
namespace {

constexpr RiskyStep kBlank{55, 0};
constexpr RiskyStep kJoinery{75, 0.03};
constexpr RiskyStep kCurve{25, 0.35};

// Worked example (common practice, no source): a blank costs 55, joinery 75 and fails 3 times in
// 100, the curve costs 25 and fails 35 times in 100. With the joinery first it costs 244.65 on
// average, with the curve first 204.20.
TEST(ExpectedCost, OfACurveBeforeAndAfterTheJoinery) {
  EXPECT_NEAR(expected_cost({kBlank, kJoinery, kCurve}), 244.65, 0.005);
  EXPECT_NEAR(expected_cost({kBlank, kCurve, kJoinery}), 204.20, 0.005);
}

TEST(ExpectedCost, IsWhatStartingOverComesTo) {
  const std::vector<RiskyStep> steps = {kBlank, kJoinery, kCurve};
  std::mt19937_64 random{7};
  std::uniform_real_distribution<double> chance;
  double spent = 0;
  constexpr int kPieces = 200'000;
  for (int piece = 0; piece < kPieces; ++piece) {
    for (std::size_t step = 0; step < steps.size();) {
      spent += steps[step].cost;
      step = chance(random) < steps[step].fails ? 0 : step + 1;
    }
  }
  EXPECT_NEAR(spent / kPieces, 244.65, 1.0);
}

RC_GTEST_PROP(CheapestOrder, IsTheBestOfAllOrders, ()) {
  const auto count = *rc::gen::inRange<std::size_t>(1, 6);
  std::vector<RiskyStep> steps;
  for (std::size_t i = 0; i < count; ++i) {
    steps.push_back(
        {static_cast<double>(*rc::gen::inRange(1, 100)), *rc::gen::inRange(0, 80) / 100.0});
  }
  const auto cost_in = [&](const std::vector<std::size_t>& order) {
    std::vector<RiskyStep> taken;
    for (const std::size_t i : order) {
      taken.push_back(steps[i]);
    }
    return expected_cost(taken);
  };
  std::vector<std::size_t> order(count);
  std::iota(order.begin(), order.end(), std::size_t{0});
  double best = cost_in(order);
  while (std::ranges::next_permutation(order).found) {
    best = std::min(best, cost_in(order));
  }
  RC_ASSERT(cost_in(cheapest_order(steps)) <= best * (1 + 1e-12));
}

piece::Piece with_arch(Length length) {
  piece::Piece piece;
  piece.parts = {testing::rail("plain rail", length, 4.0_in, 0.875_in),
                 testing::rail("arched rail", length, 4.0_in, 0.875_in)};
  piece.parts[1].arch = piece::Arch{{Axis::kZ, -1}, scaled(length, 0.8), 1.75_in};
  return piece;
}

TEST(Spares, AreMilledForTheArchAndPassEverySettingBeforeIt) {
  const Bench bench = testing::bench_of(with_arch(46.0_in));
  for (const char* standard :
       {"rough_crosscut", "plane_thickness", "rip_final", "crosscut_final"}) {
    SCOPED_TRACE(standard);
    const auto work = testing::of_standard(bench, standard);
    ASSERT_EQ(work.size(), 1U);
    EXPECT_EQ(work[0].pieces, 3);
    EXPECT_EQ(work[0].spares, 1);
    EXPECT_DOUBLE_EQ(work[0].units, standard == std::string{"plane_thickness"} ? 3 * 46.0 / 12 : 3);
  }
  const auto curve = testing::of_standard(bench, "curve_cut");
  ASSERT_EQ(curve.size(), 1U);
  EXPECT_EQ(curve[0].pieces, 1);
  EXPECT_EQ(curve[0].spares, 0);
}

TEST(Spares, AreNotMadeWhereTheBlankCostsMoreThanTheChanceIsWorth) {
  shop::Shop dear = testing::inch_shop();
  for (shop::SolidStock& stock : dear.solids) {
    stock.price = measure::Money::from_major(400);
  }
  const Bench bench = testing::bench_of(with_arch(46.0_in), dear);
  EXPECT_EQ(testing::of_standard(bench, "rip_final")[0].spares, 0);
}

}  // namespace
}  // namespace plankwright::bench
