#include "order_kinds.h"

#include <algorithm>
#include <cstdint>
#include <cstdio>
#include <filesystem>
#include <fstream>
#include <optional>
#include <sstream>

#include <fmt/format.h>

#include "alarm.h"
#include "order_instances.h"

namespace plankwright::bench_tool {
namespace {

using nlohmann::json;

struct Instance {
  std::string name;
  std::string file;  // empty for staging
  json line;         // of staging
  std::optional<std::int64_t> low;
  std::optional<std::int64_t> high;
};

struct Outcome {
  std::int64_t value = 0;
  std::int64_t bound = 0;
  bool proven = false;
  double seconds = 0;
  double cpu_seconds = 0;
  double first_seconds = 0;
  std::int64_t first_value = 0;
  std::vector<std::string> faults;
};

/// Solves one job, whichever kind: `value_of` reads the objective of an answer or of a progress.
template <class Limits, class Job, class Solve, class Check, class ValueOf>
Outcome measure(
    const Job& job, const RunOptions& options, Solve solve, Check check, ValueOf value_of) {
  Outcome outcome;
  const Watch watch;
  const Alarm alarm{options};
  Limits limits;
  limits.work = static_cast<std::int64_t>(
      (options.work > 0 ? options.work : std::max(options.seconds, options.cpu) * 20) * 1e9);
  if constexpr (requires { limits.threads; }) {
    limits.threads = options.threads;
  }
  limits.stop = alarm.token();
  limits.progress = [&](const auto& progress) {
    if (outcome.first_seconds == 0) {
      outcome.first_value = value_of(progress);
      outcome.first_seconds = watch.seconds();
    }
  };
  const auto answer = solve(job, limits);
  outcome.seconds = watch.seconds();
  outcome.cpu_seconds = watch.cpu_seconds();
  if (!answer.ok()) {
    outcome.faults.push_back(answer.error().message);
    return outcome;
  }
  outcome.value = value_of(answer.value());
  outcome.bound = answer.value().bound;
  outcome.proven = answer.value().proven;
  outcome.faults = check(job, answer.value());
  return outcome;
}

Outcome run_one(const std::string& kind, const Instance& instance, const RunOptions& options) {
  if (kind == "staging") {
    return measure<solve::StagingLimits>(staging_job(instance.line),
                                         options,
                                         solve::solve_staging,
                                         solve::check_staging,
                                         [](const auto& a) { return std::int64_t{a.stages}; });
  }
  std::ifstream file{instance.file};
  if (kind == "order") {
    return measure<solve::OrderLimits>(
        read_sop(file), options, solve::solve_order, solve::check_order, [](const auto& a) {
          return a.cost;
        });
  }
  return measure<solve::ScheduleLimits>(
      read_psplib(file), options, solve::solve_schedule, solve::check_schedule, [](const auto& a) {
        return a.makespan;
      });
}

std::optional<std::int64_t> number(const json& known, const char* key) {
  return known.contains(key) && known[key].is_number()
             ? std::optional{known[key].get<std::int64_t>()}
             : std::nullopt;
}

void read_lines(const std::string& name,
                const RunOptions& options,
                std::vector<Instance>& instances) {
  std::ifstream file{name};
  for (std::string line; std::getline(file, line);) {
    json parsed = json::parse(line, nullptr, false);
    if (!parsed.is_object()) {
      fmt::print(stderr, "{}: a line is no JSON object\n", name);
      continue;
    }
    const std::string set = parsed.value("set", "") + " " + parsed.value("name", "");
    if (set.find(options.set) != std::string::npos) {
      const json known = parsed.value("known", json::object());
      instances.push_back(
          {parsed.value("name", ""), "", parsed, number(known, "lb"), number(known, "ub")});
    }
  }
}

/// A table has columns name, lb and ub; the instances lie beside it.
void read_table(const std::string& name,
                const RunOptions& options,
                std::vector<Instance>& instances) {
  std::ifstream table{name};
  std::string line;
  std::vector<std::string> heads;
  const auto cells = [](const std::string& row) {
    std::vector<std::string> found;
    std::istringstream words{row};
    for (std::string cell; std::getline(words, cell, ',');) {
      found.push_back(cell);
    }
    return found;
  };
  std::getline(table, line);
  heads = cells(line);
  const auto column = [&](const std::vector<std::string>& row, const char* head) {
    const auto place = static_cast<std::size_t>(std::ranges::find(heads, head) - heads.begin());
    return place < row.size() ? row[place] : std::string{};
  };
  while (std::getline(table, line)) {
    const auto row = cells(line);
    Instance instance{column(row, "name"), "", {}, {}, {}};
    for (const char* ending : {".sop", ".sm", ".mm"}) {
      const auto file = std::filesystem::path{name}.parent_path() / (instance.name + ending);
      instance.file = std::filesystem::exists(file) ? file.string() : instance.file;
    }
    if (!instance.file.empty() && instance.name.find(options.set) != std::string::npos) {
      instance.low = std::stoll(column(row, "lb"));
      instance.high = std::stoll(column(row, "ub"));
      instances.push_back(std::move(instance));
    }
  }
}

std::vector<Instance> read_instances(const RunOptions& options) {
  std::vector<Instance> instances;
  for (const std::string& file : options.files) {
    if (file.ends_with(".jsonl")) {
      read_lines(file, options, instances);
    } else if (file.ends_with(".csv")) {
      read_table(file, options, instances);
    } else {
      instances.push_back({std::filesystem::path{file}.stem().string(), file, {}, {}, {}});
    }
  }
  return instances;
}

/// Sums for the last line.
struct Summary {
  int instances = 0;
  int sound = 0;
  int proven = 0;
  int with_known = 0;
  int at_known = 0;
  int contradict = 0;
  double above_known = 0;  // shares of the best known value
  double gaps = 0;
  std::vector<double> seconds;
};

void add(Summary& summary, const Instance& instance, const Outcome& outcome) {
  summary.instances += 1;
  summary.sound += outcome.faults.empty() ? 1 : 0;
  summary.proven += outcome.proven ? 1 : 0;
  summary.seconds.push_back(outcome.cpu_seconds);
  const auto value = static_cast<double>(std::max<std::int64_t>(1, outcome.value));
  summary.gaps += static_cast<double>(outcome.value - outcome.bound) / value;
  for (const std::string& fault : outcome.faults) {
    fmt::print(stderr, "{}: {}\n", instance.name, fault);
  }
  if (!instance.low || !instance.high) {
    return;
  }
  summary.with_known += 1;
  summary.at_known += outcome.value <= *instance.high ? 1 : 0;
  summary.above_known += static_cast<double>(outcome.value - *instance.high) /
                         static_cast<double>(std::max<std::int64_t>(1, *instance.high));
  if (outcome.faults.empty() && (outcome.value < *instance.low || outcome.bound > *instance.high)) {
    summary.contradict += 1;
    fmt::print(stderr,
               "{}: value {} bound {} against known {}..{}\n",
               instance.name,
               outcome.value,
               outcome.bound,
               *instance.low,
               *instance.high);
  }
}

void print(const std::string& kind, const Instance& instance, const Outcome& outcome) {
  const json line = {{"name", instance.name},
                     {"variant", kind},
                     {"value", outcome.value},
                     {"bound", outcome.bound},
                     {"proven", outcome.proven},
                     {"seconds", outcome.seconds},
                     {"cpu_seconds", outcome.cpu_seconds},
                     {"first_seconds", outcome.first_seconds},
                     {"first_value", outcome.first_value},
                     {"checked", outcome.faults.empty()}};
  fmt::print("{}\n", line.dump());
  std::fflush(stdout);
}

void print(Summary summary) {
  std::ranges::sort(summary.seconds);
  const int known = std::max(1, summary.with_known);
  fmt::print(
      stderr,
      "{} instances, {} checked, {} proven; {} of {} reach the best known value, mean {:.3f} "
      "% above it, mean gap to the own bound {:.2f} %, {} contradict; processor seconds "
      "median {:.3f}, most {:.1f}\n",
      summary.instances,
      summary.sound,
      summary.proven,
      summary.at_known,
      summary.with_known,
      100 * summary.above_known / known,
      100 * summary.gaps / std::max(1, summary.instances),
      summary.contradict,
      summary.seconds.empty() ? 0 : summary.seconds[summary.seconds.size() / 2],
      summary.seconds.empty() ? 0 : summary.seconds.back());
}

}  // namespace

bool is_order_kind(const std::string& kind) {
  return kind == "order" || kind == "staging" || kind == "schedule";
}

int run_order_kind(const std::string& kind, const RunOptions& options) {
  for (const std::string& file : options.files) {
    if (!std::filesystem::is_regular_file(file)) {
      fmt::print(stderr, "{} cannot be read\n", file);
      return 1;
    }
  }
  Summary summary;
  std::int64_t seen = 0;
  for (const Instance& instance : read_instances(options)) {
    if (options.first >= 0 && summary.instances >= options.first) {
      break;
    }
    if (seen++ % options.every == 0) {
      const Outcome outcome = run_one(kind, instance, options);
      print(kind, instance, outcome);
      add(summary, instance, outcome);
    }
  }
  print(std::move(summary));
  return 0;
}

}  // namespace plankwright::bench_tool
