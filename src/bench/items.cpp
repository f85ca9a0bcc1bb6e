#include "bench/items.h"

#include <algorithm>
#include <numeric>

namespace plankwright::bench {

std::vector<Item> items_of(const Job& job) {
  std::vector<Item> items;
  add_supply_items(job, items);
  add_part_items(job, items);
  add_joint_items(job, items);
  add_moving_items(job, items);
  add_finish_items(job, items);
  add_load_items(job, items);
  return items;
}

std::vector<bool> box_parts(const piece::Piece& piece) {
  std::vector<bool> boxes(piece.parts.size(), false);
  for (const piece::Drawer& drawer : piece.drawers) {
    for (const PartIndex part : drawer.parts) {
      boxes[part] = !drawer.bought && piece.parts[part].show_faces.empty();
    }
  }
  return boxes;
}

bool any_of(const std::vector<PartIndex>& parts, const std::vector<bool>& marked) {
  return std::ranges::any_of(parts, [&](PartIndex part) { return marked[part]; });
}

std::vector<PartIndex> neighbours(const piece::Piece& piece, const std::vector<PartIndex>& parts) {
  std::vector<bool> own(piece.parts.size(), false);
  for (const PartIndex part : parts) {
    own[part] = true;
  }
  std::vector<bool> tied(piece.parts.size(), false);
  for (const piece::Joint& joint : piece.joints) {
    if (own[joint.a] != own[joint.b]) {
      tied[own[joint.a] ? joint.b : joint.a] = true;
    }
  }
  std::vector<PartIndex> found;
  for (PartIndex part = 0; part < tied.size(); ++part) {
    if (tied[part]) {
      found.push_back(part);
    }
  }
  return found;
}

std::vector<PartIndex> all_parts(const piece::Piece& piece) {
  std::vector<PartIndex> parts(piece.parts.size());
  std::iota(parts.begin(), parts.end(), PartIndex{0});
  return parts;
}

std::string table_word(std::string_view trade_word) {
  std::string word{trade_word};
  std::ranges::replace_if(
      word, [](char c) { return c == ' ' || c == '-'; }, '_');
  return word;
}

}  // namespace plankwright::bench
