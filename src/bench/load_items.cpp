#include <algorithm>
#include <map>

#include "bench/items.h"

namespace plankwright::bench {
namespace {

/// Single parts of one name travel as one bundle, and so do all doors, drawers and loose shelves.
class Bundles {
 public:
  explicit Bundles(const piece::Piece& piece) : piece_{piece}, travels_in_(piece.parts.size()) {
    for (const piece::Door& door : piece.doors) {
      mark(door.parts, "doors");
    }
    for (const piece::Drawer& drawer : piece.drawers) {
      mark(drawer.parts, "drawers");
    }
    for (const piece::Joint& joint : piece.joints) {
      if (joint.kind == piece::JointKind::kShelfPins) {
        mark({joint.a}, "loose shelves");
      }
    }
  }

  std::string name_of(const piece::Package& package) const {
    if (package.parts.empty()) {
      return package.name;
    }
    const auto moving = std::ranges::find_if(
        package.parts, [&](PartIndex part) { return !travels_in_[part].empty(); });
    if (moving != package.parts.end()) {
      return travels_in_[*moving];
    }
    return package.parts.size() == 1 ? piece_.parts[package.parts.front()].name : package.name;
  }

  /// Put back in their places, not fixed.
  static bool is_loose(const std::string& name) {
    return name == "doors" || name == "drawers" || name == "loose shelves";
  }

 private:
  void mark(const std::vector<PartIndex>& parts, const char* name) {
    for (const PartIndex part : parts) {
      travels_in_[part] = name;
    }
  }

  const piece::Piece& piece_;
  std::vector<std::string> travels_in_;
};

bool is_cabinet(const piece::Piece& piece, const piece::Package& package) {
  return std::ranges::any_of(package.parts,
                             [&](PartIndex part) { return piece.parts[part].kit == "carcase"; });
}

Item load_item(std::string kind, const piece::Package& package) {
  Item item;
  item.subject = "package";
  item.kind = std::move(kind);
  item.parts = package.parts;
  item.mass = package.mass;
  return item;
}

void add_piece_items(const Job& job, std::vector<Item>& items) {
  Item item;
  item.subject = "piece";
  item.kind = "any";
  item.parts = all_parts(job.piece);
  for (const piece::Package& package : job.piece.packages) {
    item.mass = std::max(item.mass, package.mass);
  }
  items.push_back(item);
  if (job.piece.fixed_to_building) {
    item.kind = "fixed";
    items.push_back(std::move(item));
  }
}

}  // namespace

void add_load_items(const Job& job, std::vector<Item>& items) {
  const Bundles bundles{job.piece};
  std::map<std::string, Item> by_name;
  for (const piece::Package& package : job.piece.packages) {
    const std::string name = bundles.name_of(package);
    const auto [found, is_new] = by_name.try_emplace(name, load_item("bundle", package));
    if (!is_new) {
      Item& bundle = found->second;
      bundle.parts.insert(bundle.parts.end(), package.parts.begin(), package.parts.end());
      bundle.mass = std::max(bundle.mass, package.mass);
    } else if (job.piece.fixed_to_building && !is_cabinet(job.piece, package) &&
               !Bundles::is_loose(name)) {
      items.push_back(load_item("on_site", package));
    }
    if (job.piece.fixed_to_building && is_cabinet(job.piece, package)) {
      items.push_back(load_item("cabinet", package));
    }
  }
  for (const auto& [name, bundle] : by_name) {
    items.push_back(bundle);
  }
  add_piece_items(job, items);
}

}  // namespace plankwright::bench
