#include "solve/check_sheets.h"

#include <functional>
#include <string>
#include <vector>

#include <gmock/gmock.h>
#include <gtest/gtest.h>

namespace plankwright::solve {
namespace {

// One sheet 1000 x 500, trim 10, kerf 4, sawn by hand: a strip 300 high with a run of two parts and
// a single one, above it a strip with a turned part, the rest an offcut.
SheetJob hand_job() {
  SheetJob job;
  job.kinds.push_back({1000, 500, 4000, 2, {}});
  job.parts = {
      {200, 300, 1, false}, {150, 300, 1, false}, {120, 260, 1, true}, {100, 300, 1, false}};
  job.groups.push_back({{0, 1}, Axis::kX, 1});
  job.kerf = 4;
  job.trim = 10;
  job.max_stages = 2;
  job.first_cut = Axis::kY;
  job.costs = {10, 1'000'000, 5, 50};
  job.offcuts = {100, 400, 500};
  return job;
}

CutNode part(std::int64_t x,
             std::int64_t y,
             std::int64_t w,
             std::int64_t h,
             int index,
             bool turned = false) {
  return {x, y, w, h, CutRole::kPart, Axis::kX, index, turned, -1, {}};
}

CutNode rest(std::int64_t x, std::int64_t y, std::int64_t w, std::int64_t h, CutRole role) {
  return {x, y, w, h, role, Axis::kX, -1, false, -1, {}};
}

CutNode cut(std::int64_t x,
            std::int64_t y,
            std::int64_t w,
            std::int64_t h,
            Axis along,
            std::vector<CutNode> children,
            int group = -1) {
  return {x, y, w, h, CutRole::kCut, along, -1, false, group, std::move(children)};
}

SheetAnswer hand_answer() {
  SheetAnswer answer;
  SheetLayout layout;
  layout.root =
      cut(10,
          10,
          980,
          480,
          Axis::kY,
          {cut(10,
               10,
               980,
               300,
               Axis::kX,
               {cut(10,
                    10,
                    354,
                    300,
                    Axis::kX,
                    {part(10, 10, 200, 300, 0), part(214, 10, 150, 300, 1)},
                    0),
                part(368, 10, 100, 300, 3),
                rest(472, 10, 518, 300, CutRole::kOffcut)}),
           cut(10,
               314,
               980,
               120,
               Axis::kX,
               {part(10, 314, 260, 120, 2, true), rest(274, 314, 716, 120, CutRole::kOffcut)}),
           rest(10, 438, 980, 52, CutRole::kWaste)});
  // Price 4000 and 50 a sheet; 6 cuts: 2 across the sheet (980), 1 in the run and 2 beside it
  // (300), 1 of 120; length 2980; 6 settings 300, 120 | 200, 354, 100, 260; offcuts 518 x 300 and
  // 716 x 120 of 500 000 at half the price.
  layout.cost = 4000 + 50 + 6 * 10 + 2980 + 6 * 5 - 621 - 343;
  answer.layouts.push_back(layout);
  answer.cost = layout.cost;
  answer.sheets = 1;
  answer.bound = 3000;
  answer.sheets_bound = 1;
  return answer;
}

std::vector<SheetFaultKind> kinds_of(const std::vector<SheetFault>& faults) {
  std::vector<SheetFaultKind> kinds;
  for (const SheetFault& fault : faults) {
    kinds.push_back(fault.kind);
  }
  return kinds;
}

TEST(CheckSheets, PassesALayoutSawnByHand) {
  const auto faults = check_sheets(hand_job(), hand_answer());
  EXPECT_TRUE(faults.empty()) << faults.front().message;
}

struct BrokenCase {
  std::string why;
  SheetFaultKind kind;
  std::function<void(SheetJob&, SheetAnswer&)> breaks;
};

TEST(CheckSheets, FindsEveryKindOfFault) {
  const auto root = [](SheetAnswer& answer) -> CutNode& { return answer.layouts[0].root; };
  const BrokenCase cases[] = {
      {"a part left out",
       SheetFaultKind::kMissingPart,
       [&](SheetJob&, SheetAnswer& a) { root(a).children[0].children[1].role = CutRole::kWaste; }},
      {"a part cut twice as often",
       SheetFaultKind::kMissingPart,
       [&](SheetJob&, SheetAnswer& a) { a.layouts[0].count = 2; }},
      {"a part that was drawn smaller",
       SheetFaultKind::kWrongSize,
       [](SheetJob& j, SheetAnswer&) { j.parts[3].height = 301; }},
      {"grain turned",
       SheetFaultKind::kWrongTurn,
       [](SheetJob& j, SheetAnswer&) { j.parts[2].may_turn = false; }},
      {"a strip that stops short of the edge",
       SheetFaultKind::kNotGuillotine,
       [&](SheetJob&, SheetAnswer& a) { root(a).children[2].width -= 1; }},
      {"a sheet not parted to its end",
       SheetFaultKind::kNotGuillotine,
       [&](SheetJob&, SheetAnswer& a) { root(a).children.pop_back(); }},
      {"no kerf between two parts",
       SheetFaultKind::kKerf,
       [&](SheetJob&, SheetAnswer& a) { root(a).children[0].children[1].x -= 4; }},
      {"cut into the trim",
       SheetFaultKind::kTrim,
       [&](SheetJob&, SheetAnswer& a) { root(a).y -= 10; }},
      {"a run in the wrong order",
       SheetFaultKind::kGroup,
       [](SheetJob& j, SheetAnswer&) {
         j.groups[0].parts = {1, 0};
       }},
      {"a run that was broken up",
       SheetFaultKind::kGroup,
       [&](SheetJob&, SheetAnswer& a) { root(a).children[0].children[0].group = -1; }},
      {"a run across the grain",
       SheetFaultKind::kGroup,
       [](SheetJob& j, SheetAnswer&) { j.groups[0].along = Axis::kY; }},
      {"a stage too many",
       SheetFaultKind::kStages,
       [](SheetJob& j, SheetAnswer&) {
         j.max_stages = 1;
         j.trimming_cut_free = false;
       }},
      {"ripped first where crosscut was asked",
       SheetFaultKind::kFirstCut,
       [](SheetJob& j, SheetAnswer&) { j.first_cut = Axis::kX; }},
      {"more sheets than on hand",
       SheetFaultKind::kStock,
       [](SheetJob& j, SheetAnswer&) { j.kinds[0].available = 0; }},
      {"a kind that does not exist",
       SheetFaultKind::kStock,
       [](SheetJob&, SheetAnswer& a) { a.layouts[0].kind = 7; }},
      {"an offcut too small to keep",
       SheetFaultKind::kOffcut,
       [](SheetJob& j, SheetAnswer&) { j.offcuts.min_short = 121; }},
      {"a cut not paid for",
       SheetFaultKind::kCost,
       [](SheetJob& j, SheetAnswer&) { j.costs.per_cut = 11; }},
      {"a total that does not add up",
       SheetFaultKind::kCost,
       [](SheetJob&, SheetAnswer& a) { a.cost -= 1; }},
      {"a bound above the cost",
       SheetFaultKind::kBound,
       [](SheetJob&, SheetAnswer& a) { a.bound = a.cost + 1; }},
      {"proven without proof",
       SheetFaultKind::kBound,
       [](SheetJob&, SheetAnswer& a) { a.proven = true; }},
  };
  for (const BrokenCase& c : cases) {
    SCOPED_TRACE(c.why);
    SheetJob job = hand_job();
    SheetAnswer answer = hand_answer();
    c.breaks(job, answer);
    EXPECT_THAT(kinds_of(check_sheets(job, answer)), testing::Contains(c.kind));
  }
}

}  // namespace
}  // namespace plankwright::solve
