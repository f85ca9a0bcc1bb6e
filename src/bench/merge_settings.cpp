#include "bench/merge_settings.h"

#include <algorithm>
#include <map>
#include <string>
#include <tuple>

namespace plankwright::bench {
namespace {

bool may_merge(const Task& task) {
  return task.setting.kind == "fence" || task.setting.kind == "stop";
}

using Work = std::tuple<std::size_t, std::string, std::string, std::string>;

/// Tasks that want the machine at one length.
struct Wanted {
  Length length;
  std::vector<std::size_t> tasks;
};

/// Most pieces; the longer one where it is even.
const Wanted& most_wanted(const std::vector<Wanted>& group) {
  return *std::ranges::max_element(group, {}, [](const Wanted& wanted) {
    return std::pair{wanted.tasks.size(), wanted.length};
  });
}

void join(Tasks& tasks, const std::vector<Wanted>& group) {
  const Setting common = tasks.tasks[most_wanted(group).tasks.front()].setting;
  for (const Wanted& wanted : group) {
    for (const std::size_t i : wanted.tasks) {
      Task& task = tasks.tasks[i];
      task.wanted = task.setting == common ? "" : task.setting.text;
      task.setting = common;
    }
  }
}

}  // namespace

void merge_settings(Tasks& tasks, Length within) {
  if (within <= Length{}) {
    return;
  }
  std::map<Work, std::map<Length, std::vector<std::size_t>>> by_work;
  for (std::size_t i = 0; i < tasks.tasks.size(); ++i) {
    const Task& task = tasks.tasks[i];
    if (may_merge(task)) {
      by_work[{task.rule.rank, task.standard->id, task.rule.name, task.setting.kind}]
             [task.setting.length]
                 .push_back(i);
    }
  }
  for (const auto& [work, by_length] : by_work) {
    std::vector<Wanted> group;
    for (const auto& [length, wanting] : by_length) {
      if (!group.empty() && length - group.front().length > within) {
        join(tasks, group);
        group.clear();
      }
      group.push_back({length, wanting});
    }
    join(tasks, group);
  }
}

}  // namespace plankwright::bench
