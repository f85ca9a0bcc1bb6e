#pragma once
// The least a small sheet order can cost, by trying everything. Slow on purpose and apart from the
// solver: kerfs are sawn here, not added to sizes.

#include <cstdint>
#include <map>
#include <optional>
#include <tuple>
#include <vector>

#include "solve/sheets.h"

namespace plankwright::solve::oracle {

class SheetOracle {
 public:
  explicit SheetOracle(const SheetJob& job) : job_{job} {
    for (const SheetPart& part : job.parts) {
      for (std::int64_t i = 0; i < part.demand; ++i) {
        parts_.push_back(part);
      }
    }
  }

  /// Least sum of sheet prices that holds every part; nothing when the sheets on hand do not.
  std::optional<std::int64_t> least_price() {
    std::vector<std::int64_t> used(job_.kinds.size(), 0);
    return least((1U << parts_.size()) - 1, used);
  }

 private:
  using Set = std::uint32_t;

  std::optional<std::int64_t> least(Set set, std::vector<std::int64_t>& used) {
    if (set == 0) {
      return 0;
    }
    std::optional<std::int64_t> best;
    const Set first = set & (~set + 1);
    const Set others = set ^ first;
    for (Set more = others;; more = (more - 1) & others) {
      for (std::size_t k = 0; k < job_.kinds.size(); ++k) {
        if (job_.kinds[k].available && used[k] >= *job_.kinds[k].available) {
          continue;
        }
        if (!one_sheet_holds(first | more, job_.kinds[k])) {
          continue;
        }
        used[k] += 1;
        if (const auto rest = least(others ^ more, used)) {
          const std::int64_t price = job_.kinds[k].price + *rest;
          best = best ? std::min(*best, price) : price;
        }
        used[k] -= 1;
      }
      if (more == 0) {
        return best;
      }
    }
  }

  bool one_sheet_holds(Set set, const SheetKind& kind) {
    const std::int64_t trim = kind.trim.value_or(job_.trim);
    const std::int64_t width = kind.width - 2 * trim;
    const std::int64_t height = kind.height - 2 * trim;
    const int stages = job_.max_stages == 0 ? 99 : job_.max_stages;
    for (const Axis axis : {Axis::kX, Axis::kY}) {
      if ((!job_.first_cut || *job_.first_cut == axis) &&
          parts_into(set, width, height, axis, stages)) {
        return true;
      }
    }
    return false;
  }

  bool lies(std::size_t part, std::int64_t width, std::int64_t height) const {
    const SheetPart& p = parts_[part];
    return (p.width == width && p.height == height) ||
           (p.may_turn && p.width == height && p.height == width);
  }

  // The set out of a rectangle by cuts along the axis; `stages` counts this one and what may
  // follow.
  bool parts_into(Set set, std::int64_t width, std::int64_t height, Axis axis, int stages) {
    const auto key = std::tuple{set, width, height, axis, stages};
    if (const auto known = known_.find(key); known != known_.end()) {
      return known->second;
    }
    const bool alone = (set & (set - 1)) == 0;
    const bool allowed = stages > 0 || (stages == 0 && alone && job_.trimming_cut_free);
    const bool works = allowed && try_first_pieces(set, width, height, axis, stages);
    known_[key] = works;
    return works;
  }

  bool try_first_pieces(Set set, std::int64_t width, std::int64_t height, Axis axis, int stages) {
    const std::int64_t whole = axis == Axis::kX ? width : height;
    const std::int64_t across = axis == Axis::kX ? height : width;
    const Set first = set & (~set + 1);
    const Set others = set ^ first;
    for (Set more = others;; more = (more - 1) & others) {
      for (std::int64_t size = 1; size <= whole; ++size) {
        if (!piece(first | more,
                   axis == Axis::kX ? size : across,
                   axis == Axis::kX ? across : size,
                   axis,
                   stages)) {
          continue;
        }
        const Set rest = others ^ more;
        const std::int64_t left = whole - size - job_.kerf;
        if (rest == 0 || (left > 0 && parts_into(rest,
                                                 axis == Axis::kX ? left : across,
                                                 axis == Axis::kX ? across : left,
                                                 axis,
                                                 stages))) {
          return true;
        }
        break;  // a larger piece for the same set leaves less
      }
      if (more == 0) {
        return false;
      }
    }
  }

  bool piece(Set set, std::int64_t width, std::int64_t height, Axis axis, int stages) {
    if ((set & (set - 1)) == 0 &&
        lies(static_cast<std::size_t>(__builtin_ctz(set)), width, height)) {
      return true;
    }
    return parts_into(set, width, height, axis == Axis::kX ? Axis::kY : Axis::kX, stages - 1);
  }

  const SheetJob& job_;
  std::vector<SheetPart> parts_;
  std::map<std::tuple<Set, std::int64_t, std::int64_t, Axis, int>, bool> known_;
};

}  // namespace plankwright::solve::oracle
