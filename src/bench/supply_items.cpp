#include <algorithm>
#include <cmath>
#include <set>

#include <fmt/format.h>

#include "bench/items.h"
#include "bench/surfaces.h"

namespace plankwright::bench {
namespace {

std::vector<PartIndex> parts_from(const piece::Piece& piece, const std::string& stock) {
  std::vector<PartIndex> parts;
  for (PartIndex i = 0; i < piece.parts.size(); ++i) {
    if (piece.parts[i].stock == stock) {
      parts.push_back(i);
    }
  }
  return parts;
}

/// Wood and board are chosen on the spot; fittings come by post.
std::set<std::string> yards(const stock::Stock& stock) {
  std::set<std::string> names;
  for (const stock::Purchase& purchase : stock.purchases) {
    if (purchase.kind == "solid" || purchase.kind == "sheet" || purchase.kind == "bar") {
      names.insert(purchase.supplier);
    }
  }
  return names;
}

std::vector<PartIndex> wooden_parts(const piece::Piece& piece) {
  std::vector<PartIndex> parts = all_parts(piece);
  std::erase_if(parts, [&](PartIndex part) {
    return piece.parts[part].material == piece::Material::kBoughtIn;
  });
  return parts;
}

void add_yards(const Job& job, std::vector<Item>& items) {
  const std::set<std::string> names = yards(job.stock);
  if (names.empty()) {
    return;
  }
  Item item;
  item.subject = "supply";
  item.kind = "yard";
  item.parts = wooden_parts(job.piece);
  item.count = static_cast<double>(names.size()) - 1;
  items.push_back(std::move(item));
}

/// What the finish goes on; where the board comes finished, only the solid wood.
Item finished_parts(const Job& job, bool solid_only) {
  Item item;
  const std::vector<Surface> surfaces = surfaces_of(job.piece);
  for (PartIndex i = 0; i < surfaces.size(); ++i) {
    const measure::SquareMillimetres area = surfaces[i].inside + surfaces[i].outside;
    const bool solid = job.piece.parts[i].material == piece::Material::kSolid;
    if (area.count() > 0 && (solid || !solid_only)) {
      item.parts.push_back(i);
      item.square_feet += measure::square_feet(area);
      item.mass = std::max(item.mass, job.piece.parts[i].mass);
    }
  }
  return item;
}

void add_coats(const shop::Finish& finish, Item item, std::vector<Item>& items) {
  for (int coat = 1; coat <= finish.coats; ++coat) {
    item.kind = finish.applied;
    item.label = fmt::format("{}, coat {} of {}", finish.name, coat, finish.coats);
    item.sequence = 2 * coat;
    item.unattended = finish.recoat;
    items.push_back(item);
    if (coat < finish.coats) {
      item.kind = "between";
      item.label = fmt::format("after coat {}", coat);
      item.sequence = 2 * coat + 1;
      item.unattended = {};
      items.push_back(item);
    }
  }
}

}  // namespace

void add_supply_items(const Job& job, std::vector<Item>& items) {
  add_yards(job, items);
  for (const stock::SolidNeed& need : job.stock.solids) {
    Item item;
    item.subject = "supply";
    item.kind = "boards";
    item.parts = parts_from(job.piece, need.stock);
    item.count = std::ceil(need.buy_board_feet / job.limits.board_feet_a_board);
    items.push_back(std::move(item));
  }
  for (const stock::SheetNeed& need : job.stock.sheets) {
    Item item;
    item.subject = "supply";
    item.kind = "sheets";
    item.parts = parts_from(job.piece, need.stock);
    item.count = need.sheets;
    items.push_back(std::move(item));
  }
  for (const commission::ExtraWork& work : job.commission.extra_work) {
    Item item;
    item.subject = "extra";
    item.kind = work.standard;
    item.parts = all_parts(job.piece);
    item.count = work.units;
    item.label = work.what;
    items.push_back(std::move(item));
  }
}

void add_finish_items(const Job& job, std::vector<Item>& items) {
  const shop::Finish* finish = job.shop.finish(job.commission.finish);
  if (finish == nullptr) {
    return;
  }
  const bool touch_up = finish->applied == "touch_up";
  Item item = finished_parts(job, touch_up);
  item.label = finish->name;
  if (finish->applied == "outside") {
    item.subject = "finisher";
    item.kind = "run";
    item.count = finish->runs;
    items.push_back(std::move(item));
    return;
  }
  item.subject = "coat";
  item.kind = finish->applied;
  item.chain = "coats";
  if (touch_up) {
    items.push_back(std::move(item));
    return;
  }
  if (job.stock.finish && job.stock.finish->area.count() > 0) {
    item.square_feet = measure::square_feet(job.stock.finish->area);
  }
  add_coats(*finish, item, items);
}

}  // namespace plankwright::bench
