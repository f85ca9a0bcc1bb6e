// Adds up every bar from the order alone.

#include <fmt/format.h>

#include "solve/bars.h"

namespace plankwright::solve {
namespace {

__extension__ using Wide = __int128;

std::size_t at(int index) {
  return static_cast<std::size_t>(index);
}

void check_layout(const BarJob& job, const BarLayout& layout, std::vector<std::string>& faults) {
  const BarKind& kind = job.kinds[at(layout.kind)];
  const std::int64_t usable = kind.length - 2 * kind.trim.value_or(job.trim);
  std::int64_t taken = 0;
  for (const int part : layout.parts) {
    taken += (taken > 0 ? job.kerf : 0) + job.parts[at(part)].length;
  }
  if (layout.parts.empty() || taken > usable) {
    faults.push_back(fmt::format("{} cut from {}", taken, usable));
  }
  const std::int64_t rest = usable - taken > job.kerf ? usable - taken - job.kerf : 0;
  if (rest != layout.rest) {
    faults.push_back(fmt::format("a rest of {}, not {}", rest, layout.rest));
  }
  Wide cost = kind.price;
  if (job.rests.permille > 0 && rest > 0 && rest >= job.rests.min_length) {
    cost -= static_cast<Wide>(rest) * kind.price * job.rests.permille /
            (static_cast<Wide>(kind.length) * 1000);
  }
  if (cost != layout.cost) {
    faults.push_back(fmt::format("a bar of kind {} does not cost {}", layout.kind, layout.cost));
  }
}

}  // namespace

std::vector<std::string> check_bars(const BarJob& job, const BarAnswer& answer) {
  std::vector<std::string> faults;
  std::vector<std::int64_t> copies(job.parts.size(), 0);
  std::vector<std::int64_t> used(job.kinds.size(), 0);
  Wide cost = 0;
  std::int64_t bars = 0;
  for (const BarLayout& layout : answer.layouts) {
    bool known = layout.kind >= 0 && at(layout.kind) < job.kinds.size() && layout.count > 0;
    for (const int part : layout.parts) {
      known = known && part >= 0 && at(part) < job.parts.size();
    }
    if (!known) {
      faults.emplace_back("a bar, a part or a count that does not exist");
      continue;
    }
    check_layout(job, layout, faults);
    used[at(layout.kind)] += layout.count;
    bars += layout.count;
    cost += static_cast<Wide>(layout.cost) * layout.count;
    for (const int part : layout.parts) {
      copies[at(part)] += layout.count;
    }
  }
  for (std::size_t i = 0; i < copies.size(); ++i) {
    if (copies[i] != job.parts[i].demand) {
      faults.push_back(
          fmt::format("part {} is cut {} times, wanted {}", i, copies[i], job.parts[i].demand));
    }
  }
  for (std::size_t k = 0; k < used.size(); ++k) {
    if (job.kinds[k].available && used[k] > *job.kinds[k].available) {
      faults.push_back(fmt::format("{} bars of kind {} used", used[k], k));
    }
  }
  if (cost != answer.cost || bars != answer.bars) {
    faults.emplace_back("the bars do not add up to the answer's cost and count");
  }
  if (answer.bound > answer.cost || answer.bars_bound > answer.bars ||
      answer.proven != (answer.bound == answer.cost)) {
    faults.emplace_back("a bound above the answer, or proven claimed wrongly");
  }
  return faults;
}

}  // namespace plankwright::solve
