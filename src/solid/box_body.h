#pragma once
// Bodies made of boxes only, which most parts are, measured exactly and fast.

#include "measure/quantity.h"
#include "solid/body.h"

namespace plankwright::solid {

/// Whether neither the wood nor the cuts of `body` hold an outline.
bool is_of_boxes(const Body& body);

/// How much wood is in a body of boxes; boxes without size count for nothing.
measure::CubicMillimetres volume_of_boxes(const Body& body);

/// How much wood two bodies of boxes have in the same place.
measure::CubicMillimetres shared_volume_of_boxes(const Body& a, const Body& b);

}  // namespace plankwright::solid
