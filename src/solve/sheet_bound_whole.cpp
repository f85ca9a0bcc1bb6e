// What the plain programme leaves out: that sheets come in whole numbers, and that no pattern may
// hold a part more often than it is wanted. Both only ever raise the bound, and both end by a fixed
// number of rounds or by work.

#include <algorithm>

#include "solve/sheet_bound.h"

namespace plankwright::solve {
namespace {

constexpr int kKindRounds = 60;  // candidates for the numbers of sheets
constexpr int kProperRounds = 80;
constexpr int kPenaltySteps = 8;
constexpr std::int64_t kExactWork = 1'000'000'000;
constexpr std::int64_t kExactStep = 2'000'000;

}  // namespace

// With several kinds: the cheapest whole numbers of sheets that no round forbids are tried for
// room. A second programme cuts the least area short; while some is missing its prices forbid the
// numbers or bring new patterns. Numbers that pass are the bound.
void SheetBound::start_kinds() {
  if (money_.per_cut > 0 || money_.per_length > 0) {
    next_level();
    return;
  }
  filling_ = std::make_unique<LinearProgram>();
  for (const std::int64_t wanted : demand_) {
    filling_->add_row_at_least(static_cast<double>(wanted));
  }
  for (std::size_t k = 0; k < problem_.kinds.size(); ++k) {
    filling_->add_row_at_most(0);
  }
  for (std::size_t t = 0; t < demand_.size(); ++t) {
    filling_->add_column(problem_.types[t].value / problem_.types[0].value,
                         {{static_cast<int>(t), 1.0}});
  }
  filled_columns_ = 0;
  candidate_.clear();
  kind_rounds_ = 0;
}

void SheetBound::step_kinds() {
  const auto types = static_cast<int>(demand_.size());
  if (candidate_.empty() || !cuts_.allows(candidate_)) {
    bool complete = true;
    const auto sheets = cuts_.cheapest(best_, 1, complete);
    work_ += 200'000;
    if (complete) {
      bound_ = std::max(bound_, sheets.empty() ? best_ : cuts_.price_of(sheets.front()));
    }
    if (!complete || sheets.empty() || ++kind_rounds_ > kKindRounds) {
      filling_.reset();
      next_level();
      return;
    }
    candidate_ = sheets.front();
    for (std::size_t k = 0; k < candidate_.size(); ++k) {
      filling_->set_row_at_most(types + static_cast<int>(k), static_cast<double>(candidate_[k]));
    }
  }
  for (; filled_columns_ < columns_.size(); ++filled_columns_) {
    const BoundColumn& column = columns_[filled_columns_];
    std::vector<std::pair<int, double>> entries{{types + column.kind, 1.0}};
    for (int t = 0; t < types; ++t) {
      if (column.counts[at(t)] > 0) {
        entries.emplace_back(t, static_cast<double>(column.counts[at(t)]));
      }
    }
    filling_->add_column(0, entries);
  }
  if (!filling_->solve() || filling_->objective() < 1e-6) {
    filling_.reset();  // there is room: the numbers stand
    next_level();
    return;
  }
  for (int t = 0; t < types; ++t) {
    prices_[at(t)] = std::max(0.0, filling_->dual(t));
  }
  price(prices_);
  bool grew = false;
  for (int k = 0; k < static_cast<int>(problem_.kinds.size()); ++k) {
    PackNode root = table_pattern(k);
    const auto counts = count_types(root, demand_.size());
    double worth = 0;
    for (int t = 0; t < types; ++t) {
      worth += prices_[at(t)] * static_cast<double>(counts[at(t)]);
    }
    grew = (worth > -filling_->dual(types + k) + 1e-7 && add_column(k, std::move(root))) || grew;
  }
  if (!grew && cuts_.allows(candidate_)) {
    filling_.reset();
    next_level();
  }
}

// From here on only patterns count that hold no type more often than it is wanted. Money for cuts
// is not reckoned with in this phase.
void SheetBound::start_proper() {
  if (money_.per_cut > 0 || money_.per_length > 0 || grids_[level_] != 1) {
    finished_ = true;
    return;
  }
  proper_ = true;
  penalties_.assign(demand_.size(), 0);
  smoothing_ = 0.5;
  for (std::size_t c = 0; c < columns_.size(); ++c) {
    for (std::size_t t = 0; t < demand_.size(); ++t) {
      if (columns_[c].counts[t] > demand_[t]) {
        master_->set_column_bounds(static_cast<int>(c), 0, 0);
      }
    }
  }
}

void SheetBound::step_proper(double value) {
  if (!can_still_rise(value) || ++proper_rounds_ > kProperRounds) {
    finished_ = true;
    return;
  }
  const bool grew = respect_demand(trial_prices());
  if (!grew && smoothing_ == 0) {
    start_exact();
  }
  smoothing_ = grew ? 0.5 : 0;
}

// Looks for a proper pattern worth more than the next step of the bound allows; when there is none
// the bound takes that step.
void SheetBound::start_exact() {
  exact_ = std::make_unique<ExactRound>();
  exact_->prices = prices_;
  exact_->whole = whole_prices(prices_);
  for (std::size_t t = 0; t < exact_->whole.size(); ++t) {
    const std::int64_t price = exact_->whole[t];
    exact_->values.push_back(price);
    exact_->less.push_back(
        static_cast<std::int32_t>(price - std::clamp<std::int64_t>(penalties_[t], 0, price)));
  }
  const std::int64_t before = table_->work();
  table_->fill(exact_->less);
  work_ += table_->work() - before;
}

// The bound is finished when the work did not suffice for an answer.
void SheetBound::step_exact() {
  ExactRound& round = *exact_;
  const auto kind = static_cast<int>(round.allowed.size());
  const StateSearch search{problem_, kind, round.values, round.less, *table_};
  if (!round.states) {
    Int128 worth = 0;
    for (std::size_t t = 0; t < round.whole.size(); ++t) {
      worth += static_cast<Int128>(round.whole[t]) * demand_[t];
    }
    const Int128 most = (worth * money_.kinds[at(kind)] - 1) / std::max<std::int64_t>(1, bound_);
    round.states = std::make_unique<StateEnumeration>(
        search, static_cast<std::int64_t>(std::max<Int128>(0, most)));
    round.above = static_cast<std::int64_t>(std::max<Int128>(0, most));
    work_ += round.states->work();
  }
  const std::int64_t before = round.states->work();
  const bool over = round.states->run(kExactStep, stop_) || round.states->work() > kExactWork;
  work_ += round.states->work() - before;
  if (!over) {
    return;
  }
  const StateResult states = round.states->result();
  round.complete = round.complete && states.complete;
  round.grew =
      (states.root && add_improving(kind, settle(problem_, kind, *states.root))) || round.grew;
  round.allowed.push_back(round.above);
  round.states.reset();
  if (round.allowed.size() < problem_.kinds.size()) {
    return;
  }
  if (round.complete && !round.grew) {
    take_bound(round.whole, round.allowed, round.prices);
  }
  finished_ = !round.complete && !round.grew;
  exact_.reset();
}

// Lagrangian relaxation of "no more than wanted": with a penalty m on every copy, the best proper
// pattern is worth at most F(prices - m) + sum of m * demand. A few subgradient steps on m, each of
// which gives a bound and, cut down to what is wanted, a pattern.
bool SheetBound::respect_demand(const std::vector<double>& prices) {
  const std::vector<std::int32_t> whole = whole_prices(prices);
  bool grew = false;
  double length = 1;
  for (int round = 0; round < kPenaltySteps; ++round) {
    std::vector<std::int32_t> less = whole;
    std::int64_t paid = 0;
    for (std::size_t t = 0; t < less.size(); ++t) {
      penalties_[t] = std::clamp<std::int64_t>(penalties_[t], 0, whole[t]);
      less[t] = static_cast<std::int32_t>(whole[t] - penalties_[t]);
      paid += penalties_[t] * demand_[t];
    }
    const std::int64_t before = table_->work();
    table_->fill(less);
    work_ += table_->work() - before;
    std::vector<std::int64_t> values = table_values();
    int worst = 0;
    double most = -1;
    for (std::size_t k = 0; k < values.size(); ++k) {
      values[k] += paid;
      const double rate = static_cast<double>(values[k]) / static_cast<double>(money_.kinds[k] + 1);
      if (rate > most) {
        most = rate;
        worst = static_cast<int>(k);
      }
    }
    length = take_bound(whole, values, prices) ? length : length * 0.7;
    double squares = 0;
    std::vector<std::int64_t> over;
    for (int k = 0; k < static_cast<int>(values.size()); ++k) {
      const PackNode loose = table_->pattern(k);
      std::vector<std::int64_t> left = demand_;
      grew = add_improving(k, settle(problem_, k, loose, &left)) || grew;
      if (k == worst) {
        over = count_types(loose, demand_.size());
      }
    }
    for (std::size_t t = 0; t < over.size(); ++t) {
      over[t] -= demand_[t];
      over[t] = over[t] > 0 || penalties_[t] > 0 ? over[t] : 0;
      squares += static_cast<double>(over[t]) * static_cast<double>(over[t]);
    }
    const double excess = static_cast<double>(values[at(worst)]) -
                          static_cast<double>(money_.kinds[at(worst)]) * scale_;
    if (squares == 0 || excess <= 0) {
      break;
    }
    for (std::size_t t = 0; t < over.size(); ++t) {
      penalties_[t] +=
          static_cast<std::int64_t>(length * excess / squares * static_cast<double>(over[t]));
    }
  }
  return grew;
}

}  // namespace plankwright::solve
