#pragma once
// The printed papers as pages, before they become bytes: for pictures on a screen, and for tests
// that look at where things stand.

#include "papers/page.h"
#include "plan/plan.h"

namespace plankwright::papers {

Paper quotation_pages(const plan::Plan& plan);
Paper shop_packet_pages(const plan::Plan& plan);

}  // namespace plankwright::papers
