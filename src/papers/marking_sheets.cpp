// Marking out, family by family: the part as it lies on the bench with its reference corner at the
// lower left, and every cut from there; then what the machines are set to for the joints.

#include <algorithm>

#include <fmt/format.h>

#include "papers/packet.h"
#include "papers/table.h"
#include "papers/text_stack.h"
#include "papers/wording.h"

namespace plankwright::papers {
namespace {

using measure::Length;

constexpr double kStripWidth = 112;
constexpr double kLeastStrip = 5;
constexpr double kMostStrip = 11;
constexpr double kRowHeight = 4.4;
constexpr double kThinCut = 1.3;  // of a cut in an edge or an end, as it is drawn
constexpr double kGap = 3.4;
constexpr Colour kCutWash{0.82, 0.89, 0.89};
constexpr Pen kCutPen{.width = 0.25, .colour = kAccent};
constexpr Pen kFarPen{.width = 0.2, .colour = kSoftPencil, .dash = Dash::kHidden};
constexpr TextStyle kNameText{.letter_height = 2.8, .weight = Weight::kBold};
constexpr TextStyle kReferenceText{
    .letter_height = 2.2, .weight = Weight::kMedium, .colour = kAccent};
constexpr TextStyle kHeadText{.letter_height = 1.8, .colour = kSoftPencil};
constexpr TextStyle kRowText{.letter_height = 2.3};
constexpr TextStyle kFigureText{.letter_height = 2.5, .weight = Weight::kMedium, .tabular = true};
constexpr TextStyle kLetterText{.letter_height = 2.2, .weight = Weight::kBold, .colour = kAccent};

/// Where the columns of a family begin, from the left of the sheet.
struct Columns {
  double cut = 5;
  double end = 56;
  double edge = 96;
  double deep = 146;
  double mates = 160;
};
constexpr Columns kColumns;

std::string letter(std::size_t i) {
  constexpr std::size_t kLetters = 26;
  const char one = static_cast<char>('a' + i % kLetters);
  return i < kLetters ? fmt::format("{}", one) : fmt::format("{}{}", one, i / kLetters);
}

/// "5 1/4 to 6"; centres and the sides of tails one after the other.
std::string figures(const plan::Plan& plan, const std::vector<Length>& list, bool centres) {
  std::string text;
  const bool stretch = list.size() == 2 && !centres;
  for (std::size_t i = 0; i < list.size(); ++i) {
    text += fmt::format("{}{}", i == 0 ? "" : stretch ? " to " : ", ", length(plan, list[i]));
  }
  return centres && list.size() == 1 ? "at " + text : text;
}

std::string across(const plan::Plan& plan, const bench::Mark& mark) {
  std::string text = figures(plan, mark.from_edge, mark.centres);
  if (!mark.from_face.empty()) {
    text += fmt::format(
        "{}{} from face", text.empty() ? "" : "; ", figures(plan, mark.from_face, mark.centres));
  }
  return text;
}

std::string joined(const std::vector<std::string>& codes) {
  std::string text;
  for (const std::string& code : codes) {
    text += (text.empty() ? "" : ", ") + code;
  }
  return text;
}

/// Marks that differ only in their place along the part: they share a line and a letter.
struct Row {
  std::vector<const bench::Mark*> marks;
};

bool share_a_row(const bench::Mark& a, const bench::Mark& b) {
  const auto side = [](const bench::Mark& mark) { return mark.on.substr(mark.on.rfind(' ')); };
  const bool same_side = a.on == b.on || (side(a) == " end" && side(b) == " end");
  return same_side && a.what == b.what && a.from_end.empty() == b.from_end.empty() &&
         a.from_edge == b.from_edge && a.from_face == b.from_face && a.centres == b.centres &&
         a.depth == b.depth && a.wide == b.wide && a.slope == b.slope && a.count == b.count;
}

std::vector<Row> rows_of(const bench::MarkedFamily& family) {
  std::vector<Row> rows;
  for (const bench::Mark& mark : family.marks) {
    const auto same = std::ranges::find_if(
        rows, [&](const Row& row) { return share_a_row(*row.marks.front(), mark); });
    if (same != rows.end()) {
      same->marks.push_back(&mark);
    } else {
      rows.push_back({{&mark}});
    }
  }
  return rows;
}

/// From the reference end on.
std::string lengthwise(const plan::Plan& plan, const Row& row) {
  const bench::Mark& first = *row.marks.front();
  if (first.from_end.empty()) {
    return first.on.ends_with(" end") ? "in the end" : "end to end";
  }
  std::vector<const bench::Mark*> marks = row.marks;
  std::ranges::stable_sort(
      marks, {}, [](const bench::Mark* mark) { return mark->from_end.front(); });
  std::string text;
  for (const bench::Mark* mark : marks) {
    text +=
        fmt::format("{}{}", text.empty() ? "" : "; ", figures(plan, mark->from_end, mark->centres));
  }
  return text;
}

std::string sideways(const plan::Plan& plan, const Row& row) {
  const std::string text = across(plan, *row.marks.front());
  return text.empty() ? "edge to edge" : text;
}

std::string cut(const plan::Plan& plan, const Row& row) {
  const bench::Mark& mark = *row.marks.front();
  const std::string count = mark.count > 1 ? fmt::format("{} ", mark.count) : "";
  const std::string slope = mark.slope > 0 ? fmt::format(", 1 : {}", mark.slope) : "";
  const std::string wide =
      mark.slope == 0 && mark.wide > Length{} ? fmt::format(" {}", length(plan, mark.wide)) : "";
  const bool both = std::ranges::any_of(
      row.marks, [&](const bench::Mark* other) { return other->on != mark.on; });
  return fmt::format("{}{}{}{}, {}", count, mark.what, wide, slope, both ? "both ends" : mark.on);
}

std::string mates(const Row& row) {
  std::vector<std::string> codes;
  for (const bench::Mark* mark : row.marks) {
    for (const std::string& code : mark->mates) {
      if (std::ranges::find(codes, code) == codes.end()) {
        codes.push_back(code);
      }
    }
  }
  return joined(codes);
}

class Card {
 public:
  Card(const plan::Plan& plan, const bench::MarkedFamily& family)
      : plan_{plan}, family_{family}, rows_{rows_of(family)} {}

  void set(Flow& flow) const {
    const double width = flow.body().width;
    std::vector<double> heights;
    double height = kTop + strip_height() + kBelowStrip;
    for (const Row& row : rows_) {
      heights.push_back(row_height(row, width));
      height += heights.back();
    }
    const Rectangle at = flow.take(height);
    Page& page = flow.page();
    const Rectangle strip{at.x, at.y + kTop, kStripWidth, strip_height()};
    set_head(page, at, strip);
    draw_strip(page, strip, kStripWidth / std::max(1.0, family_.length.mm()));
    double y = strip.bottom() + kBelowStrip;
    set_captions(page, at.x, y - kCaption);
    for (std::size_t i = 0; i < rows_.size(); ++i) {
      set_row(page, {at.x, y}, i, width);
      y += heights[i];
    }
    page.line({at.x, y + 0.6}, {at.right(), y + 0.6}, kFaintPen);
    flow.gap(kGap);
  }

 private:
  static constexpr double kTop = 8.8;
  static constexpr double kBelowStrip = 4.6;
  static constexpr double kCaption = 3.2;

  double strip_height() const {
    const double to_scale = kStripWidth * family_.width.mm() / std::max(1.0, family_.length.mm());
    return std::clamp(to_scale, kLeastStrip, kMostStrip);
  }

  static double text_height(const std::string& text, const TextStyle& style, double width) {
    return stack_height({{text, style}}, width);
  }

  double row_height(const Row& row, double width) const {
    const double end =
        text_height(lengthwise(plan_, row), kFigureText, kColumns.edge - kColumns.end - 2);
    const double edge =
        text_height(sideways(plan_, row), kFigureText, kColumns.deep - kColumns.edge - 2);
    const double what = text_height(cut(plan_, row), kRowText, kColumns.end - kColumns.cut - 2);
    const double with = text_height(mates(row), kRowText, width - kColumns.mates);
    return std::max(kRowHeight, std::max({end, edge, what, with}) + 1);
  }

  std::string name() const {
    const piece::Part& part = plan_.piece.parts[family_.parts.front()];
    const std::size_t mirrored = family_.mirrored.size();
    std::string text = fmt::format("{} {}", codes(plan_, family_.parts), part.name);
    if (mirrored > 0) {
      text += fmt::format(", {} of {} as mirror images", mirrored, family_.parts.size());
    }
    return text;
  }

  void set_head(Page& page, const Rectangle& at, const Rectangle& strip) const {
    text_in_room(page, {at.x, at.y, at.width, 4.4}, sentence(plain(name())), kNameText);
    const double x = strip.right() + 4;
    page.text({x, at.y + 5.4},
              fmt::format("From the {}, the {} and the {}. {} \u00d7 {} \u00d7 {}",
                          family_.end,
                          family_.edge,
                          family_.face,
                          length(plan_, family_.length),
                          length(plan_, family_.width),
                          length_with_unit(plan_, family_.thickness)),
              kReferenceText,
              {.width = at.right() - x});
  }

  static void set_captions(Page& page, double x, double y) {
    page.text({x + kColumns.cut, y}, "cut", kHeadText);
    page.text({x + kColumns.end, y}, "from the end", kHeadText);
    page.text({x + kColumns.edge, y}, "from the edge", kHeadText);
    page.text({x + kColumns.deep, y}, "deep", kHeadText);
    page.text({x + kColumns.mates, y}, "with", kHeadText);
  }

  void set_row(Page& page, PagePoint at, std::size_t i, double width) const {
    const Row& row = rows_[i];
    const bench::Mark& mark = *row.marks.front();
    page.text(at, letter(i), kLetterText);
    const auto set = [&](double x, double to, const std::string& text, const TextStyle& style) {
      page.text({at.x + x, at.y}, plain(text), style, {.width = to - x - 2});
    };
    set(kColumns.cut, kColumns.end, cut(plan_, row), kRowText);
    set(kColumns.end, kColumns.edge, lengthwise(plan_, row), kFigureText);
    set(kColumns.edge, kColumns.deep, sideways(plan_, row), kFigureText);
    const std::string deep = mark.depth > Length{} ? length(plan_, mark.depth) : "";
    set(kColumns.deep, kColumns.mates, deep, kFigureText);
    set(kColumns.mates, width + 2, mates(row), kRowText);
  }

  /// The reference corner is at the lower left, marked by a triangle.
  void draw_strip(Page& page, const Rectangle& strip, double scale) const {
    page.rectangle(strip, std::nullopt, kOutlinePen);
    page.area({{{strip.x - 2.6, strip.bottom() + 0.8},
                {strip.x, strip.bottom() + 0.8},
                {strip.x - 1.3, strip.bottom() - 1.8}}},
              kAccent);
    std::vector<std::pair<double, std::string>> letters;
    for (std::size_t i = 0; i < rows_.size(); ++i) {
      for (const bench::Mark* mark : rows_[i].marks) {
        letters.emplace_back(draw_mark(page, strip, scale, *mark), letter(i));
      }
    }
    set_letters(page, strip.y - 0.4, std::move(letters));
  }

  /// Returns where along the strip it is.
  double draw_mark(Page& page,
                   const Rectangle& strip,
                   double scale,
                   const bench::Mark& mark) const {
    const double up = strip.height / std::max(1.0, family_.width.mm());
    Rectangle at = strip;
    if (!mark.from_end.empty()) {
      at.x = strip.x + mark.from_end.front().mm() * scale;
      at.width = (mark.from_end.back() - mark.from_end.front()).mm() * scale;
    }
    if (!mark.from_edge.empty()) {
      at.height = (mark.from_edge.back() - mark.from_edge.front()).mm() * up;
      at.y = strip.bottom() - mark.from_edge.back().mm() * up;
    }
    if (mark.on.ends_with("edge")) {
      at.height = kThinCut;
      at.y = mark.on == family_.edge ? strip.bottom() - kThinCut : strip.y;
    } else if (mark.on.ends_with("end") && mark.from_end.empty()) {
      at.width = kThinCut;
      at.x = mark.on == family_.end ? strip.x : strip.right() - kThinCut;
    }
    const bool far = mark.on.ends_with("face") && mark.on != family_.face;
    if (mark.centres) {
      draw_centres(page, strip, scale, up, mark, at);
    } else {
      at.width = std::max(at.width, 0.6);
      at.height = std::max(at.height, 0.6);
      page.rectangle(at, far ? std::nullopt : std::optional{kCutWash}, far ? kFarPen : kCutPen);
    }
    return std::clamp(at.centre().x, strip.x + 1, strip.right() - 1);
  }

  /// Over the strip; letters that would cover each other stand together.
  static void set_letters(Page& page,
                          double y,
                          std::vector<std::pair<double, std::string>> labels) {
    constexpr double kLetterWidth = 1.7;
    std::ranges::stable_sort(labels, {}, &std::pair<double, std::string>::first);
    const auto half = [](const std::string& text) {
      return kLetterWidth * static_cast<double>(text.size()) / 2;
    };
    for (std::size_t i = 1; i < labels.size();) {
      auto& [left_x, left] = labels[i - 1];
      const auto& [right_x, right] = labels[i];
      if (right_x - half(right) > left_x + half(left)) {
        ++i;
        continue;
      }
      left_x = (left_x + right_x) / 2;
      left += right;
      labels.erase(labels.begin() + static_cast<std::ptrdiff_t>(i));
      i = std::max<std::size_t>(1, i - 1);
    }
    for (const auto& [x, text] : labels) {
      page.text({x, y}, text, kLetterText, {.align = Align::kCentre, .anchor = Anchor::kBottom});
    }
  }

  void draw_centres(Page& page,
                    const Rectangle& strip,
                    double scale,
                    double up,
                    const bench::Mark& mark,
                    const Rectangle& at) const {
    constexpr double kDot = 0.55;
    const std::vector<Length> single{Length{}};
    for (const Length end : mark.from_end.empty() ? single : mark.from_end) {
      for (const Length edge : mark.from_edge.empty() ? single : mark.from_edge) {
        const double x = mark.from_end.empty() ? at.centre().x : strip.x + end.mm() * scale;
        const double y = mark.from_edge.empty() ? at.centre().y : strip.bottom() - edge.mm() * up;
        page.circle({x, y}, kDot, kAccent);
      }
    }
  }

  const plan::Plan& plan_;
  const bench::MarkedFamily& family_;
  std::vector<Row> rows_;
};

void set_joint_settings(Flow& flow, const plan::Plan& plan) {
  Table table{.columns = {{"Cut"},
                          {"Bit or cutter", ColumnWidth::fit(), Align::kRight, true},
                          {"Deep", ColumnWidth::fit(), Align::kRight, true},
                          {"From the face", ColumnWidth::fit(), Align::kRight, true},
                          {"Cuts", ColumnWidth::fit(), Align::kRight, true},
                          {"Parts", ColumnWidth::share(2)}},
              .rows = {},
              .empty_text = "No joint asks for a setting.",
              .style = {.letter_height = 2.4}};
  for (const bench::JointSetting& setting : plan.bench.marking.settings) {
    const auto shown = [&](Length size) {
      return size > Length{} ? length(plan, size) : std::string{};
    };
    table.rows.push_back({{{sentence(setting.what)},
                           {shown(setting.wide)},
                           {shown(setting.depth)},
                           {shown(setting.from_face)},
                           {std::to_string(setting.count)},
                           {joined(setting.codes) + (setting.mates ? "; mates together" : "")}}});
  }
  flow.heading("What the machines are set to for the joints", kHeadingText, 30);
  set_table(flow, table);
}

}  // namespace

void add_marking(const Packet& packet) {
  const plan::Plan& plan = packet.plan;
  if (plan.bench.marking.families.empty()) {
    return;
  }
  Flow flow = packet.sheets.flow(packet.info("Marking out, part by part", "Marking sheet"));
  flow.paragraph(
      fmt::format("In {}, before a machine is switched on. Each part lies as drawn, its reference "
                  "corner at the triangle: lay the stock of a square or the fence of a gauge there "
                  "and nowhere else. All figures are from there, none from one mark to the next. "
                  "Mirror images lie beside each other, turned; mates pass in one setting. Solid "
                  "cuts are on the reference face, dashed ones on the other. Drawn lengthwise to "
                  "scale, not across.",
                  unit_name(plan)),
      kShopText);
  flow.gap(2);
  for (const bench::MarkedFamily& family : plan.bench.marking.families) {
    Card{plan, family}.set(flow);
  }
  flow.gap(2);
  set_joint_settings(flow, plan);
}

}  // namespace plankwright::papers
