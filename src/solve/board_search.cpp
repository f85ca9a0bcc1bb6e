#include "solve/board_search.h"

#include <algorithm>
#include <cmath>
#include <limits>
#include <numeric>

namespace plankwright::solve {
namespace {

constexpr std::size_t kLateList = 200;
constexpr std::size_t kMostTries = 24;
constexpr int kOrders = 5;
constexpr double kSkip = 0.03;

std::size_t at(int index) {
  return static_cast<std::size_t>(index);
}

}  // namespace

BoardSearch::BoardSearch(const BoardProblem& problem, std::uint64_t seed)
    : problem_{&problem}, random_{seed} {
  const BoardJob& job = *problem.job;
  double dearest = 1;
  for (const RoughBoard& board : job.boards) {
    dearest = std::max(dearest, static_cast<double>(board.price));
  }
  std::int64_t largest = 1;
  for (const Block& block : problem.blocks) {
    largest = std::max(largest, block.area());
  }
  for (const Block& block : problem.blocks) {
    const double share = static_cast<double>(block.area()) / static_cast<double>(largest);
    penalty_.push_back(least_money() ? dearest * (1.5 + share)
                                     : static_cast<double>(block.worth) + 1e-6 * share);
  }
  fits_.assign(problem.blocks.size(), std::vector<signed char>(job.boards.size(), -1));
  clear();
}

void BoardSearch::clear() {
  const BoardJob& job = *problem_->job;
  state_ = {};
  int groups = 0;
  for (const Block& block : problem_->blocks) {
    state_.left.push_back(block.is_panel() ? job.panels[at(block.panel)].width : block.demand);
    groups = std::max(groups, block.lot_group + 1);
  }
  state_.lot_of_group.assign(at(groups), 0);
  state_.held_of_group.assign(at(groups), 0);
}

bool BoardSearch::lot_allows(const Block& block, int board) const {
  return block.lot_group < 0 || state_.held_of_group[at(block.lot_group)] == 0 ||
         state_.lot_of_group[at(block.lot_group)] == problem_->job->boards[at(board)].lot;
}

void BoardSearch::take(int tree, const BoardSpot& spot, int block) {
  save(tree);
  state_.trees[at(tree)].put(spot, block);
  const Block& taken = problem_->blocks[at(block)];
  state_.left[at(block)] -=
      taken.is_panel() ? spot.at.width - problem_->job->panels[at(taken.panel)].joint : 1;
  if (taken.lot_group >= 0) {
    state_.held_of_group[at(taken.lot_group)] += 1;
    state_.lot_of_group[at(taken.lot_group)] =
        problem_->job->boards[at(state_.trees[at(tree)].board())].lot;
  }
}

void BoardSearch::give_back(int tree, int node) {
  save(tree);
  const BoardTree::Node taken = state_.trees[at(tree)].nodes()[at(node)];
  const Block& block = problem_->blocks[at(taken.block)];
  state_.left[at(taken.block)] +=
      block.is_panel() ? taken.at.width - problem_->job->panels[at(block.panel)].joint : 1;
  if (block.lot_group >= 0) {
    state_.held_of_group[at(block.lot_group)] -= 1;
  }
  state_.trees[at(tree)].remove(node);
}

void BoardSearch::save(int tree) {
  if (std::ranges::none_of(undo_.trees, [&](const Saved& s) { return s.tree == tree; })) {
    undo_.trees.push_back({tree, state_.trees[at(tree)]});
  }
}

void BoardSearch::undo() {
  for (Saved& saved : undo_.trees) {
    state_.trees[at(saved.tree)] = std::move(saved.copy);
  }
  undo_.trees.clear();
  state_.left = undo_.left;
  state_.lot_of_group = undo_.lot_of_group;
  state_.held_of_group = undo_.held_of_group;
}

std::vector<int> BoardSearch::order_of_blocks(int rule) {
  const auto& blocks = problem_->blocks;
  std::vector<double> keys(blocks.size());
  for (std::size_t i = 0; i < blocks.size(); ++i) {
    const Block& block = blocks[i];
    const double area = static_cast<double>(block.area());
    const double noise = 0.6 + 0.8 * random_.fraction();
    switch (rule) {
      case 0:
        keys[i] = static_cast<double>(block.length) + area * 1e-9;
        break;
      case 1:
        keys[i] = area;
        break;
      case 2:
        keys[i] = static_cast<double>(block.width) + area * 1e-9;
        break;
      case 3:
        keys[i] = least_money() ? area * noise : static_cast<double>(block.worth) * noise;
        break;
      default:
        keys[i] = least_money() ? static_cast<double>(block.length) * noise
                                : static_cast<double>(block.worth) / area * noise;
    }
  }
  std::vector<int> order(blocks.size());
  std::iota(order.begin(), order.end(), 0);
  std::ranges::stable_sort(order, std::greater{}, [&](int i) { return keys[at(i)]; });
  return order;
}

std::vector<int> BoardSearch::trees_to_try() const {
  std::vector<int> tries;
  for (std::size_t i = 0; i < state_.trees.size(); ++i) {
    if (state_.trees[i].held() > 0 || !least_money()) {
      tries.push_back(static_cast<int>(i));
    }
  }
  return tries;
}

int BoardSearch::used_of(int board) const {
  return static_cast<int>(std::ranges::count_if(state_.trees, [&](const BoardTree& tree) {
    return tree.board() == board && (tree.held() > 0 || !least_money());
  }));
}

bool BoardSearch::fits_empty(int block, int board) {
  signed char& known = fits_[at(block)][at(board)];
  if (known < 0) {
    const Block& wanted = problem_->blocks[at(block)];
    const BoardTree empty{*problem_, board};
    const std::int64_t width = wanted.is_panel() ? wanted.parts.front().at.width : wanted.width;
    known = empty.find(wanted, width, work_) ? 1 : 0;
  }
  return known == 1;
}

/// Opens a board for the block; true when one was found.
bool BoardSearch::open(int block, std::vector<int>& tries, Opening opening) {
  const auto& boards = problem_->job->boards;
  int best = -1;
  double best_key = 0;
  for (std::size_t i = 0; i < boards.size(); ++i) {
    const int board = static_cast<int>(i);
    if ((boards[i].available && used_of(board) >= *boards[i].available) ||
        !lot_allows(problem_->blocks[at(block)], board) || !fits_empty(block, board)) {
      continue;
    }
    const double price = static_cast<double>(boards[i].price);
    const double area =
        static_cast<double>(boards[i].length) * static_cast<double>(boards[i].width);
    const double key = opening == Opening::kCheapArea ? price / area
                       : opening == Opening::kCheap   ? price + 1 / area
                       : opening == Opening::kLarge   ? -area
                                                      : random_.fraction();
    if (best < 0 || key < best_key) {
      best = board;
      best_key = key;
    }
  }
  if (best < 0) {
    return false;
  }
  const auto idle = std::ranges::find_if(state_.trees, [&](const BoardTree& tree) {
    return tree.board() == best && tree.held() == 0;
  });
  int tree = static_cast<int>(idle - state_.trees.begin());
  if (idle == state_.trees.end()) {
    state_.trees.emplace_back(*problem_, best);
    tree = static_cast<int>(state_.trees.size()) - 1;
  }
  tries.push_back(tree);
  return true;
}

bool BoardSearch::place_part(int block, const std::vector<int>& tries) {
  const Block& wanted = problem_->blocks[at(block)];
  std::optional<BoardSpot> best;
  int best_tree = -1;
  for (const int tree : tries) {
    const BoardTree& board = state_.trees[at(tree)];
    if (!lot_allows(wanted, board.board()) || (skipping_ && random_.fraction() < kSkip)) {
      continue;
    }
    const auto spot = board.find(wanted, wanted.width, work_);
    if (spot && (!best || spot->spoiled < best->spoiled)) {
      best = spot;
      best_tree = tree;
    }
  }
  if (best) {
    take(best_tree, *best, block);
  }
  return best.has_value();
}

/// The widest strip not over `wanted` after which the rest of the panel can still be made up.
std::int64_t BoardSearch::strip_width(const Block& block,
                                      std::int64_t rest,
                                      std::int64_t wanted) const {
  const BoardPanel& panel = problem_->job->panels[at(block.panel)];
  const std::int64_t net = std::min(wanted - panel.joint, rest);
  const std::int64_t least = panel.narrowest - panel.joint;
  if (net < least) {
    return 0;
  }
  if (strips_reach(panel, rest - net)) {
    return net + panel.joint;
  }
  // The rest is between two numbers of strips: leave as much as the greater number needs.
  const std::int64_t most = panel.widest - panel.joint;
  const std::int64_t strips = (rest - net + most - 1) / most;
  const std::int64_t smaller = rest - strips * least;
  return smaller >= least && smaller <= net && strips_reach(panel, rest - smaller)
             ? smaller + panel.joint
             : 0;
}

bool BoardSearch::place_strip(int block, const std::vector<int>& tries) {
  const Block& wanted = problem_->blocks[at(block)];
  const std::int64_t rest = state_.left[at(block)];
  std::optional<BoardSpot> best;
  int best_tree = -1;
  for (const int tree : tries) {
    const BoardTree& board = state_.trees[at(tree)];
    if (!lot_allows(wanted, board.board()) || (skipping_ && random_.fraction() < kSkip)) {
      continue;
    }
    for (const std::int64_t width : board.strip_widths(wanted, wanted.width)) {
      const std::int64_t ripped = strip_width(wanted, rest, width);
      if (ripped == 0 || (best && ripped < best->at.width)) {
        continue;
      }
      const auto spot = board.find(wanted, ripped, work_);
      if (spot && (!best || spot->at.width > best->at.width || spot->spoiled < best->spoiled)) {
        best = spot;
        best_tree = tree;
      }
      if (spot) {
        break;
      }
    }
  }
  if (best) {
    take(best_tree, *best, block);
  }
  return best.has_value();
}

void BoardSearch::place(int block,
                        std::vector<int>& tries,
                        Opening opening,
                        const std::stop_token& stop) {
  const bool panel = problem_->blocks[at(block)].is_panel();
  bool opened = false;
  while (state_.left[at(block)] > 0 && !stop.stop_requested()) {
    const bool placed = panel ? place_strip(block, tries) : place_part(block, tries);
    if (placed) {
      opened = false;
      continue;
    }
    // A board that was opened for the block and still does not take it: enough tried.
    if (opened || !least_money() || !open(block, tries, opening)) {
      return;
    }
    opened = true;
    if (tries.size() > 2 * kMostTries) {
      tries.erase(tries.begin(), tries.end() - kMostTries);
    }
  }
}

void BoardSearch::recreate(int rule,
                           std::vector<int> tries,
                           Opening opening,
                           const std::stop_token& stop) {
  for (const int block : order_of_blocks(rule)) {
    if (state_.left[at(block)] > 0) {
      place(block, tries, opening, stop);
    }
  }
}

double BoardSearch::objective() const {
  double sum = 0;
  for (const BoardTree& tree : state_.trees) {
    if (tree.held() > 0 && least_money()) {
      const BoardArea& usable = problem_->shapes[at(tree.board())].usable;
      const double fill =
          static_cast<double>(tree.held_area()) /
          std::max(1.0, static_cast<double>(usable.length) * static_cast<double>(usable.width));
      // Of layouts that cost the same, one with a board nearly empty is nearer to saving it.
      sum += static_cast<double>(problem_->job->boards[at(tree.board())].price) *
             (1 - 0.02 * fill * fill);
    }
  }
  for (std::size_t i = 0; i < state_.left.size(); ++i) {
    const Block& block = problem_->blocks[i];
    const double whole =
        block.is_panel() ? static_cast<double>(problem_->job->panels[at(block.panel)].width) : 1;
    const double left = static_cast<double>(state_.left[i]) / whole;
    // Half a panel is worth nothing in the end: rather one nearly whole than two begun.
    const bool begun = block.is_panel() && !least_money();
    sum += penalty_[i] * (begun ? left * (1.5 - 0.5 * left) : left);
  }
  return sum;
}

void BoardSearch::keep_if_best() {
  std::int64_t cost = 0;
  for (const BoardTree& tree : state_.trees) {
    cost += tree.held() > 0 ? problem_->job->boards[at(tree.board())].price : 0;
  }
  std::int64_t value = 0;
  bool whole = true;
  for (std::size_t i = 0; i < state_.left.size(); ++i) {
    const Block& block = problem_->blocks[i];
    value += block.is_panel() ? (state_.left[i] == 0 ? block.worth : 0)
                              : block.worth * (block.demand - state_.left[i]);
    whole = whole && state_.left[i] == 0;
  }
  if (least_money() ? whole && (!has_best_ || cost < best_cost_)
                    : !has_best_ || value > best_value_) {
    best_ = state_;
    best_cost_ = cost;
    best_value_ = value;
    first_work_ = has_best_ ? first_work_ : work_;
    has_best_ = true;
    if (progress) {
      progress(cost, value);
    }
  }
}

bool BoardSearch::start(const std::stop_token& stop) {
  struct Rule {
    int order;
    Opening opening;
  };
  const Rule rules[] = {{0, Opening::kCheapArea},
                        {1, Opening::kCheapArea},
                        {0, Opening::kLarge},
                        {0, Opening::kCheap},
                        {2, Opening::kCheapArea}};
  double best = std::numeric_limits<double>::max();
  BoardState best_state;
  for (const Rule& rule : rules) {
    clear();
    if (!least_money()) {
      const auto& boards = problem_->job->boards;
      for (std::size_t i = 0; i < boards.size(); ++i) {
        for (std::int64_t copy = 0; copy < boards[i].available.value_or(1); ++copy) {
          state_.trees.emplace_back(*problem_, static_cast<int>(i));
        }
      }
    }
    undo_.trees.clear();
    recreate(rule.order, trees_to_try(), rule.opening, stop);
    keep_if_best();
    const double now = objective();
    if (now < best) {
      best = now;
      best_state = state_;
    }
    if (stop.stop_requested() || (least_money() && has_best_ && best_cost_ == 0)) {
      break;
    }
  }
  state_ = std::move(best_state);
  late_.assign(kLateList, objective());
  return has_best_;
}

void BoardSearch::ruin_tree(int tree, int most) {
  std::vector<int> placed = state_.trees[at(tree)].placed();
  for (int i = 0; i < most && !placed.empty(); ++i) {
    const auto chosen = at(random_.below(static_cast<int>(placed.size())));
    give_back(tree, placed[chosen]);
    placed.erase(placed.begin() + static_cast<std::ptrdiff_t>(chosen));
  }
}

/// Which trees are worth trying afterwards.
std::vector<int> BoardSearch::ruin() {
  std::vector<int> used = trees_to_try();
  if (used.empty()) {
    return used;
  }
  const auto pick = [&] { return used[at(random_.below(static_cast<int>(used.size())))]; };
  const int first = pick();
  const int second = pick();
  const bool empty_first = random_.fraction() < (least_money() ? 0.35 : 0.15);
  ruin_tree(first, empty_first ? std::numeric_limits<int>::max() : 1 + random_.below(5));
  if (random_.fraction() < 0.6) {
    ruin_tree(second, 1 + random_.below(4));
  }
  if (used.size() <= (least_money() ? kMostTries : 2)) {
    return used;
  }
  std::vector<int> tries = {first};
  for (std::size_t i = 0; i < (least_money() ? kMostTries / 2 : 1); ++i) {
    const int more = i == 0 ? second : pick();
    if (std::ranges::find(tries, more) == tries.end()) {
      tries.push_back(more);
    }
  }
  return tries;
}

void BoardSearch::run(std::int64_t work, std::int64_t bound, const std::stop_token& stop) {
  const std::int64_t end = work_ + work;
  skipping_ = true;
  double now = objective();
  for (std::size_t turn = 0; work_ < end && !stop.stop_requested(); ++turn) {
    if (has_best_ && (least_money() ? best_cost_ <= bound : best_value_ >= bound)) {
      break;
    }
    undo_.trees.clear();
    undo_.left = state_.left;
    undo_.lot_of_group = state_.lot_of_group;
    undo_.held_of_group = state_.held_of_group;
    work_ += 200 + 20 * static_cast<std::int64_t>(problem_->blocks.size());
    const std::vector<int> tries = ruin();
    recreate(random_.below(kOrders), tries, Opening::kAny, stop);
    const double then = objective();
    double& late = late_[turn % late_.size()];
    if (then < now || then <= late) {
      now = then;
      keep_if_best();
    } else {
      undo();
    }
    late = std::min(late, now);
  }
  skipping_ = false;
}

}  // namespace plankwright::solve
