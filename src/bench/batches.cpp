#include "bench/batches.h"

#include <algorithm>
#include <cmath>
#include <limits>
#include <map>
#include <set>
#include <tuple>

#include <fmt/format.h>

namespace plankwright::bench {
namespace {

/// Rules for an item; extra hours take the place of their standard in the table.
std::vector<Rule> rules_for(const Rules& rules, const Item& item) {
  std::vector<Rule> found;
  for (const Rule* rule : rules.rules_for(item.subject, item.kind)) {
    found.push_back(*rule);
  }
  if (item.subject == "extra" && !rules.names("extra", item.kind)) {
    const auto same = std::ranges::find_if(
        rules.rules, [&](const Rule& rule) { return rule.standard == item.kind; });
    if (same != rules.rules.end()) {
      Rule rule = *same;
      rule.units = Units::kCount;
      rule.setting = SettingWay::kNone;
      rule.name.clear();
      found = {rule};
    }
  }
  return found;
}

bool booked_by_hand(const Rule& rule, const commission::Commission& commission) {
  return rule.subject == "piece" &&
         std::ranges::any_of(commission.extra_work, [&](const commission::ExtraWork& work) {
           return work.standard == rule.standard;
         });
}

using Key = std::tuple<std::size_t,
                       std::string,
                       std::string,
                       std::string,
                       std::int64_t,
                       std::string,
                       std::string,
                       int>;

Key key_of(const Task& task) {
  const bool turns = is_done_in_turns(*task.standard);
  const bool named = task.item->subject == "extra";
  return {task.rule.rank,
          task.standard->id,
          named ? task.item->label : task.rule.name,
          task.setting.kind,
          task.setting.length.nm(),
          task.setting.text,
          turns ? task.item->chain : "",
          turns ? task.item->sequence : 0};
}

void add_all(std::set<PartIndex>& to, const std::vector<PartIndex>& from) {
  to.insert(from.begin(), from.end());
}

int pieces_of(const Task& task) {
  const bool counted = task.rule.units == Units::kCount && task.item->subject != "glue_stage" &&
                       task.item->subject != "extra";
  return counted ? std::max(1, static_cast<int>(std::lround(task.item->count))) : 1;
}

/// A spare blank passes everything its part passes alone, up to the step that may spoil it.
bool takes_spare(const Task& task, const Tasks& tasks) {
  if (task.item->subject != "part") {
    return false;
  }
  std::size_t risky = std::numeric_limits<std::size_t>::max();
  for (const Task& other : tasks.tasks) {
    if (other.rule.fails > 0 && other.item->parts == task.item->parts) {
      risky = std::min(risky, other.rule.rank);
    }
  }
  return task.rule.rank < risky;
}

void fill_batch(Batch& batch, const Tasks& tasks, const std::vector<PartIndex>& spare) {
  std::set<PartIndex> parts;
  std::set<PartIndex> waits_for;
  for (const std::size_t i : batch.tasks) {
    const Task& task = tasks.tasks[i];
    add_all(parts, task.item->parts);
    add_all(waits_for, task.item->waits_for);
    batch.units += task.units;
    batch.pieces += pieces_of(task);
    batch.mass = std::max(batch.mass, task.item->mass);
    batch.people = std::max({batch.people, task.item->people, task.standard->people});
    const bool along = task.item->parts.size() == 1 &&
                       std::ranges::find(spare, task.item->parts.front()) != spare.end();
    if (along && takes_spare(task, tasks)) {
      batch.spares.push_back(task.item->parts.front());
      batch.units += task.units;
      ++batch.pieces;
    }
  }
  batch.parts = {parts.begin(), parts.end()};
  batch.waits_for = {waits_for.begin(), waits_for.end()};
}

/// Place of each part in the parts list.
std::vector<std::size_t> list_places(const piece::Piece& piece) {
  std::vector<std::size_t> places(piece.parts.size());
  std::size_t next = 0;
  for (const piece::PartLine& line : piece::part_lines(piece)) {
    for (const PartIndex part : line.parts) {
      places[part] = next++;
    }
  }
  return places;
}

}  // namespace

bool is_done_in_turns(const shop::LabourStandard& standard) {
  return standard.setup_per == "stage" || standard.setup_per == "coat" ||
         standard.setup_per == "trip";
}

Tasks tasks_of(const std::vector<Item>& items, const Rules& rules, const Job& job) {
  Tasks all;
  std::set<std::string> unknown;
  for (const Item& item : items) {
    const std::vector<Rule> found = rules_for(rules, item);
    if (found.empty() && unknown.insert(item.subject + item.kind).second) {
      all.without_rule.push_back(fmt::format("{} `{}`", item.subject, item.kind));
    }
    for (const Rule& rule : found) {
      if (rule.standard.empty() || booked_by_hand(rule, job.commission)) {
        continue;
      }
      const shop::LabourStandard* standard = job.shop.standard(rule.standard);
      if (standard == nullptr) {
        if (unknown.insert(rule.standard).second) {
          all.without_rule.push_back(fmt::format("labour standard `{}`", rule.standard));
        }
        continue;
      }
      all.tasks.push_back(
          {.item = &item,
           .rule = rule,
           .standard = standard,
           .setting = setting_of(rule.setting, item, job.piece, job.commission.unit()),
           .units = units_of(rule.units, item)});
    }
  }
  return all;
}

std::vector<Batch> batches_of(const Tasks& tasks, const std::vector<PartIndex>& spare) {
  std::vector<Batch> batches;
  std::map<Key, std::size_t> places;
  for (std::size_t i = 0; i < tasks.tasks.size(); ++i) {
    const auto [place, is_new] = places.try_emplace(key_of(tasks.tasks[i]), batches.size());
    if (is_new) {
      batches.emplace_back();
    }
    batches[place->second].tasks.push_back(i);
  }
  for (Batch& batch : batches) {
    fill_batch(batch, tasks, spare);
  }
  return batches;
}

SettingCount count_settings(const Tasks& tasks,
                            const std::vector<Batch>& batches,
                            const piece::Piece& piece) {
  const std::vector<std::size_t> places = list_places(piece);
  struct Pass {
    std::size_t place;  // in the parts list
    std::size_t batch;
  };
  std::map<std::pair<std::string, std::string>, std::vector<Pass>> by_machine;
  std::map<std::string, measure::Minutes> setup;
  SettingCount count;
  for (std::size_t b = 0; b < batches.size(); ++b) {
    const Task& first = batches[b].first(tasks);
    if (first.setting.kind.empty() || first.standard->setup_per != "setting") {
      continue;
    }
    ++count.batched;
    setup[first.standard->id] = first.standard->setup;
    for (const std::size_t t : batches[b].tasks) {
      const Item& item = *tasks.tasks[t].item;
      by_machine[{first.standard->id, first.setting.kind}].push_back(
          {places[item.parts.front()], b});
    }
  }
  for (auto& [machine, passes] : by_machine) {
    std::ranges::stable_sort(passes, {}, &Pass::place);
    for (std::size_t i = 0; i < passes.size(); ++i) {
      if (i == 0 || passes[i].batch != passes[i - 1].batch) {
        ++count.drawing_order;
        count.drawing_setup += setup[machine.first];
      }
    }
  }
  return count;
}

}  // namespace plankwright::bench
