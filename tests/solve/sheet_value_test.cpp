#include "solve/sheet_value.h"

#include <algorithm>
#include <map>
#include <vector>

#include <gtest/gtest.h>
#include <rapidcheck.h>

#include "sheet_oracle.h"
#include "solve/guillotine_table.h"

namespace plankwright::solve {
namespace {

std::string faults_of(const ValueJob& job, const ValueAnswer& answer) {
  std::string text;
  for (const std::string& fault : check_sheet_value(job, answer)) {
    text += fault + "; ";
  }
  return text;
}

ValueJob random_value_job(bool limited) {
  ValueJob job;
  job.width = *rc::gen::inRange(5, 14);
  job.height = *rc::gen::inRange(5, 14);
  job.kerf = *rc::gen::inRange(0, 2);
  const int parts = *rc::gen::inRange(1, 4);
  for (int i = 0; i < parts; ++i) {
    ValuedPart part{
        *rc::gen::inRange(1, 9), *rc::gen::inRange(1, 9), *rc::gen::inRange(1, 60), {}, false};
    part.may_turn = *rc::gen::arbitrary<bool>();
    if (limited) {
      part.most = *rc::gen::inRange(0, 3);
    }
    job.parts.push_back(part);
  }
  return job;
}

/// The best set by trying every set of copies against the exhaustive sawing of one sheet.
std::int64_t greatest_value(const ValueJob& job) {
  std::int64_t best = 0;
  std::vector<std::int64_t> counts(job.parts.size(), 0);
  while (true) {
    std::int64_t value = 0;
    SheetJob order;
    order.kinds.push_back({job.width, job.height, 1, 1, {}});
    order.kerf = job.kerf;
    for (std::size_t i = 0; i < counts.size(); ++i) {
      value += counts[i] * job.parts[i].value;
      if (counts[i] > 0) {
        order.parts.push_back(
            {job.parts[i].width, job.parts[i].height, counts[i], job.parts[i].may_turn});
      }
    }
    if (value > best && oracle::SheetOracle{order}.least_price()) {
      best = value;
    }
    std::size_t i = 0;
    while (i < counts.size() && counts[i] == *job.parts[i].most) {
      counts[i++] = 0;
    }
    if (i == counts.size()) {
      return best;
    }
    counts[i] += 1;
  }
}

TEST(SolveSheetValue, AgreesWithTryingEverySet) {
  EXPECT_TRUE(rc::check([] {
    const ValueJob job = random_value_job(true);
    ValueLimits limits;
    limits.threads = 1;
    limits.work = 300'000'000;
    const auto answer = solve_sheet_value(job, limits);
    RC_ASSERT(answer.ok());
    RC_ASSERT(faults_of(job, answer.value()) == "");
    RC_ASSERT(answer.value().value == greatest_value(job));
    RC_ASSERT(answer.value().proven);
  }));
}

/// Sawing by recursion on whole sizes, kerf sawn: an independent look at the table.
std::int64_t sawn(const ValueJob& job,
                  std::int64_t width,
                  std::int64_t height,
                  std::map<std::pair<std::int64_t, std::int64_t>, std::int64_t>& known) {
  if (const auto it = known.find({width, height}); it != known.end()) {
    return it->second;
  }
  std::int64_t best = 0;
  for (const ValuedPart& part : job.parts) {
    if ((part.width <= width && part.height <= height) ||
        (part.may_turn && part.height <= width && part.width <= height)) {
      best = std::max(best, part.value);
    }
  }
  for (std::int64_t x = 1; x + job.kerf < width; ++x) {
    best = std::max(best,
                    sawn(job, x, height, known) + sawn(job, width - x - job.kerf, height, known));
  }
  for (std::int64_t y = 1; y + job.kerf < height; ++y) {
    best =
        std::max(best, sawn(job, width, y, known) + sawn(job, width, height - y - job.kerf, known));
  }
  return known[{width, height}] = best;
}

TEST(SolveSheetValue, IsExactWithoutLimits) {
  EXPECT_TRUE(rc::check([] {
    ValueJob job = random_value_job(false);
    job.sheets = *rc::gen::inRange(1, 4);
    std::map<std::pair<std::int64_t, std::int64_t>, std::int64_t> known;
    const auto answer = solve_sheet_value(job);
    RC_ASSERT(answer.ok());
    RC_ASSERT(faults_of(job, answer.value()) == "");
    RC_ASSERT(answer.value().proven);
    RC_ASSERT(answer.value().value == job.sheets * sawn(job, job.width, job.height, known));
  }));
}

// Sizes rounded down to a grid can only make more fit.
TEST(GuillotineTable, IsARelaxationOnACoarseGrid) {
  EXPECT_TRUE(rc::check([] {
    SheetJob job;
    job.kinds.push_back({*rc::gen::inRange(40, 90), *rc::gen::inRange(40, 90), 1, {}, {}});
    std::vector<std::int32_t> values;
    std::vector<std::int64_t> demand;
    for (int i = *rc::gen::inRange(1, 6); i > 0; --i) {
      job.parts.push_back(
          {*rc::gen::inRange(8, 40), *rc::gen::inRange(8, 40), 4, *rc::gen::arbitrary<bool>()});
    }
    const PackProblem problem = make_problem(job);
    const auto unit = static_cast<std::int32_t>(problem.unit);
    for (const PackType& type : problem.types) {
      values.push_back(*rc::gen::inRange(0, 1000));
      demand.push_back(type.demand);
    }
    RC_PRE(unit == 1);
    GuillotineTable fine{problem, demand, 1};
    GuillotineTable coarse{problem, demand, 4};
    fine.fill(values);
    coarse.fill(values);
    RC_ASSERT(coarse.value(0) >= fine.value(0));
  }));
}

TEST(SolveSheetValue, RefusesWhatCannotBeMeant) {
  ValueJob job{100, 50, 1, {{10, 10, 5, 2, false}}, 0, 0};
  EXPECT_TRUE(solve_sheet_value(job).ok());
  const std::vector<ValueJob> bad = {
      {0, 50, 1, job.parts, 0, 0},
      {100, 50, 0, job.parts, 0, 0},
      {100, 50, 1, {}, 0, 0},
      {100, 50, 1, job.parts, -1, 0},
      {100, 50, 1, job.parts, 0, 25},
      {100, 50, 1, {{10, 10, -5, 2, false}}, 0, 0},
      {100, 50, 1, {{10, 10, 5, -2, false}}, 0, 0},
      {100, 50, 1, {{10, 0, 5, 2, false}}, 0, 0},
  };
  for (const ValueJob& each : bad) {
    EXPECT_FALSE(solve_sheet_value(each).ok());
  }
}

}  // namespace
}  // namespace plankwright::solve
