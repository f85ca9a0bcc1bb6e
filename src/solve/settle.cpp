// A pattern traced from a table says only what is beside what. From the parts upwards it is told
// how much room each rectangle needs, from the sheet downwards where the cuts go, so that
// directions alternate and every node spans its parent across.

#include <algorithm>

#include "solve/guillotine_table.h"

namespace plankwright::solve {
namespace {

class Settler {
 public:
  Settler(const PackProblem& problem, std::vector<std::int64_t>* left)
      : problem_{problem}, left_{left} {}

  PackNode run(int kind, const PackNode& loose) {
    const PackKind& sheet = problem_.kinds[static_cast<std::size_t>(kind)];
    PackNode whole = loose;
    drop_empty(whole);
    while (has_parts(whole)) {
      measure(whole);
      if (whole.width <= sheet.width && whole.height <= sheet.height) {
        break;
      }
      drop_smallest(whole);
    }
    return lay_root(sheet, whole);
  }

 private:
  static bool has_parts(const PackNode& node) { return node.type >= 0 || !node.children.empty(); }

  // Takes out waste, parts beyond what is left, and cuts with one child.
  void drop_empty(PackNode& node) {
    if (node.type >= 0 && left_ != nullptr) {
      std::int64_t& left = (*left_)[static_cast<std::size_t>(node.type)];
      if (left == 0) {
        node.type = -1;
      } else {
        --left;
      }
    }
    for (PackNode& child : node.children) {
      drop_empty(child);
    }
    tidy(node);
  }

  static void tidy(PackNode& node) {
    std::erase_if(node.children, [](const PackNode& child) { return !has_parts(child); });
    if (node.children.size() == 1) {
      PackNode only = std::move(node.children.front());
      node = std::move(only);
    }
  }

  void measure(PackNode& node) const {
    if (node.type >= 0) {
      const PackType& type = problem_.types[static_cast<std::size_t>(node.type)];
      node.width = node.turned ? type.height : type.width;
      node.height = node.turned ? type.width : type.height;
      return;
    }
    node.width = node.height = 0;
    for (PackNode& child : node.children) {
      measure(child);
      if (node.along == Axis::kX) {
        node.width += child.width;
        node.height = std::max(node.height, child.height);
      } else {
        node.height += child.height;
        node.width = std::max(node.width, child.width);
      }
    }
  }

  void drop_smallest(PackNode& whole) {
    PackNode* smallest = nullptr;
    const auto look = [&](const auto& self, PackNode& node) -> void {
      if (node.type >= 0 && (smallest == nullptr ||
                             static_cast<std::int64_t>(node.width) * node.height <
                                 static_cast<std::int64_t>(smallest->width) * smallest->height)) {
        smallest = &node;
      }
      for (PackNode& child : node.children) {
        self(self, child);
      }
    };
    look(look, whole);
    if (left_ != nullptr) {
      (*left_)[static_cast<std::size_t>(smallest->type)] += 1;
    }
    smallest->type = -1;
    tidy_all(whole);
  }

  static void tidy_all(PackNode& node) {
    for (PackNode& child : node.children) {
      tidy_all(child);
    }
    tidy(node);
  }

  static bool along_x(Axis axis) { return axis == Axis::kX; }
  static Axis other(Axis axis) { return axis == Axis::kX ? Axis::kY : Axis::kX; }
  static std::int32_t extent(const PackNode& node, Axis axis) {
    return along_x(axis) ? node.width : node.height;
  }

  PackNode lay_root(const PackKind& sheet, const PackNode& whole) const {
    PackNode root;
    root.width = sheet.width;
    root.height = sheet.height;
    if (!has_parts(whole)) {
      return root;
    }
    Axis axis = whole.type >= 0 ? Axis::kX : whole.along;
    if (problem_.first_cut) {
      axis = *problem_.first_cut;
    }
    return lay(whole, axis, sheet.width, sheet.height);
  }

  // A node parted along `axis`, of the given size, that holds the piece.
  PackNode lay(const PackNode& piece, Axis axis, std::int32_t width, std::int32_t height) const {
    PackNode node;
    node.width = width;
    node.height = height;
    node.along = axis;
    const std::int32_t across = along_x(axis) ? height : width;
    add_child(node, piece, axis, across);
    return node;
  }

  // Puts a piece into a node parted along `axis`. Pieces of a piece parted along the same axis
  // become children of the node itself.
  void add_child(PackNode& node, const PackNode& piece, Axis axis, std::int32_t across) const {
    if (piece.type < 0 && piece.along == axis) {
      for (const PackNode& part : piece.children) {
        add_child(node, part, axis, across);
      }
      return;
    }
    if (piece.type >= 0 && extent(piece, other(axis)) == across) {
      node.children.push_back(piece);
      return;
    }
    const std::int32_t size = extent(piece, axis);
    node.children.push_back(
        lay(piece, other(axis), along_x(axis) ? size : across, along_x(axis) ? across : size));
  }

  const PackProblem& problem_;
  std::vector<std::int64_t>* left_;
};

}  // namespace

PackNode settle(const PackProblem& problem,
                int kind,
                const PackNode& loose,
                std::vector<std::int64_t>* left) {
  return Settler{problem, left}.run(kind, loose);
}

}  // namespace plankwright::solve
