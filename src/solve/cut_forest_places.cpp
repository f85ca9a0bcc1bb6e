// Where a left-out piece could lie, what each place would spoil, and putting it there. The places
// are the waste rectangles of the inner nodes, in two flat arrays that one scan runs over.

#include <algorithm>
#include <cmath>

#include "solve/cut_forest.h"

namespace plankwright::solve {

bool CutForest::allows(const Node& node, int deeper) const {
  return problem_->max_stages == 0 || node.level + deeper <= problem_->max_stages ||
         (problem_->trimming_cut_free && node.level + deeper == problem_->max_stages + 1);
}

// The cost of a place is the squared waste it spoils. Cutting along the node's axis first leaves
// (A - a) x C and a x (C - c); across first leaves A x (C - c) and (A - a) x c.
void CutForest::weigh_axis(
    int id, bool along_x, Extent piece, bool turned, FirstCut first, Place& best) const {
  const Node& node = nodes_[at(id)];
  const Extent whole = along_x ? Extent{place_width_[at(id)], place_height_[at(id)]}
                               : Extent{place_height_[at(id)], place_width_[at(id)]};
  const auto square = [&](std::int32_t a, std::int32_t b) {
    const double share = static_cast<double>(a) * b * inverse_area_;
    return share * share;
  };
  const std::int32_t rest_along = whole.along - piece.along;
  const std::int32_t rest_across = whole.across - piece.across;
  const double before = square(whole.along, whole.across);
  if (first != FirstCut::kAcross && (rest_across == 0 || allows(node, 1))) {
    const double cost =
        before - square(rest_along, whole.across) - square(piece.along, rest_across);
    if (cost < best.cost) {
      best = {cost, id, turned, false, along_x};
    }
  }
  const int deeper = rest_along == 0 ? 1 : 2;
  if (first != FirstCut::kAlong && rest_across > 0 && allows(node, deeper)) {
    const double cost =
        before - square(whole.along, rest_across) - square(rest_along, piece.across);
    if (cost < best.cost) {
      best = {cost, id, turned, true, along_x};
    }
  }
}

void CutForest::weigh(
    int id, std::int32_t width, std::int32_t height, bool turned, Place& best) const {
  const Node& node = nodes_[at(id)];
  const bool along_x = node.along_x != 0;
  const Extent piece = along_x ? Extent{width, height} : Extent{height, width};
  if (node.first >= 0 || node.parent >= 0) {
    weigh_axis(id, along_x, piece, turned, FirstCut::kEither, best);
  } else if (problem_->first_cut) {
    weigh_axis(id, along_x, piece, turned, first_cut_, best);
  } else {
    if (first_cut_ != FirstCut::kAcross) {
      weigh_axis(id, true, {width, height}, turned, FirstCut::kAlong, best);
    }
    if (first_cut_ != FirstCut::kAlong) {
      weigh_axis(id, false, {height, width}, turned, FirstCut::kAlong, best);
    }
  }
}

void CutForest::draw_blink(Random& random) {
  if (blink_ <= 0) {
    until_blink_ = 1 << 30;
    return;
  }
  const double draw = std::log(1 - random.fraction()) / std::log(1 - blink_);
  until_blink_ = 1 + static_cast<int>(std::min(draw, 1e8));
}

void CutForest::try_places(
    std::int32_t width, std::int32_t height, bool turned, Random& random, Place& best) {
  candidates_.resize(at(high_));
  std::int32_t* found = candidates_.data();
  for (std::int32_t id = 0; id < high_; ++id) {
    *found = id;
    found += static_cast<int>(place_width_[at(id)] >= width) &
             static_cast<int>(place_height_[at(id)] >= height);
  }
  const auto count = static_cast<int>(found - candidates_.data());
  work_ += high_ + 6L * count;
  for (int i = 0; i < count; ++i) {
    if (--until_blink_ <= 0) {
      draw_blink(random);
      continue;
    }
    weigh(candidates_[at(i)], width, height, turned, best);
  }
}

bool CutForest::insert_best(int copy, Random& random) {
  const PackType& type = problem_->types[at(type_of(copy))];
  Place best{1e300, -1, false, false, true};
  first_cut_ = problem_->first_cut ? FirstCut::kAlong : FirstCut::kEither;
  if (blink_ > 0 && (problem_->max_stages > 0 || problem_->first_cut)) {
    first_cut_ = static_cast<FirstCut>(random.below(3));
  }
  try_places(type.width, type.height, false, random, best);
  if (type.may_turn) {
    try_places(type.height, type.width, true, random, best);
  }
  if (best.node < 0) {
    return false;
  }
  put(copy, best);
  return true;
}

// A new child of `parent` that takes `along` of its waste and holds all of its across.
int CutForest::add_inner(int parent, std::int32_t along, bool closed) {
  const int id = allocate();
  const Node& up = nodes_[at(parent)];
  Node& node = nodes_[at(id)];
  node.along_x = up.along_x ? 0 : 1;
  node.width = up.along_x ? along : up.width;
  node.height = up.along_x ? up.height : along;
  node.free = node.along_x ? node.width : node.height;
  node.level = static_cast<std::uint8_t>(std::min(250, up.level + 1));
  node.closed = closed ? 1 : 0;
  link(id, parent);
  return id;
}

void CutForest::put_leaf(int copy, int parent, bool turned) {
  const PackType& type = problem_->types[at(type_of(copy))];
  const int leaf = inner_ + copy;
  touch(leaf);
  nodes_[at(leaf)] = Node{};
  nodes_[at(leaf)].width = turned ? type.height : type.width;
  nodes_[at(leaf)].height = turned ? type.width : type.height;
  nodes_[at(leaf)].closed = turned ? 1 : 0;
  link(leaf, parent);
  take_in(copy);
}

void CutForest::put(int copy, const Place& place) {
  work_ += 60;
  int parent = place.node;
  if (nodes_[at(parent)].first < 0) {
    touch(parent);
    Node& root = nodes_[at(parent)];
    root.along_x = place.along_x ? 1 : 0;
    root.free = place.along_x ? root.width : root.height;
  }
  const PackType& type = problem_->types[at(type_of(copy))];
  const bool along_x = nodes_[at(parent)].along_x != 0;
  const std::int32_t width = place.turned ? type.height : type.width;
  const std::int32_t height = place.turned ? type.width : type.height;
  const Extent piece = along_x ? Extent{width, height} : Extent{height, width};
  const auto too_deep = [&](int id) {
    return problem_->max_stages > 0 && nodes_[at(id)].level + 1 > problem_->max_stages;
  };
  if (place.cross_first) {
    parent = add_inner(parent, nodes_[at(parent)].free, too_deep(parent));
    if (extent(nodes_[at(parent)], along_x).along > piece.along) {
      parent = add_inner(parent, piece.across, too_deep(parent));
    }
  } else if (extent(nodes_[at(parent)], along_x).across > piece.across) {
    parent = add_inner(parent, piece.along, too_deep(parent));
  }
  put_leaf(copy, parent, place.turned);
}

}  // namespace plankwright::solve
