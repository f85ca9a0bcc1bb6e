#pragma once
// Hatching of cut surfaces and of areas that mean something.

#include <utility>
#include <vector>

#include "papers/page.h"

namespace plankwright::papers {

/// Parallel lines at `angle` (degrees anticlockwise from the right), `pitch` apart, inside the
/// loops (an odd number of times round is inside). Lines of neighbouring areas run on in each
/// other.
std::vector<std::pair<PagePoint, PagePoint>> hatch_lines(
    const std::vector<std::vector<PagePoint>>& loops, double angle, double pitch);

}  // namespace plankwright::papers
