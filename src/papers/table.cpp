#include "papers/table.h"

#include <algorithm>
#include <cstddef>
#include <iterator>
#include <numeric>
#include <utility>

namespace plankwright::papers {
namespace {

constexpr double kSide = 1.4;      // from a column's edge to its text
constexpr double kAbove = 1.1;     // from a row's edge to its text
constexpr double kHair = 0.05;     // so that the widest is not broken by rounding
constexpr double kPadding = 0.07;  // of the line height
constexpr double kNoteGap = 0.6;
constexpr double kLeastShare = 8;
constexpr double kHeaderRoom = 1.6;
constexpr double kLeastBreak = 2;  // lines of a row put at the foot of a page

const TextStyle kHeaderText{
    .letter_height = 1.8, .weight = Weight::kMedium, .colour = kAccent, .line_pitch = 1.6};

TextStyle text_style(const Table& table, const Column& column, const Cell& cell, Row::Kind kind) {
  TextStyle style = column.style.value_or(table.style);
  style.tabular = style.tabular || column.numbers;
  if (cell.strong || kind == Row::Kind::kTotal) {
    style.weight = Weight::kBold;
  }
  return style;
}

double natural_width(const Table& table, std::size_t i) {
  const Column& column = table.columns[i];
  double widest = text_size(column.header, kHeaderText).width;
  for (const Row& row : table.rows) {
    if (row.kind != Row::Kind::kHeading && i < row.cells.size()) {
      const Cell& cell = row.cells[i];
      widest = std::max({widest,
                         text_size(cell.text, text_style(table, column, cell, row.kind)).width,
                         text_size(cell.note, kSmallText).width});
    }
  }
  return widest + 2 * kSide + 2 * kHair;
}

// One row measured: how high, and the row itself, for rows are broken into new ones.
struct SetRow {
  Row row;
  double height = 0;
  bool shaded = false;
};

class Setter {
 public:
  Setter(Flow& flow, const Table& table)
      : flow_{flow}, table_{table}, widths_{column_widths(table, flow.body().width)} {}

  void set() {
    std::vector<SetRow> rows = measured_rows();
    std::size_t begin = 0;
    bool first = true;
    while (begin < rows.size()) {
      const std::size_t end = group_end(rows, begin);
      set_group({rows.begin() + std::ptrdiff_t(begin), rows.begin() + std::ptrdiff_t(end)}, first);
      begin = end;
      first = false;
    }
    if (rows.empty()) {
      set_empty();
    }
    rule(flow_.rest().y, kOutlinePen);
    flow_.gap(kHeaderRoom);
  }

 private:
  std::vector<SetRow> measured_rows() const {
    std::vector<SetRow> rows;
    bool shaded = false;
    for (const Row& row : table_.rows) {
      shaded = row.kind == Row::Kind::kPlain && !shaded;
      rows.push_back({row, row_height(row), shaded && table_.shaded});
    }
    return rows;
  }

  // Rows from `begin` that must stay on one page.
  static std::size_t group_end(const std::vector<SetRow>& rows, std::size_t begin) {
    std::size_t end = begin + 1;
    const auto holds_next = [&](const SetRow& before, const SetRow& next) {
      return before.row.kind == Row::Kind::kHeading || before.row.keep_with_next ||
             next.row.kind == Row::Kind::kTotal;
    };
    while (end < rows.size() && holds_next(rows[end - 1], rows[end])) {
      ++end;
    }
    return end;
  }

  void set_group(const std::vector<SetRow>& group, bool first) {
    const double height =
        std::accumulate(group.begin(), group.end(), 0.0, [](double sum, const SetRow& r) {
          return sum + r.height;
        });
    const double whole_page = flow_.body().height - header_height();
    if (first) {
      if (!flow_.has_room(header_height() + std::min(height, whole_page))) {
        start_page();
      } else {
        set_header();
      }
    } else if (!flow_.has_room(height) && height <= whole_page) {
      break_page();
    }
    for (const SetRow& row : group) {
      set_row(row);
    }
  }

  // At the very top of a page only the header is wanted; elsewhere a new page comes first.
  void start_page() {
    if (!flow_.at_top()) {
      flow_.new_page();
    }
    set_header();
  }

  void break_page() {
    rule(flow_.rest().y, kOutlinePen);
    flow_.new_page();
    set_header();
  }

  void set_row(const SetRow& set) {
    const double whole_page = flow_.body().height - header_height();
    if (flow_.has_room(set.height)) {
      ink_row(set);
    } else if (set.height <= whole_page || !breaks_here(set)) {
      break_page();
      set_row_on_new_page(set);
    } else {
      set_in_parts(set);
    }
  }

  void set_row_on_new_page(const SetRow& set) {
    if (flow_.has_room(set.height)) {
      ink_row(set);
    } else {
      set_in_parts(set);
    }
  }

  bool breaks_here(const SetRow& set) const {
    return flow_.rest().height > 2 * padding(set.row) + kLeastBreak * line_height(set.row);
  }

  double line_height(const Row& row) const {
    double highest = 0;
    for (std::size_t i = 0; i < table_.columns.size(); ++i) {
      const TextStyle style = style_of(row, i);
      highest = std::max(highest, style.letter_height * style.line_pitch);
    }
    return highest;
  }

  // Between a row's edge and its text; more where figures are large.
  double padding(const Row& row) const { return std::max(kAbove, kPadding * line_height(row)); }

  // A row higher than a page: as many lines of each cell as there is room for, then the rest of it
  // as a new row.
  void set_in_parts(const SetRow& set) {
    SetRow head = set;
    SetRow tail = set;
    bool more = false;
    for (std::size_t i = 0; i < table_.columns.size() && i < set.row.cells.size(); ++i) {
      more = split_cell(set.row, i, head.row.cells[i], tail.row.cells[i]) || more;
    }
    head.height = row_height(head.row);
    ink_row(head);
    if (more) {
      tail.height = row_height(tail.row);
      break_page();
      set_row_on_new_page(tail);
    }
  }

  bool split_cell(const Row& row, std::size_t i, Cell& head, Cell& tail) const {
    const TextStyle style = style_of(row, i);
    const auto lines = broken_lines(row.cells[i].text, style, text_width(row, i));
    const double pitch = style.letter_height * style.line_pitch;
    const auto room = static_cast<std::size_t>(
        std::max(1.0, (flow_.rest().height - 2 * padding(row) - pitch) / pitch));
    const auto joined = [&](std::size_t from, std::size_t to) {
      std::string text;
      for (std::size_t l = from; l < std::min(to, lines.size()); ++l) {
        text += (l == from ? "" : "\n") + lines[l];
      }
      return text;
    };
    head.text = joined(0, room);
    tail.text = joined(room, lines.size());
    const bool more = lines.size() > room;
    (more ? head : tail).note.clear();
    return more;
  }

  TextStyle style_of(const Row& row, std::size_t i) const {
    static const Cell kNone;
    if (row.kind == Row::Kind::kHeading) {
      TextStyle style = table_.style;
      style.weight = Weight::kBold;
      style.colour = kAccent;
      return style;
    }
    const Cell& cell = i < row.cells.size() ? row.cells[i] : kNone;
    TextStyle style = text_style(table_, table_.columns[i], cell, row.kind);
    if (table_.columns[i].numbers) {
      const double width = text_size(cell.text, style).width + kHair;
      style.letter_height *= std::min(1.0, text_width(row, i) / width);
    }
    return style;
  }

  double text_width(const Row& row, std::size_t i) const {
    return (row.kind == Row::Kind::kHeading ? flow_.body().width : widths_[i]) - 2 * kSide;
  }

  double cell_height(const Row& row, std::size_t i) const {
    const Cell& cell = row.cells[i];
    const double width = text_width(row, i);
    double height = cell.text.empty() ? 0 : text_size(cell.text, style_of(row, i), width).height;
    if (!cell.note.empty()) {
      height += kNoteGap + text_size(cell.note, kSmallText, width).height;
    }
    return height;
  }

  double row_height(const Row& row) const {
    double highest = row.cells.empty() ? 0 : table_.style.letter_height;
    for (std::size_t i = 0; i < cells_shown(row); ++i) {
      highest = std::max(highest, cell_height(row, i));
    }
    return highest + 2 * padding(row);
  }

  std::size_t cells_shown(const Row& row) const {
    const std::size_t most = row.kind == Row::Kind::kHeading ? 1 : table_.columns.size();
    return std::min(most, row.cells.size());
  }

  double header_height() const {
    double highest = 0;
    for (std::size_t i = 0; i < table_.columns.size(); ++i) {
      const std::string& header = table_.columns[i].header;
      if (!header.empty()) {
        highest = std::max(highest, text_size(header, kHeaderText, widths_[i] - 2 * kSide).height);
      }
    }
    return highest == 0 ? 0 : highest + kAbove + kHeaderRoom;
  }

  void rule(double y, Pen pen) {
    const Rectangle body = flow_.body();
    flow_.page().line({body.x, y}, {body.right(), y}, pen);
  }

  void set_header() {
    const double height = header_height();
    if (height > 0) {
      const Rectangle at = flow_.take(height);
      double x = at.x;
      for (std::size_t i = 0; i < table_.columns.size(); ++i) {
        const double inner = widths_[i] - 2 * kSide;
        const double text = text_size(table_.columns[i].header, kHeaderText, inner).height;
        set_text({x + kSide, at.bottom() - kAbove - text, inner, 0},
                 table_.columns[i].header,
                 kHeaderText,
                 table_.columns[i].align);
        x += widths_[i];
      }
    }
    rule(flow_.rest().y, kOutlinePen);
  }

  void set_text(Rectangle at, const std::string& text, const TextStyle& style, Align align) {
    const double x = align == Align::kLeft     ? at.x
                     : align == Align::kCentre ? at.centre().x
                                               : at.right();
    flow_.page().text({x, at.y}, text, style, {.align = align, .width = at.width});
  }

  void ink_row(const SetRow& set) {
    const Rectangle at = flow_.take(set.height);
    if (set.shaded) {
      flow_.page().rectangle(at, kShade);
    }
    double x = at.x;
    for (std::size_t i = 0; i < cells_shown(set.row); ++i) {
      ink_cell(set.row, i, {x + kSide, at.y + padding(set.row), text_width(set.row, i), 0});
      x += widths_[i];
    }
    const bool below_total = set.row.kind == Row::Kind::kTotal;
    rule(below_total ? at.y : at.bottom(), below_total ? kThinPen : kFaintPen);
  }

  void ink_cell(const Row& row, std::size_t i, Rectangle at) {
    const Cell& cell = row.cells[i];
    const Align align = row.kind == Row::Kind::kHeading ? Align::kLeft : table_.columns[i].align;
    const TextStyle style = style_of(row, i);
    set_text(at, cell.text, style, align);
    if (!cell.note.empty()) {
      const double below =
          cell.text.empty() ? 0 : text_size(cell.text, style, at.width).height + kNoteGap;
      at.y += below;
      set_text(at, cell.note, kSmallText, align);
    }
  }

  void set_empty() {
    const TextStyle soft{
        .letter_height = table_.style.letter_height, .italic = true, .colour = kSoftPencil};
    const double text = text_size(table_.empty_text, soft, flow_.body().width - 2 * kSide).height;
    const double height = text + 4 * kAbove;
    if (!flow_.has_room(header_height() + height)) {
      start_page();
    } else {
      set_header();
    }
    const Rectangle at = flow_.take(height);
    set_text({at.x + kSide, at.y + 2 * kAbove, at.width - 2 * kSide, 0},
             table_.empty_text,
             soft,
             Align::kLeft);
  }

  Flow& flow_;
  const Table& table_;
  std::vector<double> widths_;
};

}  // namespace

std::vector<double> column_widths(const Table& table, double width) {
  using Kind = ColumnWidth::Kind;
  std::vector<double> widths(table.columns.size());
  double fixed = 0;
  double fitted = 0;
  double shares = 0;
  double least_shared = 0;
  for (std::size_t i = 0; i < widths.size(); ++i) {
    const ColumnWidth& wanted = table.columns[i].width;
    widths[i] = wanted.kind == Kind::kFit ? natural_width(table, i) : wanted.amount;
    fixed += wanted.kind == Kind::kFixed ? widths[i] : 0;
    fitted += wanted.kind == Kind::kFit ? widths[i] : 0;
    shares += wanted.kind == Kind::kShare ? wanted.amount : 0;
    least_shared += wanted.kind == Kind::kShare ? kLeastShare : 0;
  }
  const double for_fitted = std::max(0.0, width - fixed - least_shared);
  const double shrink = fitted > for_fitted ? for_fitted / fitted : 1;
  const double left = width - fixed - fitted * shrink;
  for (std::size_t i = 0; i < widths.size(); ++i) {
    const Kind kind = table.columns[i].width.kind;
    widths[i] *= kind == Kind::kFit ? shrink : kind == Kind::kShare ? left / shares : 1;
  }
  return widths;
}

void set_table(Flow& flow, const Table& table) {
  Setter(flow, table).set();
}

}  // namespace plankwright::papers
