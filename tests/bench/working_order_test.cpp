#include <algorithm>
#include <deque>
#include <limits>
#include <numeric>
#include <set>

#include <gtest/gtest.h>
#include <rapidcheck/gtest.h>

#include "bench/change_over.h"
#include "bench/merge_settings.h"
#include "bench/order.h"
#include "bench_fixture.h"

namespace plankwright::bench {
namespace {

using Before = std::vector<std::vector<std::size_t>>;

constexpr std::int64_t kWork = 20'000'000;

/// Batches of one task each, built by hand.
struct Job {
  std::deque<Item> items;
  std::deque<shop::LabourStandard> standards;
  Tasks tasks;
  std::vector<Batch> batches;
  Before before;
  Limits limits;

  Job() {
    limits.walk = Minutes{2};
    limits.fetch = Minutes{0.5};
  }

  std::size_t add(const std::string& machine,
                  const std::string& figure,
                  double setup,
                  std::vector<PartIndex> parts,
                  std::size_t rank = 0,
                  double fails = 0) {
    shop::LabourStandard& standard = standards.emplace_back();
    standard.id = machine;
    standard.machine = machine;
    standard.setup_per = "setting";
    standard.setup = Minutes{setup};
    standard.per_unit = Minutes{1};
    items.emplace_back().parts = parts;
    Task task;
    task.item = &items.back();
    task.standard = &standard;
    task.rule.rank = rank;
    task.rule.fails = fails;
    task.setting = {
        .text = figure, .length = {}, .depth = {}, .kind = figure.empty() ? "" : "fence"};
    task.units = 1;
    tasks.tasks.push_back(task);
    Batch batch;
    batch.tasks = {tasks.tasks.size() - 1};
    batch.parts = std::move(parts);
    batch.units = 1;
    batches.push_back(batch);
    before.emplace_back();
    return batches.size() - 1;
  }

  OrderedWork ordered() const { return working_order(tasks, batches, before, limits, kWork); }
};

bool keeps(const std::vector<std::size_t>& order, const Before& before) {
  std::vector<bool> done(before.size(), false);
  for (const std::size_t one : order) {
    if (!std::ranges::all_of(before[one], [&](std::size_t b) { return done[b]; })) {
      return false;
    }
    done[one] = true;
  }
  return order.size() == before.size();
}

// The saw twice at 57 mm with a walk to the mortiser between, or once: a setting, two walks and two
// piles less (arithmetic).
TEST(WorkingOrder, JoinsEqualSettingsOfDifferentParts) {
  Job job;
  job.add("saw", "57", 4, {0});
  job.add("mortiser", "12", 40, {1});
  job.add("saw", "57", 4, {0});
  const OrderedWork found = job.ordered();
  EXPECT_EQ(found.cost.planned.settings, 2);
  EXPECT_EQ(found.cost.planned.walks, 1);
  EXPECT_DOUBLE_EQ(found.cost.planned.total().count(), 4 + 40 + 2 + 0.5);
  EXPECT_DOUBLE_EQ(found.cost.drawing.total().count(), 4 + 40 + 4 + 2 * 2 + 2 * 0.5);
  EXPECT_TRUE(found.cost.proven);
}

TEST(WorkingOrder, DoesFirstWhatMustComeFirstThoughItCostsASetting) {
  Job job;
  const auto first = job.add("saw", "57", 4, {0});
  const auto between = job.add("mortiser", "12", 40, {0});
  const auto last = job.add("saw", "57", 4, {0});
  job.before[between] = {first};
  job.before[last] = {between};
  const OrderedWork found = job.ordered();
  EXPECT_EQ(found.batches, (std::vector<std::size_t>{first, between, last}));
  EXPECT_EQ(found.cost.planned.settings, 3);
  EXPECT_TRUE(found.cost.proven);
}

TEST(WorkingOrder, OfNothingIsNothing) {
  const OrderedWork found = Job{}.ordered();
  EXPECT_TRUE(found.batches.empty());
  EXPECT_EQ(found.cost.planned.total().count(), 0);
}

/// Against every order that keeps the precedence.
RC_GTEST_PROP(WorkingOrder, IsTheBestOfAllOrders, ()) {
  constexpr const char* kMachines[] = {"", "saw", "mortiser"};
  constexpr const char* kFigures[] = {"57", "80"};
  Job job;
  const auto count = *rc::gen::inRange<std::size_t>(1, 8);
  for (std::size_t i = 0; i < count; ++i) {
    const auto machine = *rc::gen::inRange<std::size_t>(0, 3);
    const auto part = *rc::gen::inRange<PartIndex>(0, 4);
    job.add(kMachines[machine],
            machine == 0 ? "" : kFigures[*rc::gen::inRange<std::size_t>(0, 2)],
            machine == 0 ? 0.0 : 4.0 * static_cast<double>(machine),
            {part, part + 1});
    for (std::size_t earlier = 0; earlier < i; ++earlier) {
      if (*rc::gen::inRange(0, 4) == 0) {
        job.before[i].push_back(earlier);
      }
    }
  }
  const ChangeOver change{job.tasks, job.batches, job.limits};
  std::vector<std::size_t> order(count);
  std::iota(order.begin(), order.end(), std::size_t{0});
  double best = std::numeric_limits<double>::max();
  do {
    if (keeps(order, job.before)) {
      best = std::min(best, change.of(order).total().count());
    }
  } while (std::ranges::next_permutation(order).found);
  const OrderedWork found = job.ordered();
  RC_ASSERT(keeps(found.batches, job.before));
  RC_ASSERT(std::abs(found.cost.planned.total().count() - best) < 1e-6);
  RC_ASSERT(found.cost.bound.count() <= best + 1e-6);
  RC_ASSERT(found.cost.proven);
}

// Common practice, no source; the exchange argument stands in risk.cpp.
TEST(RiskySteps, ComeBeforeWorkOfTheirTimeTheLikeliestForItsCostFirst) {
  Job job;
  const auto blank = job.add("saw", "57", 4, {0}, 0);
  const auto joint = job.add("mortiser", "12", 40, {0}, 1);
  const auto other = job.add("router", "6", 12, {1}, 1);
  const auto arch = job.add("bandsaw", "", 0, {0}, 2, 0.3);
  const auto scribe = job.add("", "", 0, {1}, 2, 0.1);
  job.before[joint] = {blank};
  job.before[arch] = {joint};
  const Before early = risky_steps_early(job.tasks, job.batches, job.before);
  const auto waits = [&](std::size_t later, std::size_t earlier) {
    return std::ranges::find(early[later], earlier) != early[later].end();
  };
  EXPECT_TRUE(waits(other, arch));   // of the same stage as what the arch needed
  EXPECT_TRUE(waits(scribe, arch));  // less likely to fail
  EXPECT_FALSE(waits(joint, arch));  // needed for it
  EXPECT_FALSE(waits(blank, scribe));
}

RC_GTEST_PROP(RiskySteps, NeverMakeACircle, ()) {
  Job job;
  const auto count = *rc::gen::inRange<std::size_t>(1, 10);
  for (std::size_t i = 0; i < count; ++i) {
    job.add("saw", "", 0, {i}, i / 2, *rc::gen::inRange(0, 3) / 10.0);
    for (std::size_t earlier = 0; earlier + 1 < i; ++earlier) {
      if (earlier / 2 < i / 2 && *rc::gen::inRange(0, 3) == 0) {
        job.before[i].push_back(earlier);
      }
    }
  }
  job.before = risky_steps_early(job.tasks, job.batches, job.before);
  RC_ASSERT(keeps(job.ordered().batches, job.before));
}

Tasks fences(const std::vector<Length>& widths, std::deque<Item>& items) {
  static const shop::LabourStandard kRip = [] {
    shop::LabourStandard standard;
    standard.id = "rip_final";
    return standard;
  }();
  Tasks tasks;
  for (const Length width : widths) {
    items.emplace_back();
    Task task;
    task.item = &items.back();
    task.standard = &kRip;
    task.setting = {
        .text = std::to_string(width.nm()), .length = width, .depth = {}, .kind = "fence"};
    tasks.tasks.push_back(task);
  }
  return tasks;
}

std::set<Length> lengths_of(const Tasks& tasks) {
  std::set<Length> lengths;
  for (const Task& task : tasks.tasks) {
    lengths.insert(task.setting.length);
  }
  return lengths;
}

TEST(MergeSettings, DoesNothingUnlessTheShopAllowsIt) {
  std::deque<Item> items;
  Tasks tasks = fences({57_mm, Length::from_mm(57.2)}, items);
  merge_settings(tasks, {});
  EXPECT_EQ(lengths_of(tasks).size(), 2U);
  EXPECT_EQ(tasks.tasks[0].wanted, "");
}

TEST(MergeSettings, TakesWhatMostPiecesWant) {
  std::deque<Item> items;
  Tasks tasks = fences({57_mm, Length::from_mm(57.2), Length::from_mm(57.2), 58_mm}, items);
  merge_settings(tasks, Length::from_mm(0.3));
  EXPECT_EQ(lengths_of(tasks), (std::set<Length>{Length::from_mm(57.2), 58_mm}));
  EXPECT_EQ(tasks.tasks[0].wanted, "57000000");
  EXPECT_EQ(tasks.tasks[1].wanted, "");
}

TEST(MergeSettings, LeavesCuttersAlone) {
  std::deque<Item> items;
  Tasks tasks = fences({6_mm, Length::from_mm(6.1)}, items);
  for (Task& task : tasks.tasks) {
    task.setting.kind = "cutter";
  }
  merge_settings(tasks, 1_mm);
  EXPECT_EQ(lengths_of(tasks).size(), 2U);
}

/// No part changes by more than was allowed, and no fewer settings would do: of lengths in order,
/// the first must share a setting with all that it can share one with.
RC_GTEST_PROP(MergeSettings, MakesAsFewAsCanBe, ()) {
  const auto widths = *rc::gen::container<std::vector<int>>(rc::gen::inRange(0, 60));
  const int within = *rc::gen::inRange(1, 20);
  std::vector<Length> lengths;
  for (const int width : widths) {
    lengths.push_back(Length::from_mm(width + 10));
  }
  std::deque<Item> items;
  Tasks tasks = fences(lengths, items);
  merge_settings(tasks, Length::from_mm(within));
  std::vector<int> sorted = widths;
  std::ranges::sort(sorted);
  std::vector<std::size_t> fewest(sorted.size() + 1, 0);  // for the first so many, by trying all
  for (std::size_t i = 1; i <= sorted.size(); ++i) {
    fewest[i] = i;
    for (std::size_t from = 0; from < i; ++from) {
      if (sorted[i - 1] - sorted[from] <= within) {
        fewest[i] = std::min(fewest[i], fewest[from] + 1);
      }
    }
  }
  RC_ASSERT(lengths_of(tasks).size() == fewest.back());
  for (std::size_t i = 0; i < lengths.size(); ++i) {
    RC_ASSERT(std::abs((tasks.tasks[i].setting.length - lengths[i]).mm()) <= within + 1e-9);
  }
}

// Settings are labour: what the order pays for them is what the hours hold, and the calendar and
// the price are reckoned from these.
TEST(Examples, PayForTheSettingsOfTheirOrder) {
  for (const char* file : {"hall_cabinet.yaml", "dining_table.yaml", "study_wall.yaml"}) {
    SCOPED_TRACE(file);
    const testing::Worked worked = testing::work(file);
    const Bench& bench = worked.bench;
    int settings = 0;
    Minutes setup;
    for (const Operation& operation : bench.operations) {
      const shop::LabourStandard* standard = worked.shop.standard(operation.standard);
      if (!operation.setting_kind.empty() && standard->setup_per == "setting") {
        settings += operation.setup.count() > 0 ? 1 : 0;
        setup += operation.setup;
      }
    }
    EXPECT_EQ(settings, bench.order.planned.settings);
    EXPECT_NEAR(setup.count(), bench.order.planned.setting.count(), 1e-6);
    EXPECT_LE(bench.order.bound.count(), bench.order.planned.total().count() + 1e-9);
    EXPECT_GT(bench.order.saved().count(), 0);
  }
}

}  // namespace
}  // namespace plankwright::bench
