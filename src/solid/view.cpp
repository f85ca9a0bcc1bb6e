#include "solid/view.h"

#include <algorithm>

namespace plankwright::solid {

void ViewBox::add(ViewPoint p) {
  if (empty()) {
    low = high = p;
    return;
  }
  low = {std::min(low.x, p.x), std::min(low.y, p.y)};
  high = {std::max(high.x, p.x), std::max(high.y, p.y)};
}

}  // namespace plankwright::solid
