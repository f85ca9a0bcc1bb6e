#include "solve/board_bound.h"

#include <algorithm>
#include <cmath>
#include <numeric>

namespace plankwright::solve {
namespace {

constexpr double kFineMoney = 4.0e12;  // what all boards or parts are worth together, in fine money
constexpr int kPatience = 8;

std::size_t at(int index) {
  return static_cast<std::size_t>(index);
}

double total_demand(const BoardProblem& problem) {
  double sum = 0;
  for (const Block& block : problem.blocks) {
    sum += static_cast<double>(block.demand);
  }
  return sum;
}

}  // namespace

BoardBound::BoardBound(const BoardProblem& problem) : problem_{&problem} {
  double money = 1;
  for (const Block& block : problem.blocks) {
    demand_.push_back(!block.is_panel() ? block.demand
                      : block.copy == 0 ? problem.job->panels[at(block.panel)].demand
                                        : 0);
    bound_ += least_money() ? 0 : block.worth * block.demand;
  }
  for (std::size_t b = 0; least_money() && b < problem.shapes.size(); ++b) {
    money += static_cast<double>(problem.job->boards[b].price) * static_cast<double>(number_of(b));
  }
  money = std::max(money, static_cast<double>(bound_));
  scale_ = std::max(1.0, std::exp2(std::floor(std::log2(kFineMoney / money))));
}

/// How many boards of a kind any layout could use: no more than there are pieces to cut.
std::int64_t BoardBound::number_of(std::size_t board) const {
  const auto& available = problem_->job->boards[board].available;
  double pieces = total_demand(*problem_);
  for (const BoardPanel& panel : problem_->job->panels) {
    const auto least =
        static_cast<double>(std::max<std::int64_t>(1, panel.narrowest - panel.joint));
    pieces += static_cast<double>(panel.demand) * (static_cast<double>(panel.width) / least + 1);
  }
  const auto most = static_cast<std::int64_t>(pieces);
  return available ? std::min(*available, most) : most;
}

void BoardBound::set_up(const std::stop_token& stop) {
  double cheapest = 1e300;
  for (std::size_t b = across_.size(); b < problem_->shapes.size(); ++b) {
    if (stop.stop_requested()) {
      return;
    }
    across_.emplace_back(*problem_, static_cast<int>(b), Axis::kX);
    along_.emplace_back(*problem_, static_cast<int>(b), Axis::kY);
    nearer_.push_back(-1);
    work_ += 4 * (across_.back().work() + along_.back().work());
  }
  for (std::size_t b = 0; b < problem_->shapes.size(); ++b) {
    const BoardArea& usable = problem_->shapes[b].usable;
    const double area = static_cast<double>(usable.length) * static_cast<double>(usable.width);
    if (area > 0) {
      cheapest = std::min(cheapest, static_cast<double>(problem_->job->boards[b].price) / area);
    }
  }
  for (const Block& block : problem_->blocks) {
    double area = 0;
    for (const BlockPart& part : block.parts) {
      area += static_cast<double>(part.at.length) * static_cast<double>(part.at.width);
    }
    if (block.is_panel()) {
      area = static_cast<double>(block.length) *
             static_cast<double>(problem_->job->panels[at(block.panel)].width);
    }
    const double price =
        least_money() ? std::max(cheapest, 1e-9) * area : static_cast<double>(block.worth);
    price_.push_back(std::floor(price * scale_));
    first_price_.push_back(std::max(1.0, least_money() ? price_.back() : area * scale_ * 1e-3));
  }
  if (!least_money()) {
    first_price_ = price_;
  }
}

/// No more copies of a block than the boards hold when nothing else is cut from them; of parts and
/// runs whole ones on every board.
void BoardBound::cut_down_demand(const std::stop_token& stop) {
  constexpr std::int64_t kOne = std::int64_t{1} << 30;
  std::vector<std::int64_t> prices(problem_->blocks.size(), 0);
  for (std::size_t i = 0; i < prices.size() && !stop.stop_requested(); ++i) {
    if (demand_[i] == 0) {
      continue;
    }
    prices[i] = kOne;
    const bool whole = !problem_->blocks[i].is_panel();
    std::int64_t held = 0;
    for (std::size_t b = 0; b < across_.size() && held / kOne < demand_[i]; ++b) {
      const std::int64_t most =
          std::min(across_[b].most(prices, nullptr), along_[b].most(prices, nullptr));
      work_ += across_[b].work() + along_[b].work();
      held += (whole ? most / kOne * kOne : most) * std::min(number_of(b), demand_[i]);
    }
    demand_[i] = std::min(demand_[i], held / kOne);
    prices[i] = 0;
  }
}

BoardBound::Seen BoardBound::look_at(std::size_t board, const std::vector<std::int64_t>& prices) {
  Seen seen;
  seen.uses.assign(prices.size(), 0);
  // Both ways now and then; between, only the one that gave less.
  constexpr std::int64_t kBothEvery = 6;
  if (nearer_[board] < 0 || turns_ % kBothEvery == 0) {
    const std::int64_t across = across_[board].most(prices, nullptr);
    const std::int64_t along = along_[board].most(prices, nullptr);
    nearer_[board] = across <= along ? 0 : 1;
    work_ += across_[board].work() + along_[board].work();
  }
  const BoardLines& lines = nearer_[board] == 0 ? across_[board] : along_[board];
  seen.most = lines.most(prices, &seen.uses);
  work_ += lines.work();
  return seen;
}

/// Boards without end must not pay at these prices: prices fall until they do not.
void BoardBound::scale_to_unlimited(std::vector<std::int64_t>& prices) {
  double factor = 1;
  for (std::size_t b = 0; b < problem_->shapes.size(); ++b) {
    const RoughBoard& board = problem_->job->boards[b];
    if (board.available) {
      continue;
    }
    const std::int64_t most =
        std::min(across_[b].most(prices, nullptr), along_[b].most(prices, nullptr));
    work_ += across_[b].work() + along_[b].work();
    const double price = static_cast<double>(board.price) * scale_;
    if (static_cast<double>(most) > price) {
      factor = std::min(factor, price / static_cast<double>(most));
    }
  }
  if (factor < 1) {
    for (std::int64_t& price : prices) {
      price = static_cast<std::int64_t>(static_cast<double>(price) * factor * (1 - 1e-9));
    }
  }
}

/// The bound at these prices in fine money; `slope` is what it gains with each block's price.
double BoardBound::evaluate(const std::vector<std::int64_t>& prices, std::vector<double>& slope) {
  double sum = 0;
  for (std::size_t i = 0; i < prices.size(); ++i) {
    const auto demand = static_cast<double>(demand_[i]);
    const double worth = static_cast<double>(problem_->blocks[i].worth) * scale_;
    sum += least_money() ? static_cast<double>(prices[i]) * demand
                         : (worth - static_cast<double>(prices[i])) * demand;
    slope[i] = demand;
  }
  for (std::size_t b = 0; b < problem_->shapes.size(); ++b) {
    const Seen seen = look_at(b, prices);
    const auto number = static_cast<double>(number_of(b));
    const double price =
        least_money() ? static_cast<double>(problem_->job->boards[b].price) * scale_ : 0;
    const double gain = static_cast<double>(seen.most) - price;
    if (gain <= 0) {
      continue;
    }
    sum += (least_money() ? -gain : gain) * number;
    for (std::size_t i = 0; i < prices.size(); ++i) {
      slope[i] -= seen.uses[i] * number;
    }
  }
  return sum;
}

void BoardBound::keep(double value) {
  // Sums of whole fine money stay exact in a double up to 2^53; one unit covers the rest.
  if (least_money()) {
    bound_ = std::max(bound_, static_cast<std::int64_t>(std::ceil((value - 1) / scale_ - 1e-9)));
  } else {
    bound_ = std::min(bound_, static_cast<std::int64_t>(std::floor((value + 1) / scale_ + 1e-9)));
  }
}

void BoardBound::run(std::int64_t work, std::int64_t target, const std::stop_token& stop) {
  const std::int64_t end = work_ + work;
  if (price_.empty()) {
    set_up(stop);
    if (!least_money() && across_.size() == problem_->shapes.size()) {
      cut_down_demand(stop);
    }
    best_ = least_money() ? -1e300 : 1e300;
  }
  std::vector<double> slope(price_.size());
  std::vector<std::int64_t> whole(price_.size());
  while (work_ < end && !stop.stop_requested() && across_.size() == problem_->shapes.size()) {
    if (least_money() ? bound_ >= target : bound_ <= target) {
      return;
    }
    for (std::size_t i = 0; i < price_.size(); ++i) {
      whole[i] = static_cast<std::int64_t>(price_[i]);
    }
    if (least_money()) {
      scale_to_unlimited(whole);
    }
    const double value = evaluate(whole, slope);
    turns_ += 1;
    keep(value);
    const bool better = least_money() ? value > best_ * (best_ > 0 ? 1 + 1e-5 : 1 - 1e-5)
                                      : value < best_ * (1 - 1e-5);
    best_ = least_money() ? std::max(best_, value) : std::min(best_, value);
    stalled_ = better ? 0 : stalled_ + 1;
    if (stalled_ > kPatience) {
      step_ *= 0.6;
      stalled_ = 0;
    }
    double norm = 0;
    for (std::size_t i = 0; i < slope.size(); ++i) {
      norm += first_price_[i] * slope[i] * first_price_[i] * slope[i];
    }
    const double gap =
        std::max(std::abs(static_cast<double>(target) * scale_ - value), 0.005 * std::abs(value));
    if (norm <= 0 || step_ < 1e-4) {
      return;
    }
    // The price of a part grows while it is used less than wanted: for the least money that raises
    // the bound; for the greatest value it is the part's worth less what is given up on it.
    const double step = step_ * gap / norm;
    for (std::size_t i = 0; i < price_.size(); ++i) {
      const double most =
          least_money() ? 1e15 : static_cast<double>(problem_->blocks[i].worth) * scale_;
      price_[i] =
          std::clamp(price_[i] + step * first_price_[i] * first_price_[i] * slope[i], 0.0, most);
    }
  }
}

std::int64_t reachable_money(const BoardJob& job, std::int64_t least, std::int64_t most) {
  std::int64_t step = 0;
  for (const RoughBoard& board : job.boards) {
    step = std::gcd(step, board.price);
  }
  constexpr std::int64_t kMostSums = 2'000'000;
  if (step <= 0 || least <= 0) {
    return least;
  }
  const std::int64_t up = (least + step - 1) / step * step;
  const std::int64_t sums = most / step;
  if (sums > kMostSums || sums * static_cast<std::int64_t>(job.boards.size()) > 50 * kMostSums ||
      up > most) {
    return std::min(up, std::max(least, most));
  }
  // used[s]: how many of the current board the sum s takes at least; -1: cannot be reached.
  std::vector<char> reached(static_cast<std::size_t>(sums) + 1, 0);
  std::vector<std::int64_t> used;
  reached[0] = 1;
  for (const RoughBoard& board : job.boards) {
    const auto price = static_cast<std::size_t>(board.price / step);
    if (price == 0) {
      continue;
    }
    used.assign(reached.size(), 0);
    for (std::size_t s = price; s < reached.size(); ++s) {
      if (reached[s] == 0 && reached[s - price] != 0 &&
          (!board.available || used[s - price] < *board.available)) {
        reached[s] = 1;
        used[s] = used[s - price] + 1;
      }
    }
  }
  for (auto s = static_cast<std::size_t>(up / step); s < reached.size(); ++s) {
    if (reached[s] != 0) {
      return static_cast<std::int64_t>(s) * step;
    }
  }
  return up;
}

}  // namespace plankwright::solve
