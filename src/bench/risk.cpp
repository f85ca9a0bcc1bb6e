// A step that fails with chance p = 1 - q throws away all that was spent before it. Two neighbours
// a and b cost c_a + c_b q_a in this order and c_b + c_a q_b in the other, both over q_a q_b; so a
// belongs first when p_a / c_a > p_b / c_b.

#include "bench/risk.h"

#include <algorithm>
#include <cmath>
#include <numeric>

#include "measure/quantity.h"

namespace plankwright::bench {
namespace {

/// Price of the rough wood of a part, as it is bought.
double price_of_blank(const Job& job, const piece::Part& part) {
  const shop::SolidStock* stock = job.shop.solid(part.stock);
  if (stock == nullptr) {
    return 0;
  }
  const measure::CubicMillimetres rough =
      measure::volume(part.rough.length, part.rough.width, part.rough.thickness);
  const double sold = stock->sold_by == shop::SoldBy::kBoardFoot ? measure::board_feet(rough)
                                                                 : measure::cubic_metres(rough);
  return stock->price.major() * sold * stock->buy_factor;
}

bool is_on(const Task& task, PartIndex part) {
  return std::ranges::find(task.item->parts, part) != task.item->parts.end();
}

/// The step most likely to spoil this very part, or nullptr.
const Task* riskiest(const Tasks& tasks, PartIndex part) {
  const Task* worst = nullptr;
  for (const Task& task : tasks.tasks) {
    const bool alone = task.item->subject == "part" && is_on(task, part);
    if (alone && task.rule.fails > 0 && (worst == nullptr || task.rule.fails > worst->rule.fails)) {
      worst = &task;
    }
  }
  return worst;
}

bool is_worth_a_spare(const Tasks& tasks, const Job& job, PartIndex part, int alike) {
  const Task* risky = riskiest(tasks, part);
  if (risky == nullptr || job.piece.parts[part].material != piece::Material::kSolid) {
    return false;
  }
  double spare = 0;    // minutes of milling one more now
  double replace = 0;  // minutes of making one alone, afterwards
  for (const Task& task : tasks.tasks) {
    if (!is_on(task, part) || task.rule.rank > risky->rule.rank || task.item->parts.size() > 2) {
      continue;
    }
    const double work = task.standard->per_unit.count() * task.units;
    replace += work + task.standard->setup.count();
    if (task.item->subject == "part" && task.rule.rank < risky->rule.rank) {
      spare += work;
    }
  }
  const double hour = job.shop.hour.cost.major() / 60;
  const double blank = price_of_blank(job, job.piece.parts[part]);
  return chance_of_one(risky->rule.fails, alike) * (blank + replace * hour) > blank + spare * hour;
}

}  // namespace

double expected_cost(const std::vector<RiskyStep>& steps) {
  double total = 0;
  double still_good = 1;
  for (auto step = steps.rbegin(); step != steps.rend(); ++step) {
    still_good *= 1 - step->fails;
    total += step->cost / still_good;
  }
  return total;
}

std::vector<std::size_t> cheapest_order(const std::vector<RiskyStep>& steps) {
  std::vector<std::size_t> order(steps.size());
  std::iota(order.begin(), order.end(), std::size_t{0});
  std::ranges::stable_sort(order, [&](std::size_t a, std::size_t b) {
    return steps[a].fails * steps[b].cost > steps[b].fails * steps[a].cost;
  });
  return order;
}

double chance_of_one(double fails, int pieces) {
  return 1 - std::pow(1 - fails, pieces);
}

Rework rework_of(const Batch& batch, const Tasks& tasks) {
  const Task& risky = batch.first(tasks);
  if (risky.rule.fails <= 0 || batch.parts.empty()) {
    return {};
  }
  Rework rework{.chance = chance_of_one(risky.rule.fails, std::max(1, batch.pieces)),
                .minutes = {}};
  const PartIndex part = batch.parts.front();
  const bool spare = std::ranges::find(batch.spares, part) != batch.spares.end();
  for (const Task& task : tasks.tasks) {
    const bool again =
        spare ? task.rule.rank == risky.rule.rank : task.rule.rank <= risky.rule.rank;
    if (again && is_on(task, part) && task.item->parts.size() <= 2) {
      rework.minutes += task.standard->setup + task.standard->per_unit * task.units;
    }
  }
  return rework;
}

std::vector<PartIndex> spares_worth_making(const Tasks& tasks, const Job& job) {
  std::vector<PartIndex> spares;
  for (const piece::PartLine& line : piece::part_lines(job.piece)) {
    if (is_worth_a_spare(tasks, job, line.parts.front(), static_cast<int>(line.parts.size()))) {
      spares.push_back(line.parts.front());
    }
  }
  return spares;
}

}  // namespace plankwright::bench
