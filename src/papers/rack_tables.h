#pragma once
// Tables of the material sheet about the rack, bars and what a small change would save.

#include "papers/page_flow.h"
#include "plan/plan.h"

namespace plankwright::papers {

void set_bars(Flow& flow, const plan::Plan& plan);
void set_out_of_rack(Flow& flow, const plan::Plan& plan);
void set_into_rack(Flow& flow, const plan::Plan& plan);
void set_nudges(Flow& flow, const plan::Plan& plan);

}  // namespace plankwright::papers
