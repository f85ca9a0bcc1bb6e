// Boards out of the rack: parts lie on them where that is cheaper than new wood.

#include <algorithm>
#include <cmath>
#include <optional>

#include "stock/cutting_bill.h"

namespace plankwright::stock {
namespace {

struct RackBoards {
  std::vector<solve::RoughBoard> boards;
  std::vector<const shop::RackPiece*> pieces;  // of each
};

RackBoards boards_of(const shop::Shop& shop, const shop::SolidStock& stock) {
  RackBoards rack;
  for (const shop::RackPiece& piece : shop.rack) {
    if (piece.stock == stock.id) {
      solve::RoughBoard board;
      board.length = CuttingBill::micrometres_down(piece.length);
      board.width = CuttingBill::micrometres_down(piece.width);
      board.price = piece.value.minor();
      board.available = piece.count;
      rack.boards.push_back(std::move(board));
      rack.pieces.push_back(&piece);
    }
  }
  return rack;
}

/// What a part would cost as new wood, with the loss that comes with it.
std::int64_t new_wood(const solve::BoardPart& part, const shop::SolidStock& stock) {
  const auto price =
      board_price(stock, Length::from_nm(part.length * 1'000), Length::from_nm(part.width * 1'000));
  return std::max<std::int64_t>(
      1, std::llround(static_cast<double>(price) * std::max(1.0, stock.buy_factor)));
}

void collect_rests(const solve::BoardNode& node,
                   const shop::RackPiece& piece,
                   const shop::Allowances& rule,
                   std::vector<Offcut>& rests) {
  const auto length = [](std::int64_t um) { return Length::from_nm(um * 1'000); };
  if (node.role == solve::BoardRole::kWaste && length(node.length) >= rule.offcut_length &&
      length(node.width) >= rule.offcut_width) {
    const double share = measure::area(length(node.length), length(node.width)).count() /
                         measure::area(piece.length, piece.width).count();
    rests.push_back({length(node.x),
                     length(node.y),
                     length(node.length),
                     length(node.width),
                     measure::scaled(piece.value, share)});
  }
  for (const solve::BoardNode& child : node.children) {
    collect_rests(child, piece, rule, rests);
  }
}

void count_parts(const solve::BoardNode& node, std::vector<std::int64_t>& left_out) {
  if (node.role == solve::BoardRole::kPart) {
    --left_out[static_cast<std::size_t>(node.part)];
  }
  for (const solve::BoardNode& child : node.children) {
    count_parts(child, left_out);
  }
}

std::int64_t worth_of(const solve::BoardNode& node, const solve::BoardJob& job) {
  std::int64_t worth = node.role == solve::BoardRole::kPart
                           ? job.parts[static_cast<std::size_t>(node.part)].value
                           : 0;
  for (const solve::BoardNode& child : node.children) {
    worth += worth_of(child, job);
  }
  return worth;
}

Money value_of(const std::vector<Offcut>& rests) {
  Money sum;
  for (const Offcut& rest : rests) {
    sum += rest.value;
  }
  return sum;
}

/// Leaves those boards in the rack whose parts would cost less as new wood. False when none are.
bool leave_what_does_not_pay(const solve::BoardAnswer& answer,
                             const RackBoards& rack,
                             const shop::Allowances& rule,
                             solve::BoardJob& job) {
  bool left = false;
  for (const solve::BoardLayout& layout : answer.layouts) {
    const auto board = static_cast<std::size_t>(layout.board);
    std::vector<Offcut> rests;
    collect_rests(layout.root, *rack.pieces[board], rule, rests);
    if (worth_of(layout.root, job) <= (rack.pieces[board]->value - value_of(rests)).minor()) {
      job.boards[board].available = job.boards[board].available.value_or(1) - 1;
      left = true;
    }
  }
  return left;
}

/// The parts that are worth most as new wood, on boards that are worth being cut for them.
std::optional<solve::BoardAnswer> best_on_the_rack(solve::BoardJob& job,
                                                   const RackBoards& rack,
                                                   const shop::Shop& shop,
                                                   double work) {
  constexpr double kFirstAnswer = 3e6;
  constexpr int kMostRounds = 12;
  solve::BoardLimits limits;
  limits.work = static_cast<std::int64_t>(kFirstAnswer * work);
  limits.bound_share = 0;
  for (int round = 0; round < kMostRounds; ++round) {
    std::optional<solve::BoardAnswer> answer = boards_laid_out(job, limits);
    if (!answer || answer->layouts.empty()) {
      return std::nullopt;
    }
    if (!leave_what_does_not_pay(*answer, rack, shop.allowances, job)) {
      return answer;
    }
  }
  return std::nullopt;
}

}  // namespace

std::vector<BoardLayout> lay_on_the_rack(CuttingBill& bill,
                                         const shop::Shop& shop,
                                         const shop::SolidStock& stock,
                                         double work) {
  const RackBoards rack = boards_of(shop, stock);
  solve::BoardJob job = bill.job();
  job.panels.clear();  // glued from one lot, which the boards of a tally are
  if (rack.boards.empty() || job.parts.empty()) {
    return {};
  }
  job.boards = rack.boards;
  job.goal = solve::BoardGoal::kGreatestValue;
  for (solve::BoardPart& part : job.parts) {
    part.value = new_wood(part, stock);
  }
  std::optional<solve::BoardAnswer> answer = best_on_the_rack(job, rack, shop, work);
  if (!answer) {
    return {};
  }
  answer->panels_left_out.assign(bill.job().panels.size(), 1);
  std::vector<BoardLayout> layouts = bill.layouts(*answer, job.boards);
  for (std::size_t i = 0; i < layouts.size(); ++i) {
    const shop::RackPiece& piece = *rack.pieces[static_cast<std::size_t>(answer->layouts[i].board)];
    layouts[i].rack = piece.label;
    collect_rests(answer->layouts[i].root, piece, shop.allowances, layouts[i].rests);
  }
  bill = bill.missing(*answer);
  return layouts;
}

}  // namespace plankwright::stock
