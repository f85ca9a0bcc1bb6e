#pragma once
// How values of a plan stand in its JSON, the same in every part of it.

#include <string>
#include <vector>

#include <nlohmann/json.hpp>

#include "plan/plan.h"

namespace plankwright::papers {

/// What the writers of a plan's parts have in common: its unit, its currency, the names of its
/// parts.
class JsonValues {
 protected:
  using Json = nlohmann::ordered_json;

  explicit JsonValues(const plan::Plan& plan) : named_by_{&plan} {}

  /// Millimetres, and as the commission writes it.
  Json length(measure::Length size) const;
  /// Paths of parts, which other programs know them by.
  Json paths(const std::vector<piece::PartIndex>& parts) const;
  /// In whole minor units of the commission's currency.
  static Json money(measure::Money amount) { return amount.minor(); }
  static Json place(const base::Position& at);
  /// Millimetres.
  static Json point(const measure::Point& p) { return {p.x.mm(), p.y.mm(), p.z.mm()}; }

 private:
  const plan::Plan* named_by_;
};

}  // namespace plankwright::papers
