#include "plan/choices.h"

#include <algorithm>
#include <set>

namespace plankwright::plan {
namespace {

int longest_lead(const Plan& plan) {
  int days = 0;
  for (const stock::Purchase& purchase : plan.stock.purchases) {
    days = std::max(days, purchase.lead_days);
  }
  return days;
}

std::set<std::string> finding_ids(const Plan& plan) {
  std::set<std::string> ids;
  for (const checks::Finding& finding : plan.findings.open) {
    ids.insert(finding.id);
  }
  return ids;
}

std::vector<std::string> only_in(const std::set<std::string>& a, const std::set<std::string>& b) {
  std::vector<std::string> only;
  std::ranges::set_difference(a, b, std::back_inserter(only));
  return only;
}

void write_effect(ChoiceEffect& effect, const Plan& base, const Plan& other) {
  effect.price = other.price.price;
  effect.price_change = other.price.price - base.price.price;
  effect.cost_change = other.price.cost - base.price.cost;
  effect.hours_change = other.bench.total.mean - base.bench.total.mean;
  effect.days_change = longest_lead(other) - longest_lead(base);
  effect.mass_change = other.piece.mass - base.piece.mass;
  effect.findings_gone = only_in(finding_ids(base), finding_ids(other));
  effect.findings_new = only_in(finding_ids(other), finding_ids(base));
}

int bought_drawers(const Plan& plan) {
  return static_cast<int>(
      std::ranges::count_if(plan.piece.drawers, [](const piece::Drawer& d) { return d.bought; }));
}

price::Way way_of(const Plan& plan) {
  return {plan.price.materials, measure::Minutes{60.0 * plan.bench.total.mean}};
}

/// Two plans that differ in whether drawer boxes are bought ask a make-or-buy question.
void ask_make_or_buy(Plan& plan, const Plan& other, const std::string& what) {
  const int here = bought_drawers(plan);
  const int there = bought_drawers(other);
  if (here == there) {
    return;
  }
  const Plan& make = here < there ? plan : other;
  const Plan& buy = here < there ? other : plan;
  plan.make_or_buy.push_back(price::make_or_buy(what,
                                                std::max(here, there),
                                                way_of(make),
                                                way_of(buy),
                                                plan.shop.hour.cost,
                                                longest_lead(buy)));
}

/// Marks what no other combination beats in both price and hours.
void mark_undominated(std::vector<Combination>& all) {
  for (Combination& one : all) {
    one.undominated = std::ranges::none_of(all, [&](const Combination& other) {
      return other.price <= one.price && other.hours_mean <= one.hours_mean &&
             (other.price < one.price || other.hours_mean < one.hours_mean);
    });
  }
}

}  // namespace

void compare_choices(Plan& plan,
                     const Documents& documents,
                     const Reference& reference,
                     double work) {
  for (const commission::Choice& choice : plan.commission.choices) {
    for (const commission::Option& option : choice.options) {
      ChoiceEffect effect;
      effect.choice = choice.id;
      effect.option = option.id;
      effect.says = option.says;
      effect.picked = option.id == choice.picked;
      if (effect.picked) {
        write_effect(effect, plan, plan);
      } else {
        commission::Picks picks = commission::picks_of(plan.commission);
        picks[choice.id] = option.id;
        const Planned other = run_stages(documents, reference, picks, work);
        effect.errors = other.errors;
        if (other.plan) {
          write_effect(effect, plan, *other.plan);
          ask_make_or_buy(plan, *other.plan, choice.asks);
        }
      }
      plan.choices.push_back(std::move(effect));
    }
  }
}

std::vector<Combination> plan_combinations(const std::string& text,
                                           const std::string& file,
                                           const shop::OpenFile& open,
                                           const Reference& reference,
                                           std::size_t most) {
  const Documents documents = read_documents(text, file, open);
  std::vector<Combination> all;
  if (!documents.errors.empty()) {
    return all;
  }
  const commission::ReadCommission read =
      commission::read_commission(documents.root, file, documents.shop);
  for (const commission::Picks& picks : commission::combinations(read.commission, most)) {
    const Planned planned = run_stages(documents, reference, picks, 1.0);
    if (!planned.plan) {
      continue;
    }
    const Plan& plan = *planned.plan;
    all.push_back({picks,
                   plan.price.price,
                   plan.price.cost,
                   plan.bench.total.mean,
                   plan.bench.total.p80,
                   plan.price.chance_of_loss,
                   plan.findings.open.size(),
                   false});
  }
  mark_undominated(all);
  return all;
}

}  // namespace plankwright::plan
