#include "stock/odds.h"

#include <algorithm>
#include <cmath>
#include <numeric>
#include <thread>

#include <fmt/format.h>

#include "measure/expression.h"
#include "solve/random.h"
#include "stock/cutting_bill.h"

namespace plankwright::stock {
namespace {

constexpr double kShares[] = {0.80, 0.95, 0.99};
constexpr double kMeanOfNormalSize = 0.797'884'560'802'865;  // sqrt(2 / pi)
constexpr std::int64_t kWorkOfOne = 250'000;

int boards_asked(const std::vector<BoardAsk>& asks) {
  return std::accumulate(
      asks.begin(), asks.end(), 0, [](int sum, const BoardAsk& ask) { return sum + ask.count; });
}

/// The boards that were asked for, largest first, and then the same again, drawn one after the
/// other. The yard answers an ask with a board that is a little longer and wider, as its stack has
/// it, and of the grade: where the faults lie nobody has seen.
class Stack {
 public:
  Stack(const wood::BoardFaults& faults, const std::vector<BoardAsk>& asks, std::uint64_t seed)
      : faults_{faults}, random_{seed} {
    for (const BoardAsk& ask : asks) {
      asked_.insert(asked_.end(), static_cast<std::size_t>(ask.count), ask);
    }
  }

  solve::RoughBoard draw() {
    solve::RoughBoard board;
    const BoardAsk& ask = asked_[drawn_++ % asked_.size()];
    board.length = size(ask.length, faults_.length_spread.count() / 100);
    board.width = size(ask.width, faults_.width_spread.count() / 100);
    const double area = static_cast<double>(board.length) * static_cast<double>(board.width);
    constexpr double kSquareFoot = 304'800.0 * 304'800.0;
    for (int i = count(faults_.per_square_foot * area / kSquareFoot); i > 0; --i) {
      board.defects.push_back(fault(board));
    }
    return board;
  }

 private:
  /// Normal enough: twelve fractions less six.
  double normal() {
    double sum = -6;
    for (int i = 0; i < 12; ++i) {
      sum += random_.fraction();
    }
    return sum;
  }

  /// At least what was asked for; of boards that are large enough, one of the smaller is taken.
  std::int64_t size(Length asked, double spread) {
    const double factor = 1 + spread / 2 * std::min(4.0, std::abs(normal()));
    return CuttingBill::micrometres_up(measure::scaled(asked, factor));
  }

  /// A count with this mean (Poisson, by the product of fractions).
  int count(double mean) {
    const double least = std::exp(-mean);
    int drawn = 0;
    for (double product = random_.fraction(); product > least && drawn < 500; ++drawn) {
      product *= random_.fraction();
    }
    return drawn;
  }

  std::int64_t extent(Length mean, std::int64_t most) {
    const double drawn = -std::log(1 - random_.fraction()) * mean.mm() * 1e3;
    return std::clamp<std::int64_t>(static_cast<std::int64_t>(drawn), 1, most);
  }

  solve::BoardDefect fault(const solve::RoughBoard& board) {
    solve::BoardDefect fault;
    fault.length = extent(faults_.length, board.length);
    fault.width = extent(faults_.width, board.width);
    const double x = random_.fraction();
    double y = random_.fraction();
    if (random_.fraction() * 100 < faults_.at_edge.count()) {
      y = y < 0.5 ? 0 : 1;
    }
    fault.x = static_cast<std::int64_t>(x * static_cast<double>(board.length - fault.length));
    fault.y = static_cast<std::int64_t>(y * static_cast<double>(board.width - fault.width));
    const double face = random_.fraction() * 100;
    fault.face = face < faults_.both_faces.count() ? solve::BoardFace::kBoth
                 : face < faults_.both_faces.count() + faults_.upper_face.count()
                     ? solve::BoardFace::kUpper
                     : solve::BoardFace::kLower;
    fault.sound = random_.fraction() * 100 < faults_.sound.count();
    return fault;
  }

  const wood::BoardFaults& faults_;
  std::vector<BoardAsk> asked_;
  std::size_t drawn_ = 0;
  solve::Random random_;
};

/// One purchase after the other, until everything can be cut.
class Purchases {
 public:
  Purchases(const CuttingBill& bill,
            const wood::BoardFaults& faults,
            const shop::SolidStock& stock,
            const std::vector<BoardAsk>& asks,
            const OddsLimits& limits)
      : bill_{bill}, faults_{faults}, stock_{stock}, asks_{asks}, limits_{limits} {}

  void make() {
    guess_ = boards_asked(asks_);
    most_ = 4 * guess_ + 12;
    needed_.assign(static_cast<std::size_t>(limits_.purchases), {});
    // Each purchase is drawn apart and written to its own place, so two threads change nothing.
    const auto make_every_other = [this](std::size_t first) {
      for (std::size_t i = first; i < needed_.size() && !limits_.stop.stop_requested(); i += 2) {
        needed_[i] = make_one(limits_.seed + i * 7'919);
      }
    };
    {
      const std::jthread other{make_every_other, std::size_t{1}};
      make_every_other(0);
    }
    std::erase_if(needed_, [](const auto& one) { return one.second == 0; });
  }

  const std::vector<std::pair<double, int>>& needed() const { return needed_; }

 private:
  /// The fewest boards of the stack, in the order drawn, that hold everything.
  std::pair<double, int> make_one(std::uint64_t seed) const {
    Stack stack{faults_, asks_, seed};
    std::vector<solve::RoughBoard> boards;
    const auto holds = [&](int count) {
      while (static_cast<int>(boards.size()) < count) {
        boards.push_back(stack.draw());
      }
      return everything_fits(boards, count);
    };
    int count = guess_;
    if (holds(count)) {
      while (count > 1 && holds(count - 1)) {
        --count;
      }
    } else {
      do {
        ++count;
      } while (!holds(count) && count < most_);
    }
    double board_feet = 0;
    for (int i = 0; i < count; ++i) {
      const solve::RoughBoard& board = boards[static_cast<std::size_t>(i)];
      board_feet += measure::board_feet(measure::volume(Length::from_nm(board.length * 1'000),
                                                        Length::from_nm(board.width * 1'000),
                                                        stock_.rough_thickness));
    }
    return {board_feet, count};
  }

  bool everything_fits(const std::vector<solve::RoughBoard>& boards, int count) const {
    solve::BoardJob job = bill_.job();
    job.boards.assign(boards.begin(), boards.begin() + count);
    solve::BoardLimits limits;
    limits.work = kWorkOfOne;
    limits.bound_share = 0;
    return solve_boards(job, limits).ok();
  }

  const CuttingBill& bill_;
  const wood::BoardFaults& faults_;
  const shop::SolidStock& stock_;
  const std::vector<BoardAsk>& asks_;
  const OddsLimits& limits_;
  int guess_ = 0;
  int most_ = 1;
  std::vector<std::pair<double, int>> needed_;
};

measure::Money trip_cost(const shop::Shop& shop) {
  const shop::LabourStandard* trip = shop.standard("buy_trip");
  const double minutes = trip != nullptr ? trip->setup.count() + trip->per_unit.count() : 0;
  return measure::scaled(shop.hour.cost, minutes / 60);
}

constexpr double kFeetInCubicMetre = 1e9 / (144.0 * 16'387.064);

double sold_board_feet(const shop::SolidStock& stock, const SolidNeed& need) {
  return need.buy_sold * (stock.sold_by == shop::SoldBy::kCubicMetre ? kFeetInCubicMetre : 1);
}

measure::Money lost_on_a_foot(const shop::Shop& shop, const shop::SolidStock& stock) {
  const double sold = stock.sold_by == shop::SoldBy::kCubicMetre ? 1 / kFeetInCubicMetre : 1;
  return measure::scaled(stock.price, sold * (1 - shop.allowances.offcut_value.count() / 100));
}

double share_under(const std::vector<std::pair<double, int>>& needed, double board_feet) {
  const auto enough = std::ranges::count_if(
      needed, [&](const auto& one) { return one.first <= board_feet + 1e-9; });
  return static_cast<double>(enough) / static_cast<double>(needed.size());
}

/// The plan is enough when the boards it asks for hold everything, however large they come, or
/// when as much wood as it buys does.
double share_of_plan(const std::vector<std::pair<double, int>>& needed,
                     double board_feet,
                     int boards) {
  const auto enough = std::ranges::count_if(needed, [&](const auto& one) {
    return one.second <= boards || one.first <= board_feet + 1e-9;
  });
  return static_cast<double>(enough) / static_cast<double>(needed.size());
}

}  // namespace

const wood::BoardFaults* faults_of_stock(const wood::BoardFaultTable& faults,
                                         const shop::SolidStock& stock) {
  const wood::BoardFaults* grade = faults_of_grade(faults, stock.grade);
  return grade == nullptr && !faults.rows().empty() ? &faults.rows().back() : grade;
}

double mean_over_ask(measure::Percent spread) {
  return 1 + spread.count() / 100 / 2 * kMeanOfNormalSize;
}

double critical_ratio(double shortage, double overbuying) {
  return shortage / (shortage + overbuying);
}

double least_costly_quantity(std::vector<double> wanted, double left_over, double trip) {
  std::ranges::sort(wanted);
  double best = 0;
  double best_cost = -1;
  double below = 0;  // sum of what is wanted up to here
  for (std::size_t i = 0; i < wanted.size(); ++i) {
    below += wanted[i];
    const auto enough = static_cast<double>(i + 1);
    const double cost = left_over * (enough * wanted[i] - below) +
                        trip * (static_cast<double>(wanted.size()) - enough);
    if (best_cost < 0 || cost < best_cost) {
      best_cost = cost;
      best = wanted[i];
    }
  }
  return best;
}

BuyingOdds odds_of_buying(const piece::Piece& piece,
                          const shop::Shop& shop,
                          const shop::SolidStock& stock,
                          const wood::BoardFaultTable& faults,
                          const SolidNeed& need,
                          const OddsLimits& limits) {
  BuyingOdds odds;
  odds.planned_board_feet = sold_board_feet(stock, need);
  odds.trip = trip_cost(shop);
  odds.left_over = lost_on_a_foot(shop, stock);
  const CuttingBill bill{piece, shop, stock, Strips::kAnyWidth, stock.board_length};
  const wood::BoardFaults* grade = faults_of_stock(faults, stock);
  const bool guessed = faults_of_grade(faults, stock.grade) == nullptr;
  if (bill.empty() || need.asks.empty() || grade == nullptr || limits.purchases <= 0) {
    return odds;
  }
  Purchases purchases{bill, *grade, stock, need.asks, limits};
  purchases.make();
  std::vector<std::pair<double, int>> needed = purchases.needed();
  if (needed.empty()) {
    return odds;
  }
  std::ranges::sort(needed);
  odds.purchases = static_cast<int>(needed.size());
  for (const double share : kShares) {
    // The order statistic that is enough for this share of purchases still to come.
    const auto place =
        static_cast<std::size_t>(std::ceil(share * static_cast<double>(needed.size() + 1)));
    const auto& enough = needed[std::min(place, needed.size()) - 1];
    odds.enough.push_back({share, enough.first, enough.second});
  }
  std::vector<double> wanted;
  for (const auto& [board_feet, boards] : needed) {
    wanted.push_back(board_feet);
  }
  odds.best_board_feet = least_costly_quantity(wanted, odds.left_over.major(), odds.trip.major());
  odds.best_odds = share_under(needed, odds.best_board_feet);
  odds.planned_odds = share_of_plan(needed, odds.planned_board_feet, boards_asked(need.asks));
  odds.from =
      fmt::format("{} purchases drawn: boards as asked for, {}{}, with faults as counted ({})",
                  odds.purchases,
                  grade->names.front(),
                  guessed ? " (the shop's grade is not in the table)" : "",
                  grade->from.source);
  return odds;
}

namespace {

/// What lies whole on boards of the rack is not bought.
piece::Piece still_to_buy(const piece::Piece& piece, const SolidNeed& need) {
  piece::Piece rest = piece;
  std::vector<int> pieces(piece.parts.size(), 0);
  for (const BoardLayout& board : need.boards) {
    for (const BoardPiece& placed : board.pieces) {
      pieces[placed.part] += board.rack.empty() ? 0 : 1;
    }
  }
  for (PartIndex i = 0; i < pieces.size(); ++i) {
    const piece::Part& part = piece.parts[i];
    if (pieces[i] > 0 && pieces[i] >= part.strips * part.layers) {
      rest.parts[i].stock.clear();
    }
  }
  return rest;
}

}  // namespace

void add_buying_odds(Stock& stock,
                     const piece::Piece& piece,
                     const shop::Shop& shop,
                     const wood::BoardFaultTable& faults,
                     const OddsLimits& limits) {
  for (SolidNeed& need : stock.solids) {
    const shop::SolidStock* solid = shop.solid(need.stock);
    if (solid == nullptr || need.asks.empty()) {
      continue;
    }
    BuyingOdds odds = odds_of_buying(still_to_buy(piece, need), shop, *solid, faults, need, limits);
    if (odds.purchases > 0) {
      need.odds = std::move(odds);
    }
  }
}

}  // namespace plankwright::stock
