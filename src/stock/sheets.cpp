#include "solve/sheets.h"

#include <algorithm>
#include <cmath>
#include <map>
#include <set>
#include <tuple>

#include "solve/check_sheets.h"
#include "stock/parts.h"

namespace plankwright::stock {
namespace {

// The solver works in whole micrometres: exact for every size written in millimetres, and within a
// micrometre for inches. Parts are rounded up and sheets down, so that a layout that fits, fits.
constexpr std::int64_t kNmPerUnit = 1'000;

std::int64_t up(Length length) {
  return (length.nm() + kNmPerUnit - 1) / kNmPerUnit;
}
std::int64_t down(Length length) {
  return length.nm() / kNmPerUnit;
}
Length from_units(std::int64_t units) {
  return Length::from_nm(units * kNmPerUnit);
}

/// A job for the solver, and which parts stand behind each of its numbers.
struct Job {
  solve::SheetJob sheets;
  std::vector<std::vector<PartIndex>> parts;   // by solver part
  std::vector<const shop::RackPiece*> pieces;  // by solver kind; nullptr: new sheets
};

Money minutes_in_money(const shop::Shop& shop, double minutes) {
  return measure::scaled(shop.hour.cost, minutes / 60.0);
}

solve::CutCosts cut_costs(const shop::Shop& shop) {
  solve::CutCosts costs;
  if (const auto* part = shop.standard("sheet_part_cut")) {
    constexpr double kCutsInAPart = 2;
    costs.per_cut = minutes_in_money(shop, part->per_unit.count() / kCutsInAPart).minor();
    costs.per_setting = minutes_in_money(shop, part->setup.count()).minor();
  }
  if (const auto* sheet = shop.standard("sheet_breakdown")) {
    costs.per_sheet = minutes_in_money(shop, sheet->per_unit.count()).minor();
  }
  return costs;
}

/// Parts of one size become one line of the job. Parts of a run are kept apart by their run.
void add_parts(Job& job,
               const piece::Piece& piece,
               const shop::SheetStock& stock,
               const std::set<PartIndex>& left_out) {
  std::map<std::tuple<Length, Length, std::string>, std::size_t> lines;
  for (PartIndex i = 0; i < piece.parts.size(); ++i) {
    const piece::Part& part = piece.parts[i];
    if (part.stock != stock.id || left_out.contains(i)) {
      continue;
    }
    const auto [line, is_new] =
        lines.try_emplace({part.cut.length, part.cut.width, part.run}, job.parts.size());
    if (is_new) {
      solve::SheetPart wanted;
      wanted.width = up(part.cut.length);
      wanted.height = up(part.cut.width);
      wanted.demand = 0;
      wanted.may_turn = !stock.grain;
      job.sheets.parts.push_back(wanted);
      job.parts.emplace_back();
    }
    ++job.sheets.parts[line->second].demand;
    job.parts[line->second].push_back(i);
  }
}

/// Runs lie side by side across the grain, broken where the sheet ends: the grain of doors that
/// hang side by side, or of fronts above each other, flows on across the gap.
void add_runs(Job& job,
              const piece::Piece& piece,
              const shop::Shop& shop,
              const shop::SheetStock& stock) {
  std::map<std::string, std::vector<std::pair<int, int>>> runs;  // (place, solver part)
  for (std::size_t line = 0; line < job.parts.size(); ++line) {
    for (const PartIndex i : job.parts[line]) {
      if (!piece.parts[i].run.empty()) {
        runs[piece.parts[i].run].emplace_back(piece.parts[i].place_in_run, static_cast<int>(line));
      }
    }
  }
  const std::int64_t room = down(stock.width - shop.allowances.sheet_trim * 2);
  for (auto& [name, places] : runs) {
    std::ranges::stable_sort(places);
    solve::SheetGroup group;
    std::int64_t used = 0;
    const auto close = [&] {
      if (group.parts.size() > 1) {
        group.along = solve::Axis::kY;
        job.sheets.groups.push_back(group);
      }
      group = {};
      used = 0;
    };
    for (const auto& [place, line] : places) {
      const std::int64_t wide = job.sheets.parts[static_cast<std::size_t>(line)].height;
      if (used > 0 && used + job.sheets.kerf + wide > room) {
        close();
      }
      used += (used > 0 ? job.sheets.kerf : 0) + wide;
      group.parts.push_back(line);
    }
    close();
  }
}

/// Pieces of the rack that could hold at least one of the parts. They have been sawn all round.
void add_rack(Job& job, const shop::Shop& shop, const shop::SheetStock& stock) {
  for (const shop::RackPiece& piece : shop.rack) {
    const auto holds = [&](const solve::SheetPart& part) {
      const bool lying = part.width <= down(piece.length) && part.height <= down(piece.width);
      const bool turned = part.height <= down(piece.length) && part.width <= down(piece.width);
      return lying || (turned && part.may_turn);
    };
    if (piece.stock == stock.id && std::ranges::any_of(job.sheets.parts, holds)) {
      job.sheets.kinds.push_back(
          {down(piece.length), down(piece.width), piece.value.minor(), piece.count, 0});
      job.pieces.push_back(&piece);
    }
  }
}

Job job_of(const piece::Piece& piece,
           const shop::Shop& shop,
           const shop::SheetStock& stock,
           const std::set<PartIndex>& left_out) {
  Job job;
  solve::SheetKind kind;
  kind.width = down(stock.length);
  kind.height = down(stock.width);
  kind.price = stock.price.minor();
  job.sheets.kinds.push_back(kind);
  job.pieces.push_back(nullptr);
  job.sheets.kerf = up(shop.allowances.sheet_kerf);
  job.sheets.trim = up(shop.allowances.sheet_trim);
  job.sheets.costs = cut_costs(shop);
  job.sheets.offcuts = {up(shop.allowances.offcut_width),
                        up(shop.allowances.offcut_length),
                        static_cast<std::int64_t>(shop.allowances.offcut_value.count() * 10)};
  add_parts(job, piece, stock, left_out);
  add_runs(job, piece, shop, stock);
  return job;
}

solve::SheetLimits limits_of(double work) {
  constexpr double kFirstAnswer = 30e6;
  solve::SheetLimits limits;
  limits.work = static_cast<std::int64_t>(kFirstAnswer * work);
  return limits;
}

/// Turns the solver's cut trees back into parts on sheets.
class Reader {
 public:
  Reader(const Job& job, const shop::SheetStock& stock) : job_{&job}, stock_{&stock} {
    next_.resize(job.parts.size(), 0);
  }

  SheetLayout read(const solve::SheetLayout& from) {
    layout_ = {};
    rack_ = job_->pieces[static_cast<std::size_t>(from.kind)];
    layout_.length = rack_ != nullptr ? rack_->length : stock_->length;
    layout_.width = rack_ != nullptr ? rack_->width : stock_->width;
    layout_.rack = rack_ != nullptr ? rack_->label : "";
    cuts_ = 0;
    visit(from.root, 1);
    return layout_;
  }

 private:
  void visit(const solve::CutNode& node, int stage) {
    switch (node.role) {
      case solve::CutRole::kPart:
        add_piece(node);
        return;
      case solve::CutRole::kOffcut:
        add_offcut(node);
        return;
      case solve::CutRole::kWaste:
        return;
      case solve::CutRole::kCut:
        for (std::size_t i = 0; i < node.children.size(); ++i) {
          add_cut(node, node.children[i], stage);
        }
        for (const solve::CutNode& child : node.children) {
          visit(child, stage + 1);
        }
    }
  }

  void add_piece(const solve::CutNode& node) {
    const auto line = static_cast<std::size_t>(node.part);
    const std::vector<PartIndex>& parts = job_->parts[line];
    const PartIndex part = parts[std::min(next_[line]++, parts.size() - 1)];
    layout_.pieces.push_back({part,
                              from_units(node.x),
                              from_units(node.y),
                              from_units(node.width),
                              from_units(node.height),
                              node.turned});
  }

  /// An offcut of a new sheet is worth what the shop's rule says, one of a rack piece its share.
  void add_offcut(const solve::CutNode& node) {
    const double share =
        static_cast<double>(node.width) * static_cast<double>(node.height) /
        (static_cast<double>(down(layout_.length)) * static_cast<double>(down(layout_.width)));
    const double kept = static_cast<double>(job_->sheets.offcuts.permille) / 1000;
    layout_.offcuts.push_back({from_units(node.x),
                               from_units(node.y),
                               from_units(node.width),
                               from_units(node.height),
                               rack_ != nullptr ? measure::scaled(rack_->value, share)
                                                : measure::scaled(stock_->price, share * kept)});
  }

  void add_cut(const solve::CutNode& node, const solve::CutNode& child, int stage) {
    const bool rip = node.along == solve::Axis::kY;
    const std::int64_t end = rip ? child.y + child.height : child.x + child.width;
    const std::int64_t edge = rip ? node.y + node.height : node.x + node.width;
    if (end >= edge) {
      return;  // the last one falls out by itself
    }
    SheetCut cut;
    cut.number = ++cuts_;
    cut.stage = stage;
    cut.along = rip;
    cut.at = from_units(end);
    cut.from = from_units(rip ? node.x : node.y);
    cut.to = from_units(rip ? node.x + node.width : node.y + node.height);
    cut.setting = from_units(rip ? child.height : child.width);
    layout_.cuts.push_back(cut);
  }

  const Job* job_;
  const shop::SheetStock* stock_;
  std::vector<std::size_t> next_;
  const shop::RackPiece* rack_ = nullptr;  // of the layout that is read
  SheetLayout layout_;
  int cuts_ = 0;
};

/// Takes out what no sheet can hold, so that the rest is still planned; the checks report it.
std::set<PartIndex> too_large(const piece::Piece& piece,
                              const shop::Shop& shop,
                              const shop::SheetStock& stock) {
  std::set<PartIndex> left_out;
  for (;;) {
    const Job job = job_of(piece, shop, stock, left_out);
    const auto misfit = job.parts.empty() ? std::nullopt : solve::find_misfit(job.sheets);
    if (!misfit) {
      return left_out;
    }
    const auto line = static_cast<std::size_t>(
        misfit->part >= 0
            ? misfit->part
            : job.sheets.groups[static_cast<std::size_t>(misfit->group)].parts.front());
    left_out.insert(job.parts[line].begin(), job.parts[line].end());
  }
}

void read_answer(SheetNeed& need,
                 const Job& job,
                 const solve::SheetAnswer& answer,
                 const shop::SheetStock& stock) {
  Reader reader{job, stock};
  for (const solve::SheetLayout& layout : answer.layouts) {
    for (std::int64_t copy = 0; copy < layout.count; ++copy) {
      need.layouts.push_back(reader.read(layout));
      for (const Offcut& offcut : need.layouts.back().offcuts) {
        need.offcut_value += offcut.value;
      }
      if (const auto* rack = job.pieces[static_cast<std::size_t>(layout.kind)]) {
        ++need.rack_pieces;
        need.rack_value += rack->value;
      }
    }
  }
  need.sheets = static_cast<int>(answer.sheets);
  need.bound = static_cast<int>(answer.sheets_bound);
  need.proven = need.sheets == need.bound;
  std::ranges::stable_partition(need.layouts, [](const SheetLayout& l) { return l.rack.empty(); });
}

double area_of(const piece::Piece& piece, const SheetNeed& need) {
  double area = 0;
  for (const SheetLayout& layout : need.layouts) {
    for (const SheetPiece& placed : layout.pieces) {
      const piece::Size& cut = piece.parts[placed.part].cut;
      area += measure::area(cut.length, cut.width).count();
    }
  }
  return area;
}

/// How far the parts of a layout reach along the sheet.
Length reach_of(const SheetLayout& layout) {
  Length reach;
  for (const SheetPiece& placed : layout.pieces) {
    reach = std::max(reach, placed.x + placed.length);
  }
  return reach;
}

/// The new sheet that is filled least far along its length; nullptr when all come out of the rack.
SheetLayout* least_filled(SheetNeed& need) {
  SheetLayout* least = nullptr;
  for (SheetLayout& layout : need.layouts) {
    if (layout.rack.empty() && (least == nullptr || reach_of(layout) < reach_of(*least))) {
      least = &layout;
    }
  }
  return least;
}

/// Offcuts end where the sheet that is bought ends; what is too small to keep then is waste.
void cut_offcuts_to(SheetNeed& need,
                    SheetLayout& layout,
                    Length end,
                    const shop::Allowances& keep) {
  std::erase_if(layout.offcuts, [&](Offcut& offcut) {
    const Length left = std::min(offcut.length, std::max(Length{}, end - offcut.x));
    const Money value = measure::scaled(offcut.value, left / offcut.length);
    need.offcut_value += value - offcut.value;
    offcut.length = left;
    offcut.value = value;
    const auto [short_side, long_side] = std::minmax(offcut.length, offcut.width);
    const bool kept = long_side >= keep.offcut_length && short_side >= keep.offcut_width;
    need.offcut_value -= kept ? Money{} : value;
    return !kept;
  });
}

/// Whole sheets, or the last one in part where the supplier cuts it: when all that lies on it fits
/// into the first share of its length.
void buy(SheetNeed& need, const shop::SheetStock& stock, const shop::Shop& shop) {
  const int fresh = need.sheets - need.rack_pieces;
  need.buy_sheets = fresh;
  SheetLayout* last = least_filled(need);
  if (last == nullptr || stock.smallest_share >= 1 || stock.smallest_share <= 0) {
    return;
  }
  const double share =
      std::ceil(reach_of(*last) / stock.length / stock.smallest_share) * stock.smallest_share;
  if (share < 1) {
    need.buy_sheets = fresh - 1 + share;
    const Length end = measure::scaled(stock.length, share) - shop.allowances.sheet_trim;
    cut_offcuts_to(need, *last, end, shop.allowances);
  }
}

double area_cut_up(const SheetNeed& need) {
  double area = 0;
  for (const SheetLayout& layout : need.layouts) {
    area += measure::area(layout.length, layout.width).count();
  }
  return area;
}

SheetNeed solved(const piece::Piece& piece,
                 const shop::Shop& shop,
                 const shop::SheetStock& stock,
                 const Job& job,
                 const solve::SheetLimits& limits) {
  SheetNeed need;
  need.stock = stock.id;
  if (job.parts.empty()) {
    return need;
  }
  const base::Result<solve::SheetAnswer> answer = solve::solve_sheets(job.sheets, limits);
  if (!answer.ok()) {
    need.notes.push_back(answer.error().message);
    return need;
  }
  const std::vector<solve::SheetFault> faults = solve::check_sheets(job.sheets, answer.value());
  if (!faults.empty()) {
    need.notes.push_back("no layout stood a second look: " + faults.front().message);
    return need;
  }
  read_answer(need, job, answer.value(), stock);
  buy(need, stock, shop);
  need.price = measure::scaled(stock.price, need.buy_sheets);
  const double left_at_the_yard = need.sheets - need.rack_pieces - need.buy_sheets;
  const double area =
      area_cut_up(need) - left_at_the_yard * measure::area(stock.length, stock.width).count();
  need.used_share = area > 0 ? area_of(piece, need) / area : 0;
  return need;
}

/// What the sheets cost in all: bought and out of the rack, less what goes back into it.
Money spent(const SheetNeed& need) {
  return need.price + need.rack_value - need.offcut_value;
}

}  // namespace

SheetNeed sheet_need(const piece::Piece& piece,
                     const shop::Shop& shop,
                     const shop::SheetStock& stock,
                     double work) {
  const std::set<PartIndex> left_out = too_large(piece, shop, stock);
  Job job = job_of(piece, shop, stock, left_out);
  SheetNeed need = solved(piece, shop, stock, job, limits_of(work));
  add_rack(job, shop, stock);
  if (job.pieces.size() > 1 && !need.layouts.empty()) {
    SheetNeed with_rack = solved(piece, shop, stock, job, limits_of(work));
    if (!with_rack.layouts.empty() && spent(with_rack) < spent(need)) {
      need = std::move(with_rack);
    }
  }
  need.unplaced.assign(left_out.begin(), left_out.end());
  return need;
}

}  // namespace plankwright::stock
