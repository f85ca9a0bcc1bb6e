// Places for a piece are the waste rectangles of the inner nodes, kept in two flat arrays that a
// scan runs over; every change of a node is written to a journal, so a rejected move costs what it
// changed and not the size of the forest.

#include "solve/cut_forest.h"

#include <algorithm>
#include <cassert>
#include <cmath>
#include <limits>

namespace plankwright::solve {

CutForest::CutForest(const PackProblem& problem, const std::vector<std::int64_t>& demand)
    : problem_{&problem} {
  for (std::size_t t = 0; t < problem.types.size(); ++t) {
    for (std::int64_t i = 0; i < demand[t]; ++i) {
      copy_type_.push_back(static_cast<int>(t));
    }
    value_.push_back(problem.types[t].value);
  }
  double largest = 1;
  for (const PackKind& kind : problem.kinds) {
    largest = std::max(largest, static_cast<double>(kind.width) * kind.height);
  }
  inverse_area_ = 1 / largest;
  const std::size_t copies = copy_type_.size();
  inner_ = static_cast<int>(4 * copies + 64);
  nodes_.resize(at(inner_) + copies);
  place_width_.resize(at(inner_));
  place_height_.resize(at(inner_));
  square_.resize(at(inner_));
  stamp_.assign(nodes_.size(), 0);
  left_place_.assign(copies, -1);
  for (int copy = 0; copy < static_cast<int>(copies); ++copy) {
    leave_out(copy);
  }
}

void CutForest::mark() {
  ++mark_;
  journal_.clear();
  marked_left_ = left_out_;
  marked_value_ = left_value_;
  marked_squares_ = waste_squares_;
}

void CutForest::undo() {
  for (auto it = journal_.rbegin(); it != journal_.rend(); ++it) {
    if (it->change == 1) {
      released_.push_back(it->id);
      place_width_[at(it->id)] = place_height_[at(it->id)] = 0;
      square_[at(it->id)] = 0;
    } else if (it->change == 2) {
      released_.pop_back();
    } else {
      nodes_[at(it->id)] = it->node;
      if (!is_leaf(it->id)) {
        refresh(it->id);
      }
    }
  }
  work_ += static_cast<std::int64_t>(journal_.size()) * 5;
  journal_.clear();
  ++mark_;
  for (const int copy : left_out_) {
    left_place_[at(copy)] = -1;
  }
  left_out_ = marked_left_;
  for (std::size_t i = 0; i < left_out_.size(); ++i) {
    left_place_[at(left_out_[i])] = static_cast<int>(i);
  }
  left_value_ = marked_value_;
  waste_squares_ = marked_squares_;
}

void CutForest::touch(int id) {
  if (stamp_[at(id)] != mark_) {
    stamp_[at(id)] = mark_;
    journal_.push_back({id, 0, nodes_[at(id)]});
  }
}

int CutForest::allocate() {
  if (released_.empty()) {
    assert(high_ < inner_);  // a piece needs two inner nodes at most
    released_.push_back(high_++);
  }
  const int id = released_.back();
  released_.pop_back();
  journal_.push_back({id, 1, {}});
  // What it held before is of no interest after undoing the allocation, but an earlier release
  // within the same move is undone after it and needs it.
  touch(id);
  nodes_[at(id)] = Node{};
  return id;
}

void CutForest::release(int id) {
  touch(id);
  waste_squares_ -= square_[at(id)];
  square_[at(id)] = 0;
  place_width_[at(id)] = place_height_[at(id)] = 0;
  released_.push_back(id);
  journal_.push_back({id, 2, {}});
}

// Brings the waste rectangle of an inner node up to date.
void CutForest::refresh(int id) {
  const Node& node = nodes_[at(id)];
  const std::int32_t width = node.along_x ? node.free : node.width;
  const std::int32_t height = node.along_x ? node.height : node.free;
  const double share = static_cast<double>(width) * height * inverse_area_;
  waste_squares_ += share * share - square_[at(id)];
  square_[at(id)] = share * share;
  const bool usable = node.free > 0 && !node.closed;
  place_width_[at(id)] = usable ? width : 0;
  place_height_[at(id)] = usable ? height : 0;
}

int CutForest::open_sheet(int kind) {
  int slot = static_cast<int>(sheets_.size());
  if (closed_slots_.empty()) {
    sheets_.emplace_back();
  } else {
    slot = closed_slots_.back();
    closed_slots_.pop_back();
  }
  const int root = allocate();
  Node& node = nodes_[at(root)];
  node.parent = -1 - slot;
  node.width = problem_->kinds[at(kind)].width;
  node.height = problem_->kinds[at(kind)].height;
  node.along_x = problem_->first_cut != Axis::kY;
  node.free = node.along_x ? node.width : node.height;
  refresh(root);
  sheets_[at(slot)] = {kind, root, static_cast<int>(open_.size())};
  open_.push_back(slot);
  mark();
  return slot;
}

void CutForest::close_sheet(int slot) {
  empty_sheet(slot);
  release(sheets_[at(slot)].root);
  const int place = sheets_[at(slot)].place;
  open_[at(place)] = open_.back();
  sheets_[at(open_[at(place)])].place = place;
  open_.pop_back();
  closed_slots_.push_back(slot);
  mark();
}

double CutForest::used_area(int slot) const {
  const auto area = [&](const auto& self, int id) -> double {
    const Node& node = nodes_[at(id)];
    if (is_leaf(id)) {
      return static_cast<double>(node.width) * node.height;
    }
    double sum = 0;
    for (int child = node.first; child >= 0; child = nodes_[at(child)].next) {
      sum += self(self, child);
    }
    return sum;
  };
  return area(area, sheets_[at(slot)].root);
}

void CutForest::link(int child, int parent) {
  touch(parent);
  touch(child);
  Node& up = nodes_[at(parent)];
  Node& down = nodes_[at(child)];
  down.parent = parent;
  down.previous = -1;
  down.next = up.first;
  if (up.first >= 0) {
    touch(up.first);
    nodes_[at(up.first)].previous = child;
  }
  up.first = child;
  up.children += 1;
  up.free -= up.along_x ? down.width : down.height;
  refresh(parent);
}

void CutForest::unlink(int child) {
  const Node& down = nodes_[at(child)];
  const int parent = down.parent;
  touch(parent);
  Node& up = nodes_[at(parent)];
  if (down.previous >= 0) {
    touch(down.previous);
    nodes_[at(down.previous)].next = down.next;
  } else {
    up.first = down.next;
  }
  if (down.next >= 0) {
    touch(down.next);
    nodes_[at(down.next)].previous = down.previous;
  }
  up.children -= 1;
  up.free += up.along_x ? down.width : down.height;
  refresh(parent);
}

// Takes a node out and with it every ancestor that is empty thereby.
void CutForest::remove(int id) {
  while (true) {
    const int parent = nodes_[at(id)].parent;
    unlink(id);
    drop_subtree(id);
    const Node& up = nodes_[at(parent)];
    if (up.first >= 0 || up.parent < 0) {
      return;
    }
    id = parent;
  }
}

void CutForest::drop_subtree(int id) {
  work_ += 15;
  if (is_leaf(id)) {
    touch(id);
    leave_out(id - inner_);
    return;
  }
  for (int child = nodes_[at(id)].first; child >= 0;) {
    const int next = nodes_[at(child)].next;
    drop_subtree(child);
    child = next;
  }
  release(id);
}

void CutForest::leave_out(int copy) {
  left_place_[at(copy)] = static_cast<int>(left_out_.size());
  left_out_.push_back(copy);
  left_value_ += value_[at(type_of(copy))];
}

void CutForest::take_in(int copy) {
  const int place = left_place_[at(copy)];
  left_out_[at(place)] = left_out_.back();
  left_place_[at(left_out_[at(place)])] = place;
  left_out_.pop_back();
  left_place_[at(copy)] = -1;
  left_value_ -= value_[at(type_of(copy))];
}

int CutForest::random_child(int id, Random& random) {
  int skip = random.below(nodes_[at(id)].children);
  id = nodes_[at(id)].first;
  while (skip-- > 0) {
    id = nodes_[at(id)].next;
    work_ += 2;
  }
  return id;
}

bool CutForest::shift_waste(int slot, Random& random) {
  int id = sheets_[at(slot)].root;
  for (int depth = 0; nodes_[at(id)].first >= 0; ++depth) {
    id = random_child(id, random);
    if (is_leaf(id)) {
      return false;
    }
    work_ += 20;
    if (random.below(2) == 0 && (tighten(id) || widen(id))) {
      return true;
    }
  }
  return false;
}

// Changes the extent of an inner node across its own axis, and that of its children with it, which
// must all be inner nodes; the waste of its parent makes up for it.
void CutForest::stretch(int id, std::int32_t by) {
  const bool along_x = nodes_[at(id)].along_x == 0;  // of the parent and of the children
  const auto grow = [&](int node) {
    touch(node);
    (along_x ? nodes_[at(node)].width : nodes_[at(node)].height) += by;
    work_ += 5;
  };
  grow(id);
  refresh(id);
  for (int child = nodes_[at(id)].first; child >= 0; child = nodes_[at(child)].next) {
    grow(child);
    nodes_[at(child)].free += by;
    refresh(child);
  }
  const int parent = nodes_[at(id)].parent;
  touch(parent);
  nodes_[at(parent)].free -= by;
  refresh(parent);
}

bool CutForest::tighten(int id) {
  std::int32_t slack = std::numeric_limits<std::int32_t>::max();
  for (int child = nodes_[at(id)].first; child >= 0; child = nodes_[at(child)].next) {
    slack = std::min(slack, is_leaf(child) ? 0 : nodes_[at(child)].free);
  }
  if (slack > 0) {
    stretch(id, -slack);
  }
  return slack > 0;
}

// Pieces that span the node get an inner node of their own, with room beside them.
bool CutForest::widen(int id) {
  const std::int32_t room = nodes_[at(nodes_[at(id)].parent)].free;
  if (room == 0 || nodes_[at(id)].closed != 0 || !allows(nodes_[at(id)], 1)) {
    return false;
  }
  const bool deepest = problem_->max_stages > 0 && nodes_[at(id)].level + 1 > problem_->max_stages;
  const bool along_x = nodes_[at(id)].along_x != 0;
  for (int child = nodes_[at(id)].first; child >= 0;) {
    const int next = nodes_[at(child)].next;
    if (is_leaf(child)) {
      touch(child);
      unlink(child);
      const std::int32_t size = along_x ? nodes_[at(child)].width : nodes_[at(child)].height;
      link(child, add_inner(id, size, deepest));
    }
    child = next;
  }
  stretch(id, room);
  return true;
}

bool CutForest::remove_random(int slot, Random& random) {
  int id = sheets_[at(slot)].root;
  if (nodes_[at(id)].first < 0) {
    return false;
  }
  do {
    id = random_child(id, random);
  } while (!is_leaf(id) && random.below(3) != 0);
  remove(id);
  work_ += 20;
  return true;
}

void CutForest::empty_sheet(int slot) {
  const int root = sheets_[at(slot)].root;
  while (nodes_[at(root)].first >= 0) {
    remove(nodes_[at(root)].first);
  }
}

void CutForest::set_value(int type, double value) {
  value_[at(type)] = value;
  left_value_ = 0;
  for (const int copy : left_out_) {
    left_value_ += value_[at(type_of(copy))];
  }
}

PackNode CutForest::pattern_of(int id) const {
  const Node& node = nodes_[at(id)];
  PackNode pattern;
  pattern.width = node.width;
  pattern.height = node.height;
  if (is_leaf(id)) {
    pattern.type = type_of(id - inner_);
    pattern.turned = node.closed != 0;
    return pattern;
  }
  pattern.along = node.along_x ? Axis::kX : Axis::kY;
  for (int child = node.first; child >= 0; child = nodes_[at(child)].next) {
    pattern.children.push_back(pattern_of(child));
  }
  // Equal pieces next to each other save settings, and the widest first is how it is sawn.
  const bool along_x = node.along_x != 0;
  std::ranges::stable_sort(pattern.children, [&](const PackNode& a, const PackNode& b) {
    return along_x ? a.width > b.width : a.height > b.height;
  });
  return pattern;
}

PackNode CutForest::pattern(int slot) const {
  return pattern_of(sheets_[at(slot)].root);
}

void CutForest::fill(int parent, const PackNode& pattern, std::vector<std::vector<int>>& at_hand) {
  for (const PackNode& child : pattern.children) {
    if (child.type >= 0) {
      auto& copies = at_hand[at(child.type)];
      if (!copies.empty()) {
        put_leaf(copies.back(), parent, child.turned);
        copies.pop_back();
      }
      continue;
    }
    const bool along_x = nodes_[at(parent)].along_x != 0;
    const bool deepest =
        problem_->max_stages > 0 && nodes_[at(parent)].level + 1 > problem_->max_stages;
    const int id = add_inner(parent, along_x ? child.width : child.height, deepest);
    fill(id, child, at_hand);
    if (nodes_[at(id)].first < 0) {
      unlink(id);
      release(id);
    }
  }
}

int CutForest::open_pattern(int kind, const PackNode& root) {
  const int slot = open_sheet(kind);
  std::vector<std::vector<int>> at_hand(problem_->types.size());
  for (const int copy : left_out_) {
    at_hand[at(type_of(copy))].push_back(copy);
  }
  const int id = sheets_[at(slot)].root;
  touch(id);
  Node& node = nodes_[at(id)];
  node.along_x = root.along == Axis::kX ? 1 : 0;
  node.free = node.along_x ? node.width : node.height;
  refresh(id);
  fill(id, root, at_hand);
  mark();
  return slot;
}

}  // namespace plankwright::solve
