// What is bought in its section: laid on the lengths sold and on what stands in the rack.

#include "solve/bars.h"

#include <algorithm>
#include <map>

#include "stock/parts.h"

namespace plankwright::stock {
namespace {

// As for sheets: whole micrometres, parts rounded up and bars down.
std::int64_t up(Length length) {
  return (length.nm() + 999) / 1'000;
}
std::int64_t down(Length length) {
  return length.nm() / 1'000;
}
Length from_micrometres(std::int64_t um) {
  return Length::from_nm(um * 1'000);
}

/// What is cut, and from what.
struct BarOrder {
  std::vector<shop::SoldLength> lengths;
  std::vector<const shop::RackPiece*> rack;
  Length trim, kerf;
  std::vector<BarPiece> parts;  // `from` is not known yet
};

/// A job for the solver, and which pieces stand behind each of its parts.
struct Job {
  solve::BarJob bars;
  std::vector<std::vector<BarPiece>> pieces;
};

Job job_of(const BarOrder& order, const shop::Shop& shop) {
  Job job;
  for (const shop::SoldLength& sold : order.lengths) {
    job.bars.kinds.push_back({down(sold.length), sold.price.minor(), std::nullopt, up(order.trim)});
  }
  for (const shop::RackPiece* piece : order.rack) {  // sawn clean when it came into the rack
    job.bars.kinds.push_back({down(piece->length), piece->value.minor(), piece->count, 0});
  }
  job.bars.kerf = up(order.kerf);
  job.bars.rests = {up(shop.allowances.offcut_length),
                    static_cast<std::int64_t>(shop.allowances.offcut_value.count() * 10)};
  std::map<Length, std::size_t, std::greater<>> lines;
  for (const BarPiece& part : order.parts) {
    const auto [line, is_new] = lines.try_emplace(part.length, job.pieces.size());
    if (is_new) {
      job.bars.parts.push_back({up(part.length), 0});
      job.pieces.emplace_back();
    }
    ++job.bars.parts[line->second].demand;
    job.pieces[line->second].push_back(part);
  }
  return job;
}

Length longest_sold(const BarOrder& order) {
  Length longest;
  for (const shop::SoldLength& sold : order.lengths) {
    longest = std::max(longest, sold.length - order.trim * 2);
  }
  return longest;
}

Length longest_at_hand(const BarOrder& order) {
  Length longest = longest_sold(order);
  for (const shop::RackPiece* piece : order.rack) {
    longest = std::max(longest, piece->length);
  }
  return longest;
}

/// Parts longer than that are set aside, so that the rest is still laid out.
void set_aside_longer(Length longest, BarOrder& order, BarNeed& need) {
  std::erase_if(order.parts, [&](const BarPiece& part) {
    const bool too_long = part.length > longest;
    if (too_long) {
      need.unplaced.push_back(part.part);
    }
    return too_long;
  });
}

class Reader {
 public:
  Reader(const BarOrder& order, const Job& job, const shop::Shop& shop, BarNeed& need)
      : order_{order}, job_{job}, shop_{shop}, need_{need}, next_(job.pieces.size(), 0) {}

  void read(const solve::BarAnswer& answer) {
    for (const solve::BarLayout& layout : answer.layouts) {
      for (std::int64_t copy = 0; copy < layout.count; ++copy) {
        add_bar(layout);
      }
    }
    need_.bars = static_cast<int>(answer.bars);
    need_.fewest = static_cast<int>(answer.bars_bound);
    need_.cost = Money::from_minor(answer.cost);
    need_.bound = Money::from_minor(answer.bound);
    need_.proven = answer.proven;
  }

 private:
  void add_bar(const solve::BarLayout& from) {
    const auto kind = static_cast<std::size_t>(from.kind);
    const bool fresh = kind < order_.lengths.size();
    BarLayout bar;
    if (fresh) {
      bar.length = order_.lengths[kind].length;
      buy(order_.lengths[kind]);
    } else {
      const shop::RackPiece& piece = *order_.rack[kind - order_.lengths.size()];
      bar.length = piece.length;
      bar.rack = piece.label;
    }
    Length at = fresh ? order_.trim : Length{};
    for (const int line : from.parts) {
      BarPiece piece = take(static_cast<std::size_t>(line));
      piece.from = at;
      at += piece.length + order_.kerf;
      bar.pieces.push_back(piece);
    }
    bar.rest = from_micrometres(from.rest);
    bar.keep = bar.rest >= shop_.allowances.offcut_length && bar.rest > Length{} &&
               job_.bars.rests.permille > 0;
    if (bar.keep) {
      bar.rest_value = rest_value(kind, bar);
      need_.rest_value += bar.rest_value;
    }
    need_.layouts.push_back(std::move(bar));
  }

  /// A rest of a new bar is worth what the shop's rule says; one of a rack piece its share of that.
  Money rest_value(std::size_t kind, const BarLayout& bar) const {
    const double share = bar.rest / bar.length;
    if (kind >= order_.lengths.size()) {
      return measure::scaled(order_.rack[kind - order_.lengths.size()]->value, share);
    }
    return measure::scaled(order_.lengths[kind].price,
                           share * shop_.allowances.offcut_value.count() / 100);
  }

  BarPiece take(std::size_t line) {
    const std::vector<BarPiece>& pieces = job_.pieces[line];
    return pieces[std::min(next_[line]++, pieces.size() - 1)];
  }

  void buy(const shop::SoldLength& sold) {
    auto line = std::ranges::find(need_.buys, sold.length, &BarBuy::length);
    if (line == need_.buys.end()) {
      line = need_.buys.insert(need_.buys.end(), BarBuy{sold.length, 0, {}});
    }
    ++line->count;
    line->price += sold.price;
    need_.price += sold.price;
  }

  const BarOrder& order_;
  const Job& job_;
  const shop::Shop& shop_;
  BarNeed& need_;
  std::vector<std::size_t> next_;
};

/// New bars by length, the longest first; rack pieces before them.
void put_in_order(BarNeed& need) {
  std::ranges::stable_sort(need.layouts, [](const BarLayout& a, const BarLayout& b) {
    return std::pair{a.rack.empty(), b.length} < std::pair{b.rack.empty(), a.length};
  });
  std::ranges::sort(need.buys, std::greater{}, &BarBuy::length);
  Length used;
  Length whole;
  for (const BarLayout& bar : need.layouts) {
    whole += bar.length;
    for (const BarPiece& piece : bar.pieces) {
      used += piece.length;
    }
  }
  need.used_share = whole > Length{} ? used / whole : 0;
}

/// False when the bars at hand do not do. A layout that does not stand a second look is none.
bool lay_out(const BarOrder& order, const shop::Shop& shop, double work, BarNeed& need) {
  constexpr double kFirstAnswer = 20e6;
  if (order.parts.empty()) {
    return true;
  }
  const Job job = job_of(order, shop);
  solve::BarLimits limits;
  limits.work = static_cast<std::int64_t>(kFirstAnswer * work);
  const base::Result<solve::BarAnswer> answer = solve::solve_bars(job.bars, limits);
  if (!answer.ok() || !solve::check_bars(job.bars, answer.value()).empty()) {
    return false;
  }
  Reader{order, job, shop, need}.read(answer.value());
  put_in_order(need);
  return true;
}

/// What is longer than all bars sold may still come out of the rack; when it does not, the rest is
/// cut without it.
BarNeed cut_from_bars(BarOrder order, const shop::Shop& shop, double work) {
  BarNeed need;
  for (const Length longest : {longest_at_hand(order), longest_sold(order), Length{}}) {
    set_aside_longer(longest, order, need);
    if (lay_out(order, shop, work, need)) {
      break;
    }
  }
  return need;
}

}  // namespace

BarNeed bar_need(const piece::Piece& piece,
                 const shop::Shop& shop,
                 const shop::BarStock& stock,
                 double work) {
  BarOrder order{stock.lengths, {}, stock.end_trim, shop.allowances.saw_kerf, {}};
  for (PartIndex i = 0; i < piece.parts.size(); ++i) {
    if (piece.parts[i].stock == stock.id) {
      order.parts.push_back({i, {}, piece.parts[i].cut.length});
    }
  }
  for (const shop::RackPiece& rack : shop.rack) {
    if (rack.stock == stock.id) {
      order.rack.push_back(&rack);
    }
  }
  BarNeed need = cut_from_bars(std::move(order), shop, work);
  need.stock = stock.id;
  return need;
}

BarNeed strips_of_band(const shop::Shop& shop,
                       const shop::BandStock& stock,
                       const std::vector<BarPiece>& edges) {
  BarNeed need = cut_from_bars({stock.strips, {}, {}, {}, edges}, shop, 1.0);  // snapped, not sawn
  need.stock = stock.id;
  return need;
}

}  // namespace plankwright::stock
