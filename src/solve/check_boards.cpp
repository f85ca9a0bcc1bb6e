#include "solve/check_boards.h"

#include <algorithm>
#include <map>

#include <fmt/format.h>

namespace plankwright::solve {
namespace {

constexpr int kMostStages = 3;

std::size_t at(int index) {
  return static_cast<std::size_t>(index);
}

bool is_of(int index, std::size_t size) {
  return index >= 0 && at(index) < size;
}

struct Span {
  std::int64_t from = 0;
  std::int64_t to = 0;
};

Span span(const BoardNode& node, Axis axis) {
  return axis == Axis::kX ? Span{node.x, node.x + node.length} : Span{node.y, node.y + node.width};
}

Axis across(Axis axis) {
  return axis == Axis::kX ? Axis::kY : Axis::kX;
}

std::string place(const BoardNode& node) {
  return fmt::format("{},{} {} x {}", node.x, node.y, node.length, node.width);
}

class Check {
 public:
  Check(const BoardJob& job, const BoardAnswer& answer) : job_{job}, answer_{answer} {}

  std::vector<BoardFault> faults() {
    parts_.assign(job_.parts.size(), 0);
    runs_.assign(job_.runs.size(), 0);
    for (const BoardLayout& layout : answer_.layouts) {
      if (!is_of(layout.board, job_.boards.size())) {
        found(BoardFaultKind::kStock, "a board that does not exist");
        continue;
      }
      used_[layout.board] += 1;
      board_ = layout.board;
      check_root(layout.root);
    }
    check_stock();
    check_counts();
    check_panels();
    check_money();
    return std::move(faults_);
  }

 private:
  /// What a node is inside of.
  struct Around {
    int stage = 0;  // of the cut around it
    std::optional<Axis> along;
    bool in_run = false;
  };

  void found(BoardFaultKind kind, std::string message) {
    faults_.push_back({kind, std::move(message)});
  }

  void check_root(const BoardNode& root) {
    const RoughBoard& board = job_.boards[at(board_)];
    if (root.x != job_.end_trim || root.y != job_.edge_trim ||
        root.length != board.length - 2 * job_.end_trim ||
        root.width != board.width - 2 * job_.edge_trim) {
      found(BoardFaultKind::kTrim, fmt::format("board {} is cut from {}", board_, place(root)));
    }
    check_node(root, {});
  }

  void check_node(const BoardNode& node, Around around) {
    switch (node.role) {
      case BoardRole::kPart:
        check_part(node, around);
        break;
      case BoardRole::kStrip:
        check_strip(node);
        break;
      case BoardRole::kCut:
        check_cut(node, around);
        break;
      case BoardRole::kWaste:
        break;
    }
    if (node.role != BoardRole::kCut && !node.children.empty()) {
      found(BoardFaultKind::kNotGuillotine, fmt::format("{} has children", place(node)));
    }
  }

  int stage_of(const BoardNode& node, const Around& around) const {
    if (around.along) {
      return around.stage + (*around.along == node.along ? 0 : 1);
    }
    const bool right_way = job_.order == SawOrder::kEither ||
                           node.along == (job_.order == SawOrder::kRipFirst ? Axis::kY : Axis::kX);
    return right_way ? 1 : 2;
  }

  static std::int64_t pieces_in(const BoardNode& node) {
    if (node.role == BoardRole::kPart || node.role == BoardRole::kStrip || node.run >= 0) {
      return 1;
    }
    std::int64_t sum = 0;
    for (const BoardNode& child : node.children) {
      sum += pieces_in(child);
    }
    return sum;
  }

  void check_cut(const BoardNode& node, const Around& around) {
    check_children(node);
    Around inside{around.stage, node.along, around.in_run};
    if (node.run >= 0) {
      check_run(node);
      inside.in_run = true;
    } else if (!around.in_run) {
      inside.stage = stage_of(node, around);
      if (inside.stage > kMostStages + 1 ||
          (inside.stage == kMostStages + 1 && pieces_in(node) > 1)) {
        found(BoardFaultKind::kStages, fmt::format("{} is stage {}", place(node), inside.stage));
      }
    }
    for (const BoardNode& child : node.children) {
      check_node(child, inside);
    }
  }

  void check_children(const BoardNode& node) {
    const Span whole = span(node, node.along);
    const Span cross = span(node, across(node.along));
    std::int64_t at_now = whole.from;
    bool first = true;
    if (node.children.empty()) {
      found(BoardFaultKind::kNotGuillotine, fmt::format("{} is cut into nothing", place(node)));
    }
    for (const BoardNode& child : node.children) {
      const Span own = span(child, node.along);
      const Span side = span(child, across(node.along));
      if (own.to <= own.from || own.to > whole.to || own.from < whole.from ||
          side.from != cross.from || side.to != cross.to) {
        found(BoardFaultKind::kNotGuillotine,
              fmt::format("{} does not span {}", place(child), place(node)));
      }
      const std::int64_t gap = own.from - at_now;
      if (first ? gap < 0 : gap < job_.kerf) {
        found(BoardFaultKind::kKerf, fmt::format("{} before {}", gap, place(child)));
      } else if (gap > (first ? 1 : 2) * job_.kerf) {
        found(BoardFaultKind::kNotGuillotine,
              fmt::format("{} unaccounted for before {}", gap, place(child)));
      }
      at_now = own.to;
      first = false;
    }
    if (whole.to - at_now > job_.kerf) {
      found(BoardFaultKind::kNotGuillotine,
            fmt::format("{} unaccounted for at the end of {}", whole.to - at_now, place(node)));
    }
  }

  static bool meet(const BoardNode& node, const BoardDefect& defect) {
    return node.x < defect.x + defect.length && defect.x < node.x + node.length &&
           node.y < defect.y + defect.width && defect.y < node.y + node.width;
  }

  void check_clear(const BoardNode& node, Quality quality) {
    if (quality == Quality::kClearOneFace && node.face == BoardFace::kBoth) {
      bool clear = true;
      for (const BoardDefect& defect : job_.boards[at(board_)].defects) {
        clear = clear && !meet(node, defect);
      }
      if (!clear) {
        found(BoardFaultKind::kDefect, fmt::format("{} does not say its clear face", place(node)));
      }
      return;
    }
    for (const BoardDefect& defect : job_.boards[at(board_)].defects) {
      const bool hidden = quality == Quality::kSound ||
                          (quality == Quality::kClearOneFace && defect.face != BoardFace::kBoth &&
                           defect.face != node.face);
      if (meet(node, defect) && !(hidden && defect.sound)) {
        found(BoardFaultKind::kDefect,
              fmt::format("a fault at {},{} lies in {}", defect.x, defect.y, place(node)));
      }
    }
  }

  void check_lot(int group) {
    if (group < 0) {
      return;
    }
    const int lot = job_.boards[at(board_)].lot;
    const auto [known, is_new] = lot_of_.try_emplace(group, lot);
    if (!is_new && known->second != lot) {
      found(BoardFaultKind::kLot, fmt::format("lot group {} comes from two lots", group));
    }
  }

  void check_part(const BoardNode& node, const Around& around) {
    if (!is_of(node.part, job_.parts.size())) {
      found(BoardFaultKind::kMissingPart, "a part that does not exist");
      return;
    }
    const BoardPart& part = job_.parts[at(node.part)];
    parts_[at(node.part)] += 1;
    in_runs_[node.part] += around.in_run ? 1 : 0;
    if (node.length != part.length || node.width != part.width) {
      found(BoardFaultKind::kWrongSize,
            fmt::format("part {} is {} x {}", node.part, node.length, node.width));
    }
    check_clear(node, part.quality);
    check_lot(part.lot_group);
  }

  void check_strip(const BoardNode& node) {
    if (!is_of(node.panel, job_.panels.size()) || node.copy < 0 ||
        node.copy >= job_.panels[at(node.panel)].demand) {
      found(BoardFaultKind::kPanel, "a panel that does not exist");
      return;
    }
    const BoardPanel& panel = job_.panels[at(node.panel)];
    if (node.length != panel.length) {
      found(BoardFaultKind::kWrongSize, fmt::format("a strip {} long", node.length));
    }
    if (node.width < panel.narrowest || node.width > panel.widest) {
      found(BoardFaultKind::kPanel, fmt::format("a strip {} wide", node.width));
    }
    net_[{node.panel, node.copy}] += node.width - panel.joint;
    check_clear(node, panel.quality);
    check_lot(panel.lot_group);
  }

  /// The parts of a run in their order, whatever trims lie between them.
  static void gather(const BoardNode& node, std::vector<const BoardNode*>& parts) {
    if (node.role == BoardRole::kPart) {
      parts.push_back(&node);
    }
    for (const BoardNode& child : node.children) {
      gather(child, parts);
    }
  }

  void check_run(const BoardNode& node) {
    if (!is_of(node.run, job_.runs.size())) {
      found(BoardFaultKind::kRun, "a run that does not exist");
      return;
    }
    const BoardRun& run = job_.runs[at(node.run)];
    runs_[at(node.run)] += 1;
    std::vector<const BoardNode*> parts;
    gather(node, parts);
    bool good = parts.size() == run.parts.size() && node.along == run.along;
    std::optional<BoardFace> face;
    for (std::size_t i = 0; good && i < parts.size(); ++i) {
      good = parts[i]->part == run.parts[i];
      if (good && i > 0) {
        good = span(*parts[i], run.along).from == span(*parts[i - 1], run.along).to + job_.kerf;
      }
      if (good && is_of(parts[i]->part, job_.parts.size()) &&
          job_.parts[at(parts[i]->part)].quality == Quality::kClearOneFace) {
        good = !face || *face == parts[i]->face;
        face = parts[i]->face;
      }
    }
    if (!good) {
      found(BoardFaultKind::kRun, fmt::format("run {} at {} is broken", node.run, place(node)));
    }
  }

  void check_stock() {
    for (const auto& [board, times] : used_) {
      const auto& available = job_.boards[at(board)].available;
      if (available && times > *available) {
        found(BoardFaultKind::kStock, fmt::format("board {} is cut {} times", board, times));
      }
    }
  }

  void check_counts() {
    if (answer_.left_out.size() != job_.parts.size() ||
        answer_.panels_left_out.size() != job_.panels.size()) {
      found(BoardFaultKind::kMissingPart, "what is left out is not said for every part");
      return;
    }
    for (std::size_t i = 0; i < parts_.size(); ++i) {
      const std::int64_t left = answer_.left_out[i];
      if (left < 0 || parts_[i] + left != job_.parts[i].demand ||
          (left > 0 && job_.goal == BoardGoal::kLeastMoney)) {
        found(BoardFaultKind::kMissingPart,
              fmt::format(
                  "part {}: {} cut, {} left out of {}", i, parts_[i], left, job_.parts[i].demand));
      }
    }
    std::map<int, std::int64_t> wanted;
    for (std::size_t r = 0; r < runs_.size(); ++r) {
      if (job_.goal == BoardGoal::kLeastMoney && runs_[r] != job_.runs[r].demand) {
        found(BoardFaultKind::kRun, fmt::format("run {} is cut {} times", r, runs_[r]));
      }
      for (const int part : job_.runs[r].parts) {
        wanted[part] += job_.runs[r].demand;
      }
    }
    // A copy that belongs to a run is not cut on its own.
    for (const auto& [part, in_runs] : wanted) {
      const std::int64_t alone = parts_[at(part)] - in_runs_[part];
      if (alone > job_.parts[at(part)].demand - in_runs) {
        found(BoardFaultKind::kRun, fmt::format("part {} is cut outside its run", part));
      }
    }
  }

  void check_panels() {
    std::vector<std::int64_t> whole(job_.panels.size(), 0);
    for (const auto& [key, net] : net_) {
      const BoardPanel& panel = job_.panels[at(key.first)];
      if (net == panel.width) {
        whole[at(key.first)] += 1;
      } else {
        found(BoardFaultKind::kPanel,
              fmt::format("the strips of panel {} give {} of {}", key.first, net, panel.width));
      }
    }
    for (std::size_t i = 0; i < whole.size() && i < answer_.panels_left_out.size(); ++i) {
      const std::int64_t left = answer_.panels_left_out[i];
      if (whole[i] + left != job_.panels[i].demand ||
          (left != 0 && job_.goal == BoardGoal::kLeastMoney)) {
        found(BoardFaultKind::kPanel,
              fmt::format("panel {}: {} whole, {} left", i, whole[i], left));
      }
      value_ += whole[i] * job_.panels[i].value;
    }
  }

  void check_money() {
    std::int64_t cost = 0;
    for (const auto& [board, times] : used_) {
      cost += times * job_.boards[at(board)].price;
    }
    for (std::size_t i = 0; i < parts_.size(); ++i) {
      value_ += parts_[i] * job_.parts[i].value;
    }
    if (cost != answer_.cost || value_ != answer_.value) {
      found(BoardFaultKind::kCost,
            fmt::format(
                "cost {} value {}, not {} and {}", cost, value_, answer_.cost, answer_.value));
    }
    const bool least = job_.goal == BoardGoal::kLeastMoney;
    const std::int64_t reached = least ? cost : value_;
    if ((least ? answer_.bound > reached : answer_.bound < reached) ||
        answer_.proven != (answer_.bound == reached)) {
      found(BoardFaultKind::kBound,
            fmt::format("bound {} against {}, {}",
                        answer_.bound,
                        reached,
                        answer_.proven ? "proven" : "open"));
    }
  }

  const BoardJob& job_;
  const BoardAnswer& answer_;
  std::vector<BoardFault> faults_;
  int board_ = 0;
  std::map<int, std::int64_t> used_;
  std::vector<std::int64_t> parts_;
  std::vector<std::int64_t> runs_;
  std::map<int, std::int64_t> in_runs_;
  std::map<std::pair<int, std::int64_t>, std::int64_t> net_;
  std::map<int, int> lot_of_;
  std::int64_t value_ = 0;
};

}  // namespace

std::vector<BoardFault> check_boards(const BoardJob& job, const BoardAnswer& answer) {
  return Check{job, answer}.faults();
}

}  // namespace plankwright::solve
