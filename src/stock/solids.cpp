#include <algorithm>
#include <cmath>
#include <map>
#include <set>

#include <fmt/format.h>

#include "stock/parts.h"

namespace plankwright::stock {
namespace {

/// One blank to be found in a board: a part, one strip or layer of it, or a run of parts end to
/// end.
struct Blank {
  std::vector<PartIndex> parts;  // more than one: a run, end to end
  std::vector<Length> lengths;
  int strip = 0;
  Length length;
  Length width;
  std::string name;
  bool both_faces = false;
};

bool shows_both_faces(const piece::Part& part) {
  const auto shows = [&](int sign) { return part.shows({part.thickness_axis, sign}); };
  return shows(1) && shows(-1);
}

void add_blanks_of(const piece::Piece& piece, PartIndex index, std::vector<Blank>& blanks) {
  const piece::Part& part = piece.parts[index];
  const int strips = std::max(1, part.strips);
  for (int i = 0; i < strips * std::max(1, part.layers); ++i) {
    Blank blank;
    blank.parts = {index};
    blank.lengths = {part.rough.length};
    blank.strip = i;
    blank.length = part.rough.length;
    blank.width = part.rough.width / strips;
    blank.name = part.name;
    blank.both_faces = shows_both_faces(part);
    blanks.push_back(std::move(blank));
  }
}

/// Parts of a run lie end to end in one board, as long as the usual board is long enough.
void add_runs(const piece::Piece& piece,
              const std::vector<PartIndex>& run,
              Length board,
              std::vector<Blank>& blanks) {
  Blank blank;
  for (const PartIndex index : run) {
    const piece::Part& part = piece.parts[index];
    if (!blank.parts.empty() && blank.length + part.rough.length > board) {
      blanks.push_back(blank);
      blank = Blank{};
    }
    blank.parts.push_back(index);
    blank.lengths.push_back(part.rough.length);
    blank.length += part.rough.length;
    blank.width = std::max(blank.width, part.rough.width);
    blank.name = fmt::format("{} and its neighbours end to end", piece.parts[run.front()].name);
  }
  if (!blank.parts.empty()) {
    blanks.push_back(std::move(blank));
  }
}

std::vector<Blank> blanks_of(const piece::Piece& piece, const shop::SolidStock& stock) {
  std::map<std::string, std::vector<PartIndex>> runs;
  std::vector<Blank> blanks;
  for (PartIndex i = 0; i < piece.parts.size(); ++i) {
    const piece::Part& part = piece.parts[i];
    if (part.stock != stock.id) {
      continue;
    }
    if (part.run.empty() || part.strips > 1) {
      add_blanks_of(piece, i, blanks);
    } else {
      runs[part.run].push_back(i);
    }
  }
  for (auto& [name, run] : runs) {
    std::ranges::stable_sort(run, {}, [&](PartIndex i) { return piece.parts[i].place_in_run; });
    add_runs(piece, run, stock.board_length, blanks);
  }
  std::ranges::stable_sort(blanks, [](const Blank& a, const Blank& b) {
    return a.length != b.length ? a.length > b.length : a.width > b.width;
  });
  return blanks;
}

/// A board cut across into sections, each ripped into blanks that lie side by side.
struct Board {
  struct Section {
    Length x, length, used_width;
  };
  Length length, width;
  Length used_length;
  std::vector<Section> sections;
  BoardLayout layout;
  std::set<std::string> names;
  bool both_faces = false;
};

void put(Board& board, Board::Section& section, const Blank& blank, Length kerf) {
  Length x = section.x;
  for (std::size_t i = 0; i < blank.parts.size(); ++i) {
    board.layout.pieces.push_back(
        {blank.parts[i], blank.strip, x, section.used_width, blank.lengths[i], blank.width});
    x += blank.lengths[i];
  }
  section.used_width += blank.width + kerf;
  board.names.insert(blank.name);
  board.both_faces = board.both_faces || blank.both_faces;
}

bool put_beside(Board& board, const Blank& blank, Length kerf) {
  for (Board::Section& section : board.sections) {
    if (blank.length <= section.length && section.used_width + blank.width <= board.width) {
      put(board, section, blank, kerf);
      return true;
    }
  }
  return false;
}

bool put_behind(Board& board, const Blank& blank, Length kerf) {
  if (board.used_length + blank.length > board.length || blank.width > board.width) {
    return false;
  }
  board.sections.push_back({board.used_length, blank.length, Length{}});
  put(board, board.sections.back(), blank, kerf);
  board.used_length += blank.length + kerf;
  return true;
}

std::vector<Board> lay_out(const std::vector<Blank>& blanks,
                           const shop::SolidStock& stock,
                           Length kerf) {
  std::vector<Board> boards;
  for (const Blank& blank : blanks) {
    const bool placed =
        std::ranges::any_of(boards, [&](Board& b) { return put_beside(b, blank, kerf); }) ||
        std::ranges::any_of(boards, [&](Board& b) { return put_behind(b, blank, kerf); });
    if (!placed) {
      Board board;
      board.length = std::max(stock.board_length, blank.length);
      board.width = std::max(stock.board_width, blank.width);
      put_behind(board, blank, kerf);
      boards.push_back(std::move(board));
    }
  }
  return boards;
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

Length used_width(const Board& board) {
  Length widest;
  for (const Board::Section& section : board.sections) {
    widest = std::max(widest, section.used_width);
  }
  return widest;
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

/// Boards with nearly the same need become one line, so that the list can be held in the head: a
/// board joins the line before it while the line asks for no more than 15 % over what it needs.
std::vector<BoardAsk> asks_for(std::vector<Board> boards, bool inches) {
  constexpr double kMostOver = 1.15;
  const Length long_step = inches ? Length::from_inches(2) : Length::from_mm(50);
  const Length wide_step = inches ? Length::from_inches(0.5) : Length::from_mm(10);
  std::ranges::stable_sort(boards, [](const Board& a, const Board& b) {
    return a.used_length != b.used_length ? a.used_length > b.used_length
                                          : used_width(a) > used_width(b);
  });
  std::vector<Cluster> clusters;
  for (const Board& board : boards) {
    const Length length = rounded_up(board.used_length, long_step);
    const Length width = rounded_up(used_width(board), wide_step);
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
    if (cluster.ask.quality.empty() || board.both_faces) {
      cluster.ask.quality = board.both_faces ? "clear both faces" : "clear one face";
    }
    cluster.area += area;
    cluster.names.insert(board.names.begin(), board.names.end());
  }
  std::vector<BoardAsk> list;
  for (Cluster& cluster : clusters) {
    cluster.ask.why = names_of(cluster.names);
    list.push_back(cluster.ask);
  }
  return list;
}

void reckon_volumes(SolidNeed& need, const piece::Piece& piece, const shop::SolidStock& stock) {
  for (const piece::Part& part : piece.parts) {
    if (part.stock != stock.id) {
      continue;
    }
    need.net_board_feet += measure::board_feet(
        measure::volume(part.finished.length, part.finished.width, part.finished.thickness));
    need.rough_board_feet += measure::board_feet(
        measure::volume(part.rough.length, part.rough.width, part.rough.thickness));
  }
  need.buy_board_feet = need.rough_board_feet * stock.buy_factor;
}

void price_it(SolidNeed& need, const shop::SolidStock& stock) {
  constexpr double kBoardFeetInCubicMetre = 1e9 / (144.0 * 16'387.064);
  const bool cubic = stock.sold_by == shop::SoldBy::kCubicMetre;
  const double wanted = std::max(
      stock.least, cubic ? need.buy_board_feet / kBoardFeetInCubicMetre : need.buy_board_feet);
  need.buy_sold = stock.step > 0 ? std::ceil(wanted / stock.step - 1e-9) * stock.step : wanted;
  need.price = measure::scaled(stock.price, need.buy_sold);
}

}  // namespace

SolidNeed solid_need(const piece::Piece& piece,
                     const shop::Shop& shop,
                     const shop::SolidStock& stock) {
  SolidNeed need;
  need.stock = stock.id;
  reckon_volumes(need, piece, stock);
  price_it(need, stock);
  const std::vector<Board> boards =
      lay_out(blanks_of(piece, stock), stock, shop.allowances.saw_kerf);
  for (const Board& board : boards) {
    BoardLayout layout = board.layout;
    layout.length = board.length;
    layout.width = board.width;
    need.boards.push_back(std::move(layout));
  }
  need.asks = asks_for(boards, shop.unit == measure::LengthUnit::kInch);
  need.from = fmt::format("{:.1f} board feet rough x {:.2f} for grade, colour and a spare",
                          need.rough_board_feet,
                          stock.buy_factor);
  return need;
}

}  // namespace plankwright::stock
