// Dimensions as ISO 129-1 sets them out (from memory): extension lines that start a little off the
// outline and run a little past the dimension line, the figure above the line, read from below or
// from the right; where there is no room between the extension lines the arrows come from outside.

#include <algorithm>
#include <cmath>
#include <utility>

#include "papers/drawing.h"

namespace plankwright::papers {
namespace {

constexpr double kFirstRow = 8;
constexpr double kNextRow = 7;
constexpr double kOffOutline = 0.8;
constexpr double kPastLine = 1.2;
constexpr double kArrow = 2.4;
constexpr double kArrowHalf = 0.38;
constexpr double kTail = 3.6;  // of an arrow that comes from outside
constexpr double kAboveLine = 0.6;
constexpr double kGround = 0.2;    // of white round a figure
constexpr double kTextSide = 0.8;  // kept free left and right of a figure
constexpr double kRing = 0.7;      // radius of the mark at a datum
constexpr double kStub = 2.0;      // from a row of running dimensions to its figures
constexpr TextStyle kFigures{.letter_height = 2.5, .weight = Weight::kMedium, .tabular = true};
constexpr double kFigurePitch = 3.9;  // of running figures side by side

bool level(Side side) {
  return side == Side::kAbove || side == Side::kBelow;
}

double outward(Side side) {
  return side == Side::kBelow || side == Side::kRight ? 1 : -1;
}

// `along` runs with the dimension line, `row` square to it.
PagePoint on_page(Side side, double along, double row) {
  return level(side) ? PagePoint{along, row} : PagePoint{row, along};
}

double along(Side side, PagePoint p) {
  return level(side) ? p.x : p.y;
}

}  // namespace

double Drawing::dimension_room(int rows) {
  return rows <= 0 ? 0 : kFirstRow + kNextRow * (rows - 1) + kPastLine + kFigures.letter_height;
}

double Drawing::row_place(Side side, std::size_t row) const {
  const double off = kFirstRow + kNextRow * static_cast<double>(row);
  switch (side) {
    case Side::kAbove:
      return drawn_.y - off;
    case Side::kBelow:
      return drawn_.bottom() + off;
    case Side::kLeft:
      return drawn_.x - off;
    case Side::kRight:
      break;
  }
  return drawn_.right() + off;
}

std::size_t Drawing::free_row(Side side, Interval wanted) const {
  const auto& rows = rows_[static_cast<std::size_t>(side)];
  const auto clashes = [&](const Interval& taken) {
    constexpr double kShared = 0.05;  // neighbours may share an extension line
    return wanted.from < taken.to - kShared && taken.from < wanted.to - kShared;
  };
  std::size_t row = 0;
  while (row < rows.size() && std::ranges::any_of(rows[row], clashes)) {
    ++row;
  }
  return row;
}

void Drawing::take_row(Side side, std::size_t row, Interval taken) {
  auto& rows = rows_[static_cast<std::size_t>(side)];
  rows.resize(std::max(rows.size(), row + 1));
  rows[row].push_back(taken);
}

// The tip of an arrow, or a stroke, at the end of a line that runs to `tip` in direction dx, dy.
void Drawing::line_end(PagePoint tip, double dx, double dy) {
  if (end_ == LineEnd::kTick) {
    constexpr double kHalf = 0.9;
    page_.line({tip.x - kHalf, tip.y + kHalf},
               {tip.x + kHalf, tip.y - kHalf},
               Pen{.width = 0.35, .colour = kPencil});
    return;
  }
  const PagePoint back{tip.x - dx * kArrow, tip.y - dy * kArrow};
  page_.area({{tip,
               {back.x - dy * kArrowHalf, back.y + dx * kArrowHalf},
               {back.x + dy * kArrowHalf, back.y - dx * kArrowHalf}}},
             kPencil);
}

void Drawing::extension(Side side, PagePoint from, double row) {
  const double start = level(side) ? from.y : from.x;
  const double way = row > start ? 1 : -1;
  if (std::abs(row - start) > kOffOutline) {
    annotation_line(on_page(side, along(side, from), start + way * kOffOutline),
                    on_page(side, along(side, from), row + way * kPastLine));
  }
}

// The line itself with its ends and its figure, which stands in the middle, or where there is no
// room on the line drawn on past one end.
struct Drawing::SetDimension {
  Side side;
  double from, to;
  std::string text;
  double text_width;
  bool arrows_inside, text_inside;
  bool text_after = true;

  SetDimension(Side at_side, double low, double high, std::string figure)
      : side{at_side},
        from{low},
        to{high},
        text{std::move(figure)},
        text_width{text_size(text, kFigures).width + 2 * kTextSide},
        arrows_inside{to - from >= text_width + 2 * kArrow},
        text_inside{to - from >= text_width} {}

  double tail() const { return arrows_inside ? 0 : kTail; }
  double low() const { return from - tail() - (text_inside || text_after ? 0 : text_width); }
  double high() const { return to + tail() + (text_inside || !text_after ? 0 : text_width); }
  double middle() const {
    return text_inside  ? (from + to) / 2
           : text_after ? high() - text_width / 2
                        : low() + text_width / 2;
  }
  // What no other dimension of the row may touch. Arrows that come from outside may lie on a
  // neighbour's line: where they meet its extension line they are its arrows as well.
  Interval taken() const {
    return {text_inside || text_after ? from : low(), text_inside || !text_after ? to : high()};
  }
};

TextMark Drawing::figure_of(const SetDimension& d, double row) {
  return {
      on_page(d.side, d.middle(), row - kAboveLine),
      d.text,
      kFigures,
      {.align = Align::kCentre, .anchor = Anchor::kBaseline, .turn = level(d.side) ? 0.0 : 90.0}};
}

// How much of what is there already the figure would stand on.
std::ptrdiff_t Drawing::disturbed(const SetDimension& d) const {
  constexpr std::ptrdiff_t kText = 100;  // is worse than any number of lines
  const Rectangle box = text_box(figure_of(d, row_place(d.side, free_row(d.side, d.taken()))));
  const auto texts =
      std::ranges::count_if(texts_, [&](const Rectangle& t) { return t.overlaps(box); });
  const auto lines =
      std::ranges::count_if(lines_, [&](const Segment& l) { return passes(l.from, l.to, box); });
  return kText * texts + lines;
}

void Drawing::set_dimension(const SetDimension& d, double row) {
  const double dx = level(d.side) ? 1 : 0;
  const double dy = 1 - dx;
  const double way = d.arrows_inside ? 1 : -1;
  line_end(on_page(d.side, d.to, row), way * dx, way * dy);
  line_end(on_page(d.side, d.from, row), -way * dx, -way * dy);
  annotation_line(on_page(d.side, d.low(), row), on_page(d.side, d.high(), row));
  set_figure(figure_of(d, row));
}

void Drawing::set_figure(TextMark figure) {
  keep_text(text_box(figure));
  figures_.push_back(std::move(figure));
}

Drawing::~Drawing() {
  for (TextMark& figure : figures_) {
    // The ground ends at the baseline: below it runs the figure's own line.
    TextMark ground = figure;
    ground.text.assign(1, '0');
    ground.style.letter_height += 2 * kGround;
    const double width = text_size(figure.text, figure.style).width + 2 * kGround;
    const Rectangle digit = text_box(ground);
    const bool upright = figure.place.turn != 0;
    const Rectangle box = text_box(figure);
    page_.rectangle(upright ? Rectangle{digit.x, box.centre().y - width / 2, digit.width, width}
                            : Rectangle{box.centre().x - width / 2, digit.y, width, digit.height},
                    kWhite);
    page_.text(figure.at, std::move(figure.text), figure.style, figure.place);
  }
}

void Drawing::annotation_line(PagePoint from, PagePoint to) {
  page_.line(from, to, kThinPen);
  lines_.push_back({from, to});
}

void Drawing::dimension(const Dimension& d) {
  const PagePoint a = at(d.from);
  const PagePoint b = at(d.to);
  const auto [from, to] = std::minmax({along(d.side, a), along(d.side, b)});
  SetDimension set{d.side, from, to, d.text};
  // A figure that does not fit goes out towards the nearer end of the drawing, unless it would
  // stand on something there and not at the other end.
  set.text_after = (from + to) / 2 >= along(d.side, drawn_.centre());
  SetDimension other = set;
  other.text_after = !set.text_after;
  if (!set.text_inside && disturbed(set) > disturbed(other)) {
    set = other;
  }
  const std::size_t place = free_row(d.side, set.taken());
  take_row(d.side, place, set.taken());
  const double row = row_place(d.side, place);
  extension(d.side, a, row);
  extension(d.side, b, row);
  set_dimension(set, row);
}

void Drawing::dimensions(std::vector<Dimension> dimensions) {
  const auto length = [&](const Dimension& d) {
    return std::abs(along(d.side, at(d.to)) - along(d.side, at(d.from)));
  };
  std::ranges::stable_sort(dimensions, {}, length);
  for (const Dimension& d : dimensions) {
    dimension(d);
  }
}

void Drawing::overall(Side side, const std::string& text) {
  // The two corners of the drawn box on that side, taken back to places of the view.
  const auto place = [&](double x, double y) {
    return ViewPoint{(x - placement_.zero.x) / placement_.factor,
                     (placement_.zero.y - y) / placement_.factor};
  };
  const double x = side == Side::kRight ? drawn_.right() : drawn_.x;
  const double y = side == Side::kBelow ? drawn_.bottom() : drawn_.y;
  dimension({place(x, y),
             level(side) ? place(drawn_.right(), y) : place(x, drawn_.bottom()),
             side,
             text});
}

namespace {

// Where figures stand so that none is nearer than the pitch to the next, each as near to its own
// place as that allows: neighbours that push each other share the push.
std::vector<double> spread(const std::vector<double>& places) {
  struct Group {
    double middle_sum = 0;
    double count = 0;
    double start() const { return middle_sum / count - (count - 1) * kFigurePitch / 2; }
    double end() const { return start() + count * kFigurePitch; }
  };
  std::vector<Group> groups;
  for (const double place : places) {
    groups.push_back({place, 1});
    while (groups.size() > 1 && groups[groups.size() - 2].end() > groups.back().start()) {
      const Group last = groups.back();
      groups.pop_back();
      groups.back().middle_sum += last.middle_sum;
      groups.back().count += last.count;
    }
  }
  std::vector<double> out;
  for (const Group& group : groups) {
    for (int i = 0; i < static_cast<int>(group.count); ++i) {
      out.push_back(group.start() + i * kFigurePitch);
    }
  }
  return out;
}

}  // namespace

void Drawing::running_dimensions(Side side, ViewPoint datum, std::vector<RunningPlace> places) {
  std::ranges::stable_sort(
      places, {}, [&](const RunningPlace& p) { return along(side, at(p.at)); });
  std::vector<double> wanted;
  double longest = 0;
  for (const RunningPlace& place : places) {
    wanted.push_back(along(side, at(place.at)));
    longest = std::max(longest, text_size(place.text, kFigures).width);
  }
  const std::vector<double> given = spread(wanted);
  const double zero = along(side, at(datum));
  const double low = std::min(zero, given.empty() ? zero : given.front() - kFigurePitch);
  const double high = std::max(zero, given.empty() ? zero : given.back() + kFigurePitch);
  const std::size_t first = free_row(side, {low, high});
  take_row(side, first, {low, high});
  const double row = row_place(side, first);
  // Figures stand square to the row and take the rows behind it too.
  const auto behind = static_cast<std::size_t>((kStub + longest) / kNextRow) + 1;
  for (std::size_t i = first + 1; i <= first + behind; ++i) {
    take_row(side, i, {low, high});
  }
  extension(side, at(datum), row);
  page_.circle(on_page(side, zero, row), kRing, kWhite, kThinPen);
  const double out = outward(side);
  double reach_low = zero;
  double reach_high = zero;
  for (std::size_t i = 0; i < places.size(); ++i) {
    extension(side, at(places[i].at), row);
    reach_low = std::min(reach_low, wanted[i]);
    reach_high = std::max(reach_high, wanted[i]);
    annotation_line(on_page(side, wanted[i], row), on_page(side, given[i], row + out * kStub));
    // Square to the row: upright rows carry level figures, level rows figures read from the right.
    const bool starts_here = side == Side::kAbove || side == Side::kRight;
    const double half = kFigures.letter_height / 2;
    PagePoint foot = on_page(side, given[i], row + out * (kStub + kTextSide));
    (level(side) ? foot.x : foot.y) += half;
    set_figure({foot,
                places[i].text,
                kFigures,
                {.align = starts_here ? Align::kLeft : Align::kRight,
                 .anchor = Anchor::kBaseline,
                 .turn = level(side) ? 90.0 : 0.0}});
  }
  for (const double end : {reach_low, reach_high}) {
    const double way = end > zero ? 1 : -1;
    if (std::abs(end - zero) > kRing + kArrow) {
      annotation_line(on_page(side, zero + way * kRing, row), on_page(side, end, row));
      line_end(on_page(side, end, row), level(side) ? way : 0, level(side) ? 0 : way);
    }
  }
}

}  // namespace plankwright::papers
