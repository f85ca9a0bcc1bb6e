#include "papers/page_flow.h"

#include <algorithm>
#include <string>
#include <utility>

namespace plankwright::papers {
namespace {

constexpr double kHair = 1e-6;  // sums of heights that should be equal
constexpr double kAfterParagraph = 1.0;
constexpr double kAroundHeading = 2.0;

}  // namespace

Flow::Flow(Paper& paper, PageSize size, PageStart start)
    : paper_{&paper}, size_{size}, start_{std::move(start)} {
  new_page();
}

bool Flow::has_room(double height) const {
  return height <= rest().height + kHair;
}

void Flow::new_page() {
  page_ = paper_->pages.size();
  paper_->pages.emplace_back(size_);
  body_ = start_(page(), ++number_);
  y_ = body_.y;
}

Rectangle Flow::take(double height) {
  if (!has_room(height) && !at_top()) {
    new_page();
  }
  const Rectangle taken{body_.x, y_, body_.width, height};
  y_ += height;
  return taken;
}

void Flow::gap(double height) {
  if (!at_top()) {
    y_ = std::min(y_ + height, body_.bottom());
  }
}

void Flow::paragraph(std::string_view text, const TextStyle& style) {
  const double pitch = style.letter_height * style.line_pitch;
  for (std::string& line : broken_lines(text, style, body_.width)) {
    const Rectangle at = take(pitch);
    page().text({at.x, at.y}, std::move(line), style);
  }
  gap(kAfterParagraph);
}

void Flow::heading(std::string_view text, const TextStyle& style, double keep) {
  const double height = text_size(text, style, body_.width).height;
  gap(kAroundHeading);
  if (!has_room(height + kAroundHeading + keep) && !at_top()) {
    new_page();
  }
  const Rectangle at = take(height);
  page().text({at.x, at.y}, std::string{text}, style, {.width = at.width});
  gap(kAroundHeading);
}

}  // namespace plankwright::papers
