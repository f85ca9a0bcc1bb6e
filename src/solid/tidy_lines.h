#pragma once
// Lines drawn once: what an exact view leaves in bits and over each other, put in order.

#include "solid/view.h"

namespace plankwright::solid {

/// `view` with straight lines of one solid that run on in each other made one, stretches that lie
/// under a seen line (or under an equal line of an earlier solid) taken out, and all lines in a
/// fixed order: solids as the view first mentions them, then by place. Fills in the bounds.
View tidied(View view);

}  // namespace plankwright::solid
