#include "solve/order.h"

#include <algorithm>
#include <numeric>
#include <optional>
#include <string>

#include <gtest/gtest.h>
#include <rapidcheck.h>

#include "solve/order_assignment.h"
#include "solve/order_branch.h"
#include "solve/order_cuts.h"
#include "solve/order_problem.h"
#include "solve/order_relaxation.h"

namespace plankwright::solve {
namespace {

std::string faults_of(const OrderJob& job, const OrderAnswer& answer) {
  std::string text;
  for (const std::string& fault : check_order(job, answer)) {
    text += fault + "; ";
  }
  return text;
}

/// Least cost over all orders of the jobs, one after the other.
std::optional<std::int64_t> least_cost(const OrderJob& job) {
  std::vector<int> order(job.change.size());
  std::iota(order.begin(), order.end(), 0);
  std::optional<std::int64_t> best;
  const auto at = [](int index) { return static_cast<std::size_t>(index); };
  do {
    std::vector<std::size_t> place(order.size());
    std::int64_t cost = 0;
    bool allowed = true;
    for (std::size_t i = 0; i < order.size(); ++i) {
      place[at(order[i])] = i;
      if (i > 0) {
        const std::int64_t change = job.change[at(order[i - 1])][at(order[i])];
        allowed = allowed && change >= 0;
        cost += change;
      }
    }
    for (const Before& pair : job.before) {
      allowed = allowed && place[at(pair.first)] < place[at(pair.second)];
    }
    for (std::size_t a = 0; a < place.size(); ++a) {
      for (std::size_t b = 0; b < place.size(); ++b) {
        allowed = allowed && (a == b || job.change[a][b] != kComesBefore || place[b] < place[a]);
      }
    }
    if (allowed) {
      cost += job.first.empty() ? 0 : job.first[at(order.front())];
      cost += job.last.empty() ? 0 : job.last[at(order.back())];
      best = best ? std::min(*best, cost) : cost;
    }
  } while (std::ranges::next_permutation(order).found);
  return best;
}

OrderJob random_order_job() {
  OrderJob job;
  const int jobs = *rc::gen::inRange(1, 8);
  const bool ends = *rc::gen::arbitrary<bool>();
  for (int a = 0; a < jobs; ++a) {
    job.change.emplace_back();
    for (int b = 0; b < jobs; ++b) {
      const int kind = *rc::gen::inRange(0, 12);
      job.change.back().push_back(kind == 0 && a > b    ? kComesBefore
                                  : kind == 1 && a != b ? kNeverNext
                                                        : *rc::gen::inRange(0, 20));
    }
    if (ends) {
      job.first.push_back(*rc::gen::inRange(0, 9));
      job.last.push_back(*rc::gen::inRange(0, 9));
    }
    if (a > 0 && *rc::gen::inRange(0, 3) == 0) {
      job.before.push_back({*rc::gen::inRange(0, a), a});
    }
  }
  return job;
}

TEST(SolveOrder, AgreesWithTryingEverything) {
  EXPECT_TRUE(rc::check([] {
    const OrderJob job = random_order_job();
    const auto least = least_cost(job);
    const auto answer = solve_order(job);
    RC_ASSERT(answer.ok() == least.has_value());
    if (least) {
      RC_ASSERT(faults_of(job, answer.value()) == "");
      RC_ASSERT(answer.value().cost == *least);
      RC_ASSERT(answer.value().proven);
    }
  }));
}

// Against an order that is far too dear, so that the relaxation is on its own.
TEST(OrderRelaxation, NeverClaimsMoreThanTheBestOrderCosts) {
  EXPECT_TRUE(rc::check([] {
    const OrderJob job = random_order_job();
    const auto least = least_cost(job);
    const OrderProblem problem = make_order_problem(job);
    OrderRelaxation relaxation{
        problem, price_nodes(problem.nodes, scaled_costs(problem)), 4, 1'000'000};
    relaxation.improve(10'000, 2'000'000);
    RC_ASSERT(relaxation.bound() <= least.value_or(OrderProblem::kNoArc));
  }));
}

TEST(OrderCuts, NeverClaimMoreThanTheBestOrderCosts) {
  EXPECT_TRUE(rc::check([] {
    const OrderJob job = random_order_job();
    const auto least = least_cost(job);
    OrderProblem problem = make_order_problem(job);
    OrderCuts cuts{problem};
    while (cuts.improve(10'000, 1'000'000)) {
    }
    RC_ASSERT(cuts.bound() <= least.value_or(OrderProblem::kNoArc));
  }));
}

// Told a cost that can just be undercut it must find an order, told the least one it must find
// none.
TEST(OrderBranching, FindsWhatIsCheaperAndNothingElse) {
  EXPECT_TRUE(rc::check([] {
    const OrderJob job = random_order_job();
    const auto least = least_cost(job);
    for (const std::int64_t known : {least.value_or(500), least.value_or(500) + 1}) {
      OrderProblem problem = make_order_problem(job);
      problem.unit = 1;
      OrderCuts cuts{problem};
      cuts.improve(known, 1'000'000'000);
      OrderBranching branching{problem, cuts};
      for (int turns = 0; turns < 100 && !branching.over() && branching.path().empty(); ++turns) {
        branching.run(known, 10'000'000, [] { return false; });
      }
      RC_ASSERT(least || branching.path().empty());
      RC_ASSERT(std::min(branching.bound(), known) <= least.value_or(known));
      if (!branching.path().empty()) {
        RC_ASSERT(problem.cost_of(branching.path()) == *least);
        RC_ASSERT(known > *least);
      } else {
        RC_ASSERT(branching.over());
      }
    }
  }));
}

// Two settings, each dear to get into and free to stay in: all of one, then all of the other,
// except that job 4 needs a cut of the second setting first. Hand-worked: 0 1 | 2 3 | 4.
TEST(SolveOrder, ChangesASettingAsSeldomAsThePrecedenceAllows) {
  OrderJob job;
  const int setting[] = {0, 0, 1, 1, 0};
  for (const int a : setting) {
    job.change.emplace_back();
    for (const int b : setting) {
      job.change.back().push_back(a == b ? 0 : 4);
    }
  }
  job.first.assign(5, 4);
  job.before = {{2, 4}, {0, 2}};
  const auto answer = solve_order(job);
  ASSERT_TRUE(answer.ok());
  EXPECT_EQ(faults_of(job, answer.value()), "");
  EXPECT_EQ(answer.value().cost, 12);
  EXPECT_TRUE(answer.value().proven);
}

// ESC07 of TSPLIB (Reinelt, ORSA J. Comput. 3, 1991), received from Ascheuer and Escudero; the best
// path costs 2125 by the table of best known values that goes with the library.
TEST(SolveOrder, FindsThePublishedValueOfASmallInstance) {
  constexpr std::int64_t k = kComesBefore;
  OrderJob job;
  job.change = {{0, 0, 0, 0, 0, 0, 0, 0, kNeverNext},
                {k, 0, 100, 200, 75, 0, 300, 100, 0},
                {k, 400, 0, 500, 325, 400, 600, 0, 0},
                {k, 700, 800, 0, 550, 700, 900, 800, 0},
                {k, k, 250, 225, 0, 275, 525, 250, 0},
                {k, k, 100, 200, k, 0, k, k, 0},
                {k, k, 1100, 1200, 1075, 1000, 0, 1100, 0},
                {k, k, 0, 500, 325, 400, 600, 0, 0},
                {k, k, k, k, k, k, k, k, 0}};
  const auto answer = solve_order(job);
  ASSERT_TRUE(answer.ok());
  EXPECT_EQ(faults_of(job, answer.value()), "");
  EXPECT_EQ(answer.value().cost, 2125);
  EXPECT_TRUE(answer.value().proven);
}

struct BadCase {
  std::string message;
  OrderJob job;
};

TEST(SolveOrder, NamesWhatStandsInTheWay) {
  OrderJob base;
  base.change.assign(3, std::vector<std::int64_t>(3, 1));
  std::vector<BadCase> cases(6, {"", base});
  cases[0].message = "jobs 0, 1, 2 wait for each other in a circle";
  cases[0].job.before = {{0, 1}, {1, 2}};
  cases[0].job.change[0][2] = kComesBefore;
  cases[1].message = "job 1 has 2 change-overs, expected 3";
  cases[1].job.change[1].pop_back();
  cases[2].message = "the change from job 2 to job 0 costs -7, expected 0 to 1000000000";
  cases[2].job.change[2][0] = -7;
  cases[3].message = "job 0 before job 3: there are only 3 jobs";
  cases[3].job.before = {{0, 3}};
  cases[4].message = "the costs to begin and to end must be 3 numbers from 0 to 1000000000";
  cases[4].job.first = {1, 2};
  cases[5].message = "there is no order in which every job may follow the one before";
  cases[5].job.change[0] = {0, kNeverNext, kNeverNext};
  cases[5].job.before = {{0, 1}, {0, 2}};
  for (const BadCase& bad : cases) {
    SCOPED_TRACE(bad.message);
    const auto answer = solve_order(bad.job);
    ASSERT_FALSE(answer.ok());
    EXPECT_EQ(answer.error().message, bad.message);
  }
}

TEST(SolveOrder, TakesNothingAndKeepsToItsLimits) {
  const auto nothing = solve_order({});
  ASSERT_TRUE(nothing.ok());
  EXPECT_EQ(nothing.value().cost, 0);
  EXPECT_TRUE(nothing.value().proven);
  OrderJob job;
  for (int a = 0; a < 80; ++a) {
    job.change.emplace_back();
    for (int b = 0; b < 80; ++b) {
      job.change.back().push_back(1 + (a * 37 + b * 91 + a * b) % 97);
    }
  }
  OrderLimits limits;
  limits.work = 20'000'000;
  const auto answer = solve_order(job, limits);
  ASSERT_TRUE(answer.ok());
  EXPECT_EQ(faults_of(job, answer.value()), "");
  EXPECT_LT(answer.value().work, 200'000'000);
}

struct Broken {
  std::string fault;
  std::vector<int> order;
};

TEST(CheckOrder, FindsEachKindOfBrokenAnswer) {
  OrderJob job;
  job.change.assign(3, std::vector<std::int64_t>(3, 2));
  job.change[2][0] = kComesBefore;
  job.change[0][2] = kNeverNext;
  job.before = {{0, 1}};
  const auto sound = solve_order(job);
  ASSERT_TRUE(sound.ok());
  EXPECT_EQ(faults_of(job, sound.value()), "");
  const Broken cases[] = {{"does not name every job once", {0, 1}},
                          {"does not name every job once", {0, 1, 1}},
                          {"does not name every job once", {0, 1, 3}},
                          {"job 0 must come before job 1", {1, 0, 2}},
                          {"job 0 must come before job 2", {2, 0, 1}},
                          {"job 2 may not follow job 0 directly", {0, 2, 1}}};
  for (const Broken& broken : cases) {
    SCOPED_TRACE(broken.fault);
    OrderAnswer answer = sound.value();
    answer.order = broken.order;
    EXPECT_NE(faults_of(job, answer).find(broken.fault), std::string::npos)
        << faults_of(job, answer);
  }
  OrderAnswer answer = sound.value();
  answer.cost += 1;
  EXPECT_NE(faults_of(job, answer).find("the order costs 4, not 5"), std::string::npos);
  answer = sound.value();
  answer.bound += 1;
  EXPECT_NE(faults_of(job, answer).find("proven claimed wrongly"), std::string::npos);
}

}  // namespace
}  // namespace plankwright::solve
