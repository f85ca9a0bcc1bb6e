#include "wood/section.h"

#include <fmt/format.h>

namespace plankwright::wood {
namespace {

using measure::Length;
using measure::Megapascals;

bool is_positive(const Strip& strip) {
  return strip.width > Length{} && strip.thickness > Length{} && strip.stiffness.count() > 0;
}

/// E x A: how much a strip has to say about where the neutral axis lies.
double pull(const Strip& strip) {
  return strip.stiffness.count() * strip.width.mm() * strip.thickness.mm();
}

double middle(const Strip& strip) {
  return strip.top.mm() + strip.thickness.mm() / 2.0;
}

}  // namespace

base::Result<Section> plain_section(Length width, Length thickness, Megapascals stiffness) {
  const Strip board{
      .what = "board", .width = width, .thickness = thickness, .top = {}, .stiffness = stiffness};
  return composed_section({&board, 1});
}

base::Result<Section> composed_section(std::span<const Strip> strips) {
  if (strips.empty()) {
    return base::Error{.message = "a section needs at least one strip"};
  }
  double pulls = 0;
  double moment = 0;
  for (const Strip& strip : strips) {
    if (!is_positive(strip)) {
      return base::Error{
          .message =
              fmt::format("{}: width, thickness and stiffness must be more than zero", strip.what)};
    }
    pulls += pull(strip);
    moment += pull(strip) * middle(strip);
  }
  const double axis = moment / pulls;
  double rigidity = 0;
  for (const Strip& strip : strips) {
    const double thickness = strip.thickness.mm();
    const double arm = middle(strip) - axis;
    rigidity += pull(strip) * (thickness * thickness / 12.0 + arm * arm);
  }
  return Section{.rigidity = Rigidity{rigidity}, .neutral_axis = Length::from_mm(axis)};
}

}  // namespace plankwright::wood
