// The parts list, by unit.

#include <fmt/format.h>

#include "papers/key_sizes.h"
#include "papers/packet.h"
#include "papers/table.h"
#include "papers/wording.h"

namespace plankwright::papers {
namespace {

std::string_view side_name(piece::Direction side) {
  using measure::Axis;
  switch (side.axis) {
    case Axis::kX:
      return side.sign > 0 ? "right" : "left";
    case Axis::kY:
      return side.sign > 0 ? "back" : "front";
    case Axis::kZ:
      break;
  }
  return side.sign > 0 ? "top" : "bottom";
}

std::string bands_of(const piece::Part& part) {
  std::vector<std::string> sides;
  for (const piece::EdgeBand& band : part.bands) {
    sides.emplace_back(side_name(band.side));
  }
  return sides.size() == 4 ? "all four edges" : listed(sides);
}

std::string hand_of(const piece::Part& part) {
  return part.hand == piece::Hand::kNone ? "" : std::string{piece::word(part.hand)};
}

/// What must be known of the part beside its sizes.
std::string note_of(const plan::Plan& plan, const piece::PartLine& line) {
  const piece::Part& part = plan.piece.parts[line.parts.front()];
  std::vector<std::string> notes;
  if (part.strips > 1) {
    notes.push_back(fmt::format("{} strips edge to edge", part.strips));
  }
  if (part.layers > 1) {
    notes.push_back(fmt::format("{} layers face to face", part.layers));
  }
  if (!part.tapers.empty()) {
    notes.push_back(counted(part.tapers.size(), "face tapered", "faces tapered"));
  }
  if (part.arch) {
    notes.emplace_back(part.arch->bent ? "arch, bent" : "arch, sawn");
  }
  if (part.moves_free) {
    notes.emplace_back("free in its groove, no glue");
  }
  if (!part.run.empty()) {
    std::vector<std::string> places;
    for (const piece::PartIndex index : line.parts) {
      places.push_back(std::to_string(plan.piece.parts[index].place_in_run + 1));
    }
    notes.push_back(fmt::format("grain runs on: {} of its run", listed(places)));
  }
  if (part.site_length > measure::Length{} || part.site_width > measure::Length{}) {
    notes.emplace_back("cut size is over-long, trimmed on site");
  }
  if (part.risky) {
    notes.emplace_back("worth a spare");
  }
  std::string all;
  for (const std::string& note : notes) {
    all += (all.empty() ? "" : "; ") + note;
  }
  return all;
}

Row row_of(const plan::Plan& plan, const piece::PartLine& line) {
  const piece::Part& part = plan.piece.parts[line.parts.front()];
  const bool bought = part.material == piece::Material::kBoughtIn;
  const auto cut = [&](measure::Length length_) {
    return bought ? std::string{"bought"} : length(plan, length_);
  };
  return {.cells = {{.text = line.code, .strong = true},
                    {.text = part.name, .note = note_of(plan, line)},
                    {hand_of(part)},
                    {.text = std::to_string(line.parts.size()), .strong = true},
                    {length(plan, part.finished.length)},
                    {length(plan, part.finished.width)},
                    {length(plan, part.finished.thickness)},
                    {cut(part.cut.length)},
                    {cut(part.cut.width)},
                    {.text = stock_name(plan, part.stock),
                     .note = part.bands.empty() ? "" : "band on " + bands_of(part)},
                    {std::to_string(part.from.line)}}};
}

Column figures(std::string header) {
  return {.header = std::move(header),
          .width = ColumnWidth::fit(),
          .align = Align::kRight,
          .numbers = true};
}

}  // namespace

void add_parts_list(const Packet& packet) {
  const plan::Plan& plan = packet.plan;
  Flow flow = packet.sheets.flow(packet.info("Parts list", "Parts list"), true);
  flow.paragraph(
      fmt::format("Sizes in {}, joints in them. Length runs with the grain. Left and right are "
                  "mirrored and stand apart. The last column is the line of the commission.",
                  unit_name(plan)));
  Table table{.columns = {{.header = "Code", .width = ColumnWidth::fit()},
                          {.header = "Part", .width = ColumnWidth::share(1.25)},
                          {.header = "Hand", .width = ColumnWidth::fit()},
                          figures("Pieces"),
                          figures("Length"),
                          figures("Width"),
                          figures("Thick"),
                          figures("Cut length"),
                          figures("Cut width"),
                          {.header = "Stock"},
                          figures("Line")},
              .rows = {},
              .empty_text = "No parts in this piece.",
              .style = kShopText};
  std::string unit;
  for (const piece::PartLine& line : piece::part_lines(plan.piece)) {
    const std::string own = unit_of(plan.piece.parts[line.parts.front()].path);
    if (own != unit) {
      unit = own;
      table.rows.push_back({.cells = {{sentence(unit)}}, .kind = Row::Kind::kHeading});
    }
    table.rows.push_back(row_of(plan, line));
  }
  set_table(flow, table);
}

}  // namespace plankwright::papers
