#pragma once
// Work of one kind in one setting, gathered from everything that asks for it.

#include <optional>
#include <string>
#include <vector>

#include "bench/items.h"
#include "bench/rules.h"
#include "bench/settings.h"
#include "shop/shop.h"

namespace plankwright::bench {

/// One thing and one rule that asks work for it.
struct Task {
  const Item* item = nullptr;
  Rule rule;
  const shop::LabourStandard* standard = nullptr;
  Setting setting;
  double units = 0;
  std::string wanted = {};  // the figure it would have, when the shop joins near settings
};

/// All the work there is, and what no rule knows.
struct Tasks {
  std::vector<Task> tasks;                // in the order of the piece
  std::vector<std::string> without_rule;  // "joint `lap`", once each
};

/// Asks the rules for every item. Extra hours of the commission go in the stage of their standard.
/// Work the commission books itself (`extra`) is not added again by a rule on the whole piece.
Tasks tasks_of(const std::vector<Item>& items, const Rules& rules, const Job& job);

/// Glue-ups, coats and trips are set up anew each time; of every other standard all that shares a
/// setting is one batch.
bool is_done_in_turns(const shop::LabourStandard& standard);

/// What goes through one setting together. `tasks` are indices.
struct Batch {
  std::vector<std::size_t> tasks;
  std::vector<PartIndex> parts;  // in the order of the piece, once each
  std::vector<PartIndex> waits_for;
  std::vector<PartIndex> spares;  // a spare blank of each of these goes along
  double units = 0;               // spares included
  int pieces = 0;
  measure::Kilograms mass;  // of the heaviest thing
  int people = 1;

  const Task& first(const Tasks& all) const { return all.tasks[tasks.front()]; }
};

/// One batch for each standard, stage of work and setting (and for each glue-up and coat), in the
/// order in which the piece first asks for them. `spare` are parts of which one more is milled.
std::vector<Batch> batches_of(const Tasks& tasks, const std::vector<PartIndex>& spare);

/// How many settings of its machines a batch-free shop makes: going through the parts list line by
/// line, each machine is set again whenever the next piece needs another setting than the last.
struct SettingCount {
  int batched = 0;
  int drawing_order = 0;
  measure::Minutes drawing_setup;
};
SettingCount count_settings(const Tasks& tasks,
                            const std::vector<Batch>& batches,
                            const piece::Piece& piece);

}  // namespace plankwright::bench
