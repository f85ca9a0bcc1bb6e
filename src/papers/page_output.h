#pragma once
// Pages put on paper: as PDF, or as a picture to look at.

#include <string>

#include "papers/page.h"

namespace plankwright::papers {

/// The bytes of a PDF file. Text stays text, fonts are embedded, and equal papers give equal bytes.
std::string to_pdf(const Paper& paper);

/// The bytes of a PNG picture of one page, drawn by the same calls.
std::string to_png(const Page& page, double dots_per_inch);

/// One page as a picture for a browser. Text stays text, set as wide as on paper whatever font the
/// browser has.
std::string to_svg(const Page& page);

}  // namespace plankwright::papers
