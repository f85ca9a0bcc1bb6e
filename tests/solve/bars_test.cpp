#include "solve/bars.h"

#include <algorithm>
#include <map>
#include <optional>

#include <gtest/gtest.h>
#include <rapidcheck.h>

#include "solve/bar_knapsack.h"

namespace plankwright::solve {
namespace {

std::string faults_of(const BarJob& job, const BarAnswer& answer) {
  std::string text;
  for (const std::string& fault : check_bars(job, answer)) {
    text += fault + "; ";
  }
  return text;
}

/// Least price over all ways to share the parts out, bar by bar. Kerfs are sawn, not added to
/// lengths.
class BarOracle {
 public:
  explicit BarOracle(const BarJob& job) : job_{job} {
    for (const BarPart& part : job.parts) {
      lengths_.insert(lengths_.end(), static_cast<std::size_t>(part.demand), part.length);
    }
  }

  std::optional<std::int64_t> least_price() {
    std::vector<std::int64_t> used(job_.kinds.size(), 0);
    return least((1U << lengths_.size()) - 1, used);
  }

 private:
  bool holds(const BarKind& kind, unsigned set) const {
    std::int64_t taken = 0;
    for (std::size_t i = 0; i < lengths_.size(); ++i) {
      if ((set >> i & 1U) != 0) {
        taken += (taken > 0 ? job_.kerf : 0) + lengths_[i];
      }
    }
    return taken <= kind.length - 2 * kind.trim.value_or(job_.trim);
  }

  std::optional<std::int64_t> least(unsigned set, std::vector<std::int64_t>& used) {
    if (set == 0) {
      return 0;
    }
    const auto key = std::pair{set, used};
    if (const auto known = known_.find(key); known != known_.end()) {
      return known->second;
    }
    std::optional<std::int64_t> best;
    const unsigned first = set & (~set + 1);
    for (unsigned more = set ^ first;; more = (more - 1) & (set ^ first)) {
      for (std::size_t k = 0; k < job_.kinds.size(); ++k) {
        const auto& kind = job_.kinds[k];
        if ((kind.available && used[k] >= *kind.available) || !holds(kind, first | more)) {
          continue;
        }
        used[k] += kind.available ? 1 : 0;
        if (const auto rest = least(set ^ first ^ more, used)) {
          best = best ? std::min(*best, kind.price + *rest) : kind.price + *rest;
        }
        used[k] -= kind.available ? 1 : 0;
      }
      if (more == 0) {
        break;
      }
    }
    return known_[key] = best;
  }

  const BarJob& job_;
  std::vector<std::int64_t> lengths_;
  std::map<std::pair<unsigned, std::vector<std::int64_t>>, std::optional<std::int64_t>> known_;
};

BarJob random_bar_job() {
  BarJob job;
  job.kerf = *rc::gen::inRange(0, 3);
  job.trim = *rc::gen::inRange(0, 2);
  const int kinds = *rc::gen::inRange(1, 4);
  for (int k = 0; k < kinds; ++k) {
    BarKind kind{*rc::gen::inRange(24, 40), *rc::gen::inRange(1, 20), {}, {}};
    if (k > 0 && *rc::gen::arbitrary<bool>()) {
      kind.available = *rc::gen::inRange(0, 3);
    }
    job.kinds.push_back(kind);
  }
  const int parts = *rc::gen::inRange(1, 6);
  for (int i = 0; i < parts; ++i) {
    job.parts.push_back({*rc::gen::inRange(3, 20), *rc::gen::inRange(1, 3)});
  }
  return job;
}

TEST(SolveBars, AgreesWithTryingEverything) {
  EXPECT_TRUE(rc::check([] {
    const BarJob job = random_bar_job();
    BarLimits limits;
    limits.threads = 1;
    limits.work = 30'000'000;
    const auto least = BarOracle{job}.least_price();
    const auto answer = solve_bars(job, limits);
    RC_ASSERT(least.has_value());
    RC_ASSERT(answer.ok());
    RC_ASSERT(faults_of(job, answer.value()) == "");
    RC_ASSERT(answer.value().bound <= *least);
    RC_ASSERT(answer.value().cost == *least);
  }));
}

// 16 + 16 and 14 + 6 + 3 + 3 from two long bars: the programme's own prices like shorter bars
// better, so that no dive along them alone finds it.
TEST(SolveBars, FindsTheTwoLongBarsThatTheProgrammeDoesNotLike) {
  const BarJob job{
      {{32, 13, {}, {}}, {25, 10, {}, {}}}, {{3, 2}, {14, 1}, {16, 2}, {6, 1}}, 0, 0, {}};
  const auto answer = solve_bars(job);
  EXPECT_EQ(answer.value().cost, 26);
  EXPECT_TRUE(answer.value().proven);
}

TEST(SolveBars, KeepsLongRestsWithinABoundThatCountsThem) {
  EXPECT_TRUE(rc::check([] {
    BarJob job = random_bar_job();
    job.rests = {*rc::gen::inRange(1, 20), *rc::gen::inRange(0, 1001)};
    for (BarKind& kind : job.kinds) {
      kind.price *= 100;
    }
    BarLimits limits;
    limits.work = 3'000'000;
    const auto one = solve_bars(job, limits);
    limits.threads = 1;
    const auto two = solve_bars(job, limits);
    RC_ASSERT(one.ok() && two.ok());
    RC_ASSERT(faults_of(job, one.value()) == "");
    RC_ASSERT(one.value().cost == two.value().cost);
    RC_ASSERT(one.value().work == two.value().work);
  }));
}

// Two ways to fill a bar must agree: the table below its limit of size, branch and bound above it.
// A capacity scaled up makes the same problem large.
TEST(FillBar, IsTheSameByTableAndByBranching) {
  EXPECT_TRUE(rc::check([] {
    const auto types = static_cast<std::size_t>(*rc::gen::inRange(1, 8));
    std::vector<std::int64_t> lengths;
    std::vector<std::int64_t> values;
    std::vector<std::int64_t> most;
    for (std::size_t t = 0; t < types; ++t) {
      lengths.push_back(*rc::gen::inRange(1, 30));
      values.push_back(*rc::gen::inRange(0, 40));
      most.push_back(*rc::gen::inRange(0, 5));
    }
    const std::int64_t capacity = *rc::gen::inRange(1, 100);
    std::int64_t work = 0;
    const BarFilling small = fill_bar(lengths, values, most, capacity, work);
    std::vector<std::int64_t> long_lengths = lengths;
    for (std::int64_t& length : long_lengths) {
      length *= 10'000'000;
    }
    const BarFilling large = fill_bar(long_lengths, values, most, capacity * 10'000'000, work);
    RC_ASSERT(small.value == large.value);
    RC_ASSERT(large.bound == large.value);
    std::int64_t length = 0;
    std::int64_t value = 0;
    for (std::size_t t = 0; t < types; ++t) {
      RC_ASSERT(small.counts[t] <= most[t]);
      length += small.counts[t] * lengths[t];
      value += small.counts[t] * values[t];
    }
    RC_ASSERT(length <= capacity);
    RC_ASSERT(value == small.value);
  }));
}

BarJob plain_bars() {
  return {{{2400, 1500, {}, {}}}, {{600, 4}}, 3, 0, {}};
}

TEST(SolveBars, CountsTheKerfBetweenParts) {
  BarJob job = plain_bars();
  EXPECT_EQ(solve_bars(job).value().bars, 2);  // 4 x 600 and three kerfs are 2409
  job.kinds[0].length = 2409;
  EXPECT_EQ(solve_bars(job).value().bars, 1);
  job.trim = 1;
  EXPECT_EQ(solve_bars(job).value().bars, 2);
}

TEST(SolveBars, RefusesWhatCannotBeMeantOrMade) {
  struct Case {
    std::string message;
    std::function<void(BarJob&)> change;
  };
  const Case cases[] = {
      {"a kerf of -1", [](BarJob& job) { job.kerf = -1; }},
      {"part 0 is wanted 0 times", [](BarJob& job) { job.parts[0].demand = 0; }},
      {"part 0 is -5 long", [](BarJob& job) { job.parts[0].length = -5; }},
      {"part 0 fits no bar: the longest is short by 100",
       [](BarJob& job) { job.parts[0].length = 2500; }},
      {"part 0 fits no bar: there are none on hand",
       [](BarJob& job) { job.kinds[0].available = 0; }},
      {"the bars on hand do not hold every part", [](BarJob& job) { job.kinds[0].available = 1; }},
      {"a trim of 1200 leaves nothing of bar 0", [](BarJob& job) { job.trim = 1200; }},
      {"a job needs at least one bar and one part", [](BarJob& job) { job.parts.clear(); }},
  };
  for (const Case& c : cases) {
    SCOPED_TRACE(c.message);
    BarJob job = plain_bars();
    c.change(job);
    const auto answer = solve_bars(job);
    ASSERT_FALSE(answer.ok());
    EXPECT_EQ(answer.error().message, c.message);
  }
}

TEST(SolveBars, CutsAMillionParts) {
  BarJob job = plain_bars();
  job.parts = {{601, 400'000}, {433, 350'000}, {287, 250'000}};
  const auto answer = solve_bars(job);
  ASSERT_TRUE(answer.ok());
  EXPECT_EQ(faults_of(job, answer.value()), "");
  EXPECT_LE(answer.value().bars, answer.value().bars_bound + 1);
}

TEST(CheckBars, FindsEveryKindOfFault) {
  const BarJob job = plain_bars();
  const BarAnswer sound = solve_bars(job).value();
  ASSERT_EQ(faults_of(job, sound), "");
  const std::function<void(BarAnswer&)> breaks[] = {
      [](BarAnswer& a) { a.layouts[0].parts.pop_back(); },
      [](BarAnswer& a) { a.layouts[0].parts.push_back(0); },
      [](BarAnswer& a) { a.layouts[0].rest += 1; },
      [](BarAnswer& a) { a.layouts[0].cost -= 1; },
      [](BarAnswer& a) { a.layouts[0].kind = 3; },
      [](BarAnswer& a) { a.layouts[0].parts[0] = 9; },
      [](BarAnswer& a) { a.cost -= 1; },
      [](BarAnswer& a) { a.bound = a.cost + 1; },
      [](BarAnswer& a) { a.proven = !a.proven; },
  };
  for (const auto& change : breaks) {
    BarAnswer broken = sound;
    change(broken);
    EXPECT_NE(faults_of(job, broken), "");
  }
}

}  // namespace
}  // namespace plankwright::solve
