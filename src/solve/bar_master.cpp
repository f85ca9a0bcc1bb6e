// Gilmore & Gomory's programme over patterns that never hold a type more often than it is wanted,
// with smoothed prices and Farley's bound in whole numbers. A dive repeats the column generation
// for what is left after every fixed pattern and gives up as soon as the bound of the rest passes
// the goal; its order of fixing is the only thing that is drawn, from the caller's own seed.

#include "solve/bar_master.h"

#include <algorithm>
#include <cmath>
#include <numeric>

namespace plankwright::solve {
namespace {

__extension__ using Int128 = __int128;

constexpr double kLargestValue = 1e12;
constexpr int kSecondThoughts = 6;  // a dive
constexpr int kFillings = 8;        // patterns added for a kind in one round

Int128 ceil_of(Int128 numerator, Int128 denominator) {
  return (numerator + denominator - 1) / denominator;
}

struct Bend {
  std::int64_t price = 0;
  std::int64_t value = 1;
  std::int64_t stock = 0;
  bool limited = false;
};

bool less(const Bend& a, const Bend& b) {
  return static_cast<Int128>(a.price) * b.value < static_cast<Int128>(b.price) * a.value;
}

// As for sheets: the best scaling of the prices that keeps every unlimited pattern within its
// price, what limited kinds exceed being paid for. Returned as numerator and denominator.
std::pair<Int128, Int128> scaled_worth(Int128 worth, const std::vector<Bend>& kinds) {
  const Bend* most = nullptr;
  for (const Bend& kind : kinds) {
    if (!kind.limited && (most == nullptr || less(kind, *most))) {
      most = &kind;
    }
  }
  std::pair<Int128, Int128> best{0, 1};
  for (const Bend& theta : kinds) {
    if (most != nullptr && less(*most, theta)) {
      continue;
    }
    Int128 sum = worth * theta.price;
    for (const Bend& kind : kinds) {
      const Int128 over = static_cast<Int128>(theta.price) * kind.value -
                          static_cast<Int128>(kind.price) * theta.value;
      sum -= kind.limited && over > 0 ? over * kind.stock : 0;
    }
    if (static_cast<long double>(sum) / theta.value >
        static_cast<long double>(best.first) / static_cast<long double>(best.second)) {
      best = {sum, theta.value};
    }
  }
  return best;
}

}  // namespace

std::int64_t reachable_price(const BarProblem& problem, std::int64_t money) {
  std::int64_t unit = 0;
  std::int64_t most = 0;
  for (const BarProblem::Kind& kind : problem.kinds) {
    unit = std::gcd(unit, kind.price);
    most = std::max(most, kind.price);
  }
  if (unit == 0 || money <= 0) {
    return std::max<std::int64_t>(money, 0);
  }
  const std::int64_t cells = (money + most) / unit + 1;
  if (cells > 2'000'000 || problem.kinds.size() == 1) {
    return (money + unit - 1) / unit * unit;
  }
  std::vector<std::int64_t> used(static_cast<std::size_t>(cells));
  std::vector<std::uint8_t> reached(used.size(), 0);
  reached[0] = 1;
  for (const BarProblem::Kind& kind : problem.kinds) {
    const auto step = static_cast<std::size_t>(kind.price / unit);
    std::ranges::fill(used, 0);
    for (std::size_t sum = step; step > 0 && sum < reached.size(); ++sum) {
      if (reached[sum] == 0 && reached[sum - step] != 0 && used[sum - step] < kind.available) {
        reached[sum] = 1;
        used[sum] = used[sum - step] + 1;
      }
    }
  }
  auto sum = static_cast<std::size_t>((money + unit - 1) / unit);
  while (sum < reached.size() && reached[sum] == 0) {
    ++sum;
  }
  return sum < reached.size() ? static_cast<std::int64_t>(sum) * unit : money;
}

std::vector<BarPattern> first_bars(const BarProblem& problem) {
  std::vector<BarPattern> patterns;
  std::vector<std::int64_t> wanted = problem.demand;
  std::vector<std::int64_t> used(problem.kinds.size(), 0);
  for (std::size_t longest = 0; longest < wanted.size();) {
    if (wanted[longest] == 0) {
      ++longest;
      continue;
    }
    BarPattern best;
    double best_rate = 1e300;
    for (std::size_t k = 0; k < problem.kinds.size(); ++k) {
      const BarProblem::Kind& kind = problem.kinds[k];
      if (used[k] >= kind.available || kind.capacity < problem.lengths[longest]) {
        continue;
      }
      BarPattern pattern{static_cast<int>(k), 1, std::vector<std::int64_t>(wanted.size(), 0)};
      std::int64_t room = kind.capacity;
      for (std::size_t t = longest; t < wanted.size(); ++t) {
        pattern.counts[t] = std::min(wanted[t], room / problem.lengths[t]);
        room -= pattern.counts[t] * problem.lengths[t];
      }
      const double rate =
          static_cast<double>(kind.price + 1) / static_cast<double>(kind.capacity - room);
      if (rate < best_rate) {
        best_rate = rate;
        best = std::move(pattern);
      }
    }
    if (best.counts.empty()) {
      return {};
    }
    best.count = problem.kinds[static_cast<std::size_t>(best.kind)].available -
                 used[static_cast<std::size_t>(best.kind)];
    for (std::size_t t = 0; t < wanted.size(); ++t) {
      if (best.counts[t] > 0) {
        best.count = std::min(best.count, wanted[t] / best.counts[t]);
      }
    }
    for (std::size_t t = 0; t < wanted.size(); ++t) {
      wanted[t] -= best.counts[t] * best.count;
    }
    used[static_cast<std::size_t>(best.kind)] += best.count;
    patterns.push_back(std::move(best));
  }
  return patterns;
}

std::vector<BarPattern> fullest_bars(const BarProblem& problem, std::int64_t& work) {
  std::vector<BarPattern> patterns;
  std::vector<std::int64_t> wanted = problem.demand;
  const std::int64_t capacity = problem.kinds.front().capacity;
  for (std::size_t longest = 0; longest < wanted.size();) {
    if (wanted[longest] == 0) {
      ++longest;
      continue;
    }
    std::vector<std::int64_t> rest = wanted;
    rest[longest] -= 1;
    BarPattern pattern{0, 0, {}};
    pattern.counts =
        fill_bar(problem.lengths, problem.lengths, rest, capacity - problem.lengths[longest], work)
            .counts;
    pattern.counts[longest] += 1;
    pattern.count = std::numeric_limits<std::int64_t>::max();
    for (std::size_t t = 0; t < wanted.size(); ++t) {
      if (pattern.counts[t] > 0) {
        pattern.count = std::min(pattern.count, wanted[t] / pattern.counts[t]);
      }
    }
    for (std::size_t t = 0; t < wanted.size(); ++t) {
      wanted[t] -= pattern.counts[t] * pattern.count;
    }
    patterns.push_back(std::move(pattern));
  }
  return patterns;
}

BarMaster::BarMaster(const BarProblem& problem) : problem_{problem} {
  std::int64_t dearest = 1;
  for (const BarProblem::Kind& kind : problem.kinds) {
    dearest = std::max(dearest, kind.price);
  }
  for (const std::int64_t wanted : problem.demand) {
    program_.add_row_at_least(static_cast<double>(wanted));
  }
  for (const BarProblem::Kind& kind : problem.kinds) {
    kind_rows_.push_back(
        kind.is_limited() ? program_.add_row_at_most(static_cast<double>(kind.available)) : -1);
  }
  for (std::size_t t = 0; t < problem.demand.size(); ++t) {
    program_.add_column(static_cast<double>(dearest) * 2, {{static_cast<int>(t), 1.0}});
  }
  artificial_ = program_.columns();
}

bool BarMaster::add_column(int kind, std::vector<std::int64_t> counts) {
  if (!known_.emplace(kind, counts).second) {
    return false;
  }
  std::vector<std::pair<int, double>> entries;
  for (std::size_t t = 0; t < counts.size(); ++t) {
    if (counts[t] > 0) {
      entries.emplace_back(static_cast<int>(t), static_cast<double>(counts[t]));
    }
  }
  if (kind_rows_[at(kind)] >= 0) {
    entries.emplace_back(kind_rows_[at(kind)], 1.0);
  }
  program_.add_column(static_cast<double>(problem_.kinds[at(kind)].price), entries);
  columns_.push_back({kind, std::move(counts)});
  return true;
}

void BarMaster::add_patterns(const std::vector<BarPattern>& patterns) {
  for (const BarPattern& pattern : patterns) {
    add_column(pattern.kind, pattern.counts);
  }
}

std::vector<double> BarMaster::duals() const {
  std::vector<double> prices;
  for (std::size_t t = 0; t < problem_.lengths.size(); ++t) {
    prices.push_back(std::max(0.0, program_.dual(static_cast<int>(t))));
  }
  return prices;
}

std::vector<std::int64_t> BarMaster::stock() const {
  std::vector<std::int64_t> stock;
  for (const BarProblem::Kind& kind : problem_.kinds) {
    stock.push_back(kind.available);
  }
  return stock;
}

bool BarMaster::is_proper(const Column& column, const std::vector<std::int64_t>& wanted) const {
  for (std::size_t t = 0; t < wanted.size(); ++t) {
    if (column.counts[t] > wanted[t]) {
      return false;
    }
  }
  return true;
}

double BarMaster::solve_for(const Dive& dive) {
  const std::vector<std::int64_t>& wanted = dive.wanted;
  const std::vector<std::int64_t>& stock = dive.stock;
  for (std::size_t t = 0; t < wanted.size(); ++t) {
    program_.set_row_at_least(static_cast<int>(t), static_cast<double>(wanted[t]));
  }
  for (std::size_t k = 0; k < stock.size(); ++k) {
    if (kind_rows_[k] >= 0) {
      program_.set_row_at_most(kind_rows_[k], static_cast<double>(stock[k]));
    }
  }
  for (std::size_t c = 0; c < columns_.size(); ++c) {
    program_.set_column_bounds(
        artificial_ + static_cast<int>(c), 0, is_proper(columns_[c], wanted) ? 1e30 : 0);
  }
  for (const std::size_t column : dive.barred) {
    program_.set_column_bounds(artificial_ + static_cast<int>(column), 0, 0);
  }
  work_ += 3000 * static_cast<std::int64_t>(columns_.size() + wanted.size());
  return program_.solve() ? program_.objective() : 1e300;
}

// The best filling and a few more of what it leaves over, as long as the programme's prices like
// them: patterns that have nothing in common spare many rounds.
bool BarMaster::add_fillings(int kind,
                             BarFilling filling,
                             const std::vector<std::int64_t>& values,
                             const std::vector<std::int64_t>& wanted) {
  const BarProblem::Kind& bar = problem_.kinds[at(kind)];
  const double small = 1e-7 * static_cast<double>(std::max<std::int64_t>(1, bar.price));
  std::vector<std::int64_t> left = wanted;
  bool grew = false;
  for (int more = 0; more < kFillings; ++more) {
    double reduced = static_cast<double>(bar.price);
    if (kind_rows_[at(kind)] >= 0) {
      reduced -= program_.dual(kind_rows_[at(kind)]);
    }
    for (std::size_t t = 0; t < wanted.size(); ++t) {
      if (filling.counts[t] > 0) {
        reduced -= std::max(0.0, program_.dual(static_cast<int>(t))) *
                   static_cast<double>(filling.counts[t]);
        left[t] = 0;
      }
    }
    if (reduced >= -small) {
      break;
    }
    grew = add_column(kind, std::move(filling.counts)) || grew;
    if (more + 1 < kFillings) {
      filling = fill_bar(problem_.lengths, values, left, bar.capacity, work_);
    }
  }
  return grew;
}

// Prices all kinds, bounds the programme, and adds the patterns that the programme's own prices
// like.
BarMaster::Round BarMaster::price(const std::vector<double>& prices,
                                  const std::vector<std::int64_t>& wanted,
                                  const std::vector<std::int64_t>& stock) {
  double density = 1e-30;
  std::int64_t longest = 1;
  for (std::size_t t = 0; t < prices.size(); ++t) {
    density = std::max(density, prices[t] / static_cast<double>(problem_.lengths[t]));
  }
  for (const BarProblem::Kind& kind : problem_.kinds) {
    longest = std::max(longest, kind.capacity);
  }
  const double scale = kLargestValue / (density * static_cast<double>(longest));
  std::vector<std::int64_t> values;
  Int128 worth = 0;
  std::int64_t copies = 0;
  for (std::size_t t = 0; t < prices.size(); ++t) {
    values.push_back(static_cast<std::int64_t>(prices[t] * scale));
    worth += static_cast<Int128>(values.back()) * wanted[t];
    copies += wanted[t];
  }
  Round round;
  std::vector<Bend> bends;
  std::vector<Bend> single;
  for (int k = 0; k < static_cast<int>(problem_.kinds.size()); ++k) {
    const BarProblem::Kind& kind = problem_.kinds[at(k)];
    BarFilling filling = fill_bar(problem_.lengths, values, wanted, kind.capacity, work_);
    bends.push_back({kind.price,
                     std::max<std::int64_t>(1, filling.bound),
                     std::min(copies, stock[at(k)]),
                     kind.is_limited()});
    single.push_back(bends.back());
    single.back().price = 1;
    round.grew = add_fillings(k, std::move(filling), values, wanted) || round.grew;
  }
  const auto money = scaled_worth(worth, bends);
  round.bound = static_cast<double>(money.first) / static_cast<double>(money.second);
  if (wanted == problem_.demand) {
    bound_ = std::max(
        bound_,
        reachable_price(problem_, static_cast<std::int64_t>(ceil_of(money.first, money.second))));
    const auto bars = scaled_worth(worth, single);
    bars_bound_ =
        std::max(bars_bound_, static_cast<std::int64_t>(ceil_of(bars.first, bars.second)));
  }
  return round;
}

void BarMaster::step() {
  if (finished_) {
    return;
  }
  work_ += 3000 * static_cast<std::int64_t>(problem_.lengths.size() + 3);
  if (!program_.solve()) {
    finished_ = true;
    return;
  }
  const double value = program_.objective();
  if (reachable_price(problem_, static_cast<std::int64_t>(std::ceil(value - 1e-6))) <= bound_) {
    finished_ = true;
    return;
  }
  std::vector<double> trial = duals();
  if (best_prices_.empty()) {
    for (std::size_t t = 0; t < trial.size(); ++t) {
      trial[t] = static_cast<double>(problem_.lengths[t]);
    }
  } else {
    for (std::size_t t = 0; t < trial.size(); ++t) {
      trial[t] = smoothing_ * best_prices_[t] + (1 - smoothing_) * trial[t];
    }
  }
  const Round round = price(trial, problem_.demand, stock());
  if (round.bound > best_rate_) {
    best_rate_ = round.bound;
    double worth = 0;
    for (std::size_t t = 0; t < trial.size(); ++t) {
      worth += trial[t] * static_cast<double>(problem_.demand[t]);
    }
    best_prices_ = trial;
    for (double& best : best_prices_) {
      best *= round.bound / std::max(1e-30, worth);
    }
  }
  finished_ = !round.grew && smoothing_ == 0;
  smoothing_ = round.grew ? 0.5 : 0;
}

void BarMaster::fix(Dive& dive, std::size_t index, std::int64_t times) const {
  const Column& column = columns_[index];
  for (std::size_t t = 0; t < dive.wanted.size(); ++t) {
    dive.wanted[t] -= column.counts[t] * times;
  }
  if (problem_.kinds[at(column.kind)].is_limited()) {
    dive.stock[at(column.kind)] -= times;
  }
  dive.price += problem_.kinds[at(column.kind)].price * times;
  dive.fixed.push_back({column.kind, times, column.counts});
  dive.last = index;
}

bool BarMaster::leaves_out() const {
  for (int column = 0; column < artificial_; ++column) {
    if (program_.value(column) > 1e-6) {
      return true;
    }
  }
  return false;
}

// Column generation for what is left, until it is sure that the goal can, or cannot, be met by the
// programme.
bool BarMaster::can_meet(Dive& dive, std::int64_t goal, const std::stop_token& stop) {
  const double left = static_cast<double>(goal - dive.price) + 1e-6;
  double value = solve_for(dive);
  while (value > left || leaves_out()) {
    const Round round = price(duals(), dive.wanted, dive.stock);
    if (round.bound > left || stop.stop_requested()) {
      return false;
    }
    if (!round.grew) {
      return value <= left;
    }
    work_ += 3000 * static_cast<std::int64_t>(problem_.lengths.size() + 3);
    if (!program_.solve()) {
      return false;
    }
    value = program_.objective();
  }
  return true;
}

bool BarMaster::fix_whole(Dive& dive) const {
  bool any = false;
  for (std::size_t c = 0; c < columns_.size(); ++c) {
    auto times =
        static_cast<std::int64_t>(program_.value(artificial_ + static_cast<int>(c)) + 1e-6);
    if (times == 0) {
      continue;
    }
    times = std::min(times, dive.stock[at(columns_[c].kind)]);
    for (std::size_t t = 0; t < dive.wanted.size(); ++t) {
      if (columns_[c].counts[t] > 0) {
        times = std::min(times, dive.wanted[t] / columns_[c].counts[t]);
      }
    }
    if (times > 0) {
      fix(dive, c, times);
      any = true;
    }
  }
  return any;
}

bool BarMaster::fix_one(Dive& dive, Random& random) const {
  std::size_t chosen = columns_.size();
  double best = 0;
  for (std::size_t c = 0; c < columns_.size(); ++c) {
    const double value = program_.value(artificial_ + static_cast<int>(c));
    if (value < 1e-6 || dive.stock[at(columns_[c].kind)] == 0 ||
        !is_proper(columns_[c], dive.wanted)) {
      continue;
    }
    const double rank = value * (0.6 + 0.4 * random.fraction());
    if (rank > best) {
      best = rank;
      chosen = c;
    }
  }
  if (chosen == columns_.size()) {
    return false;
  }
  fix(dive, chosen, 1);
  return true;
}

std::vector<BarPattern> BarMaster::dive(std::int64_t goal,
                                        Random& random,
                                        const std::stop_token& stop) {
  Dive dive{problem_.demand, stock(), {}, 0};
  std::vector<Dive> before;  // each choice
  int second_thoughts = kSecondThoughts;
  while (std::ranges::any_of(dive.wanted, [](std::int64_t wanted) { return wanted > 0; })) {
    if (can_meet(dive, goal, stop)) {
      before.push_back(dive);
      if (fix_whole(dive) || fix_one(dive, random)) {
        continue;
      }
      before.pop_back();
    }
    if (before.empty() || second_thoughts-- == 0 || stop.stop_requested()) {
      return {};
    }
    const std::size_t column = dive.last;
    dive = std::move(before.back());
    before.pop_back();
    dive.barred.push_back(column);
  }
  return dive.price <= goal ? dive.fixed : std::vector<BarPattern>{};
}

}  // namespace plankwright::solve
