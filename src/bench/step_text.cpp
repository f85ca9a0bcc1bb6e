#include "bench/step_text.h"

#include <algorithm>
#include <cmath>

#include <fmt/format.h>

namespace plankwright::bench {
namespace {

constexpr std::size_t kMostKinds = 6;
constexpr double kMetresPerFoot = 0.3048;

std::string whole_or_tenth(double value) {
  const double tenths = std::round(value * 10) / 10;
  return tenths == std::floor(tenths) ? fmt::format("{:.0f}", tenths)
                                      : fmt::format("{:.1f}", tenths);
}

bool in_inches(const Job& job) {
  return job.commission.unit() == measure::LengthUnit::kInch;
}

std::string long_length(double feet, const Job& job) {
  return in_inches(job) ? whole_or_tenth(feet) + " ft"
                        : whole_or_tenth(feet * kMetresPerFoot) + " m";
}

std::string area(double square_feet, const Job& job) {
  return in_inches(job)
             ? whole_or_tenth(square_feet) + " ft\u00b2"
             : whole_or_tenth(square_feet * kMetresPerFoot * kMetresPerFoot) + " m\u00b2";
}

std::string with_unit(const Setting& setting, const Job& job) {
  const bool bare = setting.kind.empty() || setting.length <= Length{};
  return bare ? setting.text : setting.text + (in_inches(job) ? " in" : " mm");
}

double total(const Batch& batch, const Tasks& tasks, double Item::*measure) {
  double sum = 0;
  for (const std::size_t task : batch.tasks) {
    sum += tasks.tasks[task].item->*measure;
  }
  return sum;
}

std::string spares_text(const Batch& batch, const Job& job) {
  return batch.spares.empty()
             ? ""
             : fmt::format(", one spare of each included: {}", list_parts(job.piece, batch.spares));
}

/// Parts that the shop lets change by a little, so that a setting is saved.
std::string joined_text(const Batch& batch, const Tasks& tasks, const Job& job) {
  std::vector<PartIndex> parts;
  for (const std::size_t i : batch.tasks) {
    const Task& task = tasks.tasks[i];
    if (!task.wanted.empty()) {
      parts.insert(parts.end(), task.item->parts.begin(), task.item->parts.end());
    }
  }
  return parts.empty() ? ""
                       : fmt::format("Joined with near settings, as this shop allows: {} at {}. ",
                                     list_parts(job.piece, parts),
                                     with_unit(batch.first(tasks).setting, job));
}

}  // namespace

std::string fill_in(std::string text,
                    const std::vector<std::pair<std::string, std::string>>& figures) {
  for (const auto& [name, figure] : figures) {
    const std::string mark = "{" + name + "}";
    for (std::size_t at = text.find(mark); at != std::string::npos;
         at = text.find(mark, at + figure.size())) {
      text.replace(at, mark.size(), figure);
    }
  }
  return text;
}

std::string list_parts(const piece::Piece& piece, const std::vector<PartIndex>& parts) {
  std::vector<std::pair<std::string, int>> kinds;
  for (const PartIndex index : parts) {
    const piece::Part& part = piece.parts[index];
    const std::string name = part.code.empty() ? part.name : part.code + " " + part.name;
    const auto found = std::ranges::find(kinds, name, &std::pair<std::string, int>::first);
    if (found == kinds.end()) {
      kinds.emplace_back(name, 1);
    } else {
      ++found->second;
    }
  }
  std::string text;
  for (std::size_t i = 0; i < std::min(kinds.size(), kMostKinds); ++i) {
    text += fmt::format("{}{} {}", i == 0 ? "" : ", ", kinds[i].second, kinds[i].first);
  }
  if (kinds.size() > kMostKinds) {
    text += fmt::format(" and {} more", kinds.size() - kMostKinds);
  }
  return text;
}

std::string card_text(const Batch& batch, const Tasks& tasks, const Job& job) {
  const Task& first = batch.first(tasks);
  return joined_text(batch, tasks, job) +
         fill_in(first.rule.says,
                 {{"setting", with_unit(first.setting, job)},
                  {"pieces", std::to_string(batch.pieces)},
                  {"parts", list_parts(job.piece, batch.parts)},
                  {"about", fmt::format("{:.0f}", std::ceil(batch.units))},
                  {"count", whole_or_tenth(total(batch, tasks, &Item::count))},
                  {"length", long_length(total(batch, tasks, &Item::feet), job)},
                  {"area", area(total(batch, tasks, &Item::square_feet), job)},
                  {"label", first.item->label},
                  {"spares", spares_text(batch, job)}});
}

}  // namespace plankwright::bench
