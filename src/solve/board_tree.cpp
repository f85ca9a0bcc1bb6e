#include "solve/board_tree.h"

#include <algorithm>
#include <cassert>

namespace plankwright::solve {
namespace {

constexpr int kLastLevel = 3;

std::size_t at(int index) {
  return static_cast<std::size_t>(index);
}

std::int64_t low(const BoardArea& area, Axis axis) {
  return axis == Axis::kX ? area.x : area.y;
}

std::int64_t high(const BoardArea& area, Axis axis) {
  return axis == Axis::kX ? area.end_x() : area.end_y();
}

/// `area` from `from` to `to` along the axis, as it is across.
BoardArea between(BoardArea area, Axis axis, std::int64_t from, std::int64_t to) {
  if (axis == Axis::kX) {
    area.x = from;
    area.length = to - from;
  } else {
    area.y = from;
    area.width = to - from;
  }
  return area;
}

double squared(std::int64_t length, std::int64_t width) {
  const double area = static_cast<double>(std::max<std::int64_t>(0, length)) *
                      static_cast<double>(std::max<std::int64_t>(0, width));
  return area * area;
}

/// Squared areas of what is left of `rest` around `part` when the cuts across x come first.
double left_over(const BoardArea& rest, const BoardArea& part, std::int64_t kerf, bool x_first) {
  const std::int64_t before_x = part.x - rest.x - kerf;
  const std::int64_t behind_x = rest.end_x() - part.end_x() - kerf;
  const std::int64_t before_y = part.y - rest.y - kerf;
  const std::int64_t behind_y = rest.end_y() - part.end_y() - kerf;
  return x_first ? squared(before_x, rest.width) + squared(behind_x, rest.width) +
                       squared(part.length, before_y) + squared(part.length, behind_y)
                 : squared(rest.length, before_y) + squared(rest.length, behind_y) +
                       squared(before_x, part.width) + squared(behind_x, part.width);
}

}  // namespace

BoardTree::BoardTree(const BoardProblem& problem, int board) : problem_{&problem}, board_{board} {
  nodes_.push_back({.at = problem.shapes[at(board)].usable});
}

int BoardTree::fresh() {
  if (free_.empty()) {
    nodes_.emplace_back();
    return static_cast<int>(nodes_.size()) - 1;
  }
  const int node = free_.back();
  free_.pop_back();
  nodes_[at(node)] = Node{};
  return node;
}

void BoardTree::release(int node) {
  nodes_[at(node)] = Node{};
  nodes_[at(node)].at = {};
  free_.push_back(node);
}

int BoardTree::level_of_cut(int node, Axis axis) const {
  const int parent = nodes_[at(node)].parent;
  if (parent >= 0) {
    return nodes_[at(parent)].level + (nodes_[at(parent)].along == axis ? 0 : 1);
  }
  const SawOrder order = problem_->job->order;
  const Axis first = order == SawOrder::kRipFirst ? Axis::kY : Axis::kX;
  return order == SawOrder::kEither || axis == first ? 1 : 2;
}

bool BoardTree::stages_allow(int leaf, bool cut_x, bool cut_y, bool crosscut_first) const {
  const int parent = nodes_[at(leaf)].parent;
  int level = parent >= 0 ? nodes_[at(parent)].level : 0;
  if (level > kLastLevel) {
    return false;  // beside a part that has just been freed
  }
  const Axis order[2] = {crosscut_first ? Axis::kX : Axis::kY,
                         crosscut_first ? Axis::kY : Axis::kX};
  bool first = true;
  for (const Axis axis : order) {
    if (axis == Axis::kX ? !cut_x : !cut_y) {
      continue;
    }
    level = first ? level_of_cut(leaf, axis) : level + 1;
    first = false;
  }
  return level <= kLastLevel + 1;
}

void BoardTree::try_spot(int leaf,
                         const BoardArea& area,
                         int way,
                         std::optional<BoardSpot>& best) const {
  const BoardArea& rest = nodes_[at(leaf)].at;
  const double whole = squared(rest.length, rest.width);
  for (const bool x_first : {true, false}) {
    if (!stages_allow(leaf, area.length < rest.length, area.width < rest.width, x_first)) {
      continue;
    }
    const double spoiled = whole - left_over(rest, area, problem_->job->kerf, x_first);
    if (!best || spoiled < best->spoiled) {
      best = BoardSpot{leaf, area, way, x_first, spoiled};
    }
  }
}

/// Clear stretches of a band; a part goes to either end of each.
void BoardTree::look_along(int leaf,
                           const BoardArea& band,
                           std::int64_t length,
                           int way,
                           std::optional<BoardSpot>& best) const {
  std::int64_t from = band.x;
  const auto stretch = [&](std::int64_t to) {
    if (to - from >= length) {
      try_spot(leaf, {from, band.y, length, band.width}, way, best);
      if (to - from > length) {
        try_spot(leaf, {to - length, band.y, length, band.width}, way, best);
      }
    }
  };
  for (const BoardArea& fault : problem_->shapes[at(board_)].faults[way]) {
    if (fault.x >= band.end_x()) {
      break;
    }
    if (fault.y < band.end_y() && band.y < fault.end_y() && fault.end_x() > from) {
      stretch(fault.x);
      from = fault.end_x();
    }
  }
  stretch(band.end_x());
}

void BoardTree::look_for_run(int leaf,
                             const Block& block,
                             int way,
                             std::optional<BoardSpot>& best) const {
  const BoardArea& rest = nodes_[at(leaf)].at;
  std::vector<std::int64_t> xs = {rest.x, rest.end_x() - block.length};
  std::vector<std::int64_t> ys = {rest.y, rest.end_y() - block.width};
  for (const BoardArea& fault : problem_->shapes[at(board_)].faults[3]) {
    if (!fault.overlaps(rest)) {
      continue;
    }
    for (const BlockPart& part : block.parts) {
      xs.push_back(fault.end_x() - part.at.x);
      xs.push_back(fault.x - part.at.end_x());
      ys.push_back(fault.end_y() - part.at.y);
      ys.push_back(fault.y - part.at.end_y());
    }
  }
  for (std::vector<std::int64_t>* places : {&xs, &ys}) {
    std::ranges::sort(*places);
    const auto repeated = std::ranges::unique(*places);
    places->erase(repeated.begin(), repeated.end());
  }
  for (const std::int64_t y : ys) {
    for (const std::int64_t x : xs) {
      if (x >= rest.x && y >= rest.y && x + block.length <= rest.end_x() &&
          y + block.width <= rest.end_y() && problem_->clear(board_, block, x, y, way)) {
        try_spot(leaf, {x, y, block.length, block.width}, way, best);
      }
    }
  }
}

void BoardTree::look_in(int leaf,
                        const Block& block,
                        std::int64_t width,
                        std::int64_t& work,
                        std::optional<BoardSpot>& best) const {
  const BoardArea& rest = nodes_[at(leaf)].at;
  const Ways ways = ways_of(block.quality);
  for (int way = ways.first; way <= ways.last; ++way) {
    const auto& faults = problem_->shapes[at(board_)].faults[way];
    if (block.parts.size() > 1) {
      work += 400 + 40 * static_cast<std::int64_t>(faults.size() * block.parts.size());
      look_for_run(leaf, block, way, best);
      continue;
    }
    const std::int64_t last = rest.end_y() - width;
    const auto band = [&](std::int64_t y) {
      work += 30 + 4 * static_cast<std::int64_t>(faults.size());
      look_along(leaf, {rest.x, y, rest.length, width}, block.length, way, best);
    };
    band(rest.y);
    if (last > rest.y) {
      band(last);
    }
    for (const BoardArea& fault : faults) {
      if (fault.overlaps(rest)) {
        for (const std::int64_t y : {fault.end_y(), fault.y - width}) {
          if (y > rest.y && y < last) {
            band(y);
          }
        }
      }
    }
  }
}

std::optional<BoardSpot> BoardTree::find(const Block& block,
                                         std::int64_t width,
                                         std::int64_t& work) const {
  std::optional<BoardSpot> best;
  for (std::size_t i = 0; i < nodes_.size(); ++i) {
    const Node& node = nodes_[i];
    if (node.role == BoardRole::kWaste && node.at.length >= block.length &&
        node.at.width >= width) {
      look_in(static_cast<int>(i), block, width, work, best);
    }
  }
  work += 4 + static_cast<std::int64_t>(nodes_.size());
  return best;
}

std::vector<std::int64_t> BoardTree::strip_widths(const Block& block, std::int64_t widest) const {
  const std::int64_t narrowest = block.parts.front().at.width;
  std::vector<std::int64_t> widths = {widest};
  const auto add = [&](std::int64_t width) {
    if (width >= narrowest && width < widest) {
      widths.push_back(width);
    }
  };
  for (const Node& node : nodes_) {
    if (node.role != BoardRole::kWaste || node.at.length < block.length ||
        node.at.width < narrowest) {
      continue;
    }
    add(node.at.width);
    for (const BoardArea& fault : problem_->shapes[at(board_)].faults[3]) {
      if (fault.overlaps(node.at)) {
        add(fault.y - node.at.y);
        add(node.at.end_y() - fault.end_y());
      }
    }
  }
  add(narrowest);
  std::ranges::sort(widths, std::ranges::greater{});
  const auto repeated = std::ranges::unique(widths);
  widths.erase(repeated.begin(), repeated.end());
  return widths;
}

int BoardTree::part_off(int node, Axis axis, std::int64_t from, std::int64_t to) {
  const int parent = nodes_[at(node)].parent;
  const BoardArea piece = between(nodes_[at(node)].at, axis, from, to);
  if (parent >= 0 && nodes_[at(parent)].along == axis) {
    nodes_[at(node)].at = piece;
    nodes_[at(node)].role = BoardRole::kPart;  // kept; what it becomes is written in put()
    rebuild(parent);
    return node;
  }
  const int level = level_of_cut(node, axis);
  const int child = fresh();
  nodes_[at(child)].at = piece;
  nodes_[at(child)].role = BoardRole::kPart;
  nodes_[at(child)].parent = node;
  nodes_[at(node)].role = BoardRole::kCut;
  nodes_[at(node)].along = axis;
  nodes_[at(node)].level = level;
  nodes_[at(node)].first = child;
  rebuild(node);
  return child;
}

void BoardTree::put(const BoardSpot& spot, int block) {
  int node = spot.leaf;
  const BoardArea rest = nodes_[at(node)].at;
  const Axis order[2] = {spot.crosscut_first ? Axis::kX : Axis::kY,
                         spot.crosscut_first ? Axis::kY : Axis::kX};
  for (const Axis axis : order) {
    if (low(spot.at, axis) > low(rest, axis) || high(spot.at, axis) < high(rest, axis)) {
      node = part_off(node, axis, low(spot.at, axis), high(spot.at, axis));
    }
  }
  nodes_[at(node)].role = BoardRole::kPart;
  nodes_[at(node)].block = block;
  nodes_[at(node)].way = spot.way;
  held_ += 1;
  held_area_ += spot.at.length * spot.at.width;
}

/// Writes the waste between the children of a cut anew.
void BoardTree::rebuild(int node) {
  const std::int64_t kerf = problem_->job->kerf;
  const Axis axis = nodes_[at(node)].along;
  const BoardArea whole = nodes_[at(node)].at;
  int child = nodes_[at(node)].first;
  int last = -1;
  std::int64_t from = low(whole, axis);
  const auto link = [&](int added) {
    nodes_[at(added)].parent = node;
    (last < 0 ? nodes_[at(node)].first : nodes_[at(last)].next) = added;
    last = added;
  };
  const auto waste_to = [&](std::int64_t to) {
    if (to > from) {
      const int waste = fresh();
      nodes_[at(waste)].at = between(whole, axis, from, to);
      link(waste);
    }
  };
  while (child >= 0) {
    const int next = nodes_[at(child)].next;
    if (nodes_[at(child)].role == BoardRole::kWaste) {
      release(child);
    } else {
      waste_to(low(nodes_[at(child)].at, axis) - kerf);
      link(child);
      from = high(nodes_[at(child)].at, axis) + kerf;
    }
    child = next;
  }
  waste_to(high(whole, axis));
  (last < 0 ? nodes_[at(node)].first : nodes_[at(last)].next) = -1;
}

void BoardTree::remove(int node) {
  assert(nodes_[at(node)].block >= 0);
  held_ -= 1;
  held_area_ -= nodes_[at(node)].at.length * nodes_[at(node)].at.width;
  nodes_[at(node)].role = BoardRole::kWaste;
  nodes_[at(node)].block = -1;
  for (int parent = nodes_[at(node)].parent; parent >= 0; parent = nodes_[at(parent)].parent) {
    rebuild(parent);
    const int only = nodes_[at(parent)].first;
    if (only >= 0 && (nodes_[at(only)].role != BoardRole::kWaste || nodes_[at(only)].next >= 0)) {
      return;
    }
    if (only >= 0) {
      release(only);
    }
    nodes_[at(parent)].role = BoardRole::kWaste;
    nodes_[at(parent)].first = -1;
  }
}

std::vector<int> BoardTree::placed() const {
  std::vector<int> found;
  for (std::size_t i = 0; i < nodes_.size(); ++i) {
    if (nodes_[i].block >= 0) {
      found.push_back(static_cast<int>(i));
    }
  }
  return found;
}

}  // namespace plankwright::solve
