#include "piece/space.h"

#include <algorithm>
#include <optional>

#include <fmt/format.h>

#include "measure/expression.h"

namespace plankwright::piece {
namespace {

using document::Field;
using document::FieldKind;
using document::Node;

/// The size written for a space; nothing when it takes what is left.
std::optional<Length> written_size(const document::Fields& fields, std::string_view key) {
  const Node* node = fields.node(key);
  if (node == nullptr || (node->kind == Node::Kind::kScalar && node->text == "rest")) {
    return std::nullopt;
  }
  return fields.length(key);
}

void share_what_is_left(std::vector<Cell>& cells,
                        const std::vector<bool>& takes_rest,
                        Length left) {
  std::int64_t sharing = std::ranges::count(takes_rest, true);
  for (std::size_t i = 0; i < cells.size(); ++i) {
    if (takes_rest[i]) {
      cells[i].size = left / sharing;  // the last one gets the odd nanometres
      left -= cells[i].size;
      --sharing;
    }
  }
}

}  // namespace

document::FieldTable space_fields() {
  static const std::vector<Field> kFields = [] {
    std::vector<Field> fields = {
        {"name", FieldKind::kText, "What the makers call this space; parts are named after it"},
        {"width", FieldKind::kAny, "Its width in a row; `rest` takes what is left"},
        {"height", FieldKind::kAny, "Its height in a stack; `rest` takes what is left"},
        {"left", FieldKind::kLength, "How far it stands back at the left", false, "0"},
        {"right", FieldKind::kLength, "How far it stands back at the right", false, "0"},
        {"front", FieldKind::kLength, "How far it stands back at the front", false, "0"},
        {"back", FieldKind::kLength, "How far it stands back at the rear", false, "0"},
        {"stack", FieldKind::kAny, "Spaces above each other, from the floor up"},
        {"row", FieldKind::kAny, "Spaces beside each other, from the left"}};
    for (const Kit& kit : all_kits()) {
      fields.push_back({kit.word, FieldKind::kAny, kit.says});
    }
    return fields;
  }();
  return kFields;
}

std::vector<Cell> read_cell_list(const Node& list,
                                 std::string_view size_key,
                                 Length available,
                                 Workshop& shop) {
  if (list.kind != Node::Kind::kList || list.items.empty()) {
    shop.errors.push_back(
        {base::ErrorCode::kBadInput,
         "found something else, expected a list of spaces, each beginning with `-`",
         list.at});
    return {};
  }
  // A size is asked for as a length, `rest` apart; the published table leaves it open.
  std::vector<Field> table{space_fields().begin(), space_fields().end()};
  for (Field& field : table) {
    if (field.key == size_key) {
      field.kind = FieldKind::kLength;
      field.range = document::FieldRange::kPositive;
    }
  }
  const std::size_t errors_before = shop.errors.size();
  std::vector<Cell> cells;
  std::vector<bool> takes_rest;
  Length written;
  for (const Node& item : list.items) {
    const document::Fields fields{item, table, shop.commission.names, shop.errors};
    const std::string name = fields.has("name") ? fields.text("name") : "";
    const auto size = written_size(fields, size_key);
    cells.push_back({name.empty() ? fmt::format("{}", cells.size() + 1) : name,
                     size.value_or(Length{}),
                     &item,
                     item.at});
    takes_rest.push_back(!size);
    written += size.value_or(Length{});
  }
  const Length left = available - written;
  const bool shares = std::ranges::find(takes_rest, true) != takes_rest.end();
  if (shop.errors.size() == errors_before && (shares ? left <= Length{} : left != Length{})) {
    const auto unit = shop.commission.unit();
    shop.errors.push_back(
        {base::ErrorCode::kDoesNotFit,
         fmt::format("these {}s add up to {}, but there is {}: {} {}",
                     size_key,
                     measure::print_with_unit(written, unit),
                     measure::print_with_unit(available, unit),
                     measure::print_with_unit(left < Length{} ? -left : left, unit),
                     left < Length{}   ? "too much"
                     : left > Length{} ? "is left over"
                                       : "is left"),
         list.at});
  }
  if (shares) {
    share_what_is_left(cells, takes_rest, std::max(left, Length{}));
  }
  return cells;
}

void fill_cells(const Node& list, Axis axis, const Space& space, Workshop& shop) {
  const std::string_view size_key = axis == Axis::kZ ? "height" : "width";
  Length at = space.box.begin(axis);
  for (const Cell& cell : read_cell_list(list, size_key, space.box.size[axis], shop)) {
    const document::Fields fields{*cell.node, space_fields(), shop.commission.names, shop.errors};
    const Length left = fields.length("left");
    const Length front = fields.length("front");
    Space inner = space;
    inner.name = space.name.empty() ? cell.name : space.name + "." + cell.name;
    inner.box.at[axis] = at;
    inner.box.size[axis] = cell.size;
    inner.box.at.x += left;
    inner.box.size.x -= left + fields.length("right");
    inner.box.at.y += front;
    inner.box.size.y -= front + fields.length("back");
    fill(*cell.node, inner, shop);
    at += cell.size;
  }
}

}  // namespace plankwright::piece
