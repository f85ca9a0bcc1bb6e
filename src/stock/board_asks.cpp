// From layouts to words: boards to ask for in the yard.

#include <algorithm>
#include <set>

#include <fmt/format.h>

#include "stock/cutting_bill.h"

namespace plankwright::stock {
namespace {

/// What a layout needs of its board when its pieces are pushed to one end and one edge.
struct BoardNeed {
  Length length, width;
  bool both_faces = false;
  std::set<std::string> names;
};

bool overlap(Length a, Length a_size, Length b, Length b_size) {
  return a < b + b_size && b < a + a_size;
}

/// The far end of the pieces pushed together along one axis. The gaps the saw made between
/// neighbours stay.
template <class At, class Extent, class Side, class Across>
Length pushed(const std::vector<BoardPiece>& pieces,
              const At& at,
              const Extent& extent,
              const Side& side,
              const Across& across) {
  std::vector<const BoardPiece*> order;
  for (const BoardPiece& piece : pieces) {
    order.push_back(&piece);
  }
  std::ranges::stable_sort(order, {}, [&](const BoardPiece* p) { return at(*p); });
  std::vector<Length> ends(order.size());
  Length far;
  for (std::size_t i = 0; i < order.size(); ++i) {
    Length start;
    for (std::size_t j = 0; j < i; ++j) {
      if (overlap(side(*order[i]), across(*order[i]), side(*order[j]), across(*order[j]))) {
        const Length gap = at(*order[i]) - (at(*order[j]) + extent(*order[j]));
        // A gap much wider than a saw cut is waste that need not be there.
        constexpr Length kSawCut = Length::from_nm(8'000'000);
        start = std::max(start, ends[j] + (gap > kSawCut ? kSawCut / 2 : gap));
      }
    }
    ends[i] = start + extent(*order[i]);
    far = std::max(far, ends[i]);
  }
  return far;
}

BoardNeed need_of(const BoardLayout& layout, const piece::Piece& piece) {
  BoardNeed need;
  const auto x = [](const BoardPiece& p) { return p.x; };
  const auto y = [](const BoardPiece& p) { return p.y; };
  const auto length = [](const BoardPiece& p) { return p.length; };
  const auto width = [](const BoardPiece& p) { return p.width; };
  need.length = std::min(layout.length, pushed(layout.pieces, x, length, y, width));
  need.width = std::min(layout.width, pushed(layout.pieces, y, width, x, length));
  for (const BoardPiece& placed : layout.pieces) {
    const piece::Part& part = piece.parts[placed.part];
    need.both_faces = need.both_faces || (part.shows({part.thickness_axis, 1}) &&
                                          part.shows({part.thickness_axis, -1}));
    const bool in_run = !part.run.empty() && part.strips <= 1;
    const auto first = std::ranges::find_if(layout.pieces, [&](const BoardPiece& other) {
      return in_run && piece.parts[other.part].run == part.run;
    });
    const bool alone = std::ranges::count_if(layout.pieces, [&](const BoardPiece& other) {
                         return in_run && piece.parts[other.part].run == part.run;
                       }) < 2;
    need.names.insert(
        alone ? part.name
              : fmt::format("{} and its neighbours end to end", piece.parts[first->part].name));
  }
  return need;
}

Length rounded_up(Length length, Length step) {
  return step * ((length.nm() + step.nm() - 1) / step.nm());
}

std::string names_of(const std::set<std::string>& names) {
  std::string text;
  std::size_t count = 0;
  for (const std::string& name : names) {
    if (++count > 3) {
      return text + " and others";
    }
    text += (text.empty() ? "" : ", ") + name;
  }
  return text;
}

/// One line of the list while it is being gathered.
struct Cluster {
  BoardAsk ask;
  double area = 0;  // of what its boards really need
  std::set<std::string> names;

  double asked_area(Length length, Length width, int count) const {
    return measure::area(length, width).count() * count;
  }
};

}  // namespace

/// Boards with nearly the same need become one line, so that the list can be held in the head: a
/// board joins the line before it while the line asks for no more than 15 % over what it needs.
std::vector<BoardAsk> asks_for(const std::vector<BoardLayout>& boards,
                               const piece::Piece& piece,
                               bool inches) {
  constexpr double kMostOver = 1.15;
  const Length long_step = inches ? Length::from_inches(2) : Length::from_mm(50);
  const Length wide_step = inches ? Length::from_inches(0.5) : Length::from_mm(10);
  std::vector<BoardNeed> needs;
  for (const BoardLayout& board : boards) {
    needs.push_back(need_of(board, piece));
  }
  std::ranges::stable_sort(needs, [](const BoardNeed& a, const BoardNeed& b) {
    return a.length != b.length ? a.length > b.length : a.width > b.width;
  });
  std::vector<Cluster> clusters;
  for (const BoardNeed& need : needs) {
    const Length length = rounded_up(need.length, long_step);
    const Length width = rounded_up(need.width, wide_step);
    const double area = measure::area(length, width).count();
    const auto fits = std::ranges::find_if(clusters, [&](const Cluster& c) {
      return c.asked_area(std::max(c.ask.length, length),
                          std::max(c.ask.width, width),
                          c.ask.count + 1) <= kMostOver * (c.area + area);
    });
    Cluster& cluster = fits != clusters.end() ? *fits : clusters.emplace_back();
    cluster.ask.count = cluster.area > 0 ? cluster.ask.count + 1 : 1;
    cluster.ask.length = std::max(cluster.ask.length, length);
    cluster.ask.width = std::max(cluster.ask.width, width);
    if (cluster.ask.quality.empty() || need.both_faces) {
      cluster.ask.quality = need.both_faces ? "clear both faces" : "clear one face";
    }
    cluster.area += area;
    cluster.names.insert(need.names.begin(), need.names.end());
  }
  std::vector<BoardAsk> list;
  for (Cluster& cluster : clusters) {
    cluster.ask.why = names_of(cluster.names);
    list.push_back(cluster.ask);
  }
  return list;
}

}  // namespace plankwright::stock
