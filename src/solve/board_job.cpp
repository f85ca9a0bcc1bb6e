// What can be wrong with a board job before anything is laid out.

#include <algorithm>
#include <cstdlib>

#include <fmt/format.h>

#include "solve/board_tree.h"

namespace plankwright::solve {
namespace {

constexpr std::int64_t kLongest = 10'000'000;
constexpr std::int64_t kMostMoney = 1'000'000'000'000;
constexpr std::int64_t kMostPieces = 20'000;
constexpr std::int64_t kMostBoards = 2'000;

class JobCheck {
 public:
  explicit JobCheck(const BoardJob& job) : job_{job} {}

  base::Errors errors() {
    need(job_.kerf >= 0 && job_.kerf <= kLongest, "a kerf of {}, expected none or more", job_.kerf);
    need(job_.end_trim >= 0 && job_.end_trim <= kLongest,
         "{} trimmed off the ends, expected none or more",
         job_.end_trim);
    need(job_.edge_trim >= 0 && job_.edge_trim <= kLongest,
         "{} trimmed off the edges, expected none or more",
         job_.edge_trim);
    need(!job_.boards.empty(), "no boards, expected at least one{}", "");
    for (std::size_t i = 0; i < job_.boards.size(); ++i) {
      check_board(i);
    }
    for (std::size_t i = 0; i < job_.parts.size(); ++i) {
      check_part(i);
    }
    for (std::size_t i = 0; i < job_.runs.size(); ++i) {
      check_run(i);
    }
    for (std::size_t i = 0; i < job_.panels.size(); ++i) {
      check_panel(i);
    }
    need(pieces_ <= kMostPieces,
         "{} pieces in one job, expected at most 20 000: plan it in lots",
         pieces_);
    return std::move(errors_);
  }

 private:
  template <class Format, class... Values>
  bool need(bool good, const Format& format, const Values&... values) {
    if (!good) {
      errors_.push_back(
          {base::ErrorCode::kBadInput, fmt::format(fmt::runtime(format), values...), {}, {}});
    }
    return good;
  }

  static bool is_size(std::int64_t size) { return size > 0 && size <= kLongest; }

  void check_board(std::size_t i) {
    const RoughBoard& board = job_.boards[i];
    need(is_size(board.length) && is_size(board.width),
         "board {} is {} x {}, expected sizes from 1 to 10 000 000",
         i + 1,
         board.length,
         board.width);
    need(board.price >= 0 && board.price <= kMostMoney,
         "board {} costs {}, expected none or more",
         i + 1,
         board.price);
    if (board.available) {
      need(*board.available >= 0 && *board.available <= kMostBoards,
           "board {} is there {} times, expected 0 to 2 000",
           i + 1,
           *board.available);
    } else {
      need(job_.goal == BoardGoal::kLeastMoney,
           "board {} is there as often as wanted, expected a count when the greatest value is cut",
           i + 1);
    }
    for (std::size_t d = 0; d < board.defects.size(); ++d) {
      const BoardDefect& defect = board.defects[d];
      need(defect.x >= 0 && defect.y >= 0 && defect.length > 0 && defect.width > 0 &&
               defect.length <= board.length - defect.x && defect.width <= board.width - defect.y,
           "defect {} lies outside board {}",
           d + 1,
           i + 1);
    }
  }

  void check_demand(const char* what, std::size_t i, std::int64_t demand, std::int64_t value) {
    need(demand >= 1, "{} {} is wanted {} times, expected at least once", what, i + 1, demand);
    need(value >= 0 && value <= kMostMoney,
         "{} {} is worth {}, expected none or more",
         what,
         i + 1,
         value);
    pieces_ += std::clamp<std::int64_t>(demand, 0, kMostPieces + 1);
  }

  void check_part(std::size_t i) {
    const BoardPart& part = job_.parts[i];
    check_demand("part", i, part.demand, part.value);
    need(is_size(part.length) && is_size(part.width),
         "part {} is {} x {}, expected sizes from 1 to 10 000 000",
         i + 1,
         part.length,
         part.width);
    need(part.lot_group < 10'000, "part {} is of lot group {}", i + 1, part.lot_group);
    in_runs_.push_back(0);
  }

  void check_run(std::size_t i) {
    const BoardRun& run = job_.runs[i];
    need(run.demand >= 1, "run {} is wanted {} times, expected at least once", i + 1, run.demand);
    need(!run.parts.empty(), "run {} names no parts", i + 1);
    int lot = -1;
    for (const int part : run.parts) {
      const bool known = part >= 0 && static_cast<std::size_t>(part) < job_.parts.size();
      if (!need(known, "run {} names part {}, which is not there", i + 1, part + 1)) {
        continue;
      }
      const auto p = static_cast<std::size_t>(part);
      in_runs_[p] += std::clamp<std::int64_t>(run.demand, 0, kMostPieces + 1);
      need(in_runs_[p] <= job_.parts[p].demand,
           "the runs take part {} {} times, of which {} are wanted",
           p + 1,
           in_runs_[p],
           job_.parts[p].demand);
      need(lot < 0 || job_.parts[p].lot_group < 0 || lot == job_.parts[p].lot_group,
           "run {} lies in one board, but its parts are of different lot groups",
           i + 1);
      lot = std::max(lot, job_.parts[p].lot_group);
    }
  }

  void check_panel(std::size_t i) {
    const BoardPanel& panel = job_.panels[i];
    check_demand("panel", i, panel.demand, panel.value);
    need(is_size(panel.length) && is_size(panel.width),
         "panel {} is {} x {}, expected sizes from 1 to 10 000 000",
         i + 1,
         panel.length,
         panel.width);
    need(panel.lot_group < 10'000, "panel {} is of lot group {}", i + 1, panel.lot_group);
    const bool strips = panel.joint >= 0 && panel.narrowest > panel.joint &&
                        panel.narrowest <= panel.widest && panel.widest <= kLongest;
    if (need(strips,
             "panel {} is glued from strips {} to {} wide that lose {}",
             i + 1,
             panel.narrowest,
             panel.widest,
             panel.joint)) {
      need(strips_reach(panel, panel.width),
           "panel {} is {} wide, which no number of strips {} to {} wide adds up to",
           i + 1,
           panel.width,
           panel.narrowest,
           panel.widest);
      pieces_ += panel.width / (panel.narrowest - panel.joint) *
                 std::clamp<std::int64_t>(panel.demand, 0, kMostPieces);
    }
  }

  const BoardJob& job_;
  base::Errors errors_;
  std::vector<std::int64_t> in_runs_;
  std::int64_t pieces_ = 0;
};

/// How much the nearest board is too short and too narrow.
BoardMisfit nearest_miss(const BoardProblem& problem, const Block& block, std::int64_t width) {
  BoardMisfit miss{block.part, block.run, block.panel, 0, 0};
  std::int64_t least = -1;
  for (const BoardShape& shape : problem.shapes) {
    const std::int64_t length = std::max<std::int64_t>(0, block.length - shape.usable.length);
    const std::int64_t across = std::max<std::int64_t>(0, width - shape.usable.width);
    if (least < 0 || length + across < least) {
      least = length + across;
      miss.short_length = length;
      miss.short_width = across;
    }
  }
  return miss;
}

}  // namespace

base::Errors check_board_job(const BoardJob& job) {
  return JobCheck{job}.errors();
}

std::optional<BoardMisfit> find_board_misfit(const BoardJob& job) {
  const BoardProblem problem = make_board_problem(job);
  for (const Block& block : problem.blocks) {
    const std::int64_t width = block.is_panel() ? block.parts.front().at.width : block.width;
    bool fits = false;
    for (std::size_t b = 0; b < problem.shapes.size() && !fits; ++b) {
      std::int64_t work = 0;
      fits = job.boards[b].available.value_or(1) > 0 &&
             BoardTree{problem, static_cast<int>(b)}.find(block, width, work).has_value();
    }
    if (!fits) {
      return nearest_miss(problem, block, width);
    }
  }
  return std::nullopt;
}

}  // namespace plankwright::solve
