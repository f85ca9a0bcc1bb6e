#pragma once
// What each way to take a choice does to everything, side by side.

#include "plan/plan.h"
#include "plan/stages.h"

namespace plankwright::plan {

/// Plans every option that is not picked, all else as picked and with the same work, and writes the
/// differences, and the make-or-buy questions among them, into `plan`.
void compare_choices(Plan& plan,
                     const Documents& documents,
                     const Reference& reference,
                     double work);

}  // namespace plankwright::plan
