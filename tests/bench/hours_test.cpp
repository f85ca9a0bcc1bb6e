#include "bench/hours.h"

#include <algorithm>
#include <cmath>
#include <random>

#include <gtest/gtest.h>
#include <rapidcheck/gtest.h>

#include "bench_fixture.h"

namespace plankwright::bench {
namespace {

struct Job {
  std::vector<double> medians, sigmas;
};

// Draws of the whole job: every operation its own factor, all of them the job's.
std::vector<double> simulate(const Job& job, double job_sigma, int draws) {
  std::mt19937_64 random{20260417};
  std::normal_distribution<double> normal;
  std::vector<double> totals;
  for (int i = 0; i < draws; ++i) {
    double sum = 0;
    for (std::size_t k = 0; k < job.medians.size(); ++k) {
      sum += job.medians[k] * std::exp(job.sigmas[k] * normal(random));
    }
    totals.push_back(sum * std::exp(job_sigma * normal(random)));
  }
  std::ranges::sort(totals);
  return totals;
}

double share_of(const std::vector<double>& sorted, double share) {
  return sorted[static_cast<std::size_t>(share * static_cast<double>(sorted.size()))];
}

// Quantiles of the standard normal distribution: any printed table, such as NIST/SEMATECH
// e-Handbook of Statistical Methods, 1.3.6.7.1 (from memory).
TEST(NormalQuantile, IsThatOfThePrintedTables) {
  EXPECT_NEAR(normal_quantile(0.5), 0.0, 1e-9);
  EXPECT_NEAR(normal_quantile(0.8), 0.841621, 1e-6);
  EXPECT_NEAR(normal_quantile(0.9), 1.281552, 1e-6);
  EXPECT_NEAR(normal_quantile(0.975), 1.959964, 1e-6);
  EXPECT_NEAR(normal_quantile(0.001), -3.090232, 1e-6);
}

TEST(Spread, OfOneOperationIsItsOwnLognormal) {
  const Spread spread = spread_of({10}, {0.3}, 0);
  EXPECT_DOUBLE_EQ(spread.table, 10);
  EXPECT_NEAR(spread.median, 10, 1e-9);
  EXPECT_NEAR(spread.mean, 10 * std::exp(0.045), 1e-9);
  EXPECT_NEAR(spread.p90, 10 * std::exp(0.3 * 1.281552), 1e-4);
  EXPECT_NEAR(spread.p10 * spread.p90, 100, 1e-6);
}

TEST(Spread, AgreesWithDrawingTheJobManyTimes) {
  const Job jobs[] = {{{4, 3, 2, 2, 1, 1, 1, 0.5}, {0.3, 0.25, 0.4, 0.2, 0.3, 0.25, 0.2, 0.35}},
                      {{10, 1}, {0.45, 0.2}},
                      {std::vector<double>(40, 1.0), std::vector<double>(40, 0.25)}};
  for (const Job& job : jobs) {
    for (const double job_sigma : {0.0, 0.12, 0.3}) {
      const Spread spread = spread_of(job.medians, job.sigmas, job_sigma);
      const std::vector<double> totals = simulate(job, job_sigma, 200'000);
      double mean = 0;
      for (const double total : totals) {
        mean += total / static_cast<double>(totals.size());
      }
      EXPECT_NEAR(spread.mean, mean, 0.005 * mean);
      EXPECT_NEAR(spread.median, share_of(totals, 0.5), 0.01 * mean);
      EXPECT_NEAR(spread.p10, share_of(totals, 0.1), 0.015 * mean);
      EXPECT_NEAR(spread.p80, share_of(totals, 0.8), 0.015 * mean);
      EXPECT_NEAR(spread.p90, share_of(totals, 0.9), 0.02 * mean);
    }
  }
}

// A worked estimate of a hall cabinet (common practice, no source): 53.2 h by the table, and with a
// job factor of 0.12 P10 46.6, median 55.2, mean 55.6, P80 61.6, P90 65.3. It was reckoned on about
// two dozen operations with sigmas around 0.27.
TEST(Spread, GivesTheWorkedEstimateOfAHallCabinet) {
  const Spread spread =
      spread_of(std::vector<double>(24, 53.2 / 24), std::vector<double>(24, 0.27), 0.12);
  EXPECT_NEAR(spread.table, 53.2, 1e-9);
  EXPECT_NEAR(spread.mean, 55.6, 0.3);
  EXPECT_NEAR(spread.median, 55.2, 0.3);
  EXPECT_NEAR(spread.p10, 46.6, 0.5);
  EXPECT_NEAR(spread.p80, 61.6, 0.5);
  EXPECT_NEAR(spread.p90, 65.3, 0.5);
}

TEST(Spread, OfNothingIsNothing) {
  const Spread spread = spread_of({}, {}, 0.12);
  EXPECT_EQ(spread.mean, 0);
  EXPECT_EQ(quantile(spread, 0.9), 0);
}

RC_GTEST_PROP(Spread, IsInOrderAndGrowsWithTheJobFactor, ()) {
  const auto count = *rc::gen::inRange(1, 30);
  Job job;
  for (int i = 0; i < count; ++i) {
    job.medians.push_back(*rc::gen::inRange(1, 500) / 10.0);
    job.sigmas.push_back(*rc::gen::inRange(5, 60) / 100.0);
  }
  const Spread sure = spread_of(job.medians, job.sigmas, 0);
  const Spread unsure = spread_of(job.medians, job.sigmas, 0.2);
  RC_ASSERT(sure.p10 < sure.median && sure.median < sure.p80 && sure.p80 < sure.p90);
  RC_ASSERT(sure.table <= sure.mean);
  RC_ASSERT(unsure.p90 / unsure.p10 > sure.p90 / sure.p10);
}

Operation operation(const char* standard, double minutes, double sigma) {
  Operation made;
  made.standard = standard;
  made.phase = "milling";
  made.work = measure::Minutes{minutes};
  made.sigma = sigma;
  return made;
}

// A saw that is slower than reckoned is slower at every setting.
TEST(Hours, OfOneStandardAreNoSurerForBeingCutIntoSettings) {
  Bench once;
  once.operations = {operation("rip_final", 60, 0.2), operation("housing", 60, 0.25)};
  Bench cut_up = once;
  cut_up.operations[0].work = measure::Minutes{20};
  cut_up.operations.push_back(operation("rip_final", 20, 0.2));
  cut_up.operations.push_back(operation("rip_final", 20, 0.2));
  reckon_hours(once, testing::inch_shop());
  reckon_hours(cut_up, testing::inch_shop());
  EXPECT_NEAR(once.total.p90, cut_up.total.p90, 1e-9);
  ASSERT_EQ(once.driven_by.size(), 2U);
  EXPECT_EQ(once.driven_by[0], "Housing across the grain (62 %)");
}

}  // namespace
}  // namespace plankwright::bench
