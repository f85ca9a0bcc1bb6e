#include "papers/stock_wording.h"

#include <fmt/format.h>

#include "measure/expression.h"
#include "papers/wording.h"

namespace plankwright::papers {

std::string rack_size(const plan::Plan& plan,
                      shop::RackKind kind,
                      measure::Length length_,
                      measure::Length width) {
  return kind == shop::RackKind::kBar
             ? length_with_unit(plan, length_)
             : fmt::format("{} by {}", length(plan, length_), length_with_unit(plan, width));
}

std::string bar_bound_text(const plan::Plan& plan, const stock::BarNeed& need) {
  if (need.bars == 0) {
    return {};
  }
  const std::string bars = counted(static_cast<std::size_t>(need.bars), "bar");
  const std::string fewest = need.bars <= need.fewest
                                 ? "no cutting can do with fewer"
                                 : fmt::format("no cutting can do with fewer than {}", need.fewest);
  if (need.proven) {
    return fmt::format("{}, {}, and none costs less", bars, fewest);
  }
  return fmt::format("{}, {}; this one costs {}, none costs less than {}, rests taken off",
                     bars,
                     fewest,
                     round_money(plan, need.cost),
                     round_money(plan, need.bound));
}

std::string bars_bought(const plan::Plan& plan, const stock::BarNeed& need) {
  std::string text;
  for (const stock::BarBuy& buy : need.buys) {
    text += fmt::format(
        "{}{} of {}", text.empty() ? "" : ", ", buy.count, length_with_unit(plan, buy.length));
  }
  return text.empty() ? "nothing new" : text;
}

std::string nudge_change(const plan::Plan& plan, const stock::Nudge& nudge) {
  return fmt::format(
      "{} instead of {}", length(plan, nudge.to), length_with_unit(plan, nudge.from));
}

std::string nudge_text(const plan::Plan& plan, const stock::Nudge& nudge) {
  return fmt::format(
      "{}: {} saves {}{}",
      nudge.what,
      nudge_change(plan, nudge),
      listed(nudge.saves),
      nudge.money > measure::Money{} ? fmt::format(", {}", round_money(plan, nudge.money)) : "");
}

}  // namespace plankwright::papers
