#include "solve/sheets.h"

#include <algorithm>
#include <numeric>
#include <string>

#include <gmock/gmock.h>
#include <gtest/gtest.h>
#include <rapidcheck.h>

#include "sheet_oracle.h"
#include "solve/check_sheets.h"

namespace plankwright::solve {
namespace {

SheetLimits quick() {
  SheetLimits limits;
  limits.work = 60'000'000;
  limits.threads = 1;
  return limits;
}

std::string faults_of(const SheetJob& job, const SheetAnswer& answer) {
  std::string text;
  for (const SheetFault& fault : check_sheets(job, answer)) {
    text += fault.message + "; ";
  }
  return text;
}

SheetJob random_small_job() {
  SheetJob job;
  job.kerf = *rc::gen::inRange(0, 3);
  job.trim = *rc::gen::inRange(0, 2);
  job.max_stages = *rc::gen::element(0, 0, 2, 3);
  job.trimming_cut_free = *rc::gen::arbitrary<bool>();
  if (*rc::gen::arbitrary<bool>()) {
    job.first_cut = *rc::gen::element(Axis::kX, Axis::kY);
  }
  const int kinds = *rc::gen::inRange(1, 3);
  for (int k = 0; k < kinds; ++k) {
    SheetKind kind;
    kind.width = *rc::gen::inRange(6, 13) + 2 * job.trim;
    kind.height = *rc::gen::inRange(6, 13) + 2 * job.trim;
    kind.price = *rc::gen::inRange(1, 9);
    if (k > 0) {
      kind.available = *rc::gen::inRange(0, 3);
    }
    job.kinds.push_back(kind);
  }
  const int parts = *rc::gen::inRange(1, 4);
  for (int i = 0; i < parts; ++i) {
    SheetPart part;
    part.width = *rc::gen::inRange<std::int64_t>(1, job.kinds[0].width - 2 * job.trim + 1);
    part.height = *rc::gen::inRange<std::int64_t>(1, job.kinds[0].height - 2 * job.trim + 1);
    part.demand = *rc::gen::inRange(1, 3);
    part.may_turn = *rc::gen::arbitrary<bool>();
    job.parts.push_back(part);
  }
  return job;
}

// The exhaustive recursion is the referee: bound <= least price <= cost, and on jobs this small the
// search always arrives.
TEST(SolveSheets, AgreesWithTryingEverything) {
  EXPECT_TRUE(rc::check([] {
    const SheetJob job = random_small_job();
    const auto least = oracle::SheetOracle{job}.least_price();
    const auto answer = solve_sheets(job, quick());
    RC_ASSERT(least.has_value());
    RC_ASSERT(answer.ok());
    RC_ASSERT(faults_of(job, answer.value()) == "");
    RC_ASSERT(answer.value().bound <= *least);
    RC_ASSERT(answer.value().cost == *least);
  }));
}

// The first piece lies best on a sheet parted the one way, all of them only on one parted the
// other.
TEST(SolveSheets, PartsASheetOfTwoStagesEitherWayFirst) {
  SheetJob job;
  job.kinds.push_back({6, 10, 1, {}, {}});
  job.max_stages = 2;
  job.trimming_cut_free = true;
  job.parts.push_back({2, 6, 2, true});
  job.parts.push_back({3, 7, 1, false});
  const auto answer = solve_sheets(job, quick());
  ASSERT_TRUE(answer.ok());
  EXPECT_EQ(answer.value().cost, 1);
  EXPECT_TRUE(answer.value().proven);
}

SheetJob random_shop_job() {
  SheetJob job;
  job.kerf = 3;
  job.trim = 10;
  job.kinds.push_back({2440, 1220, 6200, {}, {}});
  if (*rc::gen::arbitrary<bool>()) {
    job.kinds.push_back({1500, 700, 900, 1, 0});
  }
  const int parts = *rc::gen::inRange(2, 8);
  for (int i = 0; i < parts; ++i) {
    job.parts.push_back({*rc::gen::inRange(80, 1200),
                         *rc::gen::inRange(60, 600),
                         *rc::gen::inRange(1, 5),
                         *rc::gen::arbitrary<bool>()});
  }
  return job;
}

TEST(SolveSheets, LaysOutRunsWithCutsAndOffcutsInMoney) {
  EXPECT_TRUE(rc::check([] {
    SheetJob job = random_shop_job();
    job.max_stages = *rc::gen::element(0, 2, 3);
    job.costs = {
        *rc::gen::inRange(0, 40), *rc::gen::inRange(0, 900'000), *rc::gen::inRange(0, 90), 150};
    job.offcuts = {200, 500, *rc::gen::inRange(0, 800)};
    SheetGroup group;
    group.along = *rc::gen::element(Axis::kX, Axis::kY);
    group.parts = {0, 1};
    const SheetPart& a = job.parts[0];
    const SheetPart& b = job.parts[1];
    const bool fits =
        group.along == Axis::kX ? a.width + b.width < 2400 : a.height + b.height < 1190;
    if (fits) {
      group.demand = std::min(a.demand, b.demand);
      job.groups.push_back(group);
    }
    SheetLimits limits = quick();
    limits.work = 10'000'000;
    const auto answer = solve_sheets(job, limits);
    RC_ASSERT(answer.ok());
    RC_ASSERT(faults_of(job, answer.value()) == "");
  }));
}

TEST(SolveSheets, IsTheSameForOneThreadAndForTwo) {
  EXPECT_TRUE(rc::check("threads", [] {
    const SheetJob job = random_shop_job();
    SheetLimits one = quick();
    one.work = 20'000'000;
    one.threads = 1;
    SheetLimits two = one;
    two.threads = 2;
    const auto a = solve_sheets(job, one);
    const auto b = solve_sheets(job, two);
    RC_ASSERT(a.ok() && b.ok());
    RC_ASSERT(a.value().cost == b.value().cost);
    RC_ASSERT(a.value().bound == b.value().bound);
    RC_ASSERT(a.value().work == b.value().work);
    RC_ASSERT(a.value().layouts.size() == b.value().layouts.size());
  }));
}

TEST(SolveSheets, DoesNotMindUnitsMirrorsOrOrder) {
  EXPECT_TRUE(rc::check([] {
    SheetJob job = random_small_job();
    job.first_cut = std::nullopt;
    const auto plain = solve_sheets(job, quick());
    RC_ASSERT(plain.ok());
    SheetJob scaled = job;
    scaled.kerf *= 2540;
    scaled.trim *= 2540;
    for (SheetKind& kind : scaled.kinds) {
      kind.width *= 2540;
      kind.height *= 2540;
    }
    for (SheetPart& part : scaled.parts) {
      part.width *= 2540;
      part.height *= 2540;
    }
    SheetJob mirrored = job;
    for (SheetKind& kind : mirrored.kinds) {
      std::swap(kind.width, kind.height);
    }
    for (SheetPart& part : mirrored.parts) {
      std::swap(part.width, part.height);
    }
    SheetJob reversed = job;
    std::ranges::reverse(reversed.parts);
    for (const SheetJob& other : {scaled, mirrored, reversed}) {
      const auto answer = solve_sheets(other, quick());
      RC_ASSERT(answer.ok());
      RC_ASSERT(answer.value().cost == plain.value().cost);
      RC_ASSERT(answer.value().proven || !plain.value().proven ||
                answer.value().bound <= answer.value().cost);
    }
  }));
}

struct BadCase {
  std::string why;
  SheetJob job;
  base::ErrorCode code;
  std::string message;
};

SheetJob plain_job() {
  SheetJob job;
  job.kinds.push_back({2440, 1220, 5000, {}, {}});
  job.parts.push_back({600, 400, 4, false});
  job.kerf = 3;
  job.trim = 10;
  return job;
}

TEST(SolveSheets, RefusesWhatCannotBeMeantOrMade) {
  std::vector<BadCase> cases;
  const auto add = [&](std::string why, base::ErrorCode code, std::string message, auto change) {
    SheetJob job = plain_job();
    change(job);
    cases.push_back({std::move(why), job, code, std::move(message)});
  };
  using base::ErrorCode;
  add("too long",
      ErrorCode::kDoesNotFit,
      "part 0 fits no sheet: the nearest, 2440 x 1220, is short by 80 in width and 0 in height",
      [](SheetJob& job) { job.parts[0].width = 2500; });
  add("too wide across the grain",
      ErrorCode::kDoesNotFit,
      "part 0 fits no sheet: the nearest, 2440 x 1220, is short by 0 in width and 100 in height",
      [](SheetJob& job) { job.parts[0].height = 1300; });
  add("kerf", ErrorCode::kBadInput, "a kerf of -3", [](SheetJob& job) { job.kerf = -3; });
  add("none wanted", ErrorCode::kBadInput, "part 0 is wanted 0 times", [](SheetJob& job) {
    job.parts[0].demand = 0;
  });
  add("no size", ErrorCode::kBadInput, "part 0 is 0 x 400", [](SheetJob& job) {
    job.parts[0].width = 0;
  });
  add("trim", ErrorCode::kBadInput, "a trim of 610 leaves nothing of sheet 0", [](SheetJob& job) {
    job.trim = 610;
  });
  add("price", ErrorCode::kBadInput, "sheet 0 has a price of -1", [](SheetJob& job) {
    job.kinds[0].price = -1;
  });
  add("too many for the group",
      ErrorCode::kBadInput,
      "the groups need part 0 5 times, but 4 are wanted",
      [](SheetJob& job) {
        job.groups.push_back({{0}, Axis::kX, 5});
      });
  add("a run longer than the sheet",
      ErrorCode::kDoesNotFit,
      "a run of group 0 fits no sheet: the nearest, 2440 x 1220, is short by 409 in height and 0 "
      "in width",
      [](SheetJob& job) {
        job.groups.push_back({{0, 0, 0, 0}, Axis::kY, 1});
      });
  cases.back().message =
      "a run of group 0 fits no sheet: the nearest, 2440 x 1220, is short by 0 in width and 409 in "
      "height";
  add("not enough on hand",
      ErrorCode::kDoesNotFit,
      "the sheets on hand do not hold every part",
      [](SheetJob& job) {
        job.kinds[0].available = 1;
        job.parts[0].demand = 100;
      });
  add("nothing on hand",
      ErrorCode::kDoesNotFit,
      "part 0 fits no sheet: there are none on hand",
      [](SheetJob& job) { job.kinds[0].available = 0; });
  add("nothing",
      ErrorCode::kBadInput,
      "a job needs at least one sheet and one part",
      [](SheetJob& job) { job.parts.clear(); });
  for (const BadCase& c : cases) {
    SCOPED_TRACE(c.why);
    const auto answer = solve_sheets(c.job, quick());
    ASSERT_FALSE(answer.ok());
    EXPECT_EQ(answer.error().code, c.code);
    EXPECT_EQ(answer.error().message, c.message);
  }
}

TEST(SolveSheets, LaysOutAThousandPartsOnOneSheet) {
  SheetJob job = plain_job();
  job.parts = {{60, 37, 1000, true}};
  const auto answer = solve_sheets(job, quick());
  ASSERT_TRUE(answer.ok());
  EXPECT_EQ(faults_of(job, answer.value()), "");
  EXPECT_EQ(answer.value().sheets, 1);  // 38 x 30 of them fit in one row after another
  EXPECT_TRUE(answer.value().proven);
}

TEST(SolveSheets, LaysOutAMillionPartsWithinTheWorkAllowed) {
  SheetJob job = plain_job();
  job.parts.clear();
  for (int i = 0; i < 100; ++i) {
    job.parts.push_back({300 + 17 * i % 900, 200 + 13 * i % 500, 10'000, i % 2 == 0});
  }
  const auto answer = solve_sheets(job, quick());
  ASSERT_TRUE(answer.ok()) << answer.error().message;
  EXPECT_EQ(faults_of(job, answer.value()), "");
  EXPECT_GT(answer.value().bound, 0);
  EXPECT_LT(static_cast<double>(answer.value().cost),
            1.2 * static_cast<double>(answer.value().bound));
}

TEST(SolveSheets, StopsWhenAskedWithTheBestSoFar) {
  SheetJob job = plain_job();
  job.parts.clear();
  for (int i = 0; i < 80; ++i) {
    job.parts.push_back({301 + 37 * i % 800, 211 + 53 * i % 500, 2, false});
  }
  std::stop_source source;
  SheetLimits limits;
  limits.work = std::int64_t{1} << 60U;
  limits.stop = source.get_token();
  int told = 0;
  limits.progress = [&](const SheetProgress& progress) {
    EXPECT_LE(progress.bound, progress.cost);
    ++told;
    source.request_stop();
  };
  const auto answer = solve_sheets(job, limits);
  ASSERT_TRUE(answer.ok());
  EXPECT_EQ(answer.value().stopped, Stopped::kCancelled);
  EXPECT_GE(told, 1);
  EXPECT_EQ(faults_of(job, answer.value()), "");
}

}  // namespace
}  // namespace plankwright::solve
