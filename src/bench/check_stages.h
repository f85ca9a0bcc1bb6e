#pragma once
// Proof from the other end: a plan of glue-ups is sound when the piece can be taken apart again.

#include <string>
#include <vector>

#include "bench/staging.h"

namespace plankwright::bench {

/// Takes the glue-ups apart again, the last first, joint by joint: what earlier stages glued stays
/// rigid, and whatever is drawn out may run into nothing that is still there. Everything wrong, in
/// words with the names of the parts: a joint closed twice or never, a part that cannot leave.
/// Empty when the plan is sound. Shares no code with glue_up.
std::vector<std::string> check_stages(const piece::Piece& piece,
                                      const std::vector<bool>& left_out,
                                      const std::vector<GlueStage>& stages);

}  // namespace plankwright::bench
