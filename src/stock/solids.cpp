#include <algorithm>
#include <cmath>
#include <numeric>

#include <fmt/format.h>

#include "stock/cutting_bill.h"
#include "stock/odds.h"
#include "stock/parts.h"

namespace plankwright::stock {
namespace {

constexpr double kUsualWork = 1.5e6;  // about as many nanoseconds for a first answer

double board_feet_of(const std::vector<BoardLayout>& boards, const shop::SolidStock& stock) {
  double sum = 0;
  for (const BoardLayout& board : boards) {
    sum += measure::board_feet(measure::volume(board.length, board.width, stock.rough_thickness));
  }
  return sum;
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
}

/// The largest board asked for, again.
void ask_for_spares(std::vector<BoardAsk>& asks, int count) {
  if (asks.empty() || count <= 0) {
    return;
  }
  BoardAsk spare = *std::ranges::max_element(
      asks, {}, [](const BoardAsk& ask) { return measure::area(ask.length, ask.width).count(); });
  spare.count = count;
  spare.spare = true;
  spare.why = "a spare, for what a board hides";
  asks.push_back(std::move(spare));
}

/// The boards asked for, each a little over its size, as boards of its grade come.
double asked_board_feet(const std::vector<BoardAsk>& asks,
                        const shop::SolidStock& stock,
                        const wood::BoardFaultTable& faults) {
  double sum = 0;
  for (const BoardAsk& ask : asks) {
    sum += ask.count *
           measure::board_feet(measure::volume(ask.length, ask.width, stock.rough_thickness));
  }
  const wood::BoardFaults* grade = faults_of_stock(faults, stock);
  return grade == nullptr
             ? sum
             : sum * mean_over_ask(grade->length_spread) * mean_over_ask(grade->width_spread);
}

/// Rough volume of what lies on these boards.
double board_feet_on(const std::vector<BoardLayout>& boards, const shop::SolidStock& stock) {
  double sum = 0;
  for (const BoardLayout& board : boards) {
    for (const BoardPiece& piece : board.pieces) {
      sum += measure::board_feet(measure::volume(piece.length, piece.width, stock.rough_thickness));
    }
  }
  return sum;
}

void reckon_quantity(SolidNeed& need,
                     const shop::SolidStock& stock,
                     const wood::BoardFaultTable& faults) {
  need.asked_board_feet = asked_board_feet(need.asks, stock, faults);
  double seen = 0;
  for (const BoardLayout& board : need.boards) {
    if (board.tallied()) {
      seen +=
          measure::board_feet(measure::volume(board.length, board.width, stock.rough_thickness));
    }
  }
  constexpr double kNothing = 1e-4;  // pieces on boards are rounded up to a micrometre
  double rough = need.rough_board_feet - need.rack_board_feet;
  rough = rough > kNothing ? rough : 0;
  const double by_factor = rough * stock.buy_factor;
  const int count = std::accumulate(
      need.asks.begin(), need.asks.end(), 0, [](int sum, const auto& a) { return sum + a.count; });
  if (seen > 0) {
    need.buy_board_feet = seen + need.asked_board_feet;
    need.from =
        fmt::format("{:.1f} board feet of tallied boards and {} asked for as they come, {:.1f}",
                    seen,
                    count,
                    need.asked_board_feet);
  } else if (need.asked_board_feet > by_factor) {
    need.buy_board_feet = need.asked_board_feet;
    need.from = fmt::format(
        "{} board{} asked for, as large as they come: {:.1f} board feet (the parts rough: {:.1f})",
        count,
        count == 1 ? "" : "s",
        need.asked_board_feet,
        rough);
  } else {
    need.buy_board_feet = by_factor;
    need.from = fmt::format(
        "{:.1f} board feet rough x {:.2f} for grade, colour and a spare", rough, stock.buy_factor);
  }
  if (need.rack_board_feet > 0) {
    need.from += fmt::format("; {:.1f} board feet rough out of the rack", need.rack_board_feet);
  }
}

void price_it(SolidNeed& need, const shop::SolidStock& stock) {
  constexpr double kBoardFeetInCubicMetre = 1e9 / (144.0 * 16'387.064);
  const bool cubic = stock.sold_by == shop::SoldBy::kCubicMetre;
  if (need.buy_board_feet <= 0 && need.rack_board_feet > 0) {
    return;  // all of it stands in the rack
  }
  const double wanted = std::max(
      stock.least, cubic ? need.buy_board_feet / kBoardFeetInCubicMetre : need.buy_board_feet);
  need.buy_sold = stock.step > 0 ? std::ceil(wanted / stock.step - 1e-9) * stock.step : wanted;
  need.price = measure::scaled(stock.price, need.buy_sold);
}

void lay_on_tallied_boards(SolidNeed& need,
                           CuttingBill& bill,
                           const std::vector<solve::RoughBoard>& boards,
                           const std::vector<int>& lines,
                           double work) {
  bill.value_show_parts_first();
  solve::BoardJob job = bill.job();
  job.boards = boards;
  job.goal = solve::BoardGoal::kGreatestValue;
  solve::BoardLimits limits;
  limits.work = static_cast<std::int64_t>(20 * kUsualWork * work);
  limits.bound_share = 0.1;
  const auto answer = boards_laid_out(job, limits);
  if (!answer) {
    return;  // nothing of the tally holds anything
  }
  std::vector<BoardLayout> laid = bill.layouts(*answer, boards);
  for (std::size_t i = 0; i < laid.size(); ++i) {
    laid[i].line = lines[static_cast<std::size_t>(answer->layouts[i].board)];
  }
  std::ranges::move(laid, std::back_inserter(need.boards));
  bill = bill.missing(*answer);
}

/// The rest, or all, on boards of the usual size.
void lay_on_usual_boards(SolidNeed& need,
                         const CuttingBill& bill,
                         const shop::SolidStock& stock,
                         double work) {
  solve::BoardJob job = bill.job();
  job.boards = usual_boards(bill, stock);
  solve::BoardLimits limits;
  limits.work = static_cast<std::int64_t>(kUsualWork * work);
  const auto answer = boards_laid_out(job, limits);
  if (!answer) {
    return;
  }
  std::vector<BoardLayout> laid = bill.layouts(*answer, job.boards);
  std::ranges::stable_sort(laid, std::ranges::greater{}, &BoardLayout::length);
  need.laid_board_feet = board_feet_of(laid, stock);
  need.bound_board_feet = need.laid_board_feet * static_cast<double>(answer->bound) /
                          static_cast<double>(std::max<std::int64_t>(1, answer->cost));
  need.proven = answer->proven;
  std::ranges::move(laid, std::back_inserter(need.boards));
}

enum class UseRack { kNo, kYes };

SolidNeed laid_and_bought(const piece::Piece& piece,
                          const shop::Shop& shop,
                          const shop::SolidStock& stock,
                          double work,
                          const Tally& tally,
                          const wood::BoardFaultTable& faults,
                          UseRack use) {
  SolidNeed need;
  need.stock = stock.id;
  reckon_volumes(need, piece, stock);
  const std::vector<solve::RoughBoard> tallied = tallied_boards(tally, stock);
  Length longest = stock.board_length;
  for (const solve::RoughBoard& board : tallied) {
    longest = std::max(longest, Length::from_nm(board.length * 1'000));
  }
  CuttingBill bill{
      piece, shop, stock, tallied.empty() ? Strips::kAlike : Strips::kAnyWidth, longest};
  if (use == UseRack::kYes) {
    need.boards = lay_on_the_rack(bill, shop, stock, work);
    need.rack_board_feet = board_feet_on(need.boards, stock);
  }
  if (!tallied.empty()) {
    std::vector<int> lines;
    for (const TallyBoard& board : tally) {
      if (board.stock == stock.id) {
        lines.push_back(board.at.line);
      }
    }
    lay_on_tallied_boards(need, bill, tallied, lines, work);
  }
  if (!bill.empty()) {
    const std::size_t first = need.boards.size();
    lay_on_usual_boards(need, bill, stock, work);
    const std::vector<BoardLayout> usual{need.boards.begin() + static_cast<std::ptrdiff_t>(first),
                                         need.boards.end()};
    need.asks = asks_for(usual, piece, shop.unit == measure::LengthUnit::kInch);
    ask_for_spares(need.asks, shop.allowances.spare_boards);
  }
  reckon_quantity(need, stock, faults);
  price_it(need, stock);
  return need;
}

/// What the boards cost in all: bought and out of the rack, less what goes back into it.
Money spent(const SolidNeed& need, const shop::Shop& shop) {
  Money sum = need.price;
  for (const BoardLayout& board : need.boards) {
    const auto piece = std::ranges::find(shop.rack, board.rack, &shop::RackPiece::label);
    if (!board.rack.empty() && piece != shop.rack.end()) {
      sum += piece->value;
    }
    for (const Offcut& rest : board.rests) {
      sum -= rest.value;
    }
  }
  return sum;
}

}  // namespace

SolidNeed solid_need(const piece::Piece& piece,
                     const shop::Shop& shop,
                     const shop::SolidStock& stock,
                     double work,
                     const Tally& tally,
                     const wood::BoardFaultTable& faults) {
  SolidNeed need = laid_and_bought(piece, shop, stock, work, tally, faults, UseRack::kNo);
  if (std::ranges::find(shop.rack, stock.id, &shop::RackPiece::stock) != shop.rack.end()) {
    SolidNeed with_rack = laid_and_bought(piece, shop, stock, work, tally, faults, UseRack::kYes);
    if (with_rack.rack_board_feet > 0 && spent(with_rack, shop) < spent(need, shop)) {
      need = std::move(with_rack);
    }
  }
  return need;
}

}  // namespace plankwright::stock
