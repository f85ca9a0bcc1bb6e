// Margin is profit over price, markup is profit over cost; taking one for the other is the oldest
// way to lose money on a good job.

#include "price/price.h"

namespace plankwright::price {
namespace {

Percent share_of(Money part, Money whole) {
  return whole == Money{} ? Percent{} : Percent{100.0 * part.major() / whole.major()};
}

}  // namespace

Money price_for_margin(Money cost, Percent margin) {
  return measure::scaled(cost, 1.0 / (1.0 - margin.count() / 100.0));
}

Percent margin_of(Money cost, Money price) {
  return share_of(price - cost, price);
}

Percent markup_of(Money cost, Money price) {
  return share_of(price - cost, cost);
}

Percent markup_from_margin(Percent margin) {
  return Percent{100.0 * margin.count() / (100.0 - margin.count())};
}

Percent margin_from_markup(Percent markup) {
  return Percent{100.0 * markup.count() / (100.0 + markup.count())};
}

}  // namespace plankwright::price
