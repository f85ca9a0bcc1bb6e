#pragma once
// For this room only: text laid out by Pango, in points, one layout for every output.

#include <memory>
#include <string_view>

#include <pango/pangocairo.h>

#include "papers/page_text.h"

namespace plankwright::papers {

inline constexpr double kPointsPerMillimetre = 72.0 / 25.4;

using Layout = std::shared_ptr<PangoLayout>;

/// Equal texts share one layout, which nobody may change. Without a width the lines of a text are
/// still aligned to each other.
Layout layout_of(std::string_view text, const TextStyle& style, double width, Align align);

/// Millimetres from the top of the layout to its first baseline.
double layout_baseline(const Layout& layout);

/// Of laid-out text, as text_size says.
TextSize layout_size(const Layout& layout, const TextStyle& style);

}  // namespace plankwright::papers
