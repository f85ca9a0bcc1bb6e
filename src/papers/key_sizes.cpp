#include "papers/key_sizes.h"

#include <algorithm>
#include <optional>

namespace plankwright::papers {
namespace {

using measure::Axis;
using measure::Box;
using measure::Length;

/// Parts whose path begins with `unit` and a dot, or is it.
bool belongs(const std::string& path, const std::string& unit) {
  return path == unit || (path.starts_with(unit) && path[unit.size()] == '.');
}

std::size_t depth_of(const std::string& path) {
  return static_cast<std::size_t>(std::ranges::count(path, '.')) + 1;
}

void add_once(std::vector<std::string>& names, const std::string& name) {
  if (std::ranges::find(names, name) == names.end()) {
    names.push_back(name);
  }
}

/// The boxes of a row, when the unit is one: all its parts stand in units of their own.
std::vector<Span> row_of(const piece::Piece& piece, const std::string& unit) {
  std::vector<std::string> names;
  for (const piece::Part& part : piece.parts) {
    if (belongs(part.path, unit)) {
      if (depth_of(part.path) < 3) {
        return {};
      }
      add_once(names, unit_of(part.path, 2));
    }
  }
  std::vector<Span> row;
  for (const std::string& name : names) {
    const Box hull = hull_of_unit(piece, name);
    row.push_back({hull.begin(Axis::kX), hull.end(Axis::kX)});
  }
  return row;
}

std::vector<Span> openings_of(const piece::Piece& piece, const std::string& unit) {
  std::vector<Span> openings;
  for (const piece::Opening& opening : piece.openings) {
    if (belongs(opening.name, unit)) {
      openings.push_back({opening.box.begin(Axis::kX), opening.box.end(Axis::kX)});
    }
  }
  return openings;
}

bool moves(const piece::Piece& piece, piece::PartIndex part) {
  const auto holds = [&](const auto& moving) {
    return std::ranges::find(moving.parts, part) != moving.parts.end();
  };
  return std::ranges::any_of(piece.doors, holds) || std::ranges::any_of(piece.drawers, holds);
}

/// The box around a unit that has openings, its doors and drawers left out.
std::optional<Box> case_of_unit(const piece::Piece& piece, const std::string& unit) {
  if (openings_of(piece, unit).empty()) {
    return std::nullopt;
  }
  std::optional<Box> hull;
  for (piece::PartIndex i = 0; i < piece.parts.size(); ++i) {
    if (belongs(piece.parts[i].path, unit) && !moves(piece, i)) {
      hull = hull ? measure::hull(*hull, piece.parts[i].body) : piece.parts[i].body;
    }
  }
  return hull;
}

/// In order and without what lies over another.
std::vector<Span> side_by_side(std::vector<Span> spans) {
  std::ranges::sort(spans, {}, &Span::from);
  std::vector<Span> row;
  for (const Span& span : spans) {
    if (row.empty() || span.from >= row.back().to) {
      row.push_back(span);
    }
  }
  return row;
}

}  // namespace

std::string unit_of(const std::string& path, std::size_t depth) {
  std::size_t end = 0;
  for (std::size_t i = 0; i < depth; ++i) {
    end = path.find('.', i == 0 ? 0 : end + 1);
    if (end == std::string::npos) {
      return path;
    }
  }
  return path.substr(0, end);
}

std::vector<std::string> units_of(const piece::Piece& piece) {
  std::vector<std::string> names;
  for (const piece::Part& part : piece.parts) {
    add_once(names, unit_of(part.path));
  }
  return names;
}

Box hull_of_unit(const piece::Piece& piece, const std::string& unit) {
  Box hull;
  bool first = true;
  for (const piece::Part& part : piece.parts) {
    if (belongs(part.path, unit)) {
      hull = first ? part.body : measure::hull(hull, part.body);
      first = false;
    }
  }
  return hull;
}

std::vector<Span> unit_heights(const piece::Piece& piece) {
  std::vector<Length> tops;
  for (const std::string& unit : units_of(piece)) {
    tops.push_back(hull_of_unit(piece, unit).end(Axis::kZ));
  }
  std::ranges::sort(tops);
  std::vector<Span> heights;
  Length from = piece.overall.begin(Axis::kZ);
  for (const Length top : tops) {
    if (top > from) {
      heights.push_back({from, top});
      from = top;
    }
  }
  return heights.size() > 1 ? heights : std::vector<Span>{};
}

std::vector<Span> widths_across(const piece::Piece& piece) {
  std::vector<Span> widest;
  for (const std::string& unit : units_of(piece)) {
    std::vector<Span> row = row_of(piece, unit);
    row = side_by_side(row.size() > 1 ? row : openings_of(piece, unit));
    if (row.size() >= widest.size() && !row.empty()) {
      widest = row;
    }
  }
  return widest;
}

std::vector<Span> drawer_fronts(const piece::Piece& piece) {
  std::vector<Span> fronts;
  for (const piece::Drawer& drawer : piece.drawers) {
    if (!drawer.parts.empty()) {
      const Box& front = piece.parts[drawer.parts.front()].body;
      fronts.push_back({front.begin(Axis::kZ), front.end(Axis::kZ)});
    }
  }
  return side_by_side(fronts);
}

std::vector<Span> unit_depths(const piece::Piece& piece) {
  std::vector<Span> depths;
  for (const std::string& unit : units_of(piece)) {
    const std::optional<Box> hull = case_of_unit(piece, unit);
    if (!hull) {
      continue;
    }
    const Span depth{hull->begin(Axis::kY), hull->end(Axis::kY)};
    const bool whole = hull->size.y >= piece.overall.size.y;
    const bool known = std::ranges::any_of(
        depths, [&](const Span& other) { return other.to - other.from == hull->size.y; });
    if (!whole && !known) {
      depths.push_back(depth);
    }
  }
  return depths;
}

std::vector<Span> clear_height(const piece::Piece& piece) {
  for (const piece::Opening& opening : piece.openings) {
    const bool on_floor = opening.box.begin(Axis::kZ) == piece.overall.begin(Axis::kZ);
    if (on_floor && opening.filled_with.empty()) {
      return {{opening.box.begin(Axis::kZ), opening.box.end(Axis::kZ)}};
    }
  }
  return {};
}

}  // namespace plankwright::papers
