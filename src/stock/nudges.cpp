#include "stock/nudges.h"

#include <algorithm>
#include <cmath>
#include <map>
#include <optional>

#include <fmt/format.h>

namespace plankwright::stock {
namespace {

enum class Side { kLength, kWidth };

Length& size_of(piece::Size& size, Side side) {
  return side == Side::kLength ? size.length : size.width;
}

double area_of(const piece::Piece& piece, const std::string& id, piece::Size piece::Part::*size) {
  double area = 0;
  for (const piece::Part& part : piece.parts) {
    if (part.stock == id) {
      area +=
          measure::area((part.*size).length, (part.*size).width).count() * std::max(1, part.layers);
    }
  }
  return area;
}

double rack_area(const shop::Shop& shop, const std::string& id) {
  double area = 0;
  for (const shop::RackPiece& piece : shop.rack) {
    area += piece.stock == id ? piece.count * measure::area(piece.length, piece.width).count() : 0;
  }
  return area;
}

bool sheet_could_go(const piece::Piece& changed, const shop::Shop& shop, const SheetNeed& need) {
  const shop::SheetStock* sheet = shop.sheet(need.stock);
  if (sheet == nullptr || need.sheets == 0) {
    return false;
  }
  const Length trim = shop.allowances.sheet_trim * 2;
  const double whole = measure::area(sheet->length - trim, sheet->width - trim).count();
  const double least_sold = std::clamp(sheet->smallest_share, 0.01, 1.0);
  return area_of(changed, need.stock, &piece::Part::cut) <=
         whole * (need.buy_sheets - least_sold) + rack_area(shop, need.stock);
}

bool board_could_go(const piece::Piece& changed, const shop::Shop& shop, const SolidNeed& need) {
  double room = 0;
  double least = 0;
  for (const BoardLayout& board : need.boards) {
    const double area = measure::area(board.length, board.width).count();
    room += area;
    least = least > 0 ? std::min(least, area) : area;
  }
  return least > 0 && area_of(changed, need.stock, &piece::Part::rough) <=
                          room - least + rack_area(shop, need.stock);
}

bool is_changed(const piece::Piece& piece, const piece::Piece& changed, const std::string& id) {
  if (piece.parts.size() != changed.parts.size()) {
    return true;
  }
  for (PartIndex i = 0; i < piece.parts.size(); ++i) {
    const piece::Part& a = piece.parts[i];
    const piece::Part& b = changed.parts[i];
    if ((a.stock == id || b.stock == id) &&
        (a.stock != b.stock || a.rough.length != b.rough.length ||
         a.rough.width != b.rough.width)) {
      return true;
    }
  }
  return false;
}

template <class Needs>
auto need_of(const Needs& needs, const std::string& id) {
  return std::ranges::find(needs, id, [](const auto& need) { return need.stock; });
}

int new_boards(const SolidNeed& need) {
  return static_cast<int>(std::ranges::count_if(
      need.boards, [](const BoardLayout& b) { return b.rack.empty() && !b.tallied(); }));
}

int new_bars(const BarNeed& need) {
  int count = 0;
  for (const BarBuy& buy : need.buys) {
    count += buy.count;
  }
  return count;
}

std::string counted(int count, std::string_view what, const std::string& name) {
  return fmt::format("{} {}{} of {}", count, what, count == 1 ? "" : "s", name);
}

/// Half a sheet where the supplier cuts them.
std::string sheets_of(double sheets, const std::string& name) {
  return sheets == 0.5 ? "half a sheet of " + name
                       : fmt::format("{:g} sheet{} of {}", sheets, sheets == 1 ? "" : "s", name);
}

void add_saved_sheets(const shop::Shop& shop,
                      const Stock& before,
                      const Stock& after,
                      std::vector<std::string>& saves) {
  for (const SheetNeed& now : after.sheets) {
    const auto was = need_of(before.sheets, now.stock);
    const shop::SheetStock* sheet = shop.sheet(now.stock);
    if (was != before.sheets.end() && sheet != nullptr && now.buy_sheets < was->buy_sheets &&
        now.notes.empty()) {
      saves.push_back(sheets_of(was->buy_sheets - now.buy_sheets, sheet->name));
    }
  }
}

void add_saved_boards(const shop::Shop& shop,
                      const Stock& before,
                      const Stock& after,
                      std::vector<std::string>& saves) {
  for (const SolidNeed& now : after.solids) {
    const auto was = need_of(before.solids, now.stock);
    const shop::SolidStock* solid = shop.solid(now.stock);
    if (was != before.solids.end() && solid != nullptr && !now.boards.empty() &&
        new_boards(now) < new_boards(*was) && now.laid_board_feet < was->laid_board_feet) {
      saves.push_back(counted(new_boards(*was) - new_boards(now), "board", solid->name));
    }
  }
}

void add_saved_bars(const shop::Shop& shop,
                    const Stock& before,
                    const Stock& after,
                    std::vector<std::string>& saves) {
  for (const BarNeed& now : after.bars) {
    const auto was = need_of(before.bars, now.stock);
    const shop::BarStock* bar = shop.bar(now.stock);
    if (was == before.bars.end() || bar == nullptr || !now.unplaced.empty() ||
        now.price >= was->price) {
      continue;
    }
    const int fewer = new_bars(*was) - new_bars(now);
    saves.push_back(fewer > 0 ? counted(fewer, "bar", bar->name)
                              : fmt::format("a longer bar of {}", bar->name));
  }
}

/// Parts of one stock that are alike in one of their sizes.
struct Group {
  std::string stock;
  Side side = Side::kWidth;
  Length size;
  std::vector<PartIndex> parts;
  double at_stake = 0;  // their area
};

std::vector<Group> groups_of(const piece::Piece& piece) {
  std::map<std::tuple<std::string, Side, Length>, Group> groups;
  for (PartIndex i = 0; i < piece.parts.size(); ++i) {
    piece::Size cut = piece.parts[i].cut;
    for (const Side side : {Side::kLength, Side::kWidth}) {
      Group& group = groups[{piece.parts[i].stock, side, size_of(cut, side)}];
      group.stock = piece.parts[i].stock;
      group.side = side;
      group.size = size_of(cut, side);
      group.parts.push_back(i);
      group.at_stake += measure::area(cut.length, cut.width).count();
    }
  }
  std::vector<Group> list;
  for (auto& [key, group] : groups) {
    list.push_back(std::move(group));
  }
  std::ranges::stable_sort(list, std::greater{}, &Group::at_stake);
  return list;
}

piece::Piece with_size(const piece::Piece& piece, const Group& group, Length to) {
  piece::Piece changed = piece;
  const Length less = group.size - to;
  for (const PartIndex i : group.parts) {
    for (piece::Size* size : {&changed.parts[i].cut, &changed.parts[i].rough}) {
      Length& own = size_of(*size, group.side);
      own = own - less;
    }
  }
  return changed;
}

std::string name_of(const piece::Piece& piece, const Group& group) {
  std::vector<std::string> names;
  for (const PartIndex i : group.parts) {
    if (std::ranges::find(names, piece.parts[i].name) == names.end()) {
      names.push_back(piece.parts[i].name);
    }
  }
  std::string text =
      fmt::format("{} of {}", group.side == Side::kLength ? "length" : "width", names.front());
  return names.size() > 1 ? text + fmt::format(" and {} more", names.size() - 1) : text;
}

/// Tries sizes of one group until the smallest change that saves is found.
class Search {
 public:
  Search(const piece::Piece& piece,
         const shop::Shop& shop,
         const Stock& stock,
         double work,
         const Tally& tally,
         const wood::BoardFaultTable& faults,
         int tries)
      : piece_{piece},
        shop_{shop},
        stock_{stock},
        work_{work},
        tally_{tally},
        faults_{faults},
        tries_{tries} {}

  std::optional<Nudge> look(const Group& group) {
    const std::vector<Length> sizes = nearby_sizes(group.size, shop_.unit, -1);
    if (sizes.empty() || tries_ <= 0 || !worth_trying(group, sizes.back())) {
      return std::nullopt;
    }
    std::optional<Nudge> best = tried(group, sizes.back());
    if (!best) {
      return std::nullopt;
    }
    // The smaller the size, the more it saves: halve the changes that are left.
    std::size_t without = 0;  // changes up to this many are known not to do
    std::size_t with = sizes.size();
    while (with - without > 1 && tries_ > 0) {
      const std::size_t middle = (with + without) / 2;
      const std::optional<Nudge> nudge = tried(group, sizes[middle - 1]);
      if (nudge && nudge->saves == best->saves) {
        best = nudge;
        with = middle;
      } else {
        without = middle;
      }
    }
    return best;
  }

 private:
  bool worth_trying(const Group& group, Length smallest) const {
    const std::vector<std::string> ids =
        could_save(piece_, with_size(piece_, group, smallest), shop_, stock_);
    return std::ranges::find(ids, group.stock) != ids.end();
  }

  std::optional<Nudge> tried(const Group& group, Length to) {
    --tries_;
    const Stock after =
        plan_one_stock(with_size(piece_, group, to), shop_, group.stock, work_, tally_, faults_);
    const Money money = money_of(stock_, group.stock) - money_of(after, group.stock);
    std::vector<std::string> saves = saved_pieces(shop_, stock_, after);
    if (saves.empty() || money <= Money{} || !after.errors.empty()) {
      return std::nullopt;
    }
    return Nudge{name_of(piece_, group),
                 group.size,
                 to,
                 group.parts,
                 std::move(saves),
                 money,
                 piece_.parts[group.parts.front()].from};
  }

  const piece::Piece& piece_;
  const shop::Shop& shop_;
  const Stock& stock_;
  double work_;
  const Tally& tally_;
  const wood::BoardFaultTable& faults_;
  int tries_;
};

}  // namespace

std::vector<Length> nearby_sizes(Length size, measure::LengthUnit unit, int sign) {
  const std::int64_t step = unit == measure::LengthUnit::kInch ? 25'400'000 / 16 : 1'000'000;
  const auto most = static_cast<std::int64_t>(static_cast<double>(size.nm()) * kMostChange);
  std::vector<Length> sizes;
  std::int64_t next = size.nm() / step * step;
  if (sign > 0 || next == size.nm()) {
    next += sign * step;
  }
  for (; next > 0 && std::abs(next - size.nm()) <= most; next += sign * step) {
    sizes.push_back(Length::from_nm(next));
  }
  return sizes;
}

std::vector<std::string> could_save(const piece::Piece& piece,
                                    const piece::Piece& changed,
                                    const shop::Shop& shop,
                                    const Stock& stock) {
  std::vector<std::string> ids;
  const auto add_if = [&](const std::string& id, bool could) {
    if (could && is_changed(piece, changed, id)) {
      ids.push_back(id);
    }
  };
  for (const SolidNeed& need : stock.solids) {
    add_if(need.stock, board_could_go(changed, shop, need));
  }
  for (const SheetNeed& need : stock.sheets) {
    add_if(need.stock, sheet_could_go(changed, shop, need));
  }
  for (const BarNeed& need : stock.bars) {
    add_if(need.stock, true);  // cut anew in no time
  }
  return ids;
}

Stock plan_one_stock(const piece::Piece& piece,
                     const shop::Shop& shop,
                     const std::string& id,
                     double work,
                     const Tally& tally,
                     const wood::BoardFaultTable& faults) {
  piece::Piece alone = piece;
  alone.hardware.clear();
  for (piece::Part& part : alone.parts) {
    part.bands.clear();
    if (part.stock != id) {
      part.stock.clear();
    }
  }
  return plan_stock(alone, shop, "", work, tally, faults);
}

std::vector<std::string> saved_pieces(const shop::Shop& shop,
                                      const Stock& before,
                                      const Stock& after) {
  std::vector<std::string> saves;
  add_saved_sheets(shop, before, after, saves);
  add_saved_boards(shop, before, after, saves);
  add_saved_bars(shop, before, after, saves);
  return saves;
}

Money money_of(const Stock& stock, const std::string& id) {
  Money sum;
  for (const SolidNeed& need : stock.solids) {
    sum += need.stock == id ? need.price : Money{};
  }
  for (const SheetNeed& need : stock.sheets) {
    sum += need.stock == id ? need.price : Money{};
  }
  for (const BarNeed& need : stock.bars) {
    sum += need.stock == id ? need.price : Money{};
  }
  for (const FromRack& piece : stock.from_rack) {
    sum += piece.stock == id ? piece.value : Money{};
  }
  return sum;
}

std::vector<Nudge> part_nudges(const piece::Piece& piece,
                               const shop::Shop& shop,
                               const Stock& stock,
                               double work,
                               const Tally& tally,
                               const wood::BoardFaultTable& faults,
                               int most_tries) {
  Search search{piece, shop, stock, work, tally, faults, most_tries};
  std::vector<Nudge> nudges;
  for (const Group& group : groups_of(piece)) {
    if (std::optional<Nudge> nudge = search.look(group)) {
      nudges.push_back(std::move(*nudge));
    }
  }
  std::ranges::stable_sort(nudges, std::greater{}, &Nudge::money);
  return nudges;
}

}  // namespace plankwright::stock
