#include "papers/plan_json.h"

#include <nlohmann/json.hpp>

#include "measure/expression.h"
#include "papers/bench_json.h"
#include "papers/calendar_json.h"
#include "papers/findings_json.h"
#include "papers/json_values.h"
#include "papers/stock_json.h"

namespace plankwright::papers {
namespace {

using Json = nlohmann::ordered_json;
using measure::Length;
using measure::Money;

/// Writes values of one plan: its unit and currency are the plan's.
class Writer : JsonValues {
 public:
  explicit Writer(const plan::Plan& plan) : JsonValues{plan}, plan_{&plan} {}

  Json whole() const {
    Json json;
    json["format"] = "plankwright-plan-1";
    json["commission"] = head();
    json["piece"] = piece();
    json["findings"] = findings_json(*plan_);
    json["stock"] = stock_json(*plan_);
    json["bench"] = bench_json(*plan_);
    json["price"] = price();
    if (plan_->calendar) {
      json["calendar"] = calendar_json(*plan_->calendar, plan::works_of({plan_}));
    }
    json["calendar_missing"] = plan_->calendar_missing;
    json["choices"] = choices();
    json["make_or_buy"] = make_or_buy();
    json["nudges"] = nudges_json(*plan_);
    return json;
  }

 private:
  static Json box(const measure::Box& b) { return {{"at", point(b.at)}, {"size", point(b.size)}}; }
  static Json direction(const measure::Direction& d) {
    constexpr const char* kNames[] = {"x", "y", "z"};
    return std::string{d.sign < 0 ? "-" : "+"} + kNames[static_cast<std::size_t>(d.axis)];
  }
  Json size(const piece::Size& s) const {
    return {{"length", length(s.length)},
            {"width", length(s.width)},
            {"thickness", length(s.thickness)}};
  }

  Json head() const {
    const commission::Commission& c = plan_->commission;
    Json json = {{"name", c.name},
                 {"number", c.number},
                 {"revision", c.revision},
                 {"client", c.client.name},
                 {"unit", c.unit() == measure::LengthUnit::kInch ? "inch" : "mm"},
                 {"currency", plan_->shop.currency.code},
                 {"shop", plan_->shop.name},
                 {"finish", c.finish}};
    if (c.quoted) {
      json["quoted"] = measure::print(*c.quoted);
    }
    if (c.wanted) {
      json["wanted"] = measure::print(*c.wanted);
    }
    return json;
  }

  Json feature(const piece::Feature& f) const {
    return {{"kind", piece::word(f.kind)},
            {"face", direction(f.face)},
            {"place", box(f.place)},
            {"count", f.count},
            {"depth", length(f.depth)},
            {"across", length(f.across)},
            {"along", length(f.along)},
            {"says", f.says}};
  }

  Json part(const piece::Part& p) const {
    Json json = {{"code", p.code},
                 {"name", p.name},
                 {"path", p.path},
                 {"kit", p.kit},
                 {"from", place(p.from)},
                 {"material",
                  p.material == piece::Material::kSolid   ? "solid"
                  : p.material == piece::Material::kSheet ? "sheet"
                                                          : "bought_in"},
                 {"stock", p.stock},
                 {"body", box(p.body)},
                 {"length_axis", direction({p.length_axis, 1})},
                 {"thickness_axis", direction({p.thickness_axis, 1})},
                 {"finished", size(p.finished)},
                 {"cut", size(p.cut)},
                 {"rough", size(p.rough)},
                 {"strips", p.strips},
                 {"layers", p.layers},
                 {"hand", piece::word(p.hand)},
                 {"run", p.run},
                 {"mass_kg", p.mass.count()}};
    json["bands"] = Json::array();
    for (const piece::EdgeBand& band : p.bands) {
      json["bands"].push_back({{"side", direction(band.side)}, {"stock", band.stock}});
    }
    json["features"] = Json::array();
    for (const piece::Feature& f : p.features) {
      json["features"].push_back(feature(f));
    }
    return json;
  }

  Json joint(const piece::Joint& j) const {
    const auto& parts = plan_->piece.parts;
    return {{"kind", piece::word(j.kind)},
            {"a", parts[j.a].path},
            {"b", parts[j.b].path},
            {"contact", box(j.contact)},
            {"home", direction(j.home)},
            {"depth", length(j.depth)},
            {"count", j.count},
            {"glued", j.glued},
            {"undone", j.undone},
            {"fitting", j.hardware},
            {"from", place(j.from)}};
  }

  Json lines() const {
    Json list = Json::array();
    for (const piece::PartLine& line : piece::part_lines(plan_->piece)) {
      const piece::Part& p = plan_->piece.parts[line.parts.front()];
      list.push_back({{"code", p.code},
                      {"name", p.name},
                      {"hand", piece::word(p.hand)},
                      {"quantity", line.parts.size()},
                      {"stock", p.stock},
                      {"finished", size(p.finished)},
                      {"cut", size(p.cut)},
                      {"parts", paths(line.parts)}});
    }
    return list;
  }

  Json piece() const {
    const piece::Piece& p = plan_->piece;
    Json json = {{"name", p.name},
                 {"overall", box(p.overall)},
                 {"mass_kg", p.mass.count()},
                 {"centre", point(p.centre)},
                 {"fixed_to_building", p.fixed_to_building},
                 {"lines", lines()}};
    for (const char* key : {"parts", "joints", "openings", "hardware", "packages"}) {
      json[key] = Json::array();
    }
    for (const piece::Part& each : p.parts) {
      json["parts"].push_back(part(each));
    }
    for (const piece::Joint& each : p.joints) {
      json["joints"].push_back(joint(each));
    }
    for (const piece::Opening& each : p.openings) {
      json["openings"].push_back(
          {{"name", each.name}, {"box", box(each.box)}, {"filled_with", each.filled_with}});
    }
    for (const piece::HardwareUse& each : p.hardware) {
      json["hardware"].push_back(
          {{"id", each.id}, {"count", each.count}, {"where", each.where}, {"at", point(each.at)}});
    }
    for (const piece::Package& each : p.packages) {
      json["packages"].push_back({{"name", each.name},
                                  {"box", box(each.box)},
                                  {"mass_kg", each.mass.count()},
                                  {"centre", point(each.centre)},
                                  {"parts", paths(each.parts)}});
    }
    return json;
  }

  Json price() const {
    const price::Price& p = plan_->price;
    Json json = {{"materials", money(p.materials)},
                 {"labour", money(p.labour)},
                 {"reserve", money(p.reserve)},
                 {"cost", money(p.cost)},
                 {"price_exact", money(p.exact)},
                 {"price", money(p.price)},
                 {"margin_percent", p.margin.count()},
                 {"markup_percent", p.markup.count()},
                 {"tax", money(p.tax)},
                 {"total", money(p.total)},
                 {"deposit_covers_purchases", p.deposit_covers_purchases},
                 {"chance_of_loss", p.chance_of_loss},
                 {"hours_to_lose", p.hours_to_lose},
                 {"lines", Json::array()},
                 {"payments", Json::array()},
                 {"outcomes", Json::array()}};
    for (const price::CostLine& line : p.lines) {
      json["lines"].push_back({{"kind", line.kind},
                               {"what", line.what},
                               {"cost", money(line.cost)},
                               {"from", line.from}});
    }
    for (const price::Payment& payment : p.payments) {
      json["payments"].push_back({{"share_percent", payment.share.count()},
                                  {"event", payment.event},
                                  {"amount", money(payment.amount)},
                                  {"with_tax", money(payment.with_tax)}});
    }
    for (const price::Outcome& outcome : p.outcomes) {
      json["outcomes"].push_back({{"name", outcome.name},
                                  {"hours", outcome.hours},
                                  {"cost", money(outcome.cost)},
                                  {"profit", money(outcome.profit)},
                                  {"margin_percent", outcome.margin.count()}});
    }
    return json;
  }

  Json choices() const {
    Json list = Json::array();
    for (const plan::ChoiceEffect& e : plan_->choices) {
      Json json = {{"choice", e.choice},
                   {"option", e.option},
                   {"says", e.says},
                   {"picked", e.picked},
                   {"price", money(e.price)},
                   {"price_change", money(e.price_change)},
                   {"cost_change", money(e.cost_change)},
                   {"hours_change", e.hours_change},
                   {"days_change", e.days_change},
                   {"mass_change_kg", e.mass_change.count()},
                   {"findings_gone", e.findings_gone},
                   {"findings_new", e.findings_new},
                   {"errors", Json::array()}};
      for (const base::Error& error : e.errors) {
        json["errors"].push_back(error.message);
      }
      list.push_back(std::move(json));
    }
    return list;
  }

  Json make_or_buy() const {
    Json list = Json::array();
    for (const price::MakeOrBuy& q : plan_->make_or_buy) {
      list.push_back({{"what", q.what},
                      {"pieces", q.pieces},
                      {"make_cost", money(q.make_cost)},
                      {"buy_cost", money(q.buy_cost)},
                      {"make_minutes", q.make_time.count()},
                      {"break_even_minutes", q.break_even.count()},
                      {"lead_days", q.lead_days},
                      {"advice", q.advice}});
    }
    return list;
  }

  const plan::Plan* plan_;
};

}  // namespace

std::string plan_json(const plan::Plan& plan) {
  return Writer{plan}.whole().dump(1, ' ', false, nlohmann::json::error_handler_t::replace);
}

}  // namespace plankwright::papers
