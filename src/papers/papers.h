#pragma once
// The printed papers of a commission.

#include <string>

#include "plan/plan.h"

namespace plankwright::papers {

/// What the client gets: the piece drawn and described, choices taken, price, tax, payments,
/// validity, exclusions, care, signature. No hours, costs or margins. PDF bytes; the same plan, the
/// same bytes.
std::string quotation(const plan::Plan& plan);

/// What the shop works from: drawings, parts list, layouts, settings, step cards, lists, findings.
/// Every sheet has its title block. PDF bytes.
std::string shop_packet(const plan::Plan& plan);

}  // namespace plankwright::papers
