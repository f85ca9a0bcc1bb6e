#pragma once
// A few texts of different sizes one below the other, measured before they are set: for cards.

#include <string>
#include <vector>

#include "papers/page.h"

namespace plankwright::papers {

struct StackLine {
  std::string text;
  TextStyle style = kBodyText;
  double above = 0.8;  // free space over it, except at the top
  double indent = 0;
  std::string mark = {};  // stands in the indent
};

/// Empty texts are left out.
double stack_height(const std::vector<StackLine>& lines, double width);
void set_stack(Page& page, PagePoint at, const std::vector<StackLine>& lines, double width);

}  // namespace plankwright::papers
