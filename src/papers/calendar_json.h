#pragma once
// The calendar as JSON: a part of docs/plan.schema.json.

#include <nlohmann/json.hpp>

#include "calendar/calendar.h"
#include "plan/plan.h"

namespace plankwright::papers {

/// The calendar of a plan, or of several commissions in one shop; `finish` is that of the first.
/// Days as `2026-03-14`, times as `2026-03-14T08:00`.
nlohmann::ordered_json calendar_json(const calendar::Calendar& calendar,
                                     const std::vector<calendar::Work>& works);

/// `2026-03-14T08:00`, the local time of the shop.
std::string print_moment(const calendar::Moment& moment);

}  // namespace plankwright::papers
