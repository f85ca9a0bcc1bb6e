#include "papers/board_wording.h"

#include <cmath>

#include <fmt/format.h>

#include "papers/wording.h"

namespace plankwright::papers {
namespace {

constexpr double kFeetInCubicMetre = 1e9 / (144.0 * 16'387.064);

bool is_cubic(const plan::Plan& plan, const stock::SolidNeed& need) {
  const shop::SolidStock* stock = plan.shop.solid(need.stock);
  return stock != nullptr && stock->sold_by == shop::SoldBy::kCubicMetre;
}

/// In the measure the stock is sold by, without its name.
std::string amount(const plan::Plan& plan, const stock::SolidNeed& need, double board_feet) {
  return is_cubic(plan, need) ? fmt::format("{:.3f}", board_feet / kFeetInCubicMetre)
                              : fmt::format("{:.{}f}", board_feet, board_feet < 10 ? 1 : 0);
}

std::string quantity(const plan::Plan& plan, const stock::SolidNeed& need, double board_feet) {
  return amount(plan, need, board_feet) + (is_cubic(plan, need) ? " m3" : " board feet");
}

std::string times(double odds) {
  const double in_hundred = std::round(odds * 100);
  return fmt::format("{:.0f} time{}", in_hundred, in_hundred == 1 ? "" : "s");
}

}  // namespace

std::string board_bound_text(const plan::Plan& plan, const stock::SolidNeed& need) {
  if (need.laid_board_feet <= 0) {
    return {};
  }
  const std::string laid = quantity(plan, need, need.laid_board_feet);
  if (need.proven) {
    return fmt::format(
        "laid out on usual boards, whole and without a fault, {}; no layout can do with less",
        laid);
  }
  return fmt::format(
      "laid out on usual boards, whole and without a fault, {}; no layout can do with less than {}",
      laid,
      quantity(plan, need, need.bound_board_feet));
}

std::string odds_text(const plan::Plan& plan, const stock::SolidNeed& need) {
  if (!need.odds) {
    return {};
  }
  const stock::BuyingOdds& odds = *need.odds;
  std::string text;
  for (const stock::EnoughBoards& enough : odds.enough) {
    text += text.empty() ? fmt::format("enough {} in 100: {} ({})",
                                       times(enough.odds),
                                       quantity(plan, need, enough.board_feet),
                                       counted(static_cast<std::size_t>(enough.boards), "board"))
                         : fmt::format("; {}: {} ({})",
                                       times(enough.odds),
                                       amount(plan, need, enough.board_feet),
                                       enough.boards);
  }
  text += fmt::format(
      ". What the plan asks for ({}): {}. Cheapest on average: {}, at {} lost on a board foot "
      "too much and {} for another trip.",
      amount(plan, need, odds.planned_board_feet),
      times(odds.planned_odds),
      amount(plan, need, odds.best_board_feet),
      money(plan, odds.left_over),
      money(plan, odds.trip));
  return text;
}

}  // namespace plankwright::papers
