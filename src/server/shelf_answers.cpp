// The shelf: every commission at a glance, and how a new one begins.
#include <algorithm>

#include <fmt/chrono.h>
#include <fmt/format.h>
#include <nlohmann/json.hpp>

#include "server/office.h"
#include "store/files.h"
#include "store/pattern.h"

namespace plankwright::server {
namespace {

using Json = nlohmann::ordered_json;

std::string iso(std::chrono::system_clock::time_point at) {
  return fmt::format("{:%Y-%m-%dT%H:%M:%SZ}",
                     fmt::gmtime(std::chrono::system_clock::to_time_t(at)));
}

/// The margin at the hours that four times in five are enough, as a share of the price.
double margin_80(const plan::Plan& plan) {
  const auto at = std::ranges::find(plan.price.outcomes, "P80", &price::Outcome::name);
  return at == plan.price.outcomes.end() ? 0.0 : at->margin.count() / 100;
}

Json worst_of(const plan::Plan& plan) {
  if (plan.findings.open.empty()) {
    return nullptr;
  }
  const checks::Finding& worst = plan.findings.open.front();
  return {{"severity", checks::word(worst.severity)}, {"title", worst.title}};
}

void add_plan(Json& json, const plan::Plan& plan) {
  const commission::Commission& c = plan.commission;
  json["name"] = c.name;
  json["number"] = c.number;
  json["revision"] = c.revision;
  json["client"] = c.client.name;
  json["wanted"] = c.wanted ? measure::print(*c.wanted) : "";
  json["quoted"] = c.quoted ? measure::print(*c.quoted) : "";
  json["currency"] = plan.shop.currency.code;
  json["price"] = plan.price.price.minor();
  json["cost"] = plan.price.cost.minor();
  json["margin_80"] = margin_80(plan);
  json["hours_mean"] = plan.bench.total.mean;
  json["worst_finding"] = worst_of(plan);
  json["findings_open"] = plan.findings.open.size();
}

void add_nothing(Json& json, const std::string& name) {
  json["name"] = name;
  for (const char* text : {"number", "revision", "client", "wanted", "quoted", "currency"}) {
    json[text] = "";
  }
  for (const char* figure : {"price", "cost", "margin_80", "hours_mean", "worst_finding"}) {
    json[figure] = nullptr;
  }
  json["findings_open"] = 0;
}

Json on_shelf(const Office& office, const store::Entry& entry) {
  Json json = {{"id", entry.id}};
  base::Errors errors;
  Request request;
  request.id = entry.id;
  auto order = order_for(office, request, nlohmann::json::object());
  SharedPlan planned;
  if (order.ok()) {
    planned = plan_at_hand(office, std::move(order).value().plan);
    errors = planned->errors;
  } else {
    errors.push_back(order.error());
  }
  if (planned && planned->plan) {
    add_plan(json, *planned->plan);
  } else {
    add_nothing(json, entry.id);
  }
  json["errors"] = errors.size();
  json["changed"] = iso(entry.changed);
  return json;
}

Json pattern_json(const store::Pattern& pattern) {
  Json sizes = Json::array();
  for (const store::PatternSize& size : pattern.sizes) {
    sizes.push_back({{"name", size.name}, {"label", size.label}, {"value", size.value}});
  }
  Json stocks = Json::array();
  for (const store::PatternStock& stock : pattern.stocks) {
    stocks.push_back({{"id", stock.id}, {"says", stock.says}});
  }
  return {{"id", pattern.id},
          {"name", pattern.name},
          {"says", pattern.says},
          {"sizes", std::move(sizes)},
          {"stocks", std::move(stocks)}};
}

std::string word_in(const nlohmann::json& body, const char* key) {
  const auto found = body.find(key);
  return found != body.end() && found->is_string() ? found->get<std::string>() : "";
}

/// The text that a new commission begins with.
base::Result<std::string> first_text(const Office& office, const nlohmann::json& body) {
  const std::string wanted = word_in(body, "pattern");
  store::PatternPicks picks{word_in(body, "name"), {}, word_in(body, "stock")};
  if (wanted.empty()) {
    return store::empty_commission(picks.name.empty() ? "New commission" : picks.name);
  }
  const std::vector<store::Pattern> patterns = store::patterns_in(office.patterns);
  const auto pattern = std::ranges::find(patterns, wanted, &store::Pattern::id);
  if (pattern == patterns.end()) {
    return base::Error{base::ErrorCode::kBadInput, fmt::format("there is no pattern `{}`", wanted)};
  }
  if (const auto sizes = body.find("sizes"); sizes != body.end() && sizes->is_object()) {
    for (const auto& [name, typed] : sizes->items()) {
      picks.sizes[name] = typed.is_string() ? typed.get<std::string>() : typed.dump();
    }
  }
  return store::fill_pattern(*pattern, picks);
}

}  // namespace

Answer post_shelf(const Office& office, const Request& request) {
  const auto body = body_json(request);
  if (!body.ok()) {
    return refusal(400, base::Errors{body.error()});
  }
  const auto text = first_text(office, body.value());
  if (!text.ok()) {
    return refusal(422, base::Errors{text.error()});
  }
  std::string name = word_in(body.value(), "name");
  if (name.empty()) {
    name = word_in(body.value(), "pattern");
  }
  const auto id = office.keeper.add(name.empty() ? "new_commission" : name, text.value());
  if (!id.ok()) {
    return refusal_of(id.error());
  }
  office.watch.tell(id.value(), store::hash_of(text.value()));
  return json_answer({{"id", id.value()}}, 201);
}

Answer get_shelf(const Office& office, const Request& /*request*/) {
  Json commissions = Json::array();
  for (const store::Entry& entry : office.keeper.list()) {
    commissions.push_back(on_shelf(office, entry));
  }
  Json patterns = Json::array();
  for (const store::Pattern& pattern : store::patterns_in(office.patterns)) {
    patterns.push_back(pattern_json(pattern));
  }
  return json_answer({{"commissions", std::move(commissions)},
                      {"patterns", std::move(patterns)},
                      {"book", office.keeper.is_book()}});
}

}  // namespace plankwright::server
