// From a piece to the work on it: things that ask for work, rules that answer, batches, their
// order, and the hours.

#include <algorithm>
#include <set>

#include <fmt/format.h>

#include "bench/batches.h"
#include "bench/bench.h"
#include "bench/change_over.h"
#include "bench/hours.h"
#include "bench/items.h"
#include "bench/marking.h"
#include "bench/merge_settings.h"
#include "bench/order.h"
#include "bench/risk.h"
#include "bench/rules.h"
#include "bench/stage_card_of.h"
#include "bench/step_text.h"

namespace plankwright::bench {
namespace {

Minutes minutes_of_a_joint(const Rules& rules, const shop::Shop& shop) {
  for (const Rule* rule : rules.rules_for("glue_stage", "case")) {
    const shop::LabourStandard* standard = shop.standard(rule->standard);
    if (standard != nullptr && standard->setup_per == "stage") {
      return standard->per_unit;
    }
  }
  return {};
}

std::string name_of(const Task& task) {
  std::string name = task.rule.name.empty() ? task.standard->name : task.rule.name;
  if (task.item->subject == "extra" && !task.item->label.empty()) {
    name = task.item->label;
  }
  if (is_done_in_turns(*task.standard) && !task.item->label.empty()) {
    name += ": " + task.item->label;
  }
  return name;
}

std::string source_of(const Task& task) {
  const std::string rule = task.rule.at.file.empty()
                               ? task.rule.stage
                               : fmt::format("{}:{}", task.rule.at.file, task.rule.at.line);
  return fmt::format("rule {} ({}); labour standard {} ({})",
                     rule,
                     task.rule.source,
                     task.standard->id,
                     task.standard->source);
}

constexpr double kWorkOfAFirstAnswer = 5e6;

Tasks merged_tasks(const std::vector<Item>& items, const Rules& rules, const Job& job) {
  Tasks tasks = tasks_of(items, rules, job);
  merge_settings(tasks, job.limits.join_settings_within);
  return tasks;
}

class Planner {
 public:
  Planner(const Job& job, const Rules& rules)
      : job_{job},
        rules_{rules},
        items_{items_of(job)},
        tasks_{merged_tasks(items_, rules, job)},
        batches_{batches_of(tasks_, spares_worth_making(tasks_, job))} {}

  Bench plan(double work) const {
    Bench bench;
    const auto before = predecessors(tasks_, batches_);
    const OrderedWork ordered =
        working_order(tasks_,
                      batches_,
                      risky_steps_early(tasks_, batches_, before),
                      job_.limits,
                      static_cast<std::int64_t>(work * kWorkOfAFirstAnswer));
    add_operations(bench, ordered.batches, before);
    add_order(bench, ordered.cost);
    add_glue_ups(bench, ordered.batches);
    bench.marking = mark_out(job_.piece);
    bench.without_rule = tasks_.without_rule;
    reckon_hours(bench, job_.shop);
    return bench;
  }

 private:
  void add_operations(Bench& bench,
                      const std::vector<std::size_t>& order,
                      const std::vector<std::vector<std::size_t>>& before) const {
    const ChangeOver change{tasks_, batches_, job_.limits};
    std::vector<std::size_t> place(order.size());
    for (std::size_t i = 0; i < order.size(); ++i) {
      place[order[i]] = i;
    }
    std::set<std::string> set_up;
    for (std::size_t i = 0; i < order.size(); ++i) {
      const std::size_t batch = order[i];
      bench.operations.push_back(operation(batches_[batch], set_up));
      if (i > 0 && change.goes_on(order[i - 1], batch)) {
        bench.operations.back().setup = {};
        bench.operations.back().after.push_back(i - 1);
      }
      for (const std::size_t earlier : before[batch]) {
        bench.operations.back().after.push_back(place[earlier]);
      }
      std::vector<std::size_t>& after = bench.operations.back().after;
      std::ranges::sort(after);
      after.erase(std::unique(after.begin(), after.end()), after.end());
    }
  }

  /// Working down the drawing goes through the same stages, but sets each machine as the list asks.
  void add_order(Bench& bench, const SettingOrder& cost) const {
    const SettingCount count = count_settings(tasks_, batches_, job_.piece);
    bench.order = cost;
    bench.order.drawing.settings = count.drawing_order;
    bench.order.drawing.setting = count.drawing_setup;
    bench.settings = cost.planned.settings;
    bench.settings_drawing_order = count.drawing_order;
    bench.saved = count.drawing_setup - cost.planned.setting;
  }

  /// A card for each glue-up, beside the step that does it.
  void add_glue_ups(Bench& bench, const std::vector<std::size_t>& order) const {
    const GlueUp glued = glue_up_of(job_);
    bench.glue_ups_bound = glued.bound;
    for (const auto& joints : glued.blocked) {
      bench.cannot_assemble.push_back(describe_blocked(job_.piece, joints));
    }
    for (std::size_t i = 0; i < order.size(); ++i) {
      const Task& task = batches_[order[i]].first(tasks_);
      if (task.item->subject != "glue_stage" || task.standard->setup_per != "stage") {
        continue;
      }
      const auto stage = std::ranges::find_if(glued.stages, [&](const GlueStage& one) {
        return chain_of(one) == task.item->chain && one.number == task.item->sequence;
      });
      if (stage != glued.stages.end()) {
        bench.glue_ups.push_back(stage_card_of(job_, *stage, *task.item));
        bench.glue_ups.back().operation = i;
      }
    }
  }

  /// `set_up` holds the standards that are set up once a job and have been.
  Operation operation(const Batch& batch, std::set<std::string>& set_up) const {
    const Task& task = batch.first(tasks_);
    const shop::LabourStandard& standard = *task.standard;
    const shop::Machine* machine = job_.shop.machine(standard.machine);
    const bool once = standard.setup_per == "job";
    const bool pays = !once || set_up.insert(standard.id).second;
    Operation operation;
    operation.standard = standard.id;
    operation.name = name_of(task);
    operation.phase = standard.phase;
    operation.machine = machine != nullptr ? machine->name : standard.machine;
    operation.setting = task.setting.text;
    operation.setting_length = task.setting.length;
    operation.setting_depth = task.setting.depth;
    operation.setting_kind = task.setting.kind;
    operation.parts = batch.parts;
    operation.pieces = batch.pieces;
    operation.spares = static_cast<int>(batch.spares.size());
    operation.units = batch.units;
    operation.setup = pays ? standard.setup : Minutes{};
    operation.work = standard.per_unit * batch.units;
    operation.sigma = standard.sigma;
    operation.people = batch.people;
    operation.unattended =
        task.item->unattended.count() > 0 ? task.item->unattended : standard.unattended;
    const Rework rework = rework_of(batch, tasks_);
    operation.fails = rework.chance;
    operation.rework = rework.minutes;
    operation.joined = joined_in(batch);
    operation.test = task.rule.test;
    operation.says = card_text(batch, tasks_, job_);
    operation.cautions = cautions_for(batch, tasks_, rules_.cautions, job_);
    operation.from = source_of(task);
    return operation;
  }

  /// Figures given up for the batch's own, once each.
  std::vector<std::string> joined_in(const Batch& batch) const {
    std::set<std::string> figures;
    for (const std::size_t task : batch.tasks) {
      figures.insert(tasks_.tasks[task].wanted);
    }
    figures.erase("");
    return {figures.begin(), figures.end()};
  }

  const Job& job_;
  const Rules& rules_;
  std::vector<Item> items_;
  Tasks tasks_;
  std::vector<Batch> batches_;
};

}  // namespace

Bench plan_bench(const piece::Piece& piece,
                 const stock::Stock& stock,
                 const shop::Shop& shop,
                 const commission::Commission& commission,
                 const Rules& rules,
                 double work) {
  const Job job{.piece = piece,
                .stock = stock,
                .shop = shop,
                .commission = commission,
                .limits = rules.limits,
                .minutes_a_joint = minutes_of_a_joint(rules, shop)};
  return Planner{job, rules}.plan(work);
}

}  // namespace plankwright::bench
