#include "solve/board_problem.h"

#include <algorithm>

namespace plankwright::solve {
namespace {

constexpr int kSoundWay = 0;
constexpr int kUpperWay = 1;
constexpr int kLowerWay = 2;
constexpr int kBothWay = 3;

bool matters(const BoardDefect& defect, int way) {
  switch (way) {
    case kSoundWay:
      return !defect.sound;
    case kUpperWay:
      return !defect.sound || defect.face != BoardFace::kLower;
    case kLowerWay:
      return !defect.sound || defect.face != BoardFace::kUpper;
    default:
      return true;
  }
}

BoardShape shape_of(const RoughBoard& board, const BoardJob& job) {
  BoardShape shape;
  shape.usable = {job.end_trim,
                  job.edge_trim,
                  std::max<std::int64_t>(0, board.length - 2 * job.end_trim),
                  std::max<std::int64_t>(0, board.width - 2 * job.edge_trim)};
  for (int way = 0; way < 4; ++way) {
    for (const BoardDefect& defect : board.defects) {
      const BoardArea area{defect.x, defect.y, defect.length, defect.width};
      if (matters(defect, way) && area.overlaps(shape.usable)) {
        shape.faults[way].push_back(area);
      }
    }
    std::ranges::sort(shape.faults[way], {}, &BoardArea::x);
  }
  return shape;
}

void add_run(const BoardRun& run, int index, const BoardJob& job, std::vector<Block>& blocks) {
  Block block;
  block.run = index;
  block.demand = run.demand;
  block.quality = Quality::kSound;
  std::int64_t at = 0;
  for (const int p : run.parts) {
    const BoardPart& part = job.parts[static_cast<std::size_t>(p)];
    const bool end_to_end = run.along == Axis::kX;
    const std::int64_t from = at + (block.parts.empty() ? 0 : job.kerf);
    block.parts.push_back(
        {{end_to_end ? from : 0, end_to_end ? 0 : from, part.length, part.width}, part.quality, p});
    at = from + (end_to_end ? part.length : part.width);
    block.length = std::max(block.length, block.parts.back().at.end_x());
    block.width = std::max(block.width, block.parts.back().at.end_y());
    block.quality = std::max(block.quality, part.quality);
    block.worth += part.value;
    block.lot_group = std::max(block.lot_group, part.lot_group);
  }
  blocks.push_back(std::move(block));
}

void add_part(const BoardPart& part, int index, std::int64_t demand, std::vector<Block>& blocks) {
  if (demand <= 0) {
    return;
  }
  Block block;
  block.length = part.length;
  block.width = part.width;
  block.parts = {{{0, 0, part.length, part.width}, part.quality, index}};
  block.part = index;
  block.quality = part.quality;
  block.demand = demand;
  block.worth = part.value;
  block.lot_group = part.lot_group;
  blocks.push_back(std::move(block));
}

void add_panel(const BoardPanel& panel, int index, std::vector<Block>& blocks) {
  for (std::int64_t copy = 0; copy < panel.demand; ++copy) {
    Block block;
    block.length = panel.length;
    block.width = std::min(panel.widest, panel.width + panel.joint);
    block.parts = {{{0, 0, panel.length, panel.narrowest}, panel.quality, -1}};
    block.panel = index;
    block.copy = copy;
    block.quality = panel.quality;
    block.worth = panel.value;
    block.lot_group = panel.lot_group;
    blocks.push_back(std::move(block));
  }
}

}  // namespace

bool BoardShape::clear(const BoardArea& area, int way) const {
  for (const BoardArea& fault : faults[way]) {
    if (fault.x >= area.end_x()) {
      return true;  // they are sorted by x
    }
    if (fault.overlaps(area)) {
      return false;
    }
  }
  return true;
}

Ways ways_of(Quality quality) {
  switch (quality) {
    case Quality::kSound:
      return {kSoundWay, kSoundWay};
    case Quality::kClearOneFace:
      return {kUpperWay, kLowerWay};
    default:
      return {kBothWay, kBothWay};
  }
}

BoardFace face_of(int way) {
  return way == kUpperWay ? BoardFace::kUpper
                          : (way == kLowerWay ? BoardFace::kLower : BoardFace::kBoth);
}

bool BoardProblem::clear(
    int board, const Block& block, std::int64_t x, std::int64_t y, int way) const {
  const BoardShape& shape = shapes[static_cast<std::size_t>(board)];
  return std::ranges::all_of(block.parts, [&](const BlockPart& part) {
    const BoardArea area{x + part.at.x, y + part.at.y, part.at.length, part.at.width};
    const Ways own = ways_of(part.quality);
    // In a run that shows one face, its sound and its two-faced parts still keep to their own way.
    return shape.clear(area, own.first == own.last ? own.first : way);
  });
}

bool strips_reach(const BoardPanel& panel, std::int64_t rest) {
  const std::int64_t least = panel.narrowest - panel.joint;
  const std::int64_t most = panel.widest - panel.joint;
  if (rest == 0) {
    return true;
  }
  if (rest < least || most <= 0) {
    return false;
  }
  const std::int64_t strips = (rest + most - 1) / most;
  return strips * least <= rest;
}

BoardProblem make_board_problem(const BoardJob& job) {
  BoardProblem problem;
  problem.job = &job;
  for (const RoughBoard& board : job.boards) {
    problem.shapes.push_back(shape_of(board, job));
  }
  std::vector<std::int64_t> single(job.parts.size());
  for (std::size_t i = 0; i < job.parts.size(); ++i) {
    single[i] = job.parts[i].demand;
  }
  for (std::size_t i = 0; i < job.runs.size(); ++i) {
    add_run(job.runs[i], static_cast<int>(i), job, problem.blocks);
    for (const int part : job.runs[i].parts) {
      single[static_cast<std::size_t>(part)] -= job.runs[i].demand;
    }
  }
  for (std::size_t i = 0; i < job.parts.size(); ++i) {
    add_part(job.parts[i], static_cast<int>(i), single[i], problem.blocks);
  }
  for (std::size_t i = 0; i < job.panels.size(); ++i) {
    add_panel(job.panels[i], static_cast<int>(i), problem.blocks);
  }
  return problem;
}

}  // namespace plankwright::solve
