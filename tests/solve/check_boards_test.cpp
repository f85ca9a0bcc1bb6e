#include "solve/check_boards.h"

#include <algorithm>
#include <string>
#include <vector>

#include <gmock/gmock.h>
#include <gtest/gtest.h>

namespace plankwright::solve {
namespace {

/// A board 100 x 20 (trimmed 2 at the ends, 1 at the edges) with a run of two parts end to end, and
/// one 100 x 10 with two strips of a panel.
BoardJob job_in_hand() {
  BoardJob job;
  job.kerf = 2;
  job.end_trim = 2;
  job.edge_trim = 1;
  RoughBoard board;
  board.length = 104;
  board.width = 22;
  board.price = 7;
  board.defects = {{90, 5, 4, 4, BoardFace::kLower, true}, {5, 15, 10, 3, BoardFace::kBoth, false}};
  job.boards = {board, board};
  job.boards[1].defects.clear();
  job.parts = {{30, 10, Quality::kClearOneFace, 1, 5, -1},
               {40, 10, Quality::kClearOneFace, 2, 6, 0}};
  job.runs = {{{0, 1}, Axis::kX, 1}};
  job.panels = {{50, 15, 8, 10, 1, Quality::kSound, 1, 9, -1}};
  return job;
}

BoardNode node(std::int64_t x,
               std::int64_t y,
               std::int64_t length,
               std::int64_t width,
               BoardRole role = BoardRole::kWaste) {
  BoardNode made;
  made.x = x;
  made.y = y;
  made.length = length;
  made.width = width;
  made.role = role;
  return made;
}

BoardNode part(std::int64_t x, std::int64_t y, int index, std::int64_t length) {
  BoardNode made = node(x, y, length, 10, BoardRole::kPart);
  made.part = index;
  made.face = BoardFace::kUpper;
  return made;
}

BoardNode cut(BoardNode at, Axis along, std::vector<BoardNode> children) {
  at.role = BoardRole::kCut;
  at.along = along;
  at.children = std::move(children);
  return at;
}

BoardNode strip(std::int64_t y, std::int64_t width) {
  BoardNode made = node(52, y, 50, width, BoardRole::kStrip);
  made.panel = 0;
  return made;
}

/// Sawn by hand. Board 0: ripped at 11, the run of 30 + 2 + 40 and a single 40 do not both fit in
/// one strip, so the single part lies on board 1 beside the panel's strips (9 and 8: 17 - 2 = 15).
BoardAnswer answer_in_hand() {
  BoardNode run = cut(node(2, 1, 72, 10), Axis::kX, {part(2, 1, 0, 30), part(34, 1, 1, 40)});
  run.run = 0;
  const BoardNode first =
      cut(node(2, 1, 100, 20),
          Axis::kY,
          {cut(node(2, 1, 100, 10), Axis::kX, {run, node(76, 1, 26, 10)}), node(2, 13, 100, 8)});
  const BoardNode second =
      cut(node(2, 1, 100, 20),
          Axis::kX,
          {cut(node(2, 1, 48, 20),
               Axis::kY,
               {cut(node(2, 1, 48, 10), Axis::kX, {part(2, 1, 1, 40), node(44, 1, 6, 10)}),
                node(2, 13, 48, 8)}),
           cut(node(52, 1, 50, 20), Axis::kY, {strip(1, 9), strip(12, 8)})});
  BoardAnswer answer;
  answer.layouts = {{0, first}, {1, second}};
  answer.cost = 14;
  answer.value = 5 + 6 + 6 + 9;
  answer.bound = 14;
  answer.proven = true;
  answer.left_out = {0, 0};
  answer.panels_left_out = {0};
  return answer;
}

TEST(CheckBoards, FindsNothingWrongWithASoundLayout) {
  const auto faults = check_boards(job_in_hand(), answer_in_hand());
  for (const BoardFault& fault : faults) {
    ADD_FAILURE() << fault.message;
  }
}

struct Broken {
  std::string_view why;
  void (*spoil)(BoardJob&, BoardAnswer&);
  BoardFaultKind kind;
};

BoardNode& run_of(BoardAnswer& answer) {
  return answer.layouts[0].root.children[0].children[0];
}
BoardNode& strips_of(BoardAnswer& answer) {
  return answer.layouts[1].root.children[1];
}

TEST(CheckBoards, FindsEachKindOfFault) {
  using Kind = BoardFaultKind;
  const Broken cases[] = {
      {"a part twice",
       [](BoardJob&, BoardAnswer& a) { strips_of(a).children.push_back(part(52, 22, 1, 40)); },
       Kind::kMissingPart},
      {"a part not cut",
       [](BoardJob&, BoardAnswer& a) {
         a.layouts[1].root.children[0].children[0].children[0].role = BoardRole::kWaste;
       },
       Kind::kMissingPart},
      {"left out without saying so",
       [](BoardJob&, BoardAnswer& a) { a.left_out.clear(); },
       Kind::kMissingPart},
      {"too short", [](BoardJob& j, BoardAnswer&) { j.parts[0].length = 31; }, Kind::kWrongSize},
      {"across the grain",
       [](BoardJob& j, BoardAnswer&) { std::swap(j.parts[0].length, j.parts[0].width); },
       Kind::kWrongSize},
      {"wood unaccounted for",
       [](BoardJob&, BoardAnswer& a) { a.layouts[0].root.children.pop_back(); },
       Kind::kNotGuillotine},
      {"a cut that stops",
       [](BoardJob&, BoardAnswer& a) { a.layouts[0].root.children[1].length = 50; },
       Kind::kNotGuillotine},
      {"no room for the blade", [](BoardJob& j, BoardAnswer&) { j.kerf = 3; }, Kind::kKerf},
      {"untrimmed", [](BoardJob& j, BoardAnswer&) { j.end_trim = 3; }, Kind::kTrim},
      {"a knot in a clear part",
       [](BoardJob& j, BoardAnswer&) {
         j.boards[0].defects = {{10, 5, 2, 2, BoardFace::kUpper, true}};
       },
       Kind::kDefect},
      {"a hole behind a clear face",
       [](BoardJob& j, BoardAnswer&) {
         j.boards[0].defects = {{10, 5, 2, 2, BoardFace::kLower, false}};
       },
       Kind::kDefect},
      {"a tight knot behind a part clear on both faces",
       [](BoardJob& j, BoardAnswer&) {
         j.boards[0].defects = {{10, 5, 2, 2, BoardFace::kLower, true}};
         j.parts[0].quality = Quality::kClearBothFaces;
       },
       Kind::kDefect},
      {"decay in a sound strip",
       [](BoardJob& j, BoardAnswer&) {
         j.boards[1].defects = {{60, 5, 2, 2, BoardFace::kBoth, false}};
       },
       Kind::kDefect},
      {"a run in the wrong order",
       [](BoardJob& j, BoardAnswer&) {
         j.runs[0].parts = {1, 0};
       },
       Kind::kRun},
      {"a run on two faces",
       [](BoardJob&, BoardAnswer& a) { run_of(a).children[1].face = BoardFace::kLower; },
       Kind::kRun},
      {"a run left out", [](BoardJob&, BoardAnswer& a) { run_of(a).run = -1; }, Kind::kRun},
      {"a part of a run cut on its own",
       [](BoardJob& j, BoardAnswer&) {
         j.runs[0] = {{0, 1, 1}, Axis::kX, 1};
       },
       Kind::kRun},
      {"a strip too narrow",
       [](BoardJob& j, BoardAnswer&) { j.panels[0].narrowest = 9; },
       Kind::kPanel},
      {"a strip too wide", [](BoardJob& j, BoardAnswer&) { j.panels[0].widest = 8; }, Kind::kPanel},
      {"a panel too narrow",
       [](BoardJob& j, BoardAnswer&) { j.panels[0].width = 16; },
       Kind::kPanel},
      {"a lot group from two lots",
       [](BoardJob& j, BoardAnswer&) { j.boards[1].lot = 5; },
       Kind::kLot},
      {"the saw turned once too often for ripping first",
       [](BoardJob& j, BoardAnswer& a) {
         j.order = SawOrder::kRipFirst;
         BoardNode& rest = a.layouts[1].root.children[0].children[0].children[1];
         rest = cut(rest, Axis::kY, {node(44, 1, 6, 4), node(44, 7, 6, 4)});
       },
       Kind::kStages},
      {"a board there once, cut twice",
       [](BoardJob&, BoardAnswer& a) { a.layouts[1].board = 0; },
       Kind::kStock},
      {"a board that is not there",
       [](BoardJob&, BoardAnswer& a) { a.layouts[1].board = 2; },
       Kind::kStock},
      {"too cheap", [](BoardJob&, BoardAnswer& a) { a.cost = 13; }, Kind::kCost},
      {"worth too much", [](BoardJob&, BoardAnswer& a) { a.value += 1; }, Kind::kCost},
      {"bound over the cost", [](BoardJob&, BoardAnswer& a) { a.bound = 15; }, Kind::kBound},
      {"proven without proof", [](BoardJob&, BoardAnswer& a) { a.bound = 13; }, Kind::kBound}};
  for (const Broken& c : cases) {
    SCOPED_TRACE(c.why);
    BoardJob job = job_in_hand();
    BoardAnswer answer = answer_in_hand();
    c.spoil(job, answer);
    const auto faults = check_boards(job, answer);
    EXPECT_TRUE(
        std::ranges::any_of(faults, [&](const BoardFault& fault) { return fault.kind == c.kind; }));
  }
}

}  // namespace
}  // namespace plankwright::solve
