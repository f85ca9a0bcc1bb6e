// From the order to the small whole numbers of the search, and back from its patterns to rectangles
// on a sheet. Sorted by size, never by address, so that the order in which parts were written
// matters only for which of two equal ones lies where.

#include "solve/sheet_problem.h"

#include <algorithm>
#include <map>
#include <numeric>
#include <set>
#include <tuple>
#include <utility>

namespace plankwright::solve {
namespace {

std::size_t at(int index) {
  return static_cast<std::size_t>(index);
}

struct Size {
  std::int64_t width = 0;
  std::int64_t height = 0;
};

Size size_of_group(const SheetJob& job, const SheetGroup& group) {
  std::int64_t along = job.kerf * (static_cast<std::int64_t>(group.parts.size()) - 1);
  std::int64_t across = 0;
  for (const int index : group.parts) {
    const SheetPart& part = job.parts[at(index)];
    along += group.along == Axis::kX ? part.width : part.height;
    across = std::max(across, group.along == Axis::kX ? part.height : part.width);
  }
  return group.along == Axis::kX ? Size{along, across} : Size{across, along};
}

std::int64_t common_unit(const SheetJob& job) {
  std::int64_t unit = job.kerf;
  for (const SheetKind& kind : job.kinds) {
    unit = std::gcd(unit, kind.width - 2 * kind.trim.value_or(job.trim));
    unit = std::gcd(unit, kind.height - 2 * kind.trim.value_or(job.trim));
  }
  for (const SheetPart& part : job.parts) {
    unit = std::gcd(unit, std::gcd(part.width, part.height));
  }
  return std::max<std::int64_t>(1, unit);
}

struct Piece {
  PackType type;
  PackSource source;
};

class ProblemMaker {
 public:
  explicit ProblemMaker(const SheetJob& job) : job_{job} {}

  PackProblem run() {
    problem_.max_stages = job_.max_stages;
    problem_.trimming_cut_free = job_.trimming_cut_free;
    problem_.first_cut = job_.first_cut;
    problem_.unit = common_unit(job_);
    problem_.kerf = scaled(job_.kerf);
    for (const SheetKind& kind : job_.kinds) {
      add_kind(kind);
    }
    add_parts();
    merge_equal();
    return std::move(problem_);
  }

 private:
  std::int32_t scaled(std::int64_t length) const {
    return static_cast<std::int32_t>(length / problem_.unit);
  }

  void add_kind(const SheetKind& kind) {
    const std::int64_t trim = kind.trim.value_or(job_.trim);
    PackKind pack;
    pack.width = scaled(kind.width - 2 * trim) + problem_.kerf;
    pack.height = scaled(kind.height - 2 * trim) + problem_.kerf;
    pack.price = kind.price + job_.costs.per_sheet;
    if (kind.available) {
      pack.available = *kind.available;
    }
    problem_.kinds.push_back(pack);
  }

  void add_parts() {
    std::vector<std::int64_t> free_copies;
    for (const SheetPart& part : job_.parts) {
      free_copies.push_back(part.demand);
    }
    for (std::size_t g = 0; g < job_.groups.size(); ++g) {
      const SheetGroup& group = job_.groups[g];
      bool turns = true;
      for (const int part : group.parts) {
        free_copies[at(part)] -= group.demand;
        turns = turns && job_.parts[at(part)].may_turn;
      }
      add_piece(size_of_group(job_, group), turns, {-1, static_cast<int>(g), group.demand});
    }
    for (std::size_t i = 0; i < job_.parts.size(); ++i) {
      const SheetPart& part = job_.parts[i];
      if (free_copies[i] > 0) {
        add_piece(
            {part.width, part.height}, part.may_turn, {static_cast<int>(i), -1, free_copies[i]});
      }
    }
  }

  void add_piece(Size size, bool turns, PackSource source) {
    Piece piece;
    piece.type.width = scaled(size.width) + problem_.kerf;
    piece.type.height = scaled(size.height) + problem_.kerf;
    piece.type.demand = source.copies;
    piece.type.may_turn = turns && size.width != size.height;
    piece.type.value = static_cast<double>(piece.type.width) * piece.type.height;
    piece.source = source;
    pieces_.push_back(piece);
  }

  // A part that may turn and one that lies turned are the same type when the first is kept long
  // side along x, whatever way it was written.
  static std::tuple<int, int, bool> key(const PackType& type) {
    return type.may_turn ? std::tuple{std::max(type.width, type.height),
                                      std::min(type.width, type.height),
                                      true}
                         : std::tuple{type.width, type.height, false};
  }

  void merge_equal() {
    std::map<std::tuple<int, int, bool>, std::vector<Piece>> by_size;
    for (const Piece& piece : pieces_) {
      by_size[key(piece.type)].push_back(piece);
    }
    for (auto it = by_size.rbegin(); it != by_size.rend(); ++it) {
      PackType type = it->second.front().type;
      std::tie(type.width, type.height, type.may_turn) = it->first;
      type.demand = 0;
      std::vector<PackSource> sources;
      for (const Piece& piece : it->second) {
        type.demand += piece.source.copies;
        sources.push_back(piece.source);
      }
      problem_.types.push_back(type);
      problem_.sources.push_back(std::move(sources));
    }
  }

  const SheetJob& job_;
  PackProblem problem_;
  std::vector<Piece> pieces_;
};

/// Turns patterns into rectangles and hands the parts out, first come first served.
class LayoutMaker {
 public:
  LayoutMaker(const SheetJob& job, const PackProblem& problem)
      : job_{job}, problem_{problem}, sources_{problem.sources} {}

  std::vector<SheetLayout> run(const std::vector<PackSheet>& sheets) {
    std::vector<SheetLayout> layouts;
    for (const PackSheet& sheet : sheets) {
      std::int64_t left = sheet.count;
      while (left > 0 && !sheet.root.children.empty()) {
        left -= add_layout(sheet, left, layouts);
      }
    }
    return layouts;
  }

 private:
  // As many alike sheets as the sources at hand allow without changing from one part to another.
  std::int64_t add_layout(const PackSheet& sheet,
                          std::int64_t wanted,
                          std::vector<SheetLayout>& layouts) {
    const std::int64_t count = std::min(wanted, alike(sheet.root));
    count_ = count;
    SheetLayout layout;
    layout.kind = sheet.kind;
    layout.count = count;
    const SheetKind& kind = job_.kinds[at(sheet.kind)];
    const std::int64_t trim = kind.trim.value_or(job_.trim);
    layout.root = build(sheet.root, trim, trim, kind.width - 2 * trim, kind.height - 2 * trim);
    layout.cost = cost_of_sheet(job_, layout.kind, layout.root);
    layouts.push_back(std::move(layout));
    return count;
  }

  std::int64_t alike(const PackNode& root) const {
    const auto counts = count_types(root, problem_.types.size());
    std::int64_t alike = std::numeric_limits<std::int64_t>::max();
    for (std::size_t t = 0; t < counts.size(); ++t) {
      if (counts[t] == 0) {
        continue;
      }
      const auto first = std::ranges::find_if(
          sources_[t], [](const PackSource& source) { return source.copies > 0; });
      const bool whole = first->copies >= counts[t];
      alike = std::min(alike, whole ? first->copies / counts[t] : 1);
    }
    return alike;
  }

  CutNode build(const PackNode& pack,
                std::int64_t x,
                std::int64_t y,
                std::int64_t width,
                std::int64_t height) {
    if (pack.type >= 0) {
      return take_piece(pack, x, y, width, height);
    }
    CutNode node{x, y, width, height, CutRole::kCut, pack.along, -1, false, -1, {}};
    std::int64_t from = pack.along == Axis::kX ? x : y;
    const std::int64_t end = from + (pack.along == Axis::kX ? width : height);
    for (const PackNode& child : pack.children) {
      if (pack.along == Axis::kX) {
        const std::int64_t size = child.width * problem_.unit - job_.kerf;
        node.children.push_back(build(child, from, y, size, height));
        from += size + job_.kerf;
      } else {
        const std::int64_t size = child.height * problem_.unit - job_.kerf;
        node.children.push_back(build(child, x, from, width, size));
        from += size + job_.kerf;
      }
    }
    add_rest(node, from, end);
    return node;
  }

  void add_rest(CutNode& node, std::int64_t from, std::int64_t end) const {
    if (from < end) {
      node.children.push_back(node.along == Axis::kX ? CutNode{from,
                                                               node.y,
                                                               end - from,
                                                               node.height,
                                                               CutRole::kWaste,
                                                               Axis::kX,
                                                               -1,
                                                               false,
                                                               -1,
                                                               {}}
                                                     : CutNode{node.x,
                                                               from,
                                                               node.width,
                                                               end - from,
                                                               CutRole::kWaste,
                                                               Axis::kX,
                                                               -1,
                                                               false,
                                                               -1,
                                                               {}});
      name_rest(node.children.back());
    }
  }

  void name_rest(CutNode& rest) const {
    const bool kept = job_.offcuts.permille > 0 &&
                      std::min(rest.width, rest.height) >= job_.offcuts.min_short &&
                      std::max(rest.width, rest.height) >= job_.offcuts.min_long;
    rest.role = kept ? CutRole::kOffcut : CutRole::kWaste;
  }

  CutNode take_piece(const PackNode& pack,
                     std::int64_t x,
                     std::int64_t y,
                     std::int64_t width,
                     std::int64_t height) {
    for (PackSource& source : sources_[at(pack.type)]) {
      if (source.copies >= count_) {
        source.copies -= count_;
        CutNode node{x, y, width, height, CutRole::kPart, Axis::kX, source.part, false, -1, {}};
        return source.group >= 0 ? build_run(std::move(node), source.group) : turned_as_lies(node);
      }
    }
    return {};
  }

  CutNode turned_as_lies(CutNode node) const {
    const SheetPart& part = job_.parts[at(node.part)];
    node.turned = part.width != node.width || part.height != node.height;
    return node;
  }

  CutNode build_run(CutNode node, int index) const {
    const SheetGroup& group = job_.groups[at(index)];
    const Size size = size_of_group(job_, group);
    const bool turned = size.width != node.width || size.height != node.height;
    const bool along_x = (group.along == Axis::kX) != turned;
    node.group = index;
    if (group.parts.size() == 1) {
      node.part = group.parts.front();
      return turned_as_lies(node);
    }
    node.role = CutRole::kCut;
    node.along = along_x ? Axis::kX : Axis::kY;
    node.part = -1;
    std::int64_t from = along_x ? node.x : node.y;
    for (const int member : group.parts) {
      node.children.push_back(build_member(node, member, turned, from));
      from += (along_x ? node.children.back().width : node.children.back().height) + job_.kerf;
    }
    return node;
  }

  CutNode build_member(const CutNode& run, int index, bool turned, std::int64_t from) const {
    const SheetPart& part = job_.parts[at(index)];
    const std::int64_t width = turned ? part.height : part.width;
    const std::int64_t height = turned ? part.width : part.height;
    const bool along_x = run.along == Axis::kX;
    CutNode node{along_x ? from : run.x,
                 along_x ? run.y : from,
                 width,
                 height,
                 CutRole::kPart,
                 Axis::kX,
                 index,
                 turned,
                 -1,
                 {}};
    if ((along_x ? run.height : run.width) == (along_x ? height : width)) {
      return node;
    }
    CutNode strip = node;
    strip.role = CutRole::kCut;
    strip.part = -1;
    strip.turned = false;
    strip.along = along_x ? Axis::kY : Axis::kX;
    (along_x ? strip.height : strip.width) = along_x ? run.height : run.width;
    strip.children.push_back(node);
    add_rest(strip,
             (along_x ? node.y + node.height : node.x + node.width) + job_.kerf,
             along_x ? run.y + run.height : run.x + run.width);
    return strip;
  }

  const SheetJob& job_;
  const PackProblem& problem_;
  std::vector<std::vector<PackSource>> sources_;
  std::int64_t count_ = 1;
};

struct Tally {
  std::int64_t cuts = 0;
  Int128 length = 0;
  std::set<std::pair<Axis, std::int64_t>> settings;
  Int128 offcut_area = 0;
  std::vector<Int128> offcuts;
};

void tally_up(const CutNode& node, Tally& tally) {
  if (node.role == CutRole::kOffcut) {
    tally.offcuts.push_back(static_cast<Int128>(node.width) * node.height);
  }
  const bool along_x = node.along == Axis::kX;
  for (const CutNode& child : node.children) {
    const bool reaches_end = along_x ? child.x + child.width == node.x + node.width
                                     : child.y + child.height == node.y + node.height;
    if (!reaches_end) {
      tally.cuts += 1;
      tally.length += along_x ? node.height : node.width;
      tally.settings.emplace(node.along, along_x ? child.width : child.height);
    }
    tally_up(child, tally);
  }
}

}  // namespace

PackProblem make_problem(const SheetJob& job) {
  return ProblemMaker{job}.run();
}

std::vector<std::int64_t> count_types(const PackNode& root, std::size_t types) {
  std::vector<std::int64_t> counts(types, 0);
  const auto walk = [&](const auto& self, const PackNode& node) -> void {
    if (node.type >= 0) {
      counts[at(node.type)] += 1;
    }
    for (const PackNode& child : node.children) {
      self(self, child);
    }
  };
  walk(walk, root);
  return counts;
}

std::vector<SheetLayout> make_layouts(const SheetJob& job,
                                      const PackProblem& problem,
                                      const std::vector<PackSheet>& sheets) {
  return LayoutMaker{job, problem}.run(sheets);
}

std::int64_t cost_of_sheet(const SheetJob& job, int kind, const CutNode& root) {
  Tally tally;
  tally_up(root, tally);
  const CutCosts& costs = job.costs;
  const SheetKind& sheet = job.kinds[at(kind)];
  Int128 cost = static_cast<Int128>(sheet.price) + costs.per_sheet;
  cost += static_cast<Int128>(tally.cuts) * costs.per_cut;
  cost += (tally.length * costs.per_million_length + 999'999) / 1'000'000;
  cost += static_cast<Int128>(tally.settings.size()) * costs.per_setting;
  const Int128 whole = static_cast<Int128>(sheet.width) * sheet.height * 1000;
  for (const Int128 area : tally.offcuts) {
    cost -= area * sheet.price * job.offcuts.permille / whole;
  }
  return static_cast<std::int64_t>(cost);
}

}  // namespace plankwright::solve
