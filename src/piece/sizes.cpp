#include "piece/sizes.h"

#include <algorithm>
#include <array>
#include <cmath>
#include <map>

#include <fmt/format.h>

namespace plankwright::piece {
namespace {

constexpr std::array kAxes = {Axis::kX, Axis::kY, Axis::kZ};

Length deepest(const Piece& piece, PartIndex part, Direction home) {
  Length depth;
  for (const Joint& joint : piece.joints) {
    if (joint.a == part && joint.home == home && lets_in(joint.kind)) {
      depth = std::max(depth, joint.depth);
    }
  }
  return depth;
}

Length& along(Size& size, const Part& part, Axis axis) {
  return axis == part.length_axis      ? size.length
         : axis == part.thickness_axis ? size.thickness
                                       : size.width;
}

int boards_across(Length width, Length board) {
  if (board <= Length{} || width <= board) {
    return 1;
  }
  return static_cast<int>((width.nm() + board.nm() - 1) / board.nm());
}

Size rough_solid(const Part& part, const shop::SolidStock& stock, const shop::Allowances& extra) {
  Size rough = part.cut;
  rough.length += extra.rough_length;
  rough.width += extra.rough_width * part.strips;
  if (part.strips > 1) {
    rough.width += extra.glued_width;
  }
  if (part.layers > 1) {
    rough.width += extra.lamination_width;
  }
  rough.thickness = stock.rough_thickness * part.layers;
  return rough;
}

/// Area between an arc and its chord.
double segment_area(Length span, Length rise) {
  const double c = span.mm();
  const double s = rise.mm();
  if (c <= 0 || s <= 0) {
    return 0;
  }
  const double radius = c * c / (8 * s) + s / 2;
  const double half_angle = std::asin(std::min(1.0, c / (2 * radius)));
  return radius * radius * half_angle - (radius - s) * c / 2;
}

/// What tapered faces leave of the box below where they start: the mean of the product of two
/// straight lines is exact by Simpson's rule.
double taper_share(const Part& part) {
  std::map<Axis, double> foot;  // share of the section left at the foot, by axis
  Length from;
  for (const Taper& taper : part.tapers) {
    const double full = part.body.size[taper.side.axis].mm();
    const double lost = full > 0 ? (full - taper.to_size.mm()) / full : 0;
    foot.try_emplace(taper.side.axis, 1.0).first->second = 1.0 - lost;
    from = taper.from;
  }
  const double length = part.body.size[part.length_axis].mm();
  if (foot.empty() || length <= 0) {
    return 1.0;
  }
  const auto section = [&](double t) {
    double share = 1.0;
    for (const auto& [axis, at_foot] : foot) {
      share *= 1.0 - (1.0 - at_foot) * t;
    }
    return share;
  };
  const double tapered = (section(0) + 4 * section(0.5) + section(1)) / 6;
  const double upper = std::clamp(from.mm() / length, 0.0, 1.0);
  return upper + (1 - upper) * tapered;
}

double density_of(const Part& part, const shop::Shop& shop) {
  if (const shop::SolidStock* solid = shop.solid(part.stock)) {
    const wood::Species* species = shop.species.get(solid->species);
    return species != nullptr ? species->density.value.count() : 0;
  }
  if (const shop::SheetStock* sheet = shop.sheet(part.stock)) {
    const wood::Panel* panel = shop.panels.get(sheet->panel);
    return panel != nullptr ? panel->density.value.count() : 0;
  }
  if (const shop::BarStock* bar = shop.bar(part.stock)) {
    const wood::Species* species = shop.species.get(bar->species);
    const double section = measure::area(bar->width, bar->thickness).count();
    return species != nullptr ? species->density.value.count()
           : section > 0      ? bar->kg_per_metre * 1e6 / section
                              : 0;
  }
  return 0;  // bought-in parts are weighed as fittings
}

/// Running mean of places, weighted by mass.
struct Balance {
  double mass = 0;
  std::array<double, 3> moment = {0, 0, 0};

  void add(double kg, Point at) {
    mass += kg;
    for (std::size_t i = 0; i < kAxes.size(); ++i) {
      moment[i] += kg * at[kAxes[i]].mm();
    }
  }
  Point centre() const {
    Point point;
    for (std::size_t i = 0; i < kAxes.size() && mass > 0; ++i) {
      point[kAxes[i]] = Length::from_mm(moment[i] / mass);
    }
    return point;
  }
};

std::string unit_of(const Part& part) {
  return part.path.substr(0, part.path.find('.'));
}

/// The part of two paths that they share, cut at a dot.
std::string common_path(const std::string& a, const std::string& b) {
  std::size_t shared = 0;
  for (std::size_t i = 0; i <= std::min(a.size(), b.size()); ++i) {
    const bool a_ends = i == a.size() || a[i] == '.';
    const bool b_ends = i == b.size() || b[i] == '.';
    if (a_ends && b_ends) {
      shared = i;
    }
    if (i == a.size() || i == b.size() || a[i] != b[i]) {
      break;
    }
  }
  return a.substr(0, shared);
}

std::vector<std::size_t> groups_held_together(const Piece& piece) {
  std::vector<std::size_t> group(piece.parts.size());
  for (std::size_t i = 0; i < group.size(); ++i) {
    group[i] = i;
  }
  bool changed = true;
  while (changed) {  // labels sink to the lowest part of each group
    changed = false;
    for (const Joint& joint : piece.joints) {
      if (!joint.undone && group[joint.a] != group[joint.b]) {
        group[joint.a] = group[joint.b] = std::min(group[joint.a], group[joint.b]);
        changed = true;
      }
    }
  }
  return group;
}

}  // namespace

void work_out_finished_sizes(Piece& piece) {
  for (PartIndex i = 0; i < piece.parts.size(); ++i) {
    Part& part = piece.parts[i];
    for (const Axis axis : kAxes) {
      along(part.finished, part, axis) =
          part.body.size[axis] + deepest(piece, i, {axis, 1}) + deepest(piece, i, {axis, -1});
    }
  }
}

void work_out_cut_sizes(Piece& piece, const shop::Shop& shop) {
  for (Part& part : piece.parts) {
    part.cut = part.finished;
    for (const EdgeBand& band : part.bands) {
      along(part.cut, part, band.side.axis) -= band.thickness;
    }
    part.cut.length += part.site_length;
    part.cut.width += part.site_width;
    part.rough = part.cut;
    if (const shop::SolidStock* stock = shop.solid(part.stock)) {
      if (part.strips <= 1) {
        part.strips = boards_across(part.cut.width, stock->board_width);
      }
      if (part.layers <= 1 && stock->surfaced_thickness > Length{}) {
        part.layers = boards_across(part.finished.thickness, stock->surfaced_thickness);
      }
      part.rough = rough_solid(part, *stock, shop.allowances);
    }
  }
}

measure::CubicMillimetres volume_of(const Part& part) {
  double volume = part.finished.length.mm() * part.finished.width.mm() *
                  part.finished.thickness.mm() * taper_share(part);
  if (part.arch && !part.arch->bent) {
    volume -= segment_area(part.arch->span, part.arch->rise) * part.finished.thickness.mm();
  }
  return measure::CubicMillimetres{std::max(0.0, volume)};
}

void weigh(Piece& piece, const shop::Shop& shop) {
  Balance whole;
  for (Part& part : piece.parts) {
    const double kg = volume_of(part).count() / 1e9 * density_of(part, shop);
    part.mass = measure::Kilograms{kg};
    part.centre = part.body.centre();
    whole.add(kg, part.centre);
  }
  for (const HardwareUse& use : piece.hardware) {
    const shop::Hardware* fitting = shop.fitting(use.id);
    if (fitting != nullptr && !fitting->client_item) {
      whole.add(fitting->mass.count() * use.count, use.at);
    }
  }
  piece.mass = measure::Kilograms{whole.mass};
  piece.centre = whole.centre();
}

void give_codes(Piece& piece) {
  std::vector<std::string> units;
  std::map<std::string, int> lines_in;
  for (Part& part : piece.parts) {
    part.code.clear();
  }
  for (const PartLine& line : part_lines(piece)) {
    const std::string unit = unit_of(piece.parts[line.parts.front()]);
    auto place = std::ranges::find(units, unit);
    if (place == units.end()) {
      place = units.insert(units.end(), unit);
    }
    const auto letter = static_cast<std::size_t>(place - units.begin());
    const std::string code = fmt::format(
        "{}{}", static_cast<char>('A' + static_cast<int>(letter % 26)), ++lines_in[unit]);
    for (const PartIndex i : line.parts) {
      piece.parts[i].code = code;
    }
  }
}

void pack(Piece& piece) {
  piece.packages.clear();
  const std::vector<std::size_t> group = groups_held_together(piece);
  std::map<std::size_t, Package> packages;
  std::map<std::size_t, Balance> balances;
  for (PartIndex i = 0; i < piece.parts.size(); ++i) {
    const Part& part = piece.parts[i];
    const auto [found, is_new] = packages.try_emplace(group[i]);
    Package& package = found->second;
    package.name = is_new ? part.path : common_path(package.name, part.path);
    package.box = is_new ? part.body : measure::hull(package.box, part.body);
    package.parts.push_back(i);
    balances[group[i]].add(part.mass.count(), part.centre);
  }
  for (auto& [key, package] : packages) {
    package.mass = measure::Kilograms{balances[key].mass};
    package.centre = balances[key].centre();
    piece.packages.push_back(std::move(package));
  }
  std::ranges::stable_sort(piece.packages, [](const Package& a, const Package& b) {
    return measure::volume(a.box) > measure::volume(b.box);
  });
}

}  // namespace plankwright::piece
