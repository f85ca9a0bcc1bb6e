#include "layout_instances.h"

#include <cstdint>

namespace plankwright::bench_tool {

using nlohmann::json;

solve::SheetJob sheet_job(const json& instance, const std::string& variant) {
  solve::SheetJob job;
  const auto number = [](const json& value) { return value.get<std::int64_t>(); };
  if (instance.contains("kinds")) {
    for (const json& kind : instance["kinds"]) {
      job.kinds.push_back({number(kind[0]), number(kind[1]), number(kind[2]), {}, {}});
      if (!kind[3].is_null()) {
        job.kinds.back().available = number(kind[3]);
      }
    }
    job.kerf = instance.value("kerf", 0);
    job.trim = instance.value("trim", 0);
  } else {
    job.kinds.push_back({number(instance["sheet"][0]), number(instance["sheet"][1]), 1, {}, {}});
  }
  const bool turn = variant.ends_with("_rot");
  for (const json& item : instance["items"]) {
    const bool may_turn = item.size() > 3 ? item[3].get<bool>() : turn;
    job.parts.push_back({number(item[0]), number(item[1]), number(item[2]), may_turn});
  }
  if (variant.starts_with("two_stage")) {
    job.max_stages = 2;
    job.first_cut = solve::Axis::kY;
  }
  return job;
}

solve::ValueJob value_job(const json& instance, const std::string& variant) {
  solve::ValueJob job;
  job.width = instance["sheet"][0].get<std::int64_t>();
  job.height = instance["sheet"][1].get<std::int64_t>();
  job.sheets = instance.value("sheets", 1);
  for (const json& item : instance["items"]) {
    solve::ValuedPart part;
    part.width = item[0].get<std::int64_t>();
    part.height = item[1].get<std::int64_t>();
    part.value = item[3].get<std::int64_t>();
    part.may_turn = variant.ends_with("_rot");
    if (!item[2].is_null() && !variant.starts_with("unconstrained")) {
      part.most = item[2].get<std::int64_t>();
    }
    job.parts.push_back(part);
  }
  return job;
}

solve::BarJob bar_job(const json& instance) {
  solve::BarJob job;
  job.kinds.push_back({instance["capacity"].get<std::int64_t>(), 1, {}, {}});
  for (const json& item : instance["items"]) {
    job.parts.push_back({item[0].get<std::int64_t>(), item[1].get<std::int64_t>()});
  }
  return job;
}

}  // namespace plankwright::bench_tool
