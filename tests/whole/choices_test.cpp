// Choices compared: what each option changes adds up, and the undominated combinations are those.

#include <algorithm>

#include <gtest/gtest.h>

#include "whole/planned.h"

namespace plankwright::whole {
namespace {

std::vector<plan::Combination> all_of(const std::string& name) {
  const std::string file = example_path(name);
  return plan::plan_combinations(
      store::read_file(file).value(), file, store::open_beside(file), reference(), 512);
}

TEST(Choices, ChangeThePlanByWhatTheySay) {
  const plan::Plan& base = planned("study_wall");
  for (const plan::ChoiceEffect& effect : base.choices) {
    const plan::Plan& other = planned("study_wall", {{effect.choice, effect.option}});
    EXPECT_EQ(base.price.price + effect.price_change, other.price.price) << effect.option;
    EXPECT_EQ(base.price.cost + effect.cost_change, other.price.cost) << effect.option;
    EXPECT_NEAR(base.bench.total.mean + effect.hours_change, other.bench.total.mean, 1e-9);
    EXPECT_NEAR((base.piece.mass + effect.mass_change).count(), other.piece.mass.count(), 1e-9);
  }
}

TEST(Choices, OfTheDocumentStandFirstAndEveryCombinationOnce) {
  const std::vector<plan::Combination> all = all_of("study_wall");
  ASSERT_EQ(all.size(), 12U);  // 3 x 2 x 2
  EXPECT_EQ(all.front().price, planned("study_wall").price.price);
  std::vector<commission::Picks> picks;
  for (const plan::Combination& one : all) {
    picks.push_back(one.picks);
  }
  std::ranges::sort(picks);
  EXPECT_EQ(std::ranges::adjacent_find(picks), picks.end());
}

TEST(Choices, AreMarkedUndominatedWhenNothingIsBothCheaperAndQuicker) {
  const std::vector<plan::Combination> all = all_of("dining_table");
  EXPECT_TRUE(std::ranges::any_of(all, &plan::Combination::undominated));
  for (const plan::Combination& one : all) {
    const bool beaten = std::ranges::any_of(all, [&](const plan::Combination& other) {
      return other.price <= one.price && other.hours_mean <= one.hours_mean &&
             (other.price < one.price || other.hours_mean < one.hours_mean);
    });
    EXPECT_EQ(one.undominated, !beaten);
  }
}

}  // namespace
}  // namespace plankwright::whole
