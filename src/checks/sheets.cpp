// Sheets end somewhere, and their edges are no wood.

#include <algorithm>
#include <array>
#include <set>
#include <string>

#include <fmt/format.h>
#include <fmt/ranges.h>

#include "checks/report.h"

namespace plankwright::checks {
namespace {

void check_size(const Inspection& look,
                PartIndex index,
                const shop::SheetStock& sheet,
                std::vector<Finding>& findings) {
  const Part& part = look.part(index);
  const Length trim = look.shop.allowances.sheet_trim * 2;
  const Length room_along = sheet.length - trim;
  const Length room_across = sheet.width - trim;
  Length longest = part.cut.length;
  Length widest = part.cut.width;
  if (!sheet.grain && longest < widest) {
    std::swap(longest, widest);
  }
  if (longest <= room_along && widest <= room_across) {
    return;
  }
  const bool too_long = longest > room_along;
  Finding finding;
  finding.id = "sheet." + part.path;
  finding.kind = "sheet";
  finding.severity = Severity::kFails;
  finding.title =
      fmt::format("The {} is {} than its sheet", part.name, too_long ? "longer" : "wider");
  finding.figure = look.size(too_long ? longest : widest);
  finding.limit = fmt::format(
      "{} of {} after trimming", look.size(too_long ? room_along : room_across), sheet.name);
  finding.value = (too_long ? longest : widest).mm();
  finding.limit_value = (too_long ? room_along : room_across).mm();
  finding.unit = "mm";
  finding.source = "the shop's stock list";
  finding.remedy =
      "piece it where a joint is hidden or falls on a line of the piece, or buy a longer "
      "sheet";
  finding.parts = {index};
  finding.from = part.from;
  findings.push_back(std::move(finding));
}

/// Parts of one layer end to end, from `first` on.
std::vector<PartIndex> line_from(const Inspection& look, PartIndex first) {
  std::vector<PartIndex> line = {first};
  for (PartIndex i = 0; i < look.piece.parts.size(); ++i) {
    const Part& last = look.part(line.back());
    const Part& next = look.part(i);
    if (next.stock == last.stock && next.kit == last.kit && next.body.at.y == last.body.at.y &&
        next.body.at.z == last.body.at.z && next.body.size.z == last.body.size.z &&
        next.body.begin(Axis::kX) == last.body.end(Axis::kX)) {
      line.push_back(i);
      i = 0;  // the next piece may stand before this one in the list
    }
  }
  return line;
}

/// What is longer than any sheet and pieced on purpose is worth knowing.
void note_pieced(const Inspection& look, std::vector<Finding>& findings) {
  Finding finding;
  std::set<std::string> names;
  Length longest;
  for (PartIndex i = 0; i < look.piece.parts.size(); ++i) {
    const Part& part = look.part(i);
    const shop::SheetStock* sheet = look.shop.sheet(part.stock);
    if (sheet == nullptr || part.length_axis != Axis::kX) {
      continue;
    }
    const std::vector<PartIndex> line = line_from(look, i);
    const Length whole = look.part(line.back()).body.end(Axis::kX) - part.body.begin(Axis::kX);
    if (line.size() < 2 || whole <= sheet->length) {
      continue;
    }
    names.insert(part.name);
    finding.parts.insert(finding.parts.end(), line.begin(), line.end());
    finding.limit = fmt::format("{} sheet", look.size(sheet->length));
    finding.limit_value = sheet->length.mm();
    longest = std::max(longest, whole);
  }
  if (names.empty()) {
    return;
  }
  finding.id = "sheet.pieced";
  finding.kind = "sheet";
  finding.severity = Severity::kNote;
  finding.title = "Longer than the sheet, and pieced";
  finding.figure = fmt::format("{}; the longest {}", fmt::join(names, ", "), look.size(longest));
  finding.value = longest.mm();
  finding.unit = "mm";
  finding.source = "the shop's stock list";
  finding.remedy = "keep the joints of layers apart, and on the lines of the boxes below";
  finding.from = look.part(finding.parts.front()).from;
  findings.push_back(std::move(finding));
}

/// True when something covers the edge of `part` on `side`: a band, a glued strip, or a neighbour.
bool is_covered(const Inspection& look, PartIndex index, measure::Direction side) {
  const Part& part = look.part(index);
  const bool banded = std::ranges::any_of(
      part.bands, [&](const piece::EdgeBand& band) { return band.side == side; });
  measure::Box edge = part.body;
  if (side.sign > 0) {
    edge.at[side.axis] = part.body.end(side.axis);
  }
  edge.size[side.axis] = Length{};
  return banded || std::ranges::any_of(look.piece.parts, [&](const Part& other) {
           const measure::Box shared = measure::intersection(edge, other.body);
           return &other != &part && shared.size[side.axis] >= Length{} &&
                  std::ranges::all_of(std::array{Axis::kX, Axis::kY, Axis::kZ}, [&](Axis axis) {
                    return axis == side.axis || shared.size[axis] * 2 > edge.size[axis];
                  });
         });
}

void check_front_edge(const Inspection& look, PartIndex index, std::vector<Finding>& findings) {
  const Part& part = look.part(index);
  const measure::Direction front{Axis::kY, -1};
  const bool on_edge = part.thickness_axis != Axis::kY;
  const bool thin =
      part.finished.thickness < Length::from_mm(9);  // backs and bottoms sit in grooves
  if (!on_edge || thin || is_covered(look, index, front)) {
    return;
  }
  const bool in_a_drawer =
      std::ranges::any_of(look.piece.drawers, [&](const piece::Drawer& drawer) {
        return std::ranges::find(drawer.parts, index) != drawer.parts.end();
      });
  if (in_a_drawer) {
    return;
  }
  Finding finding;
  finding.id = "edge." + part.path;
  finding.kind = "edge";
  finding.severity = Severity::kPoor;
  finding.title = fmt::format("The front edge of the {} shows its layers", part.name);
  finding.figure = fmt::format("{} of bare board edge", look.size(part.finished.length));
  finding.source = "common practice, no source";
  finding.remedy = "band it, lip it, or glue a nosing on";
  finding.parts = {index};
  finding.from = part.from;
  findings.push_back(std::move(finding));
}

}  // namespace

void check_sheets(const Inspection& look, std::vector<Finding>& findings) {
  for (PartIndex i = 0; i < look.piece.parts.size(); ++i) {
    if (const shop::SheetStock* sheet = look.shop.sheet(look.part(i).stock)) {
      check_size(look, i, *sheet, findings);
      check_front_edge(look, i, findings);
    }
  }
  note_pieced(look, findings);
}

}  // namespace plankwright::checks
