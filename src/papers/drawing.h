#pragma once
// A scaled drawing on a page: views, dimensions, notes and labels.

#include <array>
#include <functional>
#include <span>
#include <string>
#include <vector>

#include "papers/drawing_scale.h"
#include "papers/page.h"
#include "solid/painted.h"
#include "solid/view.h"

namespace plankwright::papers {

using solid::ViewPoint;

/// The side of the view on which a dimension stands.
enum class Side : std::size_t { kAbove = 0, kBelow = 1, kLeft = 2, kRight = 3 };

/// A size between two places of the view: along x when it stands above or below, else along y.
struct Dimension {
  ViewPoint from, to;
  Side side = Side::kBelow;
  std::string text;
};

/// A place measured from the datum of a row of running dimensions.
struct RunningPlace {
  ViewPoint at;
  std::string text;
};

inline constexpr TextStyle kLabelText{.letter_height = 2.1, .colour = kSoftPencil};

/// How lines of dimensions end (ISO 129 allows both, from memory).
enum class LineEnd { kArrow, kTick };

/// How the end of a leader shows what it points at: an arrow at an edge, a dot on a surface.
enum class LeaderEnd { kArrow, kDot };

/// Draws on one page, which must outlive it. Places are in the view's own millimetres, and all that
/// is drawn is remembered so that what comes later keeps clear of it: draw first, then dimension,
/// then label. Figures of dimensions are set on white over everything else when it is done with, so
/// that no line runs through one.
class Drawing {
 public:
  /// `frame` is the room that labels must stay in.
  Drawing(Page& page, const Rectangle& frame, Placement placement, LineEnd end = LineEnd::kArrow);
  ~Drawing();
  Drawing(const Drawing&) = delete;
  Drawing& operator=(const Drawing&) = delete;

  PagePoint at(ViewPoint p) const { return placement_.at(p); }
  double factor() const { return placement_.factor; }

  /// The seen lines, and the hidden ones of the view.
  void view(const solid::View& view, Pen seen = kOutlinePen, Pen hidden = kHiddenPen);
  /// Faces in their wood's colour, lit, with grain. Draw the view's lines over it.
  void painted(std::span<const solid::PaintedFace> faces,
               const std::function<Colour(int solid)>& wood);
  void polyline(const std::vector<ViewPoint>& points, Pen pen);
  void polygon(const std::vector<ViewPoint>& corners,
               std::optional<Colour> fill,
               std::optional<Pen> pen = kOutlinePen);
  void hatch(const std::vector<ViewPoint>& corners,
             double angle = 45,
             double pitch = 1.5,
             Pen pen = kFaintPen);

  /// In the nearest row on its side that is free, the first 8 mm from what is drawn and the next
  /// 7 mm each. The text stands above the line, read from below or from the right.
  void dimension(const Dimension& dimension);
  /// Several, small ones first, so that lines cross as little as can be.
  void dimensions(std::vector<Dimension> dimensions);
  /// The size of all that is drawn, along one side.
  void overall(Side side, const std::string& text);
  /// All places of one side in one row, measured from `datum` (marked by a small ring): nothing is
  /// added up when marking out.
  void running_dimensions(Side side, ViewPoint datum, std::vector<RunningPlace> places);
  /// The room that `rows` rows of dimensions take on one side.
  static double dimension_room(int rows);

  /// A text with a leader to `at`. False when no free place was found and it covers another text.
  bool note(ViewPoint at, const std::string& text, LeaderEnd end = LeaderEnd::kArrow);
  /// A text on or near `at`, with a leader when it had to move away. False as for note.
  bool label(ViewPoint at, const std::string& text, const TextStyle& style = kLabelText);
  /// A short mark in a ring near `at`, with a leader to it. False as for note.
  bool balloon(ViewPoint at, const std::string& text);

  /// The box around what was drawn, on the page; without dimensions and labels.
  const Rectangle& drawn() const { return drawn_; }

 private:
  struct Interval {
    double from = 0;
    double to = 0;
  };
  struct Segment {
    PagePoint from, to;
  };
  struct Spot {
    Rectangle box;
    double cost = 0;
    bool free = false;
    bool moved = false;
  };

  void remember(const std::vector<PagePoint>& line);
  std::size_t free_row(Side side, Interval wanted) const;
  void take_row(Side side, std::size_t row, Interval taken);
  double row_place(Side side, std::size_t row) const;
  struct SetDimension;
  void set_dimension(const SetDimension& dimension, double row);
  static TextMark figure_of(const SetDimension& dimension, double row);
  std::ptrdiff_t disturbed(const SetDimension& dimension) const;
  void set_figure(TextMark figure);
  void annotation_line(PagePoint from, PagePoint to);
  void line_end(PagePoint tip, double dx, double dy);
  void extension(Side side, PagePoint from, double row);
  void keep_text(const Rectangle& box) { texts_.push_back(box); }
  Spot best_spot(PagePoint at, double width, double height, bool on_it) const;
  double spot_cost(PagePoint at, const Rectangle& box) const;
  void set_label(const Rectangle& box, const std::string& text, const TextStyle& style);
  void leader(PagePoint at, const Rectangle& box, LeaderEnd end);

  Page& page_;
  Rectangle frame_;
  Placement placement_;
  LineEnd end_;
  Rectangle drawn_;
  bool anything_drawn_ = false;
  std::vector<Segment> lines_;
  std::vector<Segment> leaders_;
  std::vector<Rectangle> texts_;
  std::vector<TextMark> figures_;
  std::array<std::vector<std::vector<Interval>>, 4> rows_;
};

}  // namespace plankwright::papers
