#include <fmt/format.h>

#include "solve/check_sheets.h"
#include "solve/sheet_value.h"

namespace plankwright::solve {
namespace {

std::size_t at(int index) {
  return static_cast<std::size_t>(index);
}

SheetJob drawn_order(const ValueJob& job) {
  SheetJob order;
  order.kinds.push_back({job.width, job.height, 0, job.sheets, job.trim});
  order.kerf = job.kerf;
  for (const ValuedPart& part : job.parts) {
    order.parts.push_back({part.width, part.height, 1, part.may_turn});
  }
  return order;
}

}  // namespace

// The layouts are held to the rules of sheets by the checker for sheets, as an order of exactly
// what they hold; what is left is to count it.
std::vector<std::string> check_sheet_value(const ValueJob& job, const ValueAnswer& answer) {
  std::vector<std::string> faults;
  SheetJob order = drawn_order(job);
  SheetAnswer cut;
  cut.layouts = answer.layouts;
  std::vector<std::int64_t> counts(job.parts.size(), 0);
  const auto count = [&](const auto& self, const CutNode& node, std::int64_t times) -> void {
    if (node.role == CutRole::kPart && node.part >= 0 && at(node.part) < counts.size()) {
      counts[at(node.part)] += times;
    }
    for (const CutNode& child : node.children) {
      self(self, child, times);
    }
  };
  for (const SheetLayout& layout : answer.layouts) {
    count(count, layout.root, layout.count);
    cut.sheets += layout.count;
  }
  cut.proven = true;
  std::int64_t value = 0;
  for (std::size_t i = 0; i < counts.size(); ++i) {
    order.parts[i].demand = counts[i];
    value += counts[i] * job.parts[i].value;
    if (job.parts[i].most && counts[i] > *job.parts[i].most) {
      faults.push_back(fmt::format("part {} is cut {} times", i, counts[i]));
    }
  }
  for (const SheetFault& fault : check_sheets(order, cut)) {
    faults.push_back(fault.message);
  }
  if (value != answer.value || answer.bound < answer.value ||
      answer.proven != (answer.bound == answer.value)) {
    faults.emplace_back("value, bound and proof do not agree");
  }
  return faults;
}

}  // namespace plankwright::solve
