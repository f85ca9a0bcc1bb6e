#pragma once
// A printed page as a list of marks: lines, areas and text. Pages are values; page_output.h turns
// them into PDF or a picture. In this room a plain number is millimetres on the paper, measured
// from the top left corner of the page, y downwards, unless its comment says otherwise. Sizes of
// the piece are measure::Length, or millimetres at full size in views.

#include <deque>
#include <optional>
#include <string>
#include <variant>
#include <vector>

#include "measure/date.h"
#include "papers/page_text.h"

namespace plankwright::papers {

struct PagePoint {
  double x = 0;
  double y = 0;
  friend constexpr bool operator==(PagePoint, PagePoint) = default;
};

struct Rectangle {
  double x = 0;
  double y = 0;
  double width = 0;
  double height = 0;
  constexpr double right() const { return x + width; }
  constexpr double bottom() const { return y + height; }
  constexpr PagePoint centre() const { return {x + width / 2, y + height / 2}; }
  /// The rectangle `by` smaller on each side (larger when negative).
  constexpr Rectangle inset(double by) const {
    return {x + by, y + by, width - 2 * by, height - 2 * by};
  }
  constexpr bool overlaps(const Rectangle& o) const {
    return x < o.right() && o.x < right() && y < o.bottom() && o.y < bottom();
  }
  constexpr bool contains(const Rectangle& o) const {
    return x <= o.x && y <= o.y && o.right() <= right() && o.bottom() <= bottom();
  }
  friend constexpr bool operator==(const Rectangle&, const Rectangle&) = default;
};

/// Whether the stretch from `a` to `b` passes through the inside of `box`.
bool passes(PagePoint a, PagePoint b, const Rectangle& box);

struct PageSize {
  double width = 0;
  double height = 0;
  friend constexpr bool operator==(const PageSize&, const PageSize&) = default;
};

/// ISO 216.
inline constexpr PageSize kA4{210, 297};
/// 8 1/2 x 11 in.
inline constexpr PageSize kUsLetter{215.9, 279.4};
constexpr PageSize landscape(PageSize size) {
  return {size.height, size.width};
}

enum class Dash { kNone, kHidden, kCentre, kDotted };

/// Widths are those of ISO 128 (from memory): 0.13, 0.18, 0.25, 0.35, 0.5, 0.7.
struct Pen {
  double width = 0.25;
  Colour colour = kPencil;
  Dash dash = Dash::kNone;
};

inline constexpr Pen kOutlinePen{.width = 0.35, .colour = kPencil};
inline constexpr Pen kHiddenPen{.width = 0.18, .colour = kSoftPencil, .dash = Dash::kHidden};
inline constexpr Pen kThinPen{.width = 0.18, .colour = kPencil};
inline constexpr Pen kFaintPen{.width = 0.13, .colour = kFaintPencil};
inline constexpr Pen kFramePen{.width = 0.5, .colour = kPencil};
inline constexpr Pen kAccentPen{.width = 0.7, .colour = kAccent};

/// Lines or an area. With a fill the inside is where an odd number of loops goes round.
struct PathMark {
  std::vector<std::vector<PagePoint>> lines;
  bool closed = false;
  std::optional<Colour> fill = std::nullopt;
  std::optional<Pen> pen = std::nullopt;
};

/// A circle, or the part of it from one angle to another, in degrees anticlockwise from the right.
struct ArcMark {
  PagePoint centre;
  double radius = 0;
  double from = 0;
  double to = 360;
  std::optional<Colour> fill = std::nullopt;
  std::optional<Pen> pen = std::nullopt;
};

enum class Anchor { kTop, kMiddle, kBaseline, kBottom };

/// Where a text stands to its point, and how it is set there.
struct TextPlace {
  Align align = Align::kLeft;    // the point is at its left, middle or right
  Anchor anchor = Anchor::kTop;  // middle and bottom are of the whole block
  double width = 0;              // lines are broken at this width; 0 leaves them
  double turn = 0;               // degrees anticlockwise about the point
};

struct TextMark {
  PagePoint at;
  std::string text;
  TextStyle style;
  TextPlace place;
};

/// From here to the matching Unclip only what is inside `area` is inked.
struct ClipMark {
  Rectangle area;
};
struct UnclipMark {};

using Mark = std::variant<PathMark, ArcMark, TextMark, ClipMark, UnclipMark>;

/// One page. `bookmark` is its entry in the reader's list of contents; empty for none.
class Page {
 public:
  explicit Page(PageSize size) : size_{size} {}

  PageSize size() const { return size_; }
  Rectangle area() const { return {0, 0, size_.width, size_.height}; }
  const std::vector<Mark>& marks() const { return marks_; }
  const std::string& bookmark() const { return bookmark_; }
  void set_bookmark(std::string bookmark) { bookmark_ = std::move(bookmark); }

  void line(PagePoint from, PagePoint to, Pen pen);
  void polyline(std::vector<PagePoint> points, Pen pen);
  void area(std::vector<std::vector<PagePoint>> loops,
            std::optional<Colour> fill,
            std::optional<Pen> pen = std::nullopt);
  void rectangle(const Rectangle& r,
                 std::optional<Colour> fill,
                 std::optional<Pen> pen = std::nullopt);
  void circle(PagePoint centre,
              double radius,
              std::optional<Colour> fill,
              std::optional<Pen> pen = std::nullopt);
  void arc(PagePoint centre, double radius, double from, double to, Pen pen);
  /// Returns the box around the text (around its turned corners when it is turned).
  Rectangle text(PagePoint at, std::string text, TextStyle style, TextPlace place = {});
  void clip(const Rectangle& area) { marks_.emplace_back(ClipMark{area}); }
  void unclip() { marks_.emplace_back(UnclipMark{}); }

 private:
  PageSize size_;
  std::string bookmark_;
  std::vector<Mark> marks_;
};

/// What a reader shows as the file's properties.
struct PaperInfo {
  std::string title;
  std::string author;
  std::string subject;
  measure::Date date;  // the only date in the file, so equal pages give equal bytes
};

/// A print-out: its pages in order.
struct Paper {
  PaperInfo info;
  std::deque<Page> pages;  // a page stays where it is when more are added
};

/// The box around a text set at `at`.
Rectangle text_box(const TextMark& mark);

/// The boxes around all texts of a page, in the order set.
std::vector<Rectangle> text_boxes(const Page& page);

}  // namespace plankwright::papers
