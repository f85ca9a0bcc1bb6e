#include "papers/page_text.h"

#include <algorithm>
#include <array>
#include <cctype>
#include <cmath>
#include <map>
#include <optional>
#include <tuple>

#include "papers/text_layout.h"

namespace plankwright::papers {
namespace {

constexpr const char* kFontFamily = "Inter";
constexpr double kDescender = 0.33;  // of the letter height; enough for g and commas
constexpr double kTight = -0.03;     // of the font size, between the letters of large text
constexpr double kLarge = 4;         // mm of letter height

template <class T>
struct Unref {
  void operator()(T* object) const { g_object_unref(object); }
};

// Layouts must come out alike whatever they are drawn on: no hinting, no rounding to pixels.
std::unique_ptr<PangoContext, Unref<PangoContext>> make_context() {
  PangoFontMap* fonts = pango_cairo_font_map_get_default();
  std::unique_ptr<PangoContext, Unref<PangoContext>> context{pango_font_map_create_context(fonts)};
  pango_context_set_round_glyph_positions(context.get(), FALSE);
  cairo_font_options_t* options = cairo_font_options_create();
  cairo_font_options_set_hint_style(options, CAIRO_HINT_STYLE_NONE);
  cairo_font_options_set_hint_metrics(options, CAIRO_HINT_METRICS_OFF);
  cairo_font_options_set_antialias(options, CAIRO_ANTIALIAS_GRAY);
  pango_cairo_context_set_font_options(context.get(), options);
  cairo_font_options_destroy(options);
  return context;
}

PangoContext* context() {
  // Pango's font map is one a thread, and so is what is made from it.
  thread_local const auto made = make_context();
  return made.get();
}

struct FreeDescription {
  void operator()(PangoFontDescription* d) const { pango_font_description_free(d); }
};
using Description = std::unique_ptr<PangoFontDescription, FreeDescription>;

Description describe(double size_in_points, Weight weight, bool italic) {
  Description d{pango_font_description_new()};
  pango_font_description_set_family(d.get(), kFontFamily);
  pango_font_description_set_absolute_size(d.get(), size_in_points * PANGO_SCALE);
  pango_font_description_set_weight(d.get(),
                                    weight == Weight::kBold     ? PANGO_WEIGHT_SEMIBOLD
                                    : weight == Weight::kMedium ? PANGO_WEIGHT_MEDIUM
                                                                : PANGO_WEIGHT_NORMAL);
  pango_font_description_set_style(d.get(), italic ? PANGO_STYLE_ITALIC : PANGO_STYLE_NORMAL);
  return d;
}

// The height of a capital in a font one point large, measured so that it is right for whatever font
// is really there.
double capital_height() {
  thread_local const double height = [] {
    constexpr double kSize = 1000;
    const Layout layout{pango_layout_new(context()), Unref<PangoLayout>{}};
    const Description font = describe(kSize, Weight::kRegular, false);
    pango_layout_set_font_description(layout.get(), font.get());
    pango_layout_set_text(layout.get(), "H", 1);
    PangoRectangle ink;
    pango_layout_get_extents(layout.get(), &ink, nullptr);
    return ink.height / (kSize * PANGO_SCALE);
  }();
  return height;
}

void add(PangoAttrList* list, PangoAttribute* attribute, std::size_t begin, std::size_t end) {
  attribute->start_index = static_cast<guint>(begin);
  attribute->end_index = static_cast<guint>(end);
  pango_attr_list_insert(list, attribute);
}

void set_features(const Layout& layout, std::string_view text, const TextStyle& style) {
  PangoAttrList* list = pango_attr_list_new();
  if (style.letter_height > kLarge) {
    const double size = style.letter_height * kPointsPerMillimetre / capital_height();
    add(list,
        pango_attr_letter_spacing_new(static_cast<int>(kTight * size * PANGO_SCALE)),
        0,
        text.size());
  }
  if (style.tabular) {
    add(list, pango_attr_font_features_new("tnum"), 0, text.size());
  }
  if (style.fractions) {
    for (const FractionPlace& f : fractions_in(text)) {
      add(list, pango_attr_font_features_new("frac"), f.begin, f.end);
      add(list, pango_attr_allow_breaks_new(FALSE), f.whole, f.end);
    }
  }
  pango_layout_set_attributes(layout.get(), list);
  pango_attr_list_unref(list);
}

double millimetres(double pango_units) {
  return pango_units / PANGO_SCALE / kPointsPerMillimetre;
}

bool has_descenders(std::string_view text) {
  return text.find_first_not_of("0123456789 ./+-") != std::string_view::npos;
}

bool is_digit(std::string_view text, std::size_t at) {
  return at < text.size() && std::isdigit(static_cast<unsigned char>(text[at])) != 0;
}

// The start of the run of digits that ends before `end`.
std::size_t digits_before(std::string_view text, std::size_t end) {
  while (end > 0 && is_digit(text, end - 1)) {
    --end;
  }
  return end;
}

std::size_t digits_after(std::string_view text, std::size_t begin) {
  while (is_digit(text, begin)) {
    ++begin;
  }
  return begin;
}

// At most two digits, so that nothing overflows; -1 otherwise.
int small_number(std::string_view digits) {
  if (digits.empty() || digits.size() > 2) {
    return -1;
  }
  int value = 0;
  for (const char c : digits) {
    value = value * 10 + (c - '0');
  }
  return value;
}

bool continues_word(std::string_view text, std::size_t at) {
  if (at >= text.size()) {
    return false;
  }
  const char c = text[at];
  return std::isalnum(static_cast<unsigned char>(c)) != 0 || c == '/' ||
         ((c == '.' || c == ',') && is_digit(text, at + 1));
}

// The start of `5' ` when it ends before `end`, else `end`.
std::size_t feet_before(std::string_view text, std::size_t end) {
  if (end < 3 || text.substr(end - 2, 2) != "' ") {
    return end;
  }
  const std::size_t feet = digits_before(text, end - 2);
  return feet < end - 2 ? feet : end;
}

// The start of the whole number, with its feet, to which a fraction at `begin` belongs.
std::size_t whole_number_before(std::string_view text, std::size_t begin) {
  if (begin < 2 || (text[begin - 1] != ' ' && text[begin - 1] != '-')) {
    return begin;
  }
  const std::size_t whole = digits_before(text, begin - 1);
  return feet_before(text, whole < begin - 1 ? whole : begin);
}

std::optional<FractionPlace> fraction_at(std::string_view text, std::size_t stroke) {
  constexpr std::array kRuleDivisions{2, 4, 8, 16, 32, 64};
  const std::size_t begin = digits_before(text, stroke);
  const std::size_t end = digits_after(text, stroke + 1);
  const int top = small_number(text.substr(begin, stroke - begin));
  const int under = small_number(text.substr(stroke + 1, end - stroke - 1));
  const bool joined = (begin > 0 && (continues_word(text, begin - 1) || text[begin - 1] == '.' ||
                                     text[begin - 1] == ',')) ||
                      continues_word(text, end);
  if (joined || top < 1 || top >= under ||
      std::ranges::find(kRuleDivisions, under) == kRuleDivisions.end()) {
    return std::nullopt;
  }
  return FractionPlace{whole_number_before(text, begin), begin, end};
}

}  // namespace

std::vector<FractionPlace> fractions_in(std::string_view text) {
  std::vector<FractionPlace> found;
  for (std::size_t i = text.find('/'); i != std::string_view::npos; i = text.find('/', i + 1)) {
    if (const auto fraction = fraction_at(text, i)) {
      found.push_back(*fraction);
    }
  }
  return found;
}

namespace {

Layout make_layout(std::string_view text, const TextStyle& style, double width, Align align) {
  Layout layout{pango_layout_new(context()), Unref<PangoLayout>{}};
  const double size = style.letter_height * kPointsPerMillimetre / capital_height();
  const Description font = describe(size, style.weight, style.italic);
  pango_layout_set_font_description(layout.get(), font.get());
  pango_layout_set_text(layout.get(), text.data(), static_cast<int>(text.size()));
  set_features(layout, text, style);
  if (width > 0) {
    pango_layout_set_width(
        layout.get(), static_cast<int>(std::lround(width * kPointsPerMillimetre * PANGO_SCALE)));
    pango_layout_set_wrap(layout.get(), PANGO_WRAP_WORD_CHAR);
  }
  pango_layout_set_alignment(layout.get(),
                             align == Align::kLeft     ? PANGO_ALIGN_LEFT
                             : align == Align::kCentre ? PANGO_ALIGN_CENTER
                                                       : PANGO_ALIGN_RIGHT);
  // Spacing is the gap that makes baselines the wanted distance apart.
  PangoRectangle line;
  pango_layout_line_get_extents(pango_layout_get_line_readonly(layout.get(), 0), nullptr, &line);
  const double pitch = style.letter_height * style.line_pitch * kPointsPerMillimetre * PANGO_SCALE;
  pango_layout_set_spacing(layout.get(), static_cast<int>(std::lround(pitch - line.height)));
  return layout;
}

}  // namespace

// Laying out a text takes 70 us, and a page asks for the same text several times: how wide, how
// high, where, and at last to be drawn. So the layouts of late are remembered.
Layout layout_of(std::string_view text, const TextStyle& style, double width, Align align) {
  using Key = std::tuple<std::string, double, Weight, bool, bool, bool, double, double, Align>;
  constexpr std::size_t kRemembered = 4096;
  thread_local std::map<Key, Layout> layouts;
  if (layouts.size() > kRemembered) {
    layouts.clear();
  }
  const auto [it, is_new] = layouts.try_emplace(Key{text,
                                                    style.letter_height,
                                                    style.weight,
                                                    style.italic,
                                                    style.tabular,
                                                    style.fractions,
                                                    style.line_pitch,
                                                    width,
                                                    align});
  if (is_new) {
    it->second = make_layout(text, style, width, align);
  }
  return it->second;
}

double layout_baseline(const Layout& layout) {
  return millimetres(pango_layout_get_baseline(layout.get()));
}

TextSize layout_size(const Layout& layout, const TextStyle& style) {
  const double below = has_descenders(pango_layout_get_text(layout.get())) ? kDescender : 0;
  PangoRectangle box;
  pango_layout_get_extents(layout.get(), nullptr, &box);
  const int lines = pango_layout_get_line_count(layout.get());
  return {.width = millimetres(box.width),
          .height = style.letter_height * (1 + below + (lines - 1) * style.line_pitch),
          .first_baseline = style.letter_height,
          .lines = lines};
}

double font_size(const TextStyle& style) {
  return style.letter_height / capital_height();
}

TextSize text_size(std::string_view text, const TextStyle& style, double width) {
  const TextSize unbroken = layout_size(layout_of(text, style, 0, Align::kLeft), style);
  // Most texts fit, and then the width makes no difference.
  return width <= 0 || unbroken.width <= width
             ? unbroken
             : layout_size(layout_of(text, style, width, Align::kLeft), style);
}

std::vector<std::string> broken_lines(std::string_view text, const TextStyle& style, double width) {
  if (const TextSize size = text_size(text, style, width); size.lines == 1) {
    return {std::string{text.substr(0, text.find_last_not_of(' ') + 1)}};
  }
  const Layout layout = layout_of(text, style, width, Align::kLeft);
  std::vector<std::string> lines;
  for (int i = 0; i < pango_layout_get_line_count(layout.get()); ++i) {
    const PangoLayoutLine* line = pango_layout_get_line_readonly(layout.get(), i);
    std::string part{text.substr(static_cast<std::size_t>(line->start_index),
                                 static_cast<std::size_t>(line->length))};
    part.erase(part.find_last_not_of(" \n") + 1);
    lines.push_back(std::move(part));
  }
  return lines;
}

FontReport check_font() {
  const Description wanted = describe(10, Weight::kRegular, false);
  const std::unique_ptr<PangoFont, Unref<PangoFont>> font{
      pango_context_load_font(context(), wanted.get())};
  FontReport report{.wanted = kFontFamily, .found = "", .warning = ""};
  if (font) {
    const Description found{pango_font_describe(font.get())};
    report.found = pango_font_description_get_family(found.get());
  }
  if (report.found != report.wanted) {
    report.warning = "the font " + report.wanted + " is not installed; papers are set in " +
                     (report.found.empty() ? "no font at all" : report.found) +
                     " and may look uneven (on Debian, install fonts-inter)";
  }
  return report;
}

}  // namespace plankwright::papers
