// Sheets end somewhere, and their edges are no wood.

#include <algorithm>
#include <array>

#include <fmt/format.h>

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

/// A top of layers that are pieced is longer than any sheet: worth knowing, and planned.
void note_pieced(const Inspection& look, std::vector<Finding>& findings) {
  for (PartIndex i = 0; i < look.piece.parts.size(); ++i) {
    const Part& part = look.part(i);
    const shop::SheetStock* sheet = look.shop.sheet(part.stock);
    if (sheet == nullptr || part.length_axis != Axis::kX) {
      continue;
    }
    std::vector<PartIndex> line = {i};
    Length whole = part.body.size.x;
    for (PartIndex j = 0; j < look.piece.parts.size(); ++j) {
      const Part& other = look.part(j);
      const bool continues = j != i && other.stock == part.stock && other.kit == part.kit &&
                             other.body.at.y == part.body.at.y &&
                             other.body.at.z == part.body.at.z &&
                             other.body.begin(Axis::kX) == part.body.end(Axis::kX) &&
                             other.body.size.z == part.body.size.z;
      if (continues) {
        line.push_back(j);
        whole += other.body.size.x;
      }
    }
    if (line.size() < 2 || whole <= sheet->length) {
      continue;
    }
    Finding finding;
    finding.id = "sheet.pieced." + part.path;
    finding.kind = "sheet";
    finding.severity = Severity::kNote;
    finding.title = fmt::format("The {} is longer than the sheet and pieced", part.name);
    finding.figure = fmt::format("{} in {} pieces", look.size(whole), line.size());
    finding.limit = fmt::format("{} sheet", look.size(sheet->length));
    finding.value = whole.mm();
    finding.limit_value = sheet->length.mm();
    finding.unit = "mm";
    finding.source = "the shop's stock list";
    finding.remedy = "keep the joints of the layers apart and on the lines of the boxes below";
    finding.parts = line;
    finding.from = part.from;
    findings.push_back(std::move(finding));
  }
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
