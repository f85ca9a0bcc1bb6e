#include "solve/precedence.h"

#include <algorithm>
#include <functional>
#include <queue>

#include <fmt/format.h>

namespace plankwright::solve {
namespace {

std::size_t at(int index) {
  return static_cast<std::size_t>(index);
}

std::vector<std::vector<int>> lists(int count, const std::vector<Before>& before, bool forward) {
  std::vector<std::vector<int>> next(at(count));
  for (const Before& pair : before) {
    if (pair.first >= 0 && pair.second >= 0 && pair.first < count && pair.second < count) {
      next[at(forward ? pair.first : pair.second)].push_back(forward ? pair.second : pair.first);
    }
  }
  return next;
}

}  // namespace

std::vector<int> sort_by_precedence(int count, const std::vector<Before>& before) {
  const auto after = lists(count, before, true);
  std::vector<int> waiting(at(count), 0);
  for (const auto& list : after) {
    for (const int work : list) {
      ++waiting[at(work)];
    }
  }
  std::priority_queue<int, std::vector<int>, std::greater<>> free;
  for (int work = 0; work < count; ++work) {
    if (waiting[at(work)] == 0) {
      free.push(work);
    }
  }
  std::vector<int> order;
  while (!free.empty()) {
    order.push_back(free.top());
    free.pop();
    for (const int work : after[at(order.back())]) {
      if (--waiting[at(work)] == 0) {
        free.push(work);
      }
    }
  }
  return order;
}

// What a sort leaves out has a predecessor that is left out too; following those must come round.
std::vector<int> find_circle(int count, const std::vector<Before>& before) {
  const std::vector<int> order = sort_by_precedence(count, before);
  std::vector<bool> sorted(at(count), false);
  for (const int work : order) {
    sorted[at(work)] = true;
  }
  const auto start = std::ranges::find(sorted, false);
  if (start == sorted.end()) {
    return {};
  }
  const auto earlier = lists(count, before, false);
  std::vector<int> path;
  std::vector<int> place(at(count), -1);
  for (int work = static_cast<int>(start - sorted.begin()); place[at(work)] < 0;) {
    place[at(work)] = static_cast<int>(path.size());
    path.push_back(work);
    const auto& list = earlier[at(work)];
    work = *std::ranges::find_if(list, [&](int w) { return !sorted[at(w)]; });
    if (place[at(work)] >= 0) {
      path.erase(path.begin(), path.begin() + place[at(work)]);
    }
  }
  std::ranges::reverse(path);
  std::ranges::rotate(path, std::ranges::min_element(path));
  return path;
}

std::string list_of(const std::vector<int>& indices) {
  return fmt::format("{}", fmt::join(indices, ", "));
}

}  // namespace plankwright::solve
