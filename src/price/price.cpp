#include "price/price.h"

#include <algorithm>
#include <array>
#include <cmath>

#include <fmt/format.h>

namespace plankwright::price {
namespace {

/// The lines of the cost sheet as they come, and their sum.
class CostSheet {
 public:
  void add(std::string kind, std::string what, Money cost, std::string from) {
    if (cost == Money{}) {
      return;
    }
    sum_ += cost;
    lines_.push_back({std::move(kind), std::move(what), cost, std::move(from)});
  }
  Money sum() const { return sum_; }
  std::vector<CostLine>& lines() { return lines_; }

 private:
  std::vector<CostLine> lines_;
  Money sum_;
};

std::string kind_of_purchase(const std::string& kind) {
  return kind == "solid"   ? "timber"
         : kind == "sheet" ? "sheets"
         : kind == "bar"   ? "timber"
         : kind == "band"  ? "banding"
                           : kind;
}

void add_purchases(CostSheet& sheet, const stock::Stock& stock) {
  for (const stock::Purchase& purchase : stock.purchases) {
    sheet.add(kind_of_purchase(purchase.kind),
              purchase.what,
              purchase.price,
              purchase.supplier.empty()
                  ? fmt::format("{} from the shop", purchase.quantity)
                  : fmt::format("{} from {}", purchase.quantity, purchase.supplier));
  }
}

std::string name_of(const shop::Shop& shop, const std::string& stock) {
  const shop::SolidStock* solid = shop.solid(stock);
  const shop::SheetStock* sheet = shop.sheet(stock);
  const shop::BarStock* bar = shop.bar(stock);
  return solid != nullptr   ? solid->name
         : sheet != nullptr ? sheet->name
         : bar != nullptr   ? bar->name
                            : stock;
}

/// What is left over from other work was paid for there; this piece pays its value.
void add_rack(CostSheet& sheet, const stock::Stock& stock, const shop::Shop& shop) {
  for (const stock::FromRack& piece : stock.from_rack) {
    const bool sheets = piece.kind == shop::RackKind::kSheet;
    sheet.add(
        sheets ? "sheets" : "timber",
        fmt::format("{} out of the rack", piece.label),
        piece.value,
        piece.count > 1
            ? fmt::format(
                  "{} of {}, at their value in the rack", piece.count, name_of(shop, piece.stock))
            : fmt::format("{}, at its value in the rack", name_of(shop, piece.stock)));
  }
}

void add_outside_finish(CostSheet& sheet,
                        const commission::Commission& commission,
                        const shop::Shop& shop,
                        const stock::Stock& stock) {
  const shop::Finish* finish = shop.finish(commission.finish);
  if (finish == nullptr || !stock.finish || finish->price_per_square_metre == Money{}) {
    return;
  }
  const double area = measure::square_metres(stock.finish->area);
  sheet.add("subcontract",
            finish->name,
            measure::scaled(finish->price_per_square_metre, area),
            fmt::format("{:.1f} m2 at {:.2f}", area, finish->price_per_square_metre.major()));
}

void add_extra_costs(CostSheet& sheet, const commission::Commission& commission) {
  for (const commission::ExtraCost& extra : commission.extra_costs) {
    sheet.add(extra.kind, extra.what, extra.price, "written in the commission");
  }
}

void add_shop_costs(CostSheet& sheet, const shop::Shop& shop, const bench::Bench& bench) {
  sheet.add("consumables",
            "abrasives, glue, blades",
            measure::scaled(shop.consumables_per_hour, bench.bench.mean),
            fmt::format("{:.2f} for each of {:.1f} bench hours",
                        shop.consumables_per_hour.major(),
                        bench.bench.mean));
  const bool delivers = std::ranges::any_of(
      bench.operations, [](const bench::Operation& o) { return o.standard == "deliver"; });
  if (delivers) {
    sheet.add("delivery", "van", shop.delivery_trip, "a trip, from the shop's list");
  }
}

/// Hours that the price is reckoned at: the mean, or the quantile the terms ask for.
double priced_hours(const bench::Spread& spread, Percent quantile) {
  return quantile.count() == 50 ? spread.mean : bench::quantile(spread, quantile.count() / 100.0);
}

void add_labour(CostSheet& sheet,
                const shop::Shop& shop,
                const bench::Bench& bench,
                Percent quantile) {
  const double all = priced_hours(bench.total, quantile);
  const double office = bench.total.mean > 0 ? all * bench.office.mean / bench.total.mean : 0;
  const auto from = [&](double hours) {
    return fmt::format("{:.1f} h at {:.2f}", hours, shop.hour.cost.major());
  };
  sheet.add("labour",
            "bench, delivery and site",
            measure::scaled(shop.hour.cost, all - office),
            from(all - office));
  sheet.add(
      "office", "drawing, quoting, closing", measure::scaled(shop.hour.cost, office), from(office));
}

void add_reserve(CostSheet& sheet,
                 const commission::Commission& commission,
                 const shop::Shop& shop) {
  for (const commission::Risk& risk : commission.risks) {
    const Money damage =
        risk.material + measure::scaled(shop.hour.cost, measure::hours(risk.minutes));
    sheet.add("reserve",
              risk.what,
              measure::scaled(damage, risk.chance.count() / 100.0),
              fmt::format("{:.0f} % of {:.2f}", risk.chance.count(), damage.major()));
  }
}

Outcome outcome_at(std::string name, double hours, const Price& price, const shop::Shop& shop) {
  Outcome outcome;
  outcome.name = std::move(name);
  outcome.hours = hours;
  outcome.cost = price.materials + price.reserve + measure::scaled(shop.hour.cost, hours);
  outcome.profit = price.price - outcome.cost;
  outcome.margin = margin_of(outcome.cost, price.price);
  return outcome;
}

/// Chance that the hours exceed `limit`, by the lognormal of this mean and median.
double chance_above(const bench::Spread& spread, double limit) {
  if (spread.median <= 0 || spread.mean <= 0) {
    return limit < 0 ? 1.0 : 0.0;
  }
  if (limit <= 0) {
    return 1.0;
  }
  const double sigma = std::sqrt(std::max(0.0, 2 * std::log(spread.mean / spread.median)));
  if (sigma <= 0) {
    return spread.median > limit ? 1.0 : 0.0;
  }
  return 0.5 * std::erfc(std::log(limit / spread.median) / sigma / std::sqrt(2.0));
}

void add_payments(Price& price, const shop::Terms& terms) {
  std::vector<double> shares;
  for (const shop::Instalment& instalment : terms.instalments) {
    shares.push_back(instalment.share.count());
  }
  const std::vector<Money> net = measure::split(price.price, shares);
  const std::vector<Money> gross = measure::split(price.total, shares);
  for (std::size_t i = 0; i < net.size(); ++i) {
    price.payments.push_back(
        {terms.instalments[i].share, terms.instalments[i].event, net[i], gross[i]});
  }
}

}  // namespace

Price plan_price(const commission::Commission& commission,
                 const shop::Shop& shop,
                 const stock::Stock& stock,
                 const bench::Bench& bench) {
  const shop::Terms& terms = commission.terms;
  CostSheet bought;
  add_purchases(bought, stock);
  add_rack(bought, stock, shop);
  add_outside_finish(bought, commission, shop, stock);
  add_extra_costs(bought, commission);
  const Money purchases = bought.sum();
  add_shop_costs(bought, shop, bench);
  CostSheet labour;
  add_labour(labour, shop, bench, terms.contingency_quantile);
  CostSheet reserve;
  add_reserve(reserve, commission, shop);

  Price price;
  for (CostSheet* sheet : {&bought, &labour, &reserve}) {
    price.lines.insert(price.lines.end(), sheet->lines().begin(), sheet->lines().end());
  }
  price.materials = bought.sum();
  price.labour = labour.sum();
  price.reserve = reserve.sum();
  price.cost = price.materials + price.labour + price.reserve;
  price.margin_wanted = terms.margin;
  price.exact = price_for_margin(price.cost, terms.margin);
  price.price = measure::round_up(price.exact, terms.round_to);
  price.margin = margin_of(price.cost, price.price);
  price.markup = markup_of(price.cost, price.price);
  price.tax = measure::scaled(price.price, terms.tax.count() / 100.0);
  price.total = price.price + price.tax;
  add_payments(price, terms);
  price.deposit_covers_purchases =
      !price.payments.empty() && price.payments.front().amount >= purchases;
  price.outcomes = {outcome_at("P50", bench.total.median, price, shop),
                    outcome_at("P80", bench.total.p80, price, shop),
                    outcome_at("P90", bench.total.p90, price, shop)};
  if (shop.hour.cost > Money{}) {
    price.hours_to_lose =
        (price.price - price.materials - price.reserve).major() / shop.hour.cost.major();
    price.chance_of_loss = chance_above(bench.total, price.hours_to_lose);
  }
  return price;
}

MakeOrBuy make_or_buy(
    std::string what, int pieces, const Way& make, const Way& buy, Money hour_cost, int lead_days) {
  const auto cost_of = [&](const Way& way) {
    return way.bought + measure::scaled(hour_cost, measure::hours(way.work));
  };
  MakeOrBuy question;
  question.what = std::move(what);
  question.pieces = pieces;
  question.make_cost = cost_of(make);
  question.buy_cost = cost_of(buy);
  question.make_time = make.work - buy.work;
  question.lead_days = lead_days;
  if (hour_cost > Money{}) {
    const double allowed = (question.buy_cost - make.bought).major() / hour_cost.major() * 60.0;
    question.break_even = measure::Minutes{allowed} - buy.work;
  }
  const bool buying = question.buy_cost < question.make_cost;
  const Money saved =
      buying ? question.make_cost - question.buy_cost : question.buy_cost - question.make_cost;
  question.advice = fmt::format("{} saves {:.0f}", buying ? "buying" : "making", saved.major());
  if (buying && lead_days > 0) {
    question.advice +=
        fmt::format("; the sizes are frozen {} working days before they are needed", lead_days);
  }
  return question;
}

}  // namespace plankwright::price
