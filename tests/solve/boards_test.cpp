#include "solve/boards.h"

#include <algorithm>
#include <numeric>
#include <string>

#include <gmock/gmock.h>
#include <gtest/gtest.h>
#include <rapidcheck.h>

#include "board_oracle.h"
#include "solve/board_bound.h"
#include "solve/board_search.h"
#include "solve/check_boards.h"

namespace plankwright::solve {
namespace {

using ::testing::HasSubstr;
using ::testing::IsEmpty;
using ::testing::SizeIs;

std::string faults_of(const BoardJob& job, const BoardAnswer& answer) {
  std::string text;
  for (const BoardFault& fault : check_boards(job, answer)) {
    text += fault.message + "; ";
  }
  return text;
}

BoardDefect random_defect(const RoughBoard& board) {
  BoardDefect defect;
  defect.x = *rc::gen::inRange<std::int64_t>(0, board.length);
  defect.y = *rc::gen::inRange<std::int64_t>(0, board.width);
  defect.length =
      *rc::gen::inRange<std::int64_t>(1, std::min<std::int64_t>(3, board.length - defect.x) + 1);
  defect.width =
      *rc::gen::inRange<std::int64_t>(1, std::min<std::int64_t>(2, board.width - defect.y) + 1);
  defect.face = *rc::gen::element(BoardFace::kUpper, BoardFace::kLower, BoardFace::kBoth);
  defect.sound = *rc::gen::arbitrary<bool>();
  return defect;
}

/// At most four pieces on boards about 9 x 4: everything can be tried.
BoardJob random_small_job() {
  BoardJob job;
  job.kerf = *rc::gen::inRange(0, 3);
  job.end_trim = *rc::gen::inRange(0, 2);
  job.edge_trim = *rc::gen::element(0, 0, 0, 1);
  job.order = *rc::gen::element(SawOrder::kEither, SawOrder::kRipFirst, SawOrder::kCrosscutFirst);
  const int boards = *rc::gen::inRange(1, 4);
  for (int b = 0; b < boards; ++b) {
    RoughBoard board;
    board.length = *rc::gen::inRange(5, 10) + 2 * job.end_trim;
    board.width = *rc::gen::inRange(2, 6) + 2 * job.edge_trim;
    board.price = *rc::gen::inRange(1, 9);
    board.available = *rc::gen::inRange(1, 3);
    const int defects = *rc::gen::inRange(0, 3);
    for (int d = 0; d < defects; ++d) {
      board.defects.push_back(random_defect(board));
    }
    job.boards.push_back(board);
  }
  const int parts = *rc::gen::inRange(1, 5);
  for (int p = 0; p < parts; ++p) {
    BoardPart part;
    part.length = *rc::gen::inRange(1, 7);
    part.width = *rc::gen::inRange(1, 4);
    part.quality =
        *rc::gen::element(Quality::kSound, Quality::kClearOneFace, Quality::kClearBothFaces);
    part.value = part.length * part.width;
    job.parts.push_back(part);
  }
  if (parts > 1 && *rc::gen::arbitrary<bool>()) {
    job.runs.push_back({{1, 0}, *rc::gen::element(Axis::kX, Axis::kY), 1});
  }
  return job;
}

// The exhaustive recursion is the referee.
TEST(SolveBoards, AgreesWithTryingEveryCutForTheLeastMoney) {
  EXPECT_TRUE(rc::check([] {
    const BoardJob job = random_small_job();
    const auto least = oracle::BoardOracle{job}.least_money();
    const auto answer = solve_boards(job);
    RC_ASSERT(answer.ok() == least.has_value());
    if (answer.ok()) {
      RC_ASSERT(faults_of(job, answer.value()) == "");
      RC_ASSERT(answer.value().cost == *least);
      RC_ASSERT(answer.value().proven);
    } else {
      RC_ASSERT(answer.error().code == base::ErrorCode::kDoesNotFit);
    }
  }));
}

TEST(SolveBoards, AgreesWithTryingEveryCutForTheGreatestValue) {
  EXPECT_TRUE(rc::check([] {
    BoardJob job = random_small_job();
    job.goal = BoardGoal::kGreatestValue;
    const std::int64_t most = oracle::BoardOracle{job}.greatest_value();
    const auto answer = solve_boards(job);
    RC_ASSERT(answer.ok());
    RC_ASSERT(faults_of(job, answer.value()) == "");
    RC_ASSERT(answer.value().value == most);
    RC_ASSERT(answer.value().proven);
  }));
}

// The search and the bound for large orders, held to the referee on small ones.
TEST(BoardSearch, StaysOnItsSideOfTheBest) {
  EXPECT_TRUE(rc::check([] {
    BoardJob job = random_small_job();
    job.goal = *rc::gen::element(BoardGoal::kLeastMoney, BoardGoal::kGreatestValue);
    const BoardProblem problem = make_board_problem(job);
    BoardSearch search{problem, 1};
    search.start({});
    search.run(3'000'000, job.goal == BoardGoal::kLeastMoney ? 0 : 1'000'000, {});
    BoardBound bound{problem};
    oracle::BoardOracle oracle{job};
    if (job.goal == BoardGoal::kLeastMoney) {
      const auto least = oracle.least_money();
      RC_ASSERT(!search.has_best() || (least && *least <= search.best_cost()));
      if (least) {
        bound.run(2'000'000, *least, {});
        RC_ASSERT(bound.bound() <= *least);
        RC_ASSERT(reachable_money(job, bound.bound(), *least) <= *least);
      }
    } else {
      const std::int64_t most = oracle.greatest_value();
      RC_ASSERT(search.best_value() <= most);
      bound.run(2'000'000, most, {});
      RC_ASSERT(bound.bound() >= most);
    }
  }));
}

BoardJob random_shop_job() {
  BoardJob job;
  job.kerf = 3;
  job.end_trim = *rc::gen::element(0, 20);
  job.edge_trim = *rc::gen::element(0, 5);
  job.order = *rc::gen::element(SawOrder::kEither, SawOrder::kRipFirst, SawOrder::kCrosscutFirst);
  const int boards = *rc::gen::inRange(4, 12);
  for (int b = 0; b < boards; ++b) {
    RoughBoard board;
    board.length = *rc::gen::inRange(1500, 3500);
    board.width = *rc::gen::inRange(110, 300);
    board.price = board.length * board.width / 1000;
    board.lot = b % 2;
    const int defects = *rc::gen::inRange(0, 5);
    for (int d = 0; d < defects; ++d) {
      BoardDefect defect = random_defect(board);
      defect.length = std::min<std::int64_t>(*rc::gen::inRange(5, 300), board.length - defect.x);
      defect.width = std::min<std::int64_t>(*rc::gen::inRange(5, 60), board.width - defect.y);
      board.defects.push_back(defect);
    }
    job.boards.push_back(board);
  }
  const int parts = *rc::gen::inRange(2, 9);
  for (int p = 0; p < parts; ++p) {
    BoardPart part;
    part.length = *rc::gen::inRange(150, 900);
    part.width = *rc::gen::inRange(30, 100);
    part.quality =
        *rc::gen::element(Quality::kSound, Quality::kClearOneFace, Quality::kClearBothFaces);
    part.demand = *rc::gen::inRange(1, 4);
    part.value = part.length * part.width;
    part.lot_group = *rc::gen::element(-1, -1, 0);
    job.parts.push_back(part);
  }
  job.parts[0].lot_group = job.parts[1].lot_group;
  job.runs.push_back({{0, 1}, *rc::gen::element(Axis::kX, Axis::kY), 1});
  BoardPanel panel;
  panel.length = *rc::gen::inRange(300, 900);
  panel.narrowest = 60;
  panel.widest = 140;
  panel.joint = 4;
  panel.width = *rc::gen::inRange(150, 500);
  panel.value = panel.length * panel.width;
  panel.lot_group = *rc::gen::element(-1, 1);
  if (strips_reach(panel, panel.width)) {
    job.panels.push_back(panel);
  }
  return job;
}

TEST(SolveBoards, CutsRunsPanelsAndLotsSoundly) {
  EXPECT_TRUE(rc::check([] {
    BoardJob job = random_shop_job();
    job.goal = *rc::gen::element(BoardGoal::kLeastMoney, BoardGoal::kGreatestValue);
    BoardLimits limits;
    limits.work = 15'000'000;
    const auto answer = solve_boards(job, limits);
    if (job.goal == BoardGoal::kGreatestValue) {
      RC_ASSERT(answer.ok());
    }
    if (answer.ok()) {
      RC_ASSERT(faults_of(job, answer.value()) == "");
    }
  }));
}

BoardJob mirrored(BoardJob job) {
  for (RoughBoard& board : job.boards) {
    for (BoardDefect& defect : board.defects) {
      defect.x = board.length - defect.x - defect.length;
    }
  }
  for (BoardRun& run : job.runs) {
    if (run.along == Axis::kX) {
      std::ranges::reverse(run.parts);
    }
  }
  return job;
}

BoardJob scaled(BoardJob job, std::int64_t times) {
  for (std::int64_t* size : {&job.kerf, &job.end_trim, &job.edge_trim}) {
    *size *= times;
  }
  for (RoughBoard& board : job.boards) {
    board.length *= times;
    board.width *= times;
    for (BoardDefect& d : board.defects) {
      d = {d.x * times, d.y * times, d.length * times, d.width * times, d.face, d.sound};
    }
  }
  for (BoardPart& part : job.parts) {
    part.length *= times;
    part.width *= times;
  }
  return job;
}

BoardJob reversed(BoardJob job) {
  std::ranges::reverse(job.parts);
  std::ranges::reverse(job.boards);
  for (BoardRun& run : job.runs) {
    for (int& part : run.parts) {
      part = static_cast<int>(job.parts.size()) - 1 - part;
    }
  }
  return job;
}

std::int64_t cost_of(const BoardJob& job) {
  const auto answer = solve_boards(job);
  return answer.ok() ? answer.value().cost : -1;
}

TEST(SolveBoards, CareNeitherForEndsNorUnitsNorOrder) {
  EXPECT_TRUE(rc::check([] {
    BoardJob job = random_small_job();
    for (BoardRun& run : job.runs) {
      run.along = Axis::kX;  // side by side, the lower ends are flush: another order in the mirror
    }
    const std::int64_t cost = cost_of(job);
    RC_ASSERT(cost_of(mirrored(job)) == cost);
    RC_ASSERT(cost_of(scaled(job, 7)) == cost);
    RC_ASSERT(cost_of(reversed(job)) == cost);
  }));
}

TEST(SolveBoards, NeverGainFromOneMoreFault) {
  EXPECT_TRUE(rc::check([] {
    BoardJob job = random_small_job();
    job.goal = BoardGoal::kGreatestValue;
    const std::int64_t before = solve_boards(job).value().value;
    RoughBoard& board = job.boards.front();
    board.defects.push_back(random_defect(board));
    RC_ASSERT(solve_boards(job).value().value <= before);
  }));
}

RoughBoard board_of(std::int64_t length, std::int64_t width, std::int64_t price) {
  RoughBoard board;
  board.length = length;
  board.width = width;
  board.price = price;
  return board;
}

// Four drawer fronts end to end: 4 x 16 1/8 + 3 x 1/8 = 64 7/8 in of one board 7 1/4 wide, in
// sixteenths 1038 by 116 (worked by hand); one sixteenth less does not do.
TEST(SolveBoards, LayDrawerFrontsEndToEndInOneBoard) {
  BoardJob job;
  job.kerf = 2;
  job.boards = {board_of(1038, 116, 100)};
  for (const std::int64_t width : {70, 84, 98, 114}) {
    job.parts.push_back({258, width, Quality::kClearOneFace, 1, 0, -1});
  }
  job.runs = {{{0, 1, 2, 3}, Axis::kX, 1}};
  const auto answer = solve_boards(job);
  ASSERT_TRUE(answer.ok());
  EXPECT_EQ(faults_of(job, answer.value()), "");
  job.boards = {board_of(1037, 116, 100)};
  EXPECT_FALSE(solve_boards(job).ok());
}

// A top 950 wide of strips 100 to 150 that lose 8 each: seven strips of 143 5/7 would do exactly.
TEST(SolveBoards, GlueATopFromStripsOfAnyWidth) {
  BoardJob job;
  job.kerf = 3;
  for (int i = 0; i < 8; ++i) {
    job.boards.push_back(board_of(2200, 150, 30));
  }
  BoardPanel top;
  top.length = 2125;
  top.width = 950;
  top.narrowest = 100;
  top.widest = 150;
  top.joint = 8;
  job.panels = {top};
  const auto answer = solve_boards(job);
  ASSERT_TRUE(answer.ok());
  EXPECT_EQ(faults_of(job, answer.value()), "");
  EXPECT_THAT(answer.value().layouts, SizeIs(7));  // 6 x 142 = 852 < 950 <= 7 x 142
}

TEST(SolveBoards, TakeATopFromOneLot) {
  BoardJob job;
  for (int i = 0; i < 4; ++i) {
    job.boards.push_back(board_of(1000, 100, 10 + i));
    job.boards.back().lot = i % 2;
  }
  job.parts = {{1000, 100, Quality::kClearOneFace, 2, 0, 0}};
  const auto answer = solve_boards(job);
  ASSERT_TRUE(answer.ok());
  EXPECT_EQ(answer.value().cost, 10 + 12);
  EXPECT_EQ(faults_of(job, answer.value()), "");
}

TEST(SolveBoards, SawInTheOrderThatWasAskedFor) {
  // Two rows of different lengths: only ripping first gets 60 + 40 beside 50 + 50 out of 100 x 20.
  BoardJob job;
  job.boards = {board_of(100, 20, 1)};
  job.parts = {{60, 10, Quality::kSound, 1, 0, -1},
               {40, 10, Quality::kSound, 1, 0, -1},
               {50, 10, Quality::kSound, 2, 0, -1}};
  job.order = SawOrder::kRipFirst;
  EXPECT_TRUE(solve_boards(job).ok());
  job.boards[0].defects = {{50, 0, 1, 20, BoardFace::kBoth, false}};
  EXPECT_FALSE(solve_boards(job).ok());
}

TEST(SolveBoards, GiveTheSameAnswerTwiceAndStopWhenAsked) {
  BoardJob job;
  job.kerf = 3;
  for (int i = 0; i < 6; ++i) {
    job.boards.push_back(board_of(2400 + 100 * i, 150 + 10 * i, 40 + i));
    job.boards.back().defects = {{500 + 90 * i, 20, 60, 30, BoardFace::kUpper, false}};
  }
  for (int i = 0; i < 12; ++i) {
    job.parts.push_back({300 + 37 * i, 40 + 5 * i, Quality::kClearOneFace, 2, 10, -1});
  }
  BoardLimits limits;
  limits.work = 30'000'000;
  const auto once = solve_boards(job, limits);
  const auto again = solve_boards(job, limits);
  ASSERT_TRUE(once.ok() && again.ok());
  EXPECT_EQ(once.value().cost, again.value().cost);
  EXPECT_EQ(once.value().bound, again.value().bound);
  EXPECT_EQ(once.value().work, again.value().work);
  std::stop_source source;
  limits.work = std::int64_t{1} << 60;
  limits.progress = [&](const BoardProgress&) { source.request_stop(); };
  limits.stop = source.get_token();
  const auto stopped = solve_boards(job, limits);
  ASSERT_TRUE(stopped.ok());
  EXPECT_EQ(faults_of(job, stopped.value()), "");
}

struct BadJob {
  std::string_view why;
  void (*spoil)(BoardJob&);
  std::string_view says;
};

TEST(SolveBoards, RefuseWhatCannotBeMeant) {
  const BadJob cases[] = {
      {"kerf", [](BoardJob& j) { j.kerf = -1; }, "a kerf of -1"},
      {"demand", [](BoardJob& j) { j.parts[0].demand = 0; }, "part 1 is wanted 0 times"},
      {"size", [](BoardJob& j) { j.parts[0].width = 0; }, "part 1 is 50 x 0"},
      {"defect",
       [](BoardJob& j) {
         j.boards[0].defects = {{90, 0, 20, 5, BoardFace::kBoth, false}};
       },
       "defect 1 lies outside board 1"},
      {"many", [](BoardJob& j) { j.parts[0].demand = 1'000'000; }, "expected at most 20 000"},
      {"run",
       [](BoardJob& j) {
         j.runs = {{{0, 7}, Axis::kX, 1}};
       },
       "names part 8"},
      {"run demand",
       [](BoardJob& j) {
         j.runs = {{{0, 0, 0}, Axis::kX, 1}};
       },
       "the runs take"},
      {"panel",
       [](BoardJob& j) {
         j.panels = {{50, 100, 60, 70, 5, Quality::kSound, 1, 0, -1}};
       },
       "no number of strips"},
      {"endless",
       [](BoardJob& j) {
         j.goal = BoardGoal::kGreatestValue;
         j.boards[0].available = std::nullopt;
       },
       "as often as wanted"},
      {"no boards", [](BoardJob& j) { j.boards.clear(); }, "no boards"},
      {"too long", [](BoardJob& j) { j.parts[0].length = 130; }, "30 too short and 0 too narrow"}};
  for (const BadJob& c : cases) {
    SCOPED_TRACE(c.why);
    BoardJob job;
    job.boards = {board_of(100, 20, 1)};
    job.parts = {{50, 10, Quality::kClearOneFace, 2, 0, -1}};
    c.spoil(job);
    const auto answer = solve_boards(job);
    ASSERT_FALSE(answer.ok());
    EXPECT_THAT(answer.error().message, HasSubstr(std::string{c.says}));
  }
}

// 3 boards at 7 each and one at 5: sums 0 5 7 12 14 19 21 26.
TEST(ReachableMoney, RisesToWhatBoardsAddUpTo) {
  BoardJob job;
  job.boards = {board_of(1, 1, 7), board_of(1, 1, 5)};
  job.boards[0].available = 3;
  EXPECT_EQ(reachable_money(job, 6, 26), 7);
  EXPECT_EQ(reachable_money(job, 8, 26), 12);
  EXPECT_EQ(reachable_money(job, 13, 26), 14);
  EXPECT_EQ(reachable_money(job, 22, 26), 26);
}

}  // namespace
}  // namespace plankwright::solve
