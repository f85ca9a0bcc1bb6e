#include "papers/text_stack.h"

#include <functional>

namespace plankwright::papers {
namespace {

using Visit = std::function<void(const StackLine& line, double top)>;

double each_line(const std::vector<StackLine>& lines, double width, const Visit& visit) {
  double y = 0;
  bool first = true;
  for (const StackLine& line : lines) {
    if (line.text.empty()) {
      continue;
    }
    y += first ? 0 : line.above;
    first = false;
    visit(line, y);
    // By whole lines, so that a line of figures takes as much room as one of words.
    const TextSize size = text_size(line.text, line.style, width - line.indent);
    y += size.lines * line.style.letter_height * line.style.line_pitch;
  }
  return y;
}

}  // namespace

double stack_height(const std::vector<StackLine>& lines, double width) {
  return each_line(lines, width, [](const StackLine&, double) {});
}

void set_stack(Page& page, PagePoint at, const std::vector<StackLine>& lines, double width) {
  each_line(lines, width, [&](const StackLine& line, double top) {
    if (!line.mark.empty()) {
      page.text({at.x, at.y + top}, line.mark, line.style);
    }
    page.text(
        {at.x + line.indent, at.y + top}, line.text, line.style, {.width = width - line.indent});
  });
}

}  // namespace plankwright::papers
