#pragma once
// Sizes that miss a saving by a hair.

#include "plan/plan.h"
#include "plan/stages.h"

namespace plankwright::plan {

/// Which written size or part, changed by up to 2 %, would really save a sheet, a board, a bar or a
/// setting of a machine: each found is planned again, and written into `plan` with the money it
/// saves. Silent when none does. Tries at most a fixed number of plans, so that the same commission
/// gives the same answer.
void look_for_nudges(Plan& plan,
                     const Documents& documents,
                     const Reference& reference,
                     double work);

}  // namespace plankwright::plan
