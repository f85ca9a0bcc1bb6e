#pragma once
// Open instances of ordering, staging and scheduling, read from the forms they are published in.

#include <istream>

#include <nlohmann/json.hpp>

#include "solve/order.h"
#include "solve/schedule.h"
#include "solve/staging.h"

namespace plankwright::bench_tool {

/// A TSPLIB file of the sequential ordering problem: the full matrix, the first node the start and
/// the last one the end.
solve::OrderJob read_sop(std::istream& file);

/// A PSPLIB file, single-mode (.sm) or multi-mode (.mm).
solve::ScheduleJob read_psplib(std::istream& file);

/// A line of albp1.jsonl: cycle, times, prec (tasks count from 1).
solve::StagingJob staging_job(const nlohmann::json& instance);

}  // namespace plankwright::bench_tool
