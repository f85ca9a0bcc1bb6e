#include "solve/staging_problem.h"

#include <algorithm>

namespace plankwright::solve {
namespace {

std::size_t at(int index) {
  return static_cast<std::size_t>(index);
}

void fill_precedence(const StagingJob& job, StagingProblem& problem) {
  auto& precedes = problem.precedes;
  precedes.assign(at(problem.tasks), std::vector<std::uint8_t>(at(problem.tasks), 0));
  for (const Before& pair : job.before) {
    auto& known = precedes[at(pair.first)][at(pair.second)];
    known = std::max<std::uint8_t>(known, 1);
  }
  for (const Before& pair : job.stage_before) {
    precedes[at(pair.first)][at(pair.second)] = 2;
  }
  const auto direct = precedes;
  for (int k = 0; k < problem.tasks; ++k) {
    for (int i = 0; i < problem.tasks; ++i) {
      const std::uint8_t to = precedes[at(i)][at(k)];
      for (int j = 0; to != 0 && j < problem.tasks; ++j) {
        const std::uint8_t on = precedes[at(k)][at(j)];
        if (on != 0) {
          precedes[at(i)][at(j)] = std::max(precedes[at(i)][at(j)], std::max(to, on));
        }
      }
    }
  }
  for (auto* lists :
       {&problem.earlier, &problem.later, &problem.direct_earlier, &problem.direct_later}) {
    lists->resize(at(problem.tasks));
  }
  for (int i = 0; i < problem.tasks; ++i) {
    for (int j = 0; j < problem.tasks; ++j) {
      if (precedes[at(i)][at(j)] != 0) {
        problem.later[at(i)].push_back(j);
        problem.earlier[at(j)].push_back(i);
      }
      if (direct[at(i)][at(j)] != 0) {
        problem.direct_later[at(i)].push_back(j);
        problem.direct_earlier[at(j)].push_back(i);
      }
    }
  }
}

bool fits(const StagingProblem& problem,
          int task,
          int stage,
          const std::vector<std::int64_t>& left,
          const std::vector<int>& stage_of) {
  for (int r = 0; r < problem.dimensions; ++r) {
    if (problem.uses[at(r)][at(task)] > left[at(r)]) {
      return false;
    }
  }
  for (const int other : problem.earlier[at(task)]) {
    const int there = stage_of[at(other)];
    if (there < 0 || (there == stage && problem.precedes[at(other)][at(task)] == 2)) {
      return false;
    }
  }
  return std::ranges::none_of(problem.apart[at(task)],
                              [&](int other) { return stage_of[at(other)] == stage; });
}

}  // namespace

StagingProblem make_staging_problem(const StagingJob& job) {
  StagingProblem problem;
  problem.tasks = static_cast<int>(job.tasks.size());
  problem.dimensions = 1 + static_cast<int>(job.resources.size());
  problem.capacity = {job.stage_time};
  problem.capacity.insert(problem.capacity.end(), job.resources.begin(), job.resources.end());
  problem.uses.assign(at(problem.dimensions), std::vector<std::int64_t>(at(problem.tasks), 0));
  for (std::size_t i = 0; i < job.tasks.size(); ++i) {
    problem.uses[0][i] = job.tasks[i].time;
    for (std::size_t r = 0; r < job.tasks[i].uses.size(); ++r) {
      problem.uses[r + 1][i] = job.tasks[i].uses[r];
    }
  }
  problem.apart.resize(at(problem.tasks));
  for (const Before& pair : job.apart) {
    problem.apart[at(pair.first)].push_back(pair.second);
    problem.apart[at(pair.second)].push_back(pair.first);
  }
  problem.plain = job.resources.empty() && job.stage_before.empty() && job.apart.empty();
  fill_precedence(job, problem);
  return problem;
}

std::vector<int> greedy_stages(const StagingProblem& problem) {
  std::vector<std::int64_t> weight = problem.uses[0];
  for (int i = 0; i < problem.tasks; ++i) {
    for (const int later : problem.later[at(i)]) {
      weight[at(i)] += problem.uses[0][at(later)];
    }
  }
  std::vector<int> stage_of(at(problem.tasks), -1);
  std::vector<std::int64_t> left = problem.capacity;
  int stage = 0;
  for (int placed = 0; placed < problem.tasks;) {
    int best = -1;
    for (int i = 0; i < problem.tasks; ++i) {
      if (stage_of[at(i)] < 0 && (best < 0 || weight[at(i)] > weight[at(best)]) &&
          fits(problem, i, stage, left, stage_of)) {
        best = i;
      }
    }
    if (best < 0) {
      ++stage;
      left = problem.capacity;
      continue;
    }
    stage_of[at(best)] = stage;
    ++placed;
    for (int r = 0; r < problem.dimensions; ++r) {
      left[at(r)] -= problem.uses[at(r)][at(best)];
    }
  }
  return stage_of;
}

}  // namespace plankwright::solve
