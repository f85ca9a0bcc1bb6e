#include "shop/terms.h"

#include <cmath>

#include <fmt/format.h>

#include "shop/take.h"

namespace plankwright::shop {
namespace {

using document::Field;
using document::FieldKind;
using document::FieldRange;
using document::Fields;

constexpr Field kInstalment[] = {
    {.key = "share",
     .kind = FieldKind::kPercent,
     .says = "Share of the price",
     .required = true,
     .range = FieldRange::kPositive},
    {.key = "event", .kind = FieldKind::kText, .says = "When it is due", .required = true}};

constexpr Field kTerms[] = {
    {.key = "margin",
     .kind = FieldKind::kPercent,
     .says = "Profit as a share of the price",
     .range = FieldRange::kNotNegative},
    {.key = "round_to",
     .kind = FieldKind::kMoney,
     .says = "The price goes up to the next whole multiple of this",
     .range = FieldRange::kPositive},
    {.key = "tax",
     .kind = FieldKind::kPercent,
     .says = "Tax on the price",
     .range = FieldRange::kNotNegative},
    {.key = "tax_name", .kind = FieldKind::kText, .says = "What the tax is called"},
    {.key = "instalments",
     .kind = FieldKind::kMaps,
     .says = "How the price is paid; the first is the deposit",
     .inner = kInstalment},
    {.key = "valid_days",
     .kind = FieldKind::kCount,
     .says = "Days that an offer stands",
     .range = FieldRange::kPositive},
    {.key = "bid_quantile",
     .kind = FieldKind::kPercent,
     .says =
         "Odds that the hours suffice at which the price is reckoned; 50 % stands for the mean"},
    {.key = "exclusions",
     .kind = FieldKind::kAny,
     .says = "What the price does not cover: a list of sentences for the client"},
    {.key = "conditions",
     .kind = FieldKind::kAny,
     .says = "On what it is agreed: a list of sentences for the client"}};

void take_instalments(const Fields& from, std::vector<Instalment>& instalments) {
  constexpr double kHair = 0.015;  // three thirds are written 33.33 %
  if (!from.has("instalments")) {
    return;
  }
  const std::size_t before = from.mistakes();
  instalments.clear();
  double sum = 0;
  for (const Fields& one : from.maps("instalments")) {
    instalments.push_back({.share = one.percent("share"), .event = one.text("event")});
    sum += instalments.back().share.count();
  }
  if (from.mistakes() == before && std::abs(sum - 100) > kHair) {
    from.complain("instalments",
                  fmt::format("the instalments add up to {:g} %, not to 100 %", sum));
  }
}

}  // namespace

document::FieldTable terms_fields() {
  return kTerms;
}

void take_terms(const Fields& from, Terms& terms) {
  take_within(from, "margin", {0, 95}, terms.margin);
  take(from, "round_to", terms.round_to);
  take_within(from, "tax", {0, 100}, terms.tax);
  take_text(from, "tax_name", terms.tax_name);
  take_instalments(from, terms.instalments);
  take_within(from, "valid_days", {1, 3650}, terms.valid_days);
  take_within(from, "bid_quantile", {50, 99}, terms.contingency_quantile);
  take_texts(from, "exclusions", terms.exclusions);
  take_texts(from, "conditions", terms.conditions);
}

}  // namespace plankwright::shop
