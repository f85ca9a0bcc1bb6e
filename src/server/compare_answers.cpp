// Choices side by side: the piece planned with each of them.
#include <algorithm>

#include <fmt/format.h>
#include <nlohmann/json.hpp>

#include "plan/stages.h"
#include "server/office.h"

namespace plankwright::server {
namespace {

using Json = nlohmann::ordered_json;

constexpr std::size_t kMostCombinations = 512;

/// One way to take all choices, and what it comes to.
struct Way {
  commission::Picks picks;
  plan::Planned planned;
  bool undominated = false;
};

/// The document's own picks first, then each other option by itself.
std::vector<commission::Picks> one_at_a_time(const commission::Commission& commission) {
  const commission::Picks own = commission::picks_of(commission);
  std::vector<commission::Picks> all{own};
  for (const commission::Choice& choice : commission.choices) {
    for (const commission::Option& option : choice.options) {
      if (option.id != choice.picked) {
        commission::Picks picks = own;
        picks[choice.id] = option.id;
        all.push_back(std::move(picks));
      }
    }
  }
  return all;
}

int longest_lead(const plan::Plan& plan) {
  int days = 0;
  for (const stock::Purchase& purchase : plan.stock.purchases) {
    days = std::max(days, purchase.lead_days);
  }
  return days;
}

double margin_80(const plan::Plan& plan) {
  const auto at = std::ranges::find(plan.price.outcomes, "P80", &price::Outcome::name);
  return at == plan.price.outcomes.end() ? 0.0 : at->margin.count() / 100;
}

/// What no other way beats in both price and hours.
void mark_undominated(std::vector<Way>& ways) {
  const auto beats = [](const plan::Plan& a, const plan::Plan& b) {
    return a.price.price <= b.price.price && a.bench.total.mean <= b.bench.total.mean &&
           (a.price.price < b.price.price || a.bench.total.mean < b.bench.total.mean);
  };
  for (Way& way : ways) {
    way.undominated = way.planned.plan && std::ranges::none_of(ways, [&](const Way& other) {
                        return other.planned.plan && beats(*other.planned.plan, *way.planned.plan);
                      });
  }
}

/// "Dovetailed maple boxes bought in; Arch sawn from one board", of what differs from the
/// document's own picks.
std::string name_of(const commission::Commission& commission, const commission::Picks& picks) {
  std::string name;
  for (const commission::Choice& choice : commission.choices) {
    const auto picked = picks.find(choice.id);
    if (picked == picks.end() || picked->second == choice.picked) {
      continue;
    }
    const auto option = std::ranges::find(choice.options, picked->second, &commission::Option::id);
    if (option != choice.options.end()) {
      name += fmt::format("{}{}", name.empty() ? "" : "; ", option->says);
    }
  }
  return name.empty() ? "As written" : name;
}

Json way_json(const Way& way, const commission::Commission& commission, bool chosen) {
  Json json = {{"name", name_of(commission, way.picks)}, {"picks", Json(way.picks)}};
  const bool is_planned = way.planned.plan.has_value();
  const plan::Plan* plan = is_planned ? &*way.planned.plan : nullptr;
  json["price"] = is_planned ? Json(plan->price.price.minor()) : Json();
  json["cost"] = is_planned ? Json(plan->price.cost.minor()) : Json();
  json["hours_mean"] = is_planned ? Json(plan->bench.total.mean) : Json();
  json["hours_80"] = is_planned ? Json(plan->bench.total.p80) : Json();
  json["days"] = is_planned ? Json(longest_lead(*plan)) : Json();
  json["mass_kg"] = is_planned ? Json(plan->piece.mass.count()) : Json();
  json["findings"] = is_planned ? Json(plan->findings.open.size()) : Json();
  json["margin_80"] = is_planned ? Json(margin_80(*plan)) : Json();
  json["chance_of_loss"] = is_planned ? Json(plan->price.chance_of_loss) : Json();
  json["undominated"] = way.undominated;
  json["chosen"] = chosen;
  json["errors"] = errors_json(way.planned.errors);
  return json;
}

Json make_or_buy_json(const plan::Plan& plan) {
  Json list = Json::array();
  for (const price::MakeOrBuy& question : plan.make_or_buy) {
    list.push_back({{"what", question.what},
                    {"pieces", question.pieces},
                    {"make_cost", question.make_cost.minor()},
                    {"buy_cost", question.buy_cost.minor()},
                    {"make_minutes", question.make_time.count()},
                    {"break_even_minutes", question.break_even.count()},
                    {"lead_days", question.lead_days},
                    {"advice", question.advice}});
  }
  return list;
}

/// Plans every way, telling how far it is; none when it was called off.
std::optional<std::vector<Way>> plan_ways(const Office& office,
                                          const std::string& id,
                                          const PlanOrder& order,
                                          bool all) {
  const plan::Documents documents = plan::read_documents(order.text, order.file, order.open);
  const commission::ReadCommission read =
      commission::read_commission(documents.root, order.file, documents.shop);
  const std::vector<commission::Picks> picks =
      all ? commission::combinations(read.commission, kMostCombinations)
          : one_at_a_time(read.commission);
  const CalledOff called_off = office.jobs.begin(id);
  std::vector<Way> ways;
  for (const commission::Picks& one : picks) {
    if (*called_off) {
      office.jobs.tell(id, "compare", 1, "Called off");
      return std::nullopt;
    }
    const Planner::Bench bench{office.planner};
    ways.push_back({one, plan::run_stages(documents, office.planner.reference(), one, 1.0), false});
    office.jobs.tell(id,
                     "compare",
                     static_cast<double>(ways.size()) / static_cast<double>(picks.size()),
                     fmt::format("{} of {} ways planned", ways.size(), picks.size()));
  }
  mark_undominated(ways);
  return ways;
}

}  // namespace

Answer get_compare(const Office& office, const Request& request) {
  auto asked = order_for(office, request, nlohmann::json::object());
  if (!asked.ok()) {
    return refusal_of(asked.error());
  }
  const PlanOrder& order = asked.value().plan;
  const SharedPlan planned = office.planner.plan(order);
  if (!planned->plan) {
    return refusal(422, planned->errors);
  }
  const auto wish = request.query.find("all");
  const bool all = wish != request.query.end() && wish->second == "1";
  if (const auto known = office.comparisons.find({planned, all})) {
    return {.body = **known};
  }
  const auto ways = plan_ways(office, request.id, order, all);
  if (!ways) {
    return refusal(409, "the comparison was called off");
  }
  const commission::Commission& commission = planned->plan->commission;
  const commission::Picks own = commission::picks_of(commission);
  Json list = Json::array();
  for (const Way& way : *ways) {
    list.push_back(way_json(way, commission, way.picks == own));
  }
  Answer answer = json_answer(
      {{"choices", std::move(list)}, {"make_or_buy", make_or_buy_json(*planned->plan)}});
  office.comparisons.keep({planned, all}, std::make_shared<const std::string>(answer.body));
  return answer;
}

Answer post_cancel(const Office& office, const Request& request) {
  office.afterthoughts.drop(request.id);
  return json_answer({{"called_off", office.jobs.call_off(request.id)}});
}

}  // namespace plankwright::server
