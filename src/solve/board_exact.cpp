#include "solve/board_exact.h"

#include <algorithm>
#include <bit>

namespace plankwright::solve {
namespace {

constexpr int kMostCopies = 7;
constexpr int kLastLevel = 3;
constexpr std::size_t kMostBoards = 12;

std::int64_t low(const BoardArea& area, Axis axis) {
  return axis == Axis::kX ? area.x : area.y;
}
std::int64_t extent(const BoardArea& area, Axis axis) {
  return axis == Axis::kX ? area.length : area.width;
}
std::int64_t high(const BoardArea& area, Axis axis) {
  return low(area, axis) + extent(area, axis);
}

BoardArea between(BoardArea area, Axis axis, std::int64_t from, std::int64_t to) {
  (axis == Axis::kX ? area.x : area.y) = from;
  (axis == Axis::kX ? area.length : area.width) = to - from;
  return area;
}

Axis other(Axis axis) {
  return axis == Axis::kX ? Axis::kY : Axis::kX;
}

BoardNode node_at(const BoardArea& at, BoardRole role) {
  BoardNode node;
  node.x = at.x;
  node.y = at.y;
  node.length = at.length;
  node.width = at.width;
  node.role = role;
  return node;
}

void add_waste(const BoardArea& at, Axis axis, BoardNode& into) {
  if (extent(at, axis) > 0) {
    into.children.push_back(node_at(at, BoardRole::kWaste));
  }
}

void sort_out(std::vector<std::int64_t>& places) {
  std::ranges::sort(places);
  const auto repeated = std::ranges::unique(places);
  places.erase(repeated.begin(), repeated.end());
}

BoardNode part_node(const BlockPart& part, const BoardArea& at, int way) {
  BoardNode node = node_at(at, BoardRole::kPart);
  node.part = part.part;
  const Ways own = ways_of(part.quality);
  node.face = own.first == own.last ? BoardFace::kBoth : face_of(way);
  return node;
}

/// A part in its cell of a run: what it is narrower or shorter is sawn off.
BoardNode run_cell(
    const BlockPart& part, const BoardArea& cell, Axis trim, int way, std::int64_t kerf) {
  const BoardArea at{cell.x, cell.y, part.at.length, part.at.width};
  BoardNode node = part_node(part, at, way);
  if (extent(at, trim) == extent(cell, trim)) {
    return node;
  }
  BoardNode trimmed = node_at(cell, BoardRole::kCut);
  trimmed.along = trim;
  trimmed.children.push_back(std::move(node));
  add_waste(between(cell, trim, high(at, trim) + kerf, high(cell, trim)), trim, trimmed);
  return trimmed;
}

}  // namespace

BoardNode block_node(const BoardProblem& problem, int index, const BoardArea& at, int way) {
  const Block& block = problem.blocks[static_cast<std::size_t>(index)];
  if (block.is_panel()) {
    BoardNode node = node_at(at, BoardRole::kStrip);
    node.panel = block.panel;
    node.copy = block.copy;
    node.face = face_of(way);
    return node;
  }
  if (block.run < 0) {
    return part_node(block.parts.front(), at, way);
  }
  const BoardRun& run = problem.job->runs[static_cast<std::size_t>(block.run)];
  BoardNode node = node_at(at, BoardRole::kCut);
  node.along = run.along;
  node.run = block.run;
  for (const BlockPart& part : block.parts) {
    const std::int64_t from = low(at, run.along) + low(part.at, run.along);
    const BoardArea cell = between(at, run.along, from, from + extent(part.at, run.along));
    node.children.push_back(run_cell(part, cell, other(run.along), way, problem.job->kerf));
  }
  return node;
}

BoardExact::BoardExact(const BoardProblem& problem) : problem_{&problem} {
  for (std::size_t b = 0; b < problem.blocks.size(); ++b) {
    for (std::int64_t i = 0; i < problem.blocks[b].demand; ++i) {
      copies_.push_back(static_cast<int>(b));
    }
  }
  holds_.assign(problem.shapes.size(),
                std::vector<signed char>(std::size_t{1} << copies_.size(), -1));
}

bool BoardExact::is_small(const BoardProblem& problem) {
  std::int64_t copies = 0;
  for (const Block& block : problem.blocks) {
    if (block.is_panel() || block.lot_group >= 0 || block.demand > kMostCopies) {
      return false;
    }
    copies += block.demand;
  }
  return copies <= kMostCopies && problem.shapes.size() <= kMostBoards;
}

const Block& BoardExact::block(int copy) const {
  return problem_->blocks[static_cast<std::size_t>(copies_[static_cast<std::size_t>(copy)])];
}

/// Where something may start along the axis: at the low end, or behind a fault.
std::vector<std::int64_t> BoardExact::starts(const BoardArea& rest, Set set, Axis axis) const {
  std::vector<std::int64_t> places = {low(rest, axis)};
  for (const BoardArea& fault : problem_->shapes[static_cast<std::size_t>(board_)].faults[3]) {
    if (!fault.overlaps(rest)) {
      continue;
    }
    places.push_back(high(fault, axis));
    for (int i = 0; i < static_cast<int>(copies_.size()); ++i) {
      for (const BlockPart& part : block(i).parts) {  // inside a run a later part may rest on it
        if ((set >> i & 1U) != 0 && low(part.at, axis) > 0) {
          places.push_back(high(fault, axis) - low(part.at, axis));
        }
      }
    }
  }
  std::erase_if(places, [&](std::int64_t place) {
    return place < low(rest, axis) || place >= high(rest, axis);
  });
  sort_out(places);
  return places;
}

/// Where a first child that holds `set` may end: a sum of its sizes behind a start.
std::vector<std::int64_t> BoardExact::ends(const BoardArea& rest,
                                           Set set,
                                           Axis axis,
                                           std::int64_t from) const {
  std::vector<std::int64_t> places;
  for (const std::int64_t start : starts(rest, set, axis)) {
    for (Set some = set; start >= from && some != 0; some = (some - 1) & set) {
      std::int64_t sum = -problem_->job->kerf;
      for (int i = 0; i < static_cast<int>(copies_.size()); ++i) {
        const std::int64_t size = axis == Axis::kX ? block(i).length : block(i).width;
        sum += (some >> i & 1U) != 0 ? size + problem_->job->kerf : 0;
      }
      if (start + sum <= high(rest, axis)) {
        places.push_back(start + sum);
      }
    }
  }
  sort_out(places);
  return places;
}

BoardExact::Cut BoardExact::find_single(const BoardArea& rest,
                                        Set set,
                                        Axis axis,
                                        int level) const {
  const int copy = std::countr_zero(set);
  const Block& wanted = block(copy);
  const bool exact_x = wanted.length == rest.length;
  const bool exact_y = wanted.width == rest.width;
  const bool exact_other = axis == Axis::kX ? exact_y : exact_x;
  if ((level > kLastLevel + 1 && !(exact_x && exact_y)) ||
      (level == kLastLevel + 1 && !exact_other)) {
    return {};
  }
  const Ways ways = ways_of(wanted.quality);
  for (int way = ways.first; way <= ways.last; ++way) {
    for (const std::int64_t y : starts(rest, set, Axis::kY)) {
      for (const std::int64_t x : starts(rest, set, Axis::kX)) {
        if (x + wanted.length <= rest.end_x() && y + wanted.width <= rest.end_y() &&
            problem_->clear(board_, wanted, x, y, way)) {
          return {true, set, {x, y, wanted.length, wanted.width}, way};
        }
      }
    }
  }
  return {};
}

BoardExact::Cut BoardExact::find_cut(const BoardArea& rest, Set set, Axis axis, int level) {
  if (std::has_single_bit(set)) {
    return find_single(rest, set, axis, level);
  }
  if (level > kLastLevel) {
    return {};
  }
  for (const std::int64_t from : starts(rest, set, axis)) {
    for (Set first = set; first != 0; first = (first - 1) & set) {
      for (const std::int64_t to : ends(rest, first, axis, from)) {
        const BoardArea child = between(rest, axis, from, to);
        const BoardArea behind = between(rest, axis, to + problem_->job->kerf, high(rest, axis));
        const Set others = set ^ first;
        if (others != 0 && extent(behind, axis) <= 0) {
          continue;
        }
        if (cut(child, first, other(axis), level + 1).possible &&
            (others == 0 || cut(behind, others, axis, level).possible)) {
          return {true, first, child, 0};
        }
      }
    }
  }
  return {};
}

const BoardExact::Cut& BoardExact::cut(const BoardArea& rest, Set set, Axis axis, int level) {
  const int turn = level * 2 + (axis == Axis::kX ? 0 : 1);
  const Key key{rest.x, rest.y, rest.length, rest.width, set, turn};
  static const Cut kNone{};
  work_ += 200;
  if (work_ > most_work_) {
    return kNone;
  }
  if (const auto found = known_.find(key); found != known_.end()) {
    return found->second;
  }
  const Cut found = find_cut(rest, set, axis, level);
  work_ += 500 * std::popcount(set);
  return known_.emplace(key, found).first->second;
}

bool BoardExact::holds(int board, Set set) {
  signed char& known = holds_[static_cast<std::size_t>(board)][set];
  if (known >= 0) {
    return known == 1;
  }
  known = 0;
  for (int i = 0; i < static_cast<int>(copies_.size()); ++i) {
    const Set fewer = set & ~(Set{1} << i);
    if (fewer != set && fewer != 0 && !holds(board, fewer)) {
      return false;
    }
  }
  if (board != board_) {
    board_ = board;
    known_.clear();
  }
  known = root(board, set).role != BoardRole::kWaste ? 1 : 0;
  return known == 1;
}

/// The whole board with `set` sawn from it; waste when it cannot be.
BoardNode BoardExact::root(int board, Set set) {
  if (board != board_) {
    board_ = board;
    known_.clear();
  }
  const BoardArea usable = problem_->shapes[static_cast<std::size_t>(board)].usable;
  const SawOrder order = problem_->job->order;
  for (const Axis axis : {Axis::kX, Axis::kY}) {
    const bool in_order =
        order == SawOrder::kEither || axis == (order == SawOrder::kRipFirst ? Axis::kY : Axis::kX);
    const int level = in_order ? 1 : 2;
    if (cut(usable, set, axis, level).possible) {
      return cell(usable, set, axis, level);
    }
  }
  return node_at(usable, BoardRole::kWaste);
}

BoardNode BoardExact::cell(const BoardArea& rest, Set set, Axis axis, int level) {
  const Cut found = cut(rest, set, axis, level);
  if (std::has_single_bit(set) && found.at.length == rest.length && found.at.width == rest.width) {
    return block_node(
        *problem_, copies_[static_cast<std::size_t>(std::countr_zero(set))], rest, found.way);
  }
  BoardNode node = node_at(rest, BoardRole::kCut);
  node.along = axis;
  add_children(rest, set, axis, level, node);
  if (node.children.size() == 1 && node.children.front().length == rest.length &&
      node.children.front().width == rest.width) {
    BoardNode only = std::move(node.children.front());
    return only;
  }
  return node;
}

void BoardExact::add_children(
    const BoardArea& rest, Set set, Axis axis, int level, BoardNode& into) {
  const Cut found = cut(rest, set, axis, level);
  if (!found.possible) {
    return;  // the work ran out; the caller throws the layout away
  }
  const std::int64_t kerf = problem_->job->kerf;
  const std::int64_t from = low(found.at, axis);
  const std::int64_t to = high(found.at, axis);
  add_waste(between(rest, axis, low(rest, axis), from - kerf), axis, into);
  into.children.push_back(cell(between(rest, axis, from, to), found.first, other(axis), level + 1));
  const BoardArea behind = between(rest, axis, to + kerf, high(rest, axis));
  if ((set ^ found.first) != 0) {
    add_children(behind, set ^ found.first, axis, level, into);
  } else {
    add_waste(behind, axis, into);
  }
}

/// For each set of copies the cheapest boards that hold it.
std::vector<BoardExact::Shelf> BoardExact::fill_boards(const std::stop_token& stop) {
  const Set all = (Set{1} << copies_.size()) - 1;
  std::vector<Shelf> shelves(std::size_t{all} + 1);
  shelves[0].cost = 0;
  for (std::size_t b = 0; b < problem_->shapes.size(); ++b) {
    const RoughBoard& board = problem_->job->boards[b];
    const auto copies = static_cast<std::int64_t>(copies_.size());
    const std::int64_t times = std::min(copies, board.available.value_or(copies));
    for (std::int64_t i = 0; i < times; ++i) {
      const std::vector<Shelf> before = shelves;
      for (Set set = 1; set <= all && set != 0; ++set) {
        for (Set more = set; more != 0; more = (more - 1) & set) {
          const Shelf& less = before[set ^ more];
          if (less.cost < 0 ||
              (shelves[set].cost >= 0 && shelves[set].cost <= less.cost + board.price)) {
            continue;
          }
          if (holds(static_cast<int>(b), more)) {
            shelves[set] = less;
            shelves[set].cost = less.cost + board.price;
            shelves[set].boards.emplace_back(static_cast<int>(b), more);
          }
        }
        if (work_ > most_work_ || stop.stop_requested()) {
          return {};
        }
      }
    }
  }
  return shelves;
}

std::optional<ExactBoards> BoardExact::solve(std::int64_t work, const std::stop_token& stop) {
  most_work_ = work_ + work;
  const std::vector<Shelf> shelves = fill_boards(stop);
  if (shelves.empty()) {
    return std::nullopt;
  }
  const bool least = problem_->job->goal == BoardGoal::kLeastMoney;
  ExactBoards best;
  const Shelf* chosen = nullptr;
  for (std::size_t set = 0; set < shelves.size(); ++set) {
    const Shelf& shelf = shelves[set];
    if (shelf.cost < 0 || (least && set + 1 != shelves.size())) {
      continue;
    }
    std::int64_t value = 0;
    for (int i = 0; i < static_cast<int>(copies_.size()); ++i) {
      value += (set >> i & 1U) != 0 ? block(i).worth : 0;
    }
    if (chosen == nullptr || value > best.value ||
        (value == best.value && shelf.cost < best.cost)) {
      chosen = &shelf;
      best.possible = true;
      best.cost = shelf.cost;
      best.value = value;
      best.held = static_cast<Set>(set);
    }
  }
  if (chosen != nullptr) {
    for (const auto& [board, set] : chosen->boards) {
      best.layouts.push_back({board, root(board, set)});
    }
  }
  if (work_ > most_work_) {
    return std::nullopt;
  }
  return best;
}

}  // namespace plankwright::solve
