#pragma once
// What small boards can hold, by trying every cut on the grid. Slow on purpose and apart from the
// solver: nothing is pushed anywhere, kerfs are sawn where they fall.

#include <bit>
#include <cstdint>
#include <map>
#include <optional>
#include <tuple>
#include <vector>

#include "solve/boards.h"

namespace plankwright::solve::oracle {

class BoardOracle {
 public:
  explicit BoardOracle(const BoardJob& job) : job_{job} {
    std::vector<std::int64_t> single;
    for (const BoardPart& part : job.parts) {
      single.push_back(part.demand);
    }
    for (const BoardRun& run : job.runs) {
      for (std::int64_t i = 0; i < run.demand; ++i) {
        pieces_.push_back(piece_of(run));
      }
      for (const int part : run.parts) {
        single[static_cast<std::size_t>(part)] -= run.demand;
      }
    }
    for (std::size_t p = 0; p < job.parts.size(); ++p) {
      for (std::int64_t i = 0; i < single[p]; ++i) {
        const BoardPart& part = job.parts[p];
        pieces_.push_back({part.length, part.width, part.value, {{0, 0, part}}});
      }
    }
  }

  /// Least money for everything; nothing when the boards do not hold it.
  std::optional<std::int64_t> least_money() { return cheapest(all()); }

  /// Greatest value of what the boards hold.
  std::int64_t greatest_value() {
    std::int64_t best = 0;
    for (Set set = 0; set <= all(); ++set) {
      std::int64_t value = 0;
      for (std::size_t i = 0; i < pieces_.size(); ++i) {
        value += (set >> i & 1U) != 0 ? pieces_[i].value : 0;
      }
      if (value > best && cheapest(set)) {
        best = value;
      }
    }
    return best;
  }

 private:
  using Set = std::uint32_t;
  struct Inner {
    std::int64_t x, y;
    BoardPart part;
  };
  struct Piece {
    std::int64_t length = 0, width = 0, value = 0;
    std::vector<Inner> inner;
  };
  struct Place {
    std::int64_t x, y, length, width;
  };
  using Key = std::
      tuple<std::size_t, std::int64_t, std::int64_t, std::int64_t, std::int64_t, Set, int, int>;

  Set all() const { return (Set{1} << pieces_.size()) - 1; }

  Piece piece_of(const BoardRun& run) const {
    Piece piece;
    std::int64_t next = 0;
    for (const int index : run.parts) {
      const BoardPart& part = job_.parts[static_cast<std::size_t>(index)];
      const bool along = run.along == Axis::kX;
      piece.inner.push_back({along ? next : 0, along ? 0 : next, part});
      next += (along ? part.length : part.width) + job_.kerf;
      piece.length = std::max(piece.length, piece.inner.back().x + part.length);
      piece.width = std::max(piece.width, piece.inner.back().y + part.width);
      piece.value += part.value;
    }
    return piece;
  }

  static bool spoils(const BoardDefect& defect, Quality quality, BoardFace shown) {
    if (!defect.sound || quality == Quality::kClearBothFaces) {
      return true;
    }
    return quality == Quality::kClearOneFace &&
           (defect.face == BoardFace::kBoth || defect.face == shown);
  }

  bool clear(std::size_t board, const Piece& piece, const Place& at, BoardFace shown) const {
    for (const Inner& inner : piece.inner) {
      for (const BoardDefect& d : job_.boards[board].defects) {
        const std::int64_t x = at.x + inner.x;
        const std::int64_t y = at.y + inner.y;
        const bool meets = x < d.x + d.length && d.x < x + inner.part.length && y < d.y + d.width &&
                           d.y < y + inner.part.width;
        if (meets && spoils(d, inner.part.quality, shown)) {
          return false;
        }
      }
    }
    return true;
  }

  bool is_piece(std::size_t board, const Place& at, Set set) const {
    if (!std::has_single_bit(set)) {
      return false;
    }
    const Piece& piece = pieces_[static_cast<std::size_t>(std::countr_zero(set))];
    return piece.length == at.length && piece.width == at.width &&
           (clear(board, piece, at, BoardFace::kUpper) ||
            clear(board, piece, at, BoardFace::kLower));
  }

  int next_level(std::optional<Axis> last, int level, Axis axis) const {
    if (last) {
      return *last == axis ? level : level + 1;
    }
    const Axis first = job_.order == SawOrder::kRipFirst ? Axis::kY : Axis::kX;
    return job_.order == SawOrder::kEither || axis == first ? 1 : 2;
  }

  bool sawn(std::size_t board, const Place& at, Set set, std::optional<Axis> last, int level) {
    if (set == 0 || is_piece(board, at, set)) {
      return true;
    }
    const Key key{
        board, at.x, at.y, at.length, at.width, set, last ? static_cast<int>(*last) : 2, level};
    if (const auto known = known_.find(key); known != known_.end()) {
      return known->second;
    }
    known_[key] = false;
    bool can = false;
    for (const Axis axis : {Axis::kX, Axis::kY}) {
      const int next = next_level(last, level, axis);
      can = can || (next <= 4 && (next < 4 || std::has_single_bit(set)) &&
                    parted(board, at, set, axis, next));
    }
    known_[key] = can;
    return can;
  }

  bool parted(std::size_t board, const Place& at, Set set, Axis axis, int level) {
    const bool along = axis == Axis::kX;
    const std::int64_t extent = along ? at.length : at.width;
    // The blade may run half off the wood at either end.
    for (std::int64_t cut = 1 - job_.kerf; cut < extent; ++cut) {
      const std::int64_t low = std::max<std::int64_t>(0, cut);
      const std::int64_t from = cut + job_.kerf;
      if (from <= 0 && cut <= 0) {
        continue;
      }
      const Place first{at.x, at.y, along ? low : at.length, along ? at.width : low};
      const std::int64_t rest = std::max<std::int64_t>(0, extent - from);
      const Place second{along ? at.x + from : at.x,
                         along ? at.y : at.y + from,
                         along ? rest : at.length,
                         along ? at.width : rest};
      for (Set some = set;; some = (some - 1) & set) {
        if ((some == 0 || low > 0) && (some == set || rest > 0) &&
            sawn(board, first, some, axis, level) && sawn(board, second, set ^ some, axis, level)) {
          return true;
        }
        if (some == 0) {
          break;
        }
      }
    }
    return false;
  }

  bool holds(std::size_t board, Set set) {
    const RoughBoard& b = job_.boards[board];
    return sawn(
        board,
        {job_.end_trim, job_.edge_trim, b.length - 2 * job_.end_trim, b.width - 2 * job_.edge_trim},
        set,
        std::nullopt,
        0);
  }

  std::optional<std::int64_t> cheapest(Set set) {
    std::vector<std::int64_t> used(job_.boards.size(), 0);
    return cheapest(set, used);
  }

  std::optional<std::int64_t> cheapest(Set set, std::vector<std::int64_t>& used) {
    if (set == 0) {
      return 0;
    }
    const Set first = set & (~set + 1);
    const Set others = set ^ first;
    std::optional<std::int64_t> best;
    for (Set more = others;; more = (more - 1) & others) {
      for (std::size_t b = 0; b < job_.boards.size(); ++b) {
        if ((job_.boards[b].available && used[b] >= *job_.boards[b].available) ||
            !holds(b, first | more)) {
          continue;
        }
        used[b] += 1;
        if (const auto rest = cheapest(others ^ more, used)) {
          const std::int64_t money = job_.boards[b].price + *rest;
          best = best ? std::min(*best, money) : money;
        }
        used[b] -= 1;
      }
      if (more == 0) {
        return best;
      }
    }
  }

  const BoardJob& job_;
  std::vector<Piece> pieces_;
  std::map<Key, bool> known_;
};

}  // namespace plankwright::solve::oracle
