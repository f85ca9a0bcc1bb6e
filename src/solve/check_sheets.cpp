// Walks every cut tree once and rebuilds from the order alone what must be true of it: sizes,
// kerfs, trim, stages, runs, counts and money. Nothing here is shared with the solver, so that one
// mistake cannot hide in both.

#include "solve/check_sheets.h"

#include <algorithm>
#include <map>
#include <set>
#include <utility>

#include <fmt/format.h>

namespace plankwright::solve {
namespace {

__extension__ using Wide = __int128;

Axis across(Axis along) {
  return along == Axis::kX ? Axis::kY : Axis::kX;
}
std::int64_t low_end(const CutNode& node, Axis axis) {
  return axis == Axis::kX ? node.x : node.y;
}
std::int64_t extent(const CutNode& node, Axis axis) {
  return axis == Axis::kX ? node.width : node.height;
}

class Checker {
 public:
  Checker(const SheetJob& job, const SheetAnswer& answer) : job_{job}, answer_{answer} {}

  std::vector<SheetFault> run() {
    copies_.assign(job_.parts.size(), 0);
    runs_.assign(job_.groups.size(), 0);
    sheets_of_kind_.assign(job_.kinds.size(), 0);
    Wide total = 0;
    std::int64_t sheets = 0;
    for (const SheetLayout& layout : answer_.layouts) {
      check_layout(layout);
      total += static_cast<Wide>(layout.cost) * layout.count;
      sheets += layout.count;
    }
    check_counts();
    check_totals(total, sheets);
    return std::move(faults_);
  }

 private:
  /// What is added up over one sheet.
  struct Tally {
    std::int64_t cuts = 0;
    Wide length = 0;
    std::set<std::pair<Axis, std::int64_t>> settings;
    std::int64_t offcuts = 0;
  };

  void fault(SheetFaultKind kind, std::string message) {
    faults_.push_back({kind, std::move(message)});
  }

  void check_layout(const SheetLayout& layout) {
    if (layout.kind < 0 || layout.kind >= static_cast<int>(job_.kinds.size()) || layout.count < 1) {
      fault(SheetFaultKind::kStock, fmt::format("no sheet of kind {}", layout.kind));
      return;
    }
    const SheetKind& kind = job_.kinds[static_cast<std::size_t>(layout.kind)];
    sheets_of_kind_[static_cast<std::size_t>(layout.kind)] += layout.count;
    const std::int64_t trim = kind.trim.value_or(job_.trim);
    const CutNode& root = layout.root;
    if (root.x != trim || root.y != trim || root.width != kind.width - 2 * trim ||
        root.height != kind.height - 2 * trim) {
      fault(SheetFaultKind::kTrim, "the cut tree does not start at the trimmed sheet");
    }
    if (root.role == CutRole::kCut && root.group < 0 && job_.first_cut &&
        root.along != *job_.first_cut) {
      fault(SheetFaultKind::kFirstCut, "the first cut goes the wrong way");
    }
    count_ = layout.count;
    kind_ = &kind;
    Tally tally;
    walk(root, 1, false, tally);
    check_money(layout, kind, tally);
  }

  void check_money(const SheetLayout& layout, const SheetKind& kind, const Tally& tally) {
    const Wide length_money = (tally.length * job_.costs.per_million_length + 999'999) / 1'000'000;
    const Wide cost = static_cast<Wide>(kind.price) + job_.costs.per_sheet + length_money +
                      static_cast<Wide>(tally.cuts) * job_.costs.per_cut +
                      static_cast<Wide>(tally.settings.size()) * job_.costs.per_setting -
                      tally.offcuts;
    if (cost != layout.cost) {
      fault(SheetFaultKind::kCost,
            fmt::format("a sheet of kind {} costs {}, not {}",
                        layout.kind,
                        static_cast<std::int64_t>(cost),
                        layout.cost));
    }
  }

  void walk(const CutNode& node, int stage, bool in_run, Tally& tally) {
    if (node.width <= 0 || node.height <= 0) {
      fault(SheetFaultKind::kNotGuillotine, "a rectangle without area");
    }
    if (node.group >= 0 && !in_run) {
      check_run(node);
      in_run = true;
    } else if (node.group >= 0) {
      fault(SheetFaultKind::kGroup, "a run within a run");
    }
    switch (node.role) {
      case CutRole::kCut:
        walk_cut(node, stage, in_run, tally);
        break;
      case CutRole::kPart:
        check_part(node);
        break;
      default:
        check_rest(node, tally);
    }
  }

  void walk_cut(const CutNode& node, int stage, bool in_run, Tally& tally) {
    if (!in_run && job_.max_stages > 0 && stage > job_.max_stages &&
        !(job_.trimming_cut_free && stage == job_.max_stages + 1 && frees_one_part(node))) {
      fault(SheetFaultKind::kStages, fmt::format("a cut of stage {}", stage));
    }
    check_children(node, tally);
    for (const CutNode& child : node.children) {
      const bool turns = child.role == CutRole::kCut && child.along != node.along;
      walk(child, turns ? stage + 1 : stage, in_run, tally);
    }
  }

  static bool is_rest(const CutNode& node) {
    return node.role == CutRole::kWaste || node.role == CutRole::kOffcut;
  }

  static bool frees_one_part(const CutNode& node) {
    int parts = 0;
    for (const CutNode& child : node.children) {
      if (child.role == CutRole::kCut && child.group < 0) {
        return false;
      }
      parts += is_rest(child) ? 0 : 1;
    }
    return parts == 1;
  }

  void check_children(const CutNode& node, Tally& tally) {
    if (node.children.empty()) {
      fault(SheetFaultKind::kNotGuillotine, "a cut that leaves nothing");
      return;
    }
    const Axis along = node.along;
    const Axis other = across(along);
    const std::int64_t end = low_end(node, along) + extent(node, along);
    std::int64_t expected = low_end(node, along);
    for (std::size_t i = 0; i < node.children.size(); ++i) {
      const CutNode& child = node.children[i];
      if (low_end(child, other) != low_end(node, other) ||
          extent(child, other) != extent(node, other)) {
        fault(SheetFaultKind::kNotGuillotine, "a cut that does not go from edge to edge");
      }
      if (low_end(child, along) != expected) {
        fault(i == 0 ? SheetFaultKind::kNotGuillotine : SheetFaultKind::kKerf,
              fmt::format("a piece starts at {}, not at {}", low_end(child, along), expected));
      }
      const std::int64_t child_end = low_end(child, along) + extent(child, along);
      expected = child_end + job_.kerf;
      if (child_end != end) {
        tally.cuts += 1;
        tally.length += extent(node, other);
        tally.settings.emplace(along, extent(child, along));
      }
    }
    const CutNode& last = node.children.back();
    const std::int64_t left = end - low_end(last, along) - extent(last, along);
    if (left < 0 || left > job_.kerf) {
      fault(SheetFaultKind::kNotGuillotine,
            fmt::format("{} left over behind the last piece", left));
    }
  }

  void check_part(const CutNode& node) {
    if (node.part < 0 || node.part >= static_cast<int>(job_.parts.size())) {
      fault(SheetFaultKind::kWrongSize, fmt::format("no part {}", node.part));
      return;
    }
    const SheetPart& part = job_.parts[static_cast<std::size_t>(node.part)];
    if (node.turned && !part.may_turn) {
      fault(SheetFaultKind::kWrongTurn, fmt::format("part {} must not turn", node.part));
    }
    const std::int64_t width = node.turned ? part.height : part.width;
    const std::int64_t height = node.turned ? part.width : part.height;
    if (node.width != width || node.height != height) {
      fault(SheetFaultKind::kWrongSize,
            fmt::format("part {} is {} x {}, not {} x {}",
                        node.part,
                        node.width,
                        node.height,
                        width,
                        height));
    }
    copies_[static_cast<std::size_t>(node.part)] += count_;
  }

  void check_rest(const CutNode& node, Tally& tally) {
    const bool kept = std::min(node.width, node.height) >= job_.offcuts.min_short &&
                      std::max(node.width, node.height) >= job_.offcuts.min_long &&
                      job_.offcuts.permille > 0;
    if (kept != (node.role == CutRole::kOffcut)) {
      fault(SheetFaultKind::kOffcut,
            fmt::format("{} x {} is {}worth keeping", node.width, node.height, kept ? "" : "not "));
    }
    if (kept) {
      const Wide value = static_cast<Wide>(node.width) * node.height * kind_->price *
                         job_.offcuts.permille /
                         (static_cast<Wide>(kind_->width) * kind_->height * 1000);
      tally.offcuts += static_cast<std::int64_t>(value);
    }
  }

  // A run holds its parts in order with single kerfs between; a part less deep than the run has one
  // trimming cut beside it.
  void check_run(const CutNode& node) {
    if (node.group >= static_cast<int>(job_.groups.size())) {
      fault(SheetFaultKind::kGroup, fmt::format("no group {}", node.group));
      return;
    }
    const SheetGroup& group = job_.groups[static_cast<std::size_t>(node.group)];
    runs_[static_cast<std::size_t>(node.group)] += count_;
    std::vector<const CutNode*> members;
    if (node.role == CutRole::kCut && group.parts.size() > 1) {
      for (const CutNode& child : node.children) {
        members.push_back(&child);
      }
    } else {
      members.push_back(&node);
    }
    if (members.size() != group.parts.size()) {
      fault(SheetFaultKind::kGroup, fmt::format("a run of group {} is not whole", node.group));
      return;
    }
    bool turned = false;
    for (std::size_t i = 0; i < members.size(); ++i) {
      const CutNode* part = the_part_of(*members[i]);
      if (part == nullptr || part->part != group.parts[i] || (i > 0 && part->turned != turned)) {
        fault(SheetFaultKind::kGroup, fmt::format("a run of group {} is out of order", node.group));
        return;
      }
      turned = part->turned;
    }
    const Axis along = turned ? across(group.along) : group.along;
    if (members.size() > 1 && node.along != along) {
      fault(SheetFaultKind::kGroup, fmt::format("a run of group {} lies across", node.group));
    }
  }

  static const CutNode* the_part_of(const CutNode& member) {
    if (member.role == CutRole::kPart) {
      return &member;
    }
    if (member.role != CutRole::kCut || !frees_one_part(member) ||
        is_rest(member.children.front())) {
      return nullptr;
    }
    return &member.children.front();
  }

  void check_counts() {
    for (std::size_t i = 0; i < copies_.size(); ++i) {
      if (copies_[i] != job_.parts[i].demand) {
        fault(
            SheetFaultKind::kMissingPart,
            fmt::format("part {} is cut {} times, wanted {}", i, copies_[i], job_.parts[i].demand));
      }
    }
    for (std::size_t i = 0; i < runs_.size(); ++i) {
      if (runs_[i] != job_.groups[i].demand) {
        fault(
            SheetFaultKind::kGroup,
            fmt::format("group {} is cut {} times, wanted {}", i, runs_[i], job_.groups[i].demand));
      }
    }
    for (std::size_t i = 0; i < sheets_of_kind_.size(); ++i) {
      if (job_.kinds[i].available && sheets_of_kind_[i] > *job_.kinds[i].available) {
        fault(SheetFaultKind::kStock,
              fmt::format("{} sheets of kind {} used, {} on hand",
                          sheets_of_kind_[i],
                          i,
                          *job_.kinds[i].available));
      }
    }
  }

  void check_totals(Wide total, std::int64_t sheets) {
    if (total != answer_.cost || sheets != answer_.sheets) {
      fault(SheetFaultKind::kCost, "the layouts do not add up to the answer's cost and sheets");
    }
    if (answer_.bound > answer_.cost || answer_.sheets_bound > answer_.sheets) {
      fault(SheetFaultKind::kBound, "a bound above the answer");
    }
    if (answer_.proven != (answer_.bound == answer_.cost) ||
        (answer_.stopped == Stopped::kProven && !answer_.proven)) {
      fault(SheetFaultKind::kBound, "proven, though bound and cost differ, or the other way about");
    }
  }

  const SheetJob& job_;
  const SheetAnswer& answer_;
  std::vector<SheetFault> faults_;
  std::vector<std::int64_t> copies_;
  std::vector<std::int64_t> runs_;
  std::vector<std::int64_t> sheets_of_kind_;
  std::int64_t count_ = 1;
  const SheetKind* kind_ = nullptr;
};

}  // namespace

std::vector<SheetFault> check_sheets(const SheetJob& job, const SheetAnswer& answer) {
  return Checker{job, answer}.run();
}

}  // namespace plankwright::solve
