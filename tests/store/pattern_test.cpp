#include "store/pattern.h"

#include <fmt/format.h>
#include <gtest/gtest.h>

#include "measure/expression.h"
#include "plan/plan.h"
#include "store/files.h"

namespace plankwright::store {
namespace {

const std::filesystem::path kPatterns = std::string{PLANKWRIGHT_SOURCE_DIR} + "/data/patterns";

const std::vector<Pattern>& patterns() {
  static const std::vector<Pattern> kAll = patterns_in(kPatterns);
  return kAll;
}

/// Planned without comparing choices, beside the data.
base::Errors mistakes_in(const std::string& text) {
  static const plan::Reference kReference = read_reference().value();
  plan::PlanLimits limits;
  limits.work = 0.1;
  limits.compare_choices = false;
  limits.look_for_nudges = false;
  return plan::plan_commission(
             text, "new.yaml", open_beside(kPatterns / "new.yaml"), kReference, {}, limits)
      .errors;
}

std::string scaled(const PatternSize& size, double by) {
  const auto offered = measure::parse_length(size.value, measure::LengthUnit::kMillimetre);
  return fmt::format("{:.1f} mm", offered.value().mm() * by);
}

void expect_plans(const Pattern& pattern, const PatternPicks& picks) {
  const auto text = fill_pattern(pattern, picks);
  ASSERT_TRUE(text.ok()) << text.error().message;
  for (const base::Error& error : mistakes_in(text.value())) {
    ADD_FAILURE() << base::describe(error, text.value());
  }
}

TEST(Patterns, AreAllThere) {
  std::vector<std::string> ids;
  for (const Pattern& pattern : patterns()) {
    ids.push_back(pattern.id);
  }
  for (const char* wanted : {"bedside_cabinet",
                             "bench",
                             "bookcase",
                             "chest_of_drawers",
                             "dining_table",
                             "sideboard",
                             "wall_cabinet",
                             "writing_table"}) {
    EXPECT_NE(std::ranges::find(ids, wanted), ids.end()) << wanted;
  }
}

TEST(Patterns, CanBeBuiltInEveryStockTheyOffer) {
  for (const Pattern& pattern : patterns()) {
    for (const PatternStock& stock : pattern.stocks) {
      SCOPED_TRACE(pattern.id + " in " + stock.id);
      expect_plans(pattern, {.name = "Trial", .sizes = {}, .stock = stock.id});
    }
  }
}

TEST(Patterns, CanBeBuiltASixthLargerOrSmallerEachWay) {
  for (const Pattern& pattern : patterns()) {
    for (std::size_t each = 0; each < (1U << pattern.sizes.size()); ++each) {
      PatternPicks picks{.name = "Trial", .sizes = {}, .stock = ""};
      for (std::size_t i = 0; i < pattern.sizes.size(); ++i) {
        picks.sizes[pattern.sizes[i].name] =
            scaled(pattern.sizes[i], ((each >> i) & 1U) != 0 ? 1.15 : 0.85);
      }
      SCOPED_TRACE(fmt::format("{} way {}", pattern.id, each));
      expect_plans(pattern, picks);
    }
  }
}

TEST(Patterns, TakeInchesAndAnyName) {
  const auto text = fill_pattern(patterns().front(),
                                 {.name = "Mo's \"first\": {{width}} # 1",
                                  .sizes = {{patterns().front().sizes.front().name, "18 1/2 in"}},
                                  .stock = ""});
  ASSERT_TRUE(text.ok());
  EXPECT_TRUE(mistakes_in(text.value()).empty());
  EXPECT_NE(text.value().find("18 1/2 in"), std::string::npos);
  EXPECT_NE(text.value().find("{{width}} # 1"), std::string::npos);
}

TEST(Patterns, SayWhatCannotBe) {
  const Pattern& bench = *std::ranges::find(patterns(), "bench", &Pattern::id);
  const auto refused = [&](const PatternPicks& picks) {
    const auto text = fill_pattern(bench, picks);
    return text.ok() ? std::string{} : text.error().message;
  };
  EXPECT_EQ(refused({.name = "", .sizes = {{"width", "wide"}}, .stock = ""}),
            "Length: found `wide`, expected a size such as 1200 mm");
  EXPECT_EQ(refused({.name = "", .sizes = {{"width", "1\npiece: x"}}, .stock = ""}).substr(0, 8),
            "Length: ");
  EXPECT_EQ(refused({.name = "", .sizes = {{"widht", "9"}}, .stock = ""}),
            "found size `widht`, expected width, depth or height");
  EXPECT_EQ(refused({.name = "", .sizes = {}, .stock = "teak"}),
            "found stock `teak`, expected oak, cherry or ash");
  EXPECT_EQ(read_pattern("pattern: x\nstocks: {a: {says: A}}\ntext: |\n  w: {{wood}}\n", "x", "x")
                .errors.at(0)
                .message,
            "stock a leaves `{{wood}}` open");
}

TEST(Patterns, AnEmptyCommissionSaysWhatIsMissing) {
  const base::Errors mistakes = mistakes_in(empty_commission("A \"new\" one"));
  ASSERT_FALSE(mistakes.empty());
  for (const base::Error& error : mistakes) {
    EXPECT_TRUE(error.at.has_value()) << error.message;
  }
}

}  // namespace
}  // namespace plankwright::store
