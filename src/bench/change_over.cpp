#include "bench/change_over.h"

#include <algorithm>
#include <map>
#include <tuple>

namespace plankwright::bench {
namespace {

bool is_set(const Task& task) {
  return !task.setting.kind.empty() && task.standard->setup_per == "setting";
}

bool share_any(const std::vector<PartIndex>& a, const std::vector<PartIndex>& b) {
  auto i = a.begin();
  for (auto j = b.begin(); i != a.end() && j != b.end();) {
    if (*i == *j) {
      return true;
    }
    ++(*i < *j ? i : j);
  }
  return false;
}

}  // namespace

ChangeOver::ChangeOver(const Tasks& tasks, const std::vector<Batch>& batches, const Limits& limits)
    : tasks_{tasks}, batches_{batches}, limits_{limits}, shared_(batches.size(), false) {
  std::map<std::tuple<std::string, std::string, std::string>, std::size_t> seen;
  for (std::size_t i = 0; i < batches.size(); ++i) {
    const Task& task = first(i);
    if (!is_set(task)) {
      continue;
    }
    const auto [place, is_new] =
        seen.try_emplace({task.standard->id, task.setting.kind, task.setting.text}, i);
    if (!is_new) {
      shared_[i] = shared_[place->second] = true;
    }
  }
}

bool ChangeOver::walks(std::size_t from, std::size_t to) const {
  return first(from).standard->machine != first(to).standard->machine;
}

bool ChangeOver::fetches(std::size_t from, std::size_t to) const {
  const std::vector<PartIndex>& before = batches_[from].parts;
  const std::vector<PartIndex>& after = batches_[to].parts;
  return !before.empty() && !after.empty() && !share_any(before, after);
}

bool ChangeOver::goes_on(std::size_t from, std::size_t to) const {
  const Task& before = first(from);
  const Task& after = first(to);
  return is_set(after) && before.standard->id == after.standard->id &&
         before.setting == after.setting;
}

measure::Minutes ChangeOver::setting(std::size_t batch) const {
  return is_set(first(batch)) ? first(batch).standard->setup : measure::Minutes{};
}

measure::Minutes ChangeOver::always() const {
  measure::Minutes total;
  for (std::size_t i = 0; i < batches_.size(); ++i) {
    total += shared_[i] ? measure::Minutes{} : setting(i);
  }
  return total;
}

measure::Minutes ChangeOver::at_first(std::size_t batch) const {
  return shared_[batch] ? setting(batch) : measure::Minutes{};
}

measure::Minutes ChangeOver::between(std::size_t from, std::size_t to) const {
  measure::Minutes total = goes_on(from, to) ? measure::Minutes{} : at_first(to);
  total += walks(from, to) ? limits_.walk : measure::Minutes{};
  total += fetches(from, to) ? limits_.fetch : measure::Minutes{};
  return total;
}

OrderMinutes ChangeOver::of(const std::vector<std::size_t>& order) const {
  OrderMinutes total;
  for (std::size_t i = 0; i < order.size(); ++i) {
    if (is_set(first(order[i])) && (i == 0 || !goes_on(order[i - 1], order[i]))) {
      ++total.settings;
      total.setting += setting(order[i]);
    }
    if (i > 0 && walks(order[i - 1], order[i])) {
      ++total.walks;
      total.walking += limits_.walk;
    }
    if (i > 0 && fetches(order[i - 1], order[i])) {
      ++total.fetches;
      total.fetching += limits_.fetch;
    }
  }
  return total;
}

}  // namespace plankwright::bench
