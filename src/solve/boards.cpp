#include "solve/boards.h"

#include <algorithm>

#include <fmt/format.h>

#include "solve/board_bound.h"
#include "solve/board_exact.h"
#include "solve/board_search.h"

namespace plankwright::solve {
namespace {

constexpr std::int64_t kEpoch = 20'000'000;  // of work between two looks at the bound
constexpr double kExactShare = 0.3;

std::size_t at(int index) {
  return static_cast<std::size_t>(index);
}

base::Error misfit_error(const BoardMisfit& miss) {
  const std::string what = miss.part >= 0  ? fmt::format("part {}", miss.part + 1)
                           : miss.run >= 0 ? fmt::format("run {}", miss.run + 1)
                                           : fmt::format("a strip of panel {}", miss.panel + 1);
  if (miss.short_length == 0 && miss.short_width == 0) {
    return {base::ErrorCode::kDoesNotFit,
            fmt::format("no board has a clear place for {}", what),
            {},
            {}};
  }
  return {base::ErrorCode::kDoesNotFit,
          fmt::format("{} fits no board; the nearest is {} too short and {} too narrow",
                      what,
                      miss.short_length,
                      miss.short_width),
          {},
          {}};
}

/// Turns trees of the search into the answer's nodes. Strips of panels that are not whole are
/// waste.
class Writer {
 public:
  Writer(const BoardProblem& problem, const BoardState& state) : problem_{problem}, state_{state} {}

  void write(BoardAnswer& answer) const {
    for (const BoardTree& tree : state_.trees) {
      if (tree.held() > 0) {
        BoardNode root = node(tree, 0);
        if (holds_something(root)) {
          answer.layouts.push_back({tree.board(), std::move(root)});
        }
      }
    }
    std::ranges::stable_sort(answer.layouts, {}, &BoardLayout::board);
    for (std::size_t i = 0; i < problem_.blocks.size(); ++i) {
      leave_out(problem_.blocks[i], state_.left[i], answer);
    }
  }

 private:
  static bool holds_something(const BoardNode& node) {
    return node.role == BoardRole::kPart || node.role == BoardRole::kStrip ||
           std::ranges::any_of(node.children, holds_something);
  }

  void leave_out(const Block& block, std::int64_t left, BoardAnswer& answer) const {
    if (block.is_panel()) {
      answer.panels_left_out[at(block.panel)] += left > 0 ? 1 : 0;
      return;
    }
    for (const BlockPart& part : block.parts) {
      answer.left_out[at(part.part)] += left;
    }
  }

  BoardNode node(const BoardTree& tree, int index) const {
    const BoardTree::Node& from = tree.nodes()[at(index)];
    if (from.block >= 0 &&
        (!problem_.blocks[at(from.block)].is_panel() || state_.left[at(from.block)] == 0)) {
      return block_node(problem_, from.block, from.at, from.way);
    }
    BoardNode node;
    node.x = from.at.x;
    node.y = from.at.y;
    node.length = from.at.length;
    node.width = from.at.width;
    if (from.role == BoardRole::kCut) {
      node.role = BoardRole::kCut;
      node.along = from.along;
      for (int child = from.first; child >= 0; child = tree.nodes()[at(child)].next) {
        node.children.push_back(this->node(tree, child));
      }
    }
    return node;
  }

  const BoardProblem& problem_;
  const BoardState& state_;
};

class Solver {
 public:
  Solver(const BoardJob& job, const BoardLimits& limits)
      : job_{job},
        limits_{limits},
        problem_{make_board_problem(job)},
        search_{problem_, limits.seed},
        bound_{problem_} {
    if (limits.progress) {
      search_.progress = [this](std::int64_t cost, std::int64_t value) {
        limits_.progress({cost, value, work()});
      };
    }
  }

  base::Result<BoardAnswer> solve() {
    const bool complete = search_.start(limits_.stop);
    if (BoardExact::is_small(problem_) && try_everything()) {
      return exact_answer();
    }
    if (const auto miss = complete ? std::nullopt : find_board_misfit(job_)) {
      return misfit_error(*miss);
    }
    search_and_bound(complete);
    if (!search_.has_best()) {
      return base::Error{limits_.stop.stop_requested() ? base::ErrorCode::kCancelled
                                                       : base::ErrorCode::kDoesNotFit,
                         "no way was found to cut everything from the boards that are there",
                         {},
                         {}};
    }
    return found_answer();
  }

 private:
  bool least_money() const { return job_.goal == BoardGoal::kLeastMoney; }
  std::int64_t work() const { return search_.work() + bound_.work() + exact_work_; }

  bool try_everything() {
    BoardExact exact{problem_};
    const auto budget = static_cast<std::int64_t>(static_cast<double>(limits_.work) * kExactShare);
    auto found = exact.solve(budget, limits_.stop);
    exact_work_ = exact.work();
    if (found) {
      exact_ = std::move(*found);
    }
    return found.has_value();
  }

  base::Result<BoardAnswer> exact_answer() {
    if (!exact_.possible) {
      if (const auto miss = find_board_misfit(job_)) {
        return misfit_error(*miss);
      }
      return base::Error{base::ErrorCode::kDoesNotFit,
                         "there is no way to cut everything from the boards that are there",
                         {},
                         {}};
    }
    BoardAnswer answer = empty_answer();
    answer.layouts = exact_.layouts;
    std::ranges::stable_sort(answer.layouts, {}, &BoardLayout::board);
    answer.cost = exact_.cost;
    answer.value = exact_.value;
    answer.bound = least_money() ? answer.cost : answer.value;
    answer.proven = true;
    answer.stopped = Stopped::kProven;
    std::size_t copy = 0;
    for (const Block& block : problem_.blocks) {
      for (std::int64_t i = 0; i < block.demand; ++i, ++copy) {
        for (const BlockPart& part : block.parts) {
          answer.left_out[at(part.part)] += (exact_.held >> copy & 1U) != 0 ? 0 : 1;
        }
      }
    }
    return answer;
  }

  void search_and_bound(bool complete) {
    const auto for_bound =
        static_cast<std::int64_t>(static_cast<double>(limits_.work) * limits_.bound_share);
    while (work() < limits_.work && !limits_.stop.stop_requested()) {
      const std::int64_t target =
          least_money() ? (complete ? search_.best_cost() : money_of_all()) : search_.best_value();
      if (for_bound > 0 && bound_.work() < for_bound) {
        bound_.run(std::min(kEpoch / 2, for_bound - bound_.work()), target, limits_.stop);
      }
      if (search_.has_best() && meets(bound_now())) {
        return;
      }
      const std::int64_t spent = work();
      search_.run(std::min(kEpoch, std::max<std::int64_t>(1, limits_.work - spent)),
                  bound_now(),
                  limits_.stop);
      complete = search_.has_best();
      if (work() == spent) {
        return;
      }
    }
  }

  std::int64_t money_of_all() const {
    std::int64_t sum = 1;
    for (const RoughBoard& board : job_.boards) {
      sum += board.price * board.available.value_or(1);
    }
    return sum;
  }

  bool meets(std::int64_t bound) const {
    return least_money() ? search_.best_cost() <= bound : search_.best_value() >= bound;
  }

  /// Money rises to what boards can add up to.
  std::int64_t bound_now() {
    if (!least_money() || !search_.has_best()) {
      return bound_.bound();
    }
    if (bound_.bound() != raised_from_) {
      raised_from_ = bound_.bound();
      raised_ = reachable_money(job_, raised_from_, search_.best_cost());
    }
    return std::min(raised_, search_.best_cost());
  }

  BoardAnswer empty_answer() const {
    BoardAnswer answer;
    answer.left_out.assign(job_.parts.size(), 0);
    answer.panels_left_out.assign(job_.panels.size(), 0);
    answer.work = work();
    answer.first_work = search_.first_work();
    return answer;
  }

  BoardAnswer found_answer() {
    BoardAnswer answer = empty_answer();
    Writer{problem_, search_.best()}.write(answer);
    for (const BoardLayout& layout : answer.layouts) {
      answer.cost += job_.boards[at(layout.board)].price;
    }
    answer.value = search_.best_value();
    answer.bound = bound_now();
    answer.proven = meets(answer.bound);
    answer.stopped = answer.proven                   ? Stopped::kProven
                     : limits_.stop.stop_requested() ? Stopped::kCancelled
                                                     : Stopped::kWorkLimit;
    return answer;
  }

  const BoardJob& job_;
  BoardLimits limits_;
  BoardProblem problem_;
  BoardSearch search_;
  BoardBound bound_;
  ExactBoards exact_;
  std::int64_t exact_work_ = 0;
  std::int64_t raised_from_ = -1;
  std::int64_t raised_ = 0;
};

}  // namespace

base::Result<BoardAnswer> solve_boards(const BoardJob& job, const BoardLimits& limits) {
  base::Errors errors = check_board_job(job);
  if (!errors.empty()) {
    return errors.front();
  }
  return Solver{job, limits}.solve();
}

}  // namespace plankwright::solve
