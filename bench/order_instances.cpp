#include "order_instances.h"

#include <cstdint>
#include <sstream>
#include <string>
#include <vector>

namespace plankwright::bench_tool {
namespace {

/// The numbers of a line.
std::vector<std::int64_t> numbers(const std::string& line) {
  std::istringstream words{line};
  std::vector<std::int64_t> found;
  for (std::int64_t number = 0; words >> number;) {
    found.push_back(number);
  }
  return found;
}

std::string line_after(std::istream& file, const std::string& heading, int more) {
  std::string line;
  while (std::getline(file, line) && line.find(heading) == std::string::npos) {
  }
  for (int i = 0; i < more; ++i) {
    std::getline(file, line);
  }
  return line;
}

/// How many resources of a kind: "  - renewable  :  4   R".
std::size_t count_of(std::istream& file, const std::string& heading) {
  const std::string line = line_after(file, heading, 0);
  return static_cast<std::size_t>(numbers(line.substr(line.find(':') + 1)).at(0));
}

}  // namespace

solve::OrderJob read_sop(std::istream& file) {
  line_after(file, "EDGE_WEIGHT_SECTION", 0);
  std::size_t size = 0;
  file >> size;
  solve::OrderJob job;
  job.change.assign(size, std::vector<std::int64_t>(size, 0));
  for (auto& row : job.change) {
    for (std::int64_t& cost : row) {
      file >> cost;
      cost = cost >= 1'000'000 ? solve::kNeverNext : cost;
    }
  }
  return job;
}

solve::ScheduleJob read_psplib(std::istream& file) {
  solve::ScheduleJob job;
  const std::size_t renewable = count_of(file, "- renewable");
  const std::size_t stores = count_of(file, "- nonrenewable");
  std::string line = line_after(file, "PRECEDENCE RELATIONS", 2);
  std::vector<std::size_t> modes;
  for (auto row = numbers(line); row.size() >= 3; std::getline(file, line), row = numbers(line)) {
    modes.push_back(static_cast<std::size_t>(row[1]));
    for (std::size_t i = 3; i < row.size(); ++i) {
      job.lags.push_back({static_cast<int>(row[0]) - 1, static_cast<int>(row[i]) - 1, 0});
    }
  }
  line_after(file, "REQUESTS/DURATIONS", 2);
  for (const std::size_t count : modes) {
    solve::Activity activity;
    for (std::size_t m = 0; m < count; ++m) {
      std::getline(file, line);
      auto row = numbers(line);
      row.erase(row.begin(), row.end() - static_cast<std::ptrdiff_t>(1 + renewable + stores));
      const auto split = row.begin() + 1 + static_cast<std::ptrdiff_t>(renewable);
      activity.modes.push_back({row[0], {row.begin() + 1, split}, {split, row.end()}});
    }
    job.activities.push_back(std::move(activity));
  }
  const auto available = numbers(line_after(file, "RESOURCEAVAILABILITIES", 2));
  for (std::size_t r = 0; r < renewable; ++r) {
    job.resources.push_back({available.at(r), {}, false});
  }
  job.stores.assign(available.begin() + static_cast<std::ptrdiff_t>(renewable), available.end());
  return job;
}

solve::StagingJob staging_job(const nlohmann::json& instance) {
  solve::StagingJob job;
  job.stage_time = instance["cycle"].get<std::int64_t>();
  for (const auto& time : instance["times"]) {
    job.tasks.push_back({time.get<std::int64_t>(), {}});
  }
  for (const auto& pair : instance["prec"]) {
    job.before.push_back({pair[0].get<int>() - 1, pair[1].get<int>() - 1});
  }
  return job;
}

}  // namespace plankwright::bench_tool
