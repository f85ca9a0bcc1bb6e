// SVG written by hand rather than by cairo, which would turn text into outlines: a browser's text
// can be searched, read aloud and copied.
#include <cmath>
#include <string_view>

#include <fmt/format.h>

#include "papers/page_output.h"

namespace plankwright::papers {
namespace {

/// Hundredths of a millimetre, without zeros at the end.
std::string figure(double value) {
  std::string text = fmt::format("{:.2f}", value);
  text.erase(text.find_last_not_of('0') + 1);
  if (text.back() == '.') {
    text.pop_back();
  }
  return text == "-0" ? "0" : text;
}

std::string escaped(std::string_view text) {
  std::string out;
  for (const char c : text) {
    switch (c) {
      case '&':
        out += "&amp;";
        break;
      case '<':
        out += "&lt;";
        break;
      case '>':
        out += "&gt;";
        break;
      case '"':
        out += "&quot;";
        break;
      default:
        out += static_cast<unsigned char>(c) < 0x20 ? ' ' : c;
    }
  }
  return out;
}

std::string hex(Colour colour) {
  const auto byte = [](double share) { return static_cast<int>(std::lround(share * 255)); };
  return fmt::format(
      "#{:02x}{:02x}{:02x}", byte(colour.red), byte(colour.green), byte(colour.blue));
}

std::string_view dashes(Dash dash) {
  switch (dash) {
    case Dash::kNone:
      return "";
    case Dash::kHidden:
      return "2 .9";
    case Dash::kCentre:
      return "6 1 .6 1";
    case Dash::kDotted:
      return ".5 .8";
  }
  return "";
}

std::string paint(const std::optional<Colour>& fill, const std::optional<Pen>& pen) {
  std::string out = fmt::format(" fill=\"{}\"", fill ? hex(*fill) : "none");
  if (fill) {
    out += " fill-rule=\"evenodd\"";
  }
  if (pen) {
    out += fmt::format(" stroke=\"{}\" stroke-width=\"{}\"", hex(pen->colour), figure(pen->width));
    if (pen->dash != Dash::kNone) {
      out += fmt::format(" stroke-linecap=\"butt\" stroke-dasharray=\"{}\"", dashes(pen->dash));
    }
  }
  return out;
}

void write(std::string& out, const PathMark& mark) {
  out += "<path d=\"";
  for (const auto& line : mark.lines) {
    char step = 'M';
    for (const PagePoint p : line) {
      out += fmt::format("{}{} {}", step, figure(p.x), figure(p.y));
      step = 'L';
    }
    out += mark.closed ? "Z" : "";
  }
  out += fmt::format("\"{}/>\n", paint(mark.fill, mark.pen));
}

void write(std::string& out, const ArcMark& mark) {
  const double turn = mark.to - mark.from;
  if (std::abs(turn) >= 360) {
    out += fmt::format("<circle cx=\"{}\" cy=\"{}\" r=\"{}\"{}/>\n",
                       figure(mark.centre.x),
                       figure(mark.centre.y),
                       figure(mark.radius),
                       paint(mark.fill, mark.pen));
    return;
  }
  const auto at = [&](double degrees) {
    const double angle = degrees * std::acos(-1.0) / 180;
    return fmt::format("{} {}",
                       figure(mark.centre.x + mark.radius * std::cos(angle)),
                       figure(mark.centre.y - mark.radius * std::sin(angle)));
  };
  // Anticlockwise on a page whose y runs down is sweep 0.
  const double round = turn < 0 ? turn + 360 : turn;
  out += fmt::format("<path d=\"M{}A{r} {r} 0 {} 0 {}\"{}/>\n",
                     at(mark.from),
                     round > 180 ? 1 : 0,
                     at(mark.to),
                     paint(mark.fill, mark.pen),
                     fmt::arg("r", figure(mark.radius)));
}

/// A line of text, its fractions set as such.
std::string line_of(std::string_view line, const TextStyle& style) {
  std::string out;
  std::size_t done = 0;
  if (style.fractions) {
    for (const FractionPlace& place : fractions_in(line)) {
      out += escaped(line.substr(done, place.begin - done));
      out += fmt::format("<tspan style=\"font-feature-settings:'frac'\">{}</tspan>",
                         escaped(line.substr(place.begin, place.end - place.begin)));
      done = place.end;
    }
  }
  return out + escaped(line.substr(done));
}

std::string font_of(const TextStyle& style) {
  std::string out =
      fmt::format(" font-size=\"{}\" fill=\"{}\"", figure(font_size(style)), hex(style.colour));
  if (style.weight != Weight::kRegular) {
    out += fmt::format(" font-weight=\"{}\"", style.weight == Weight::kBold ? 600 : 500);
  }
  if (style.italic) {
    out += " font-style=\"italic\"";
  }
  if (style.tabular) {
    out += " style=\"font-variant-numeric:tabular-nums\"";
  }
  return out;
}

void write(std::string& out, const TextMark& mark) {
  TextMark unturned = mark;
  unturned.at = {};
  unturned.place.turn = 0;
  const Rectangle box = text_box(unturned);
  const double align = mark.place.align == Align::kLeft     ? 0
                       : mark.place.align == Align::kCentre ? 0.5
                                                            : 1;
  const std::string turn =
      mark.place.turn == 0 ? "" : fmt::format(" rotate({})", figure(-mark.place.turn));
  out += fmt::format("<g transform=\"translate({} {}){}\"{}>",
                     figure(mark.at.x),
                     figure(mark.at.y),
                     turn,
                     font_of(mark.style));
  double baseline = box.y + mark.style.letter_height;
  for (const std::string& line : broken_lines(mark.text, mark.style, mark.place.width)) {
    const double width = text_size(line, mark.style).width;
    if (width > 0) {
      out += fmt::format(
          "<text x=\"{}\" y=\"{}\" textLength=\"{}\" lengthAdjust=\"spacingAndGlyphs\">{}</text>",
          figure(box.x + (box.width - width) * align),
          figure(baseline),
          figure(width),
          line_of(line, mark.style));
    }
    baseline += mark.style.letter_height * mark.style.line_pitch;
  }
  out += "</g>\n";
}

// A picture in the picture cuts off what is outside it, and needs no name that another picture on
// the same page of a browser might have too.
void write(std::string& out, const ClipMark& mark) {
  const std::string box = fmt::format("{} {} {} {}",
                                      figure(mark.area.x),
                                      figure(mark.area.y),
                                      figure(mark.area.width),
                                      figure(mark.area.height));
  out += fmt::format("<svg x=\"{}\" y=\"{}\" width=\"{}\" height=\"{}\" viewBox=\"{}\">\n",
                     figure(mark.area.x),
                     figure(mark.area.y),
                     figure(mark.area.width),
                     figure(mark.area.height),
                     box);
}

void write(std::string& out, const UnclipMark& /*mark*/) {
  out += "</svg>\n";
}

}  // namespace

std::string to_svg(const Page& page) {
  std::string out = fmt::format(
      "<svg xmlns=\"http://www.w3.org/2000/svg\" viewBox=\"0 0 {0} {1}\" width=\"{0}mm\" "
      "height=\"{1}mm\" font-family=\"Inter, 'Liberation Sans', Arial, sans-serif\" "
      "stroke-linecap=\"round\" stroke-linejoin=\"round\" xml:space=\"preserve\">\n",
      figure(page.size().width),
      figure(page.size().height));
  for (const Mark& mark : page.marks()) {
    std::visit([&](const auto& m) { write(out, m); }, mark);
  }
  return out + "</svg>\n";
}

}  // namespace plankwright::papers
