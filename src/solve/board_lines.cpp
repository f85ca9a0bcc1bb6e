#include "solve/board_lines.h"

#include <algorithm>
#include <bit>
#include <cmath>

namespace plankwright::solve {
namespace {

constexpr std::int64_t kMostCells = 400;
constexpr std::int64_t kFine = 1024;  // prices for one line are rounded up to this share

std::int64_t rounded_up(std::int64_t a, std::int64_t b) {
  return (a + b - 1) / b;
}

/// Faults with the axes changed over when the lines run along the grain.
std::vector<BoardArea> seen_along(const std::vector<BoardArea>& faults, Axis axis) {
  std::vector<BoardArea> seen = faults;
  if (axis == Axis::kY) {
    for (BoardArea& fault : seen) {
      std::swap(fault.x, fault.y);
      std::swap(fault.length, fault.width);
    }
    std::ranges::sort(seen, {}, &BoardArea::x);
  }
  return seen;
}

/// Clear stretches at least `least` long of the band from `low` to `high`.
template <class Use>
void for_each_stretch(const std::vector<BoardArea>& faults,
                      const BoardArea& band,
                      std::int64_t least,
                      const Use& use) {
  std::int64_t from = band.x;
  for (const BoardArea& fault : faults) {
    if (fault.y < band.end_y() && band.y < fault.end_y() && fault.end_x() > from) {
      if (std::min(fault.x, band.end_x()) - from >= least) {
        use(from, std::min(fault.x, band.end_x()));
      }
      from = fault.end_x();
    }
  }
  if (band.end_x() - from >= least) {
    use(from, band.end_x());
  }
}

}  // namespace

BoardLines::BoardLines(const BoardProblem& problem, int board, Axis axis)
    : axis_{axis}, board_{board}, kerf_{problem.job->kerf} {
  const BoardShape& shape = problem.shapes[static_cast<std::size_t>(board)];
  const bool across = axis == Axis::kX;
  const std::int64_t start = across ? shape.usable.x : shape.usable.y;
  const std::int64_t end = across ? shape.usable.end_x() : shape.usable.end_y();
  from_ = across ? shape.usable.y : shape.usable.x;
  range_ = (across ? shape.usable.width : shape.usable.length) + kerf_;
  cell_ = std::max<std::int64_t>(1, rounded_up(range_, kMostCells));
  cells_ = static_cast<std::size_t>(rounded_up(range_, cell_));
  add_items(problem);
  words_ = (items_.size() + 63) / 64;
  // Every part takes a kerf behind it along the lines' own axis too; the board is a kerf longer.
  std::vector<std::int64_t> edges = {start, end + kerf_};
  for (const BoardArea& fault : seen_along(shape.faults[3], axis)) {
    for (const std::int64_t edge : {fault.x + kerf_, fault.end_x()}) {
      if (edge > start && edge < end + kerf_) {
        edges.push_back(edge);
      }
    }
  }
  std::ranges::sort(edges);
  const auto repeated = std::ranges::unique(edges);
  edges.erase(repeated.begin(), repeated.end());
  for (std::size_t b = 0; b + 1 < edges.size(); ++b) {
    bands_.push_back({edges[b + 1] - edges[b], std::vector<std::uint64_t>(cells_ * words_, 0)});
  }
  for (std::size_t item = 0; item < items_.size(); ++item) {
    mark_feasible(problem, edges, item);
  }
  work_ = static_cast<std::int64_t>(bands_.size() * cells_ * (4 + items_.size()));
}

void BoardLines::add_items(const BoardProblem& problem) {
  const bool across = axis_ == Axis::kX;
  for (std::size_t b = 0; b < problem.blocks.size(); ++b) {
    const Block& block = problem.blocks[b];
    if (block.is_panel() && block.copy > 0) {
      continue;  // the first copy stands for all of a panel
    }
    double area = 0;
    for (const BlockPart& part : block.parts) {
      area += static_cast<double>(part.at.length) * static_cast<double>(part.at.width);
    }
    for (const BlockPart& part : block.parts) {
      LineItem item;
      item.block = static_cast<int>(b);
      item.along = across ? part.at.length : part.at.width;
      item.across = across ? part.at.width : part.at.length;
      item.share = static_cast<double>(part.at.length) * static_cast<double>(part.at.width) / area;
      item.quality = part.quality;
      if (block.is_panel()) {
        const BoardPanel& panel = problem.job->panels[static_cast<std::size_t>(block.panel)];
        const auto widest = static_cast<double>(panel.widest);
        item.any_width = across;
        item.worth_of_width = (widest - static_cast<double>(panel.joint)) /
                              (widest + (across ? 0 : static_cast<double>(kerf_)));
        item.panel_net = panel.width;
      }
      items_.push_back(item);
      const std::int64_t step = item.any_width ? cell_ : item.across + kerf_;
      steps_.push_back(static_cast<std::size_t>(std::max<std::int64_t>(1, step / cell_)));
    }
  }
}

/// Marks the cells of every band where the item may start: a clear rectangle of its size starts in
/// the cell and is crossed by the band's lines. Pushed down within its cell the rectangle meets the
/// cell's edge or a fault, so only those starts are tried.
void BoardLines::mark_feasible(const BoardProblem& problem,
                               const std::vector<std::int64_t>& edges,
                               std::size_t index) {
  const LineItem& item = items_[index];
  const BoardShape& shape = problem.shapes[static_cast<std::size_t>(board_)];
  const Ways ways = ways_of(item.quality);
  const std::int64_t last = from_ + range_ - kerf_ - item.across;
  const std::uint64_t bit = std::uint64_t{1} << (index % 64);
  for (int way = ways.first; way <= ways.last; ++way) {
    const std::vector<BoardArea> faults = seen_along(shape.faults[way], axis_);
    std::vector<std::int64_t> starts;
    for (std::size_t c = 0; c < cells_; ++c) {
      starts.push_back(from_ + static_cast<std::int64_t>(c) * cell_);
    }
    if (cell_ > 1) {
      for (const BoardArea& fault : faults) {
        starts.push_back(fault.end_y());
      }
    }
    for (const std::int64_t y : starts) {
      if (y < from_ || y > last) {
        continue;
      }
      const std::int64_t width = item.across;
      const BoardArea band{edges.front(), y, edges.back() - kerf_ - edges.front(), width};
      const auto cell = static_cast<std::size_t>((y - from_) / cell_);
      // A strip may be seen anywhere in its width.
      const std::size_t seen_to =
          item.any_width
              ? std::min(cells_ - 1, static_cast<std::size_t>((y + width - 1 - from_) / cell_))
              : cell;
      for_each_stretch(faults, band, item.along, [&](std::int64_t low, std::int64_t high) {
        const auto first = std::ranges::lower_bound(edges, low) - edges.begin();
        for (auto b = static_cast<std::size_t>(first);
             b + 1 < edges.size() && edges[b] < high + kerf_;
             ++b) {
          for (std::size_t c = cell; c <= seen_to; ++c) {
            bands_[b].feasible[c * words_ + index / 64] |= bit;
          }
        }
      });
    }
  }
}

std::int64_t BoardLines::best_on_line(const Band& band,
                                      const std::vector<std::int64_t>& worth,
                                      std::vector<int>* chosen) const {
  // best[c]: from cell c to the end of the line; an item may reach past the end by what cells
  // round.
  std::vector<std::int64_t> best(cells_ + 1, 0);
  std::vector<int> choice(chosen != nullptr ? cells_ : 0, -1);
  for (std::size_t c = cells_; c-- > 0;) {
    std::int64_t most = best[c + 1];
    int item = -1;
    for (std::size_t w = 0; w < words_; ++w) {
      for (std::uint64_t bits = band.feasible[c * words_ + w]; bits != 0; bits &= bits - 1) {
        const std::size_t i = w * 64 + static_cast<std::size_t>(std::countr_zero(bits));
        const std::int64_t value = worth[i] + best[std::min(cells_, c + steps_[i])];
        if (value > most) {
          most = value;
          item = static_cast<int>(i);
        }
      }
    }
    best[c] = most;
    if (chosen != nullptr) {
      choice[c] = item;
    }
  }
  if (chosen != nullptr) {
    for (std::size_t c = 0; c < cells_;) {
      const int item = choice[c];
      if (item >= 0) {
        chosen->push_back(item);
      }
      c += item >= 0 ? steps_[static_cast<std::size_t>(item)] : 1;
    }
  }
  return best[0];
}

std::int64_t BoardLines::most(const std::vector<std::int64_t>& prices,
                              std::vector<double>* uses) const {
  std::vector<std::int64_t> worth(items_.size());
  std::vector<double> use_of_line(items_.size());
  for (std::size_t i = 0; i < items_.size(); ++i) {
    const LineItem& item = items_[i];
    const auto price = static_cast<double>(prices[static_cast<std::size_t>(item.block)]);
    const auto lines = static_cast<double>(item.along + kerf_);
    double of_line = item.share / lines;
    if (item.panel_net > 0) {
      // Priced by the unit of net width; cells that round may count one of the strip's too few.
      const double units = static_cast<double>(item.any_width ? cell_ : 1);
      const double strip_cells = std::floor(static_cast<double>(item.across) / units);
      const double rounding =
          cell_ == 1 || !item.any_width ? 1 : (strip_cells + 1) / std::max(1.0, strip_cells);
      const double of_unit =
          item.worth_of_width * units * rounding / static_cast<double>(item.panel_net);
      of_line = item.any_width ? of_unit / lines : of_unit;
    }
    use_of_line[i] = of_line;
    worth[i] = static_cast<std::int64_t>(
        std::ceil(price * of_line * static_cast<double>(kFine) * (1 + 1e-12)));
  }
  std::int64_t sum = 0;
  std::vector<int> chosen;
  for (const Band& band : bands_) {
    chosen.clear();
    sum += band.lines * best_on_line(band, worth, uses != nullptr ? &chosen : nullptr);
    for (const int item : chosen) {
      (*uses)[static_cast<std::size_t>(items_[static_cast<std::size_t>(item)].block)] +=
          static_cast<double>(band.lines) * use_of_line[static_cast<std::size_t>(item)];
    }
  }
  return rounded_up(sum, kFine);
}

}  // namespace plankwright::solve
