#include "papers/page_output.h"

#include <cmath>
#include <memory>
#include <numbers>
#include <stdexcept>
#include <utility>

#include <cairo-pdf.h>
#include <cairo.h>
#include <fmt/format.h>

#include "papers/text_layout.h"

namespace plankwright::papers {
namespace {

struct FreeSurface {
  void operator()(cairo_surface_t* s) const { cairo_surface_destroy(s); }
};
struct FreeContext {
  void operator()(cairo_t* c) const { cairo_destroy(c); }
};
using Surface = std::unique_ptr<cairo_surface_t, FreeSurface>;
using Context = std::unique_ptr<cairo_t, FreeContext>;

cairo_status_t append(void* bytes, const unsigned char* data, unsigned int length) {
  static_cast<std::string*>(bytes)->append(reinterpret_cast<const char*>(data), length);
  return CAIRO_STATUS_SUCCESS;
}

void require(cairo_status_t status) {
  if (status != CAIRO_STATUS_SUCCESS) {  // out of memory, or a mistake of our own
    throw std::runtime_error(fmt::format("drawing a page: {}", cairo_status_to_string(status)));
  }
}

void use(cairo_t* c, Colour colour) {
  cairo_set_source_rgb(c, colour.red, colour.green, colour.blue);
}

void use(cairo_t* c, const Pen& pen) {
  use(c, pen.colour);
  cairo_set_line_width(c, pen.width);
  cairo_set_line_join(c, CAIRO_LINE_JOIN_ROUND);
  cairo_set_line_cap(c, pen.dash == Dash::kNone ? CAIRO_LINE_CAP_ROUND : CAIRO_LINE_CAP_BUTT);
  static constexpr double kHidden[] = {2.0, 0.9};
  static constexpr double kCentre[] = {6.0, 1.0, 0.6, 1.0};
  static constexpr double kDotted[] = {0.5, 0.8};
  switch (pen.dash) {
    case Dash::kNone:
      return cairo_set_dash(c, nullptr, 0, 0);
    case Dash::kHidden:
      return cairo_set_dash(c, kHidden, 2, 0);
    case Dash::kCentre:
      return cairo_set_dash(c, kCentre, 4, 0);
    case Dash::kDotted:
      return cairo_set_dash(c, kDotted, 2, 0);
  }
}

void ink_path(cairo_t* c, const std::optional<Colour>& fill, const std::optional<Pen>& pen) {
  if (fill) {
    use(c, *fill);
    cairo_set_fill_rule(c, CAIRO_FILL_RULE_EVEN_ODD);
    cairo_fill_preserve(c);
  }
  if (pen) {
    use(c, *pen);
    cairo_stroke_preserve(c);
  }
  cairo_new_path(c);
}

void ink(cairo_t* c, const PathMark& mark) {
  for (const auto& line : mark.lines) {
    cairo_new_sub_path(c);
    for (const PagePoint p : line) {
      cairo_line_to(c, p.x, p.y);
    }
    if (mark.closed) {
      cairo_close_path(c);
    }
  }
  ink_path(c, mark.fill, mark.pen);
}

void ink(cairo_t* c, const ArcMark& mark) {
  constexpr double kDegree = std::numbers::pi / 180;
  cairo_new_sub_path(c);
  cairo_arc_negative(
      c, mark.centre.x, mark.centre.y, mark.radius, -mark.from * kDegree, -mark.to * kDegree);
  if (std::abs(mark.to - mark.from) >= 360) {
    cairo_close_path(c);
  }
  ink_path(c, mark.fill, mark.pen);
}

void ink(cairo_t* c, const TextMark& mark) {
  const TextPlace& place = mark.place;
  const TextSize natural = text_size(mark.text, mark.style);
  const bool one_line = natural.lines == 1 && (place.width <= 0 || natural.width <= place.width);
  const Layout layout = one_line ? layout_of(mark.text, mark.style, 0, Align::kLeft)
                                 : layout_of(mark.text, mark.style, place.width, place.align);
  TextMark unturned = mark;
  unturned.at = {};
  unturned.place.turn = 0;
  const Rectangle box = text_box(unturned);
  const double spare = one_line ? box.width - natural.width : 0;
  const double shift = place.align == Align::kLeft     ? 0
                       : place.align == Align::kCentre ? spare / 2
                                                       : spare;
  cairo_save(c);
  cairo_translate(c, mark.at.x, mark.at.y);
  cairo_rotate(c, -place.turn * std::numbers::pi / 180);
  cairo_translate(c, box.x + shift, box.y + mark.style.letter_height - layout_baseline(layout));
  cairo_scale(c, 1 / kPointsPerMillimetre, 1 / kPointsPerMillimetre);
  use(c, mark.style.colour);
  pango_cairo_show_layout(c, layout.get());
  cairo_restore(c);
}

void ink(cairo_t* c, const ClipMark& mark) {
  cairo_save(c);
  cairo_rectangle(c, mark.area.x, mark.area.y, mark.area.width, mark.area.height);
  cairo_clip(c);
}

void ink(cairo_t* c, const UnclipMark&) {
  cairo_restore(c);
}

void ink(cairo_t* c, const Page& page) {
  for (const Mark& mark : page.marks()) {
    std::visit([&](const auto& m) { ink(c, m); }, mark);
  }
  require(cairo_status(c));
}

void set_info(cairo_surface_t* pdf, const PaperInfo& info) {
  const auto set = [&](cairo_pdf_metadata_t key, const std::string& value) {
    if (!value.empty()) {
      cairo_pdf_surface_set_metadata(pdf, key, value.c_str());
    }
  };
  set(CAIRO_PDF_METADATA_TITLE, info.title);
  set(CAIRO_PDF_METADATA_AUTHOR, info.author);
  set(CAIRO_PDF_METADATA_SUBJECT, info.subject);
  set(CAIRO_PDF_METADATA_CREATOR, "Plankwright");
  set(CAIRO_PDF_METADATA_CREATE_DATE,
      fmt::format("{:04}-{:02}-{:02}T00:00:00Z",
                  static_cast<int>(info.date.year()),
                  static_cast<unsigned>(info.date.month()),
                  static_cast<unsigned>(info.date.day())));
}

void add_bookmarks(cairo_surface_t* pdf, const Paper& paper) {
  for (std::size_t i = 0; i < paper.pages.size(); ++i) {
    if (!paper.pages[i].bookmark().empty()) {
      cairo_pdf_surface_add_outline(pdf,
                                    CAIRO_PDF_OUTLINE_ROOT,
                                    paper.pages[i].bookmark().c_str(),
                                    fmt::format("page={}", i + 1).c_str(),
                                    CAIRO_PDF_OUTLINE_FLAG_OPEN);
    }
  }
}

}  // namespace

std::string to_pdf(const Paper& paper) {
  std::string bytes;
  const PageSize first = paper.pages.empty() ? kA4 : paper.pages.front().size();
  const Surface pdf{cairo_pdf_surface_create_for_stream(
      &append, &bytes, first.width * kPointsPerMillimetre, first.height * kPointsPerMillimetre)};
  set_info(pdf.get(), paper.info);
  for (const Page& page : paper.pages) {
    cairo_pdf_surface_set_size(pdf.get(),
                               page.size().width * kPointsPerMillimetre,
                               page.size().height * kPointsPerMillimetre);
    const Context c{cairo_create(pdf.get())};
    cairo_scale(c.get(), kPointsPerMillimetre, kPointsPerMillimetre);
    ink(c.get(), page);
    cairo_show_page(c.get());
  }
  add_bookmarks(pdf.get(), paper);
  cairo_surface_finish(pdf.get());
  require(cairo_surface_status(pdf.get()));
  return bytes;
}

std::string to_png(const Page& page, double dots_per_inch) {
  const double dots_per_mm = dots_per_inch / 25.4;
  const auto dots = [&](double mm) { return static_cast<int>(std::ceil(mm * dots_per_mm)); };
  const Surface picture{cairo_image_surface_create(
      CAIRO_FORMAT_RGB24, dots(page.size().width), dots(page.size().height))};
  {
    const Context c{cairo_create(picture.get())};
    use(c.get(), kWhite);
    cairo_paint(c.get());
    cairo_scale(c.get(), dots_per_mm, dots_per_mm);
    ink(c.get(), page);
  }
  std::string bytes;
  require(cairo_surface_write_to_png_stream(picture.get(), &append, &bytes));
  return bytes;
}

}  // namespace plankwright::papers
