#pragma once
// Marks on layouts of sheets and boards: names of parts in their outline, numbers on cuts, grain.

#include <string>
#include <vector>

#include "papers/page.h"

namespace plankwright::papers {

/// Remembers where texts stand, so that marks on lines keep clear of them and of each other.
class LabelPlaces {
 public:
  void block(const Rectangle& box) { taken_.push_back(box); }
  /// The middle of a ring of `radius` on the line, as near its beginning as is free; it is then
  /// taken. When nothing is free, where it covers least.
  PagePoint on_line(PagePoint from, PagePoint to, double radius);

 private:
  std::vector<Rectangle> taken_;
};

/// Code, size and name of a part in its outline, as much as there is room for: on two lines, on
/// one, turned upright, or only the code. Returns the box that the text takes.
Rectangle label_part(Page& page,
                     const Rectangle& outline,
                     const std::string& code,
                     const std::string& size,
                     const std::string& name);

/// The size of an offcut that is kept, on white.
Rectangle label_offcut(Page& page, const Rectangle& outline, const std::string& text);

/// A line with an arrow at both ends, along the grain.
void grain_arrow(Page& page, PagePoint from, PagePoint to);

}  // namespace plankwright::papers
