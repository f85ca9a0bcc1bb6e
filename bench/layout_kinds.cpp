#include "layout_kinds.h"

#include <algorithm>
#include <cstdio>
#include <fstream>
#include <numeric>
#include <vector>

#include <fmt/format.h>

#include "alarm.h"
#include "layout_instances.h"
#include "solve/check_sheets.h"

namespace plankwright::bench_tool {
namespace {

using nlohmann::json;

constexpr std::int64_t kEarlyWork = 20'000'000;  // about 20 ms

/// What one instance came to.
struct Outcome {
  std::string name;
  std::string variant;
  std::int64_t value = 0;
  std::int64_t bound = 0;
  bool proven = false;
  double seconds = 0;
  double cpu_seconds = 0;  // of both threads
  double first_seconds = 0;
  std::int64_t first_value = 0;
  std::int64_t early_value = 0;  // sheets: known after kEarlyWork
  bool checked = false;
};

/// Without a limit on work the seconds decide; the work is then only a guard.
std::int64_t work_of(const RunOptions& options) {
  return static_cast<std::int64_t>(
      (options.work > 0 ? options.work : std::max(options.seconds, options.cpu) * 10) * 1e9);
}

std::string text_of(const std::string& fault) {
  return fault;
}
std::string text_of(const solve::SheetFault& fault) {
  return fault.message;
}

/// What was known first, and after so much work.
void note(Outcome& outcome, std::int64_t value, std::int64_t work, const Watch& watch) {
  if (outcome.first_value == 0 && value > 0) {
    outcome.first_value = value;
    outcome.first_seconds = watch.seconds();
  }
  if (outcome.early_value == 0 || work <= kEarlyWork) {
    outcome.early_value = value;
  }
}

/// Solves one job, whichever kind: `value_of` reads the objective of an answer.
template <class Limits, class Job, class Solve, class Check, class ValueOf, class Listen>
void measure(const Job& job,
             const RunOptions& options,
             Outcome& outcome,
             Solve solve,
             Check check,
             ValueOf value_of,
             Listen listen) {
  const Watch watch;
  const Alarm alarm{options};
  Limits limits;
  limits.work = work_of(options);
  limits.threads = options.threads;
  limits.stop = alarm.token();
  listen(limits, watch);
  const auto answer = solve(job, limits);
  outcome.seconds = watch.seconds();
  outcome.cpu_seconds = watch.cpu_seconds();
  if (!answer.ok()) {
    fmt::print(stderr, "{}: {}\n", outcome.name, answer.error().message);
    return;
  }
  outcome.value = value_of(answer.value());
  outcome.bound = answer.value().bound;
  outcome.proven = answer.value().proven;
  const auto faults = check(job, answer.value());
  outcome.checked = faults.empty();
  for (const auto& fault : faults) {
    fmt::print(stderr, "{}: {}\n", outcome.name, text_of(fault));
  }
}

void run_sheets(const json& instance, const RunOptions& options, Outcome& outcome) {
  measure<solve::SheetLimits>(
      sheet_job(instance, options.variant),
      options,
      outcome,
      solve::solve_sheets,
      solve::check_sheets,
      [](const auto& answer) { return answer.cost; },
      [&](solve::SheetLimits& limits, const Watch& watch) {
        limits.progress = [&](const solve::SheetProgress& progress) {
          note(outcome, progress.cost, progress.work, watch);
        };
      });
}

void run_bars(const json& instance, const RunOptions& options, Outcome& outcome) {
  outcome.variant = "bars";
  measure<solve::BarLimits>(
      bar_job(instance),
      options,
      outcome,
      solve::solve_bars,
      solve::check_bars,
      [](const auto& answer) { return answer.cost; },
      [&](solve::BarLimits& limits, const Watch& watch) {
        limits.progress = [&](const solve::BarProgress& progress) {
          note(outcome, progress.cost, kEarlyWork + 1, watch);
        };
      });
}

void run_value(const json& instance, const RunOptions& options, Outcome& outcome) {
  measure<solve::ValueLimits>(
      value_job(instance, options.variant),
      options,
      outcome,
      solve::solve_sheet_value,
      solve::check_sheet_value,
      [](const auto& answer) { return answer.value; },
      [&](solve::ValueLimits& limits, const Watch& watch) {
        limits.progress = [&](std::int64_t value, std::int64_t) {
          note(outcome, value, kEarlyWork + 1, watch);
        };
      });
}

Outcome run_one(const std::string& kind, const json& instance, const RunOptions& options) {
  Outcome outcome{instance["name"], options.variant};
  if (kind == "bars") {
    run_bars(instance, options, outcome);
  } else if (kind == "sheets") {
    run_sheets(instance, options, outcome);
  } else {
    run_value(instance, options, outcome);
  }
  return outcome;
}

/// Sums over a file for the last line.
struct Summary {
  int instances = 0;
  int proven = 0;
  int checked = 0;
  int at_best_known = 0;
  int with_best_known = 0;
  std::int64_t value = 0;
  std::int64_t bound = 0;
  double gaps = 0;  // sum of the gaps to the own bound, as shares of the value
  std::int64_t known_bound = 0;
  std::int64_t beats_known = 0;
  std::int64_t wrong = 0;
  std::vector<double> seconds;
  std::vector<double> cpu;
  double slowest_first = 0;
  int first_far = 0;
  int early_far = 0;
};

void add(Summary& summary, const Outcome& outcome, const json& instance, bool greatest) {
  summary.instances += 1;
  summary.proven += outcome.proven ? 1 : 0;
  summary.checked += outcome.checked ? 1 : 0;
  summary.value += outcome.value;
  summary.bound += outcome.bound;
  summary.gaps += std::abs(static_cast<double>(outcome.value - outcome.bound)) /
                  static_cast<double>(std::max<std::int64_t>(1, outcome.value));
  summary.seconds.push_back(outcome.seconds);
  summary.cpu.push_back(outcome.cpu_seconds);
  summary.slowest_first = std::max(summary.slowest_first, outcome.first_seconds);
  if (static_cast<double>(outcome.first_value) > 1.05 * static_cast<double>(outcome.value)) {
    summary.first_far += 1;
  }
  if (static_cast<double>(outcome.early_value) > 1.05 * static_cast<double>(outcome.value)) {
    summary.early_far += 1;
  }
  json known = instance.value("known", json::object());
  if (known.contains(outcome.variant)) {
    known = known[outcome.variant];
  }
  if (known.contains("lb") && known.contains("ub") && known["lb"].is_number() &&
      known["ub"].is_number()) {
    const auto low = known["lb"].get<std::int64_t>();
    const auto high = known["ub"].get<std::int64_t>();
    summary.with_best_known += 1;
    summary.at_best_known += (greatest ? outcome.value >= high : outcome.value <= low) ? 1 : 0;
    summary.known_bound += greatest ? high : low;
    summary.beats_known += (greatest ? outcome.value > low : outcome.value < high) ? 1 : 0;
    if (greatest ? outcome.value > high || outcome.bound < low
                 : outcome.value < low || outcome.bound > high) {
      summary.wrong += 1;
      fmt::print(stderr,
                 "{}: value {} bound {} against known {}..{}\n",
                 outcome.name,
                 outcome.value,
                 outcome.bound,
                 low,
                 high);
    }
  }
}

void print(const Outcome& outcome) {
  const json line = {{"name", outcome.name},
                     {"variant", outcome.variant},
                     {"value", outcome.value},
                     {"bound", outcome.bound},
                     {"proven", outcome.proven},
                     {"seconds", outcome.seconds},
                     {"cpu_seconds", outcome.cpu_seconds},
                     {"first_seconds", outcome.first_seconds},
                     {"first_value", outcome.first_value},
                     {"early_value", outcome.early_value},
                     {"checked", outcome.checked}};
  fmt::print("{}\n", line.dump());
  std::fflush(stdout);
}

void print(Summary summary) {
  std::ranges::sort(summary.seconds);
  std::ranges::sort(summary.cpu);
  double total = 0;
  for (const double seconds : summary.seconds) {
    total += seconds;
  }
  const std::size_t half = summary.seconds.size() / 2;
  const double median = summary.seconds.empty() ? 0 : summary.seconds[half];
  const double median_cpu = summary.cpu.empty() ? 0 : summary.cpu[half];
  fmt::print(stderr,
             "{} instances, {} checked, {} proven; value {}, own bound {} (mean gap {:.2f} %), "
             "known bound {} "
             "({} of {} reach it, {} beat a known layout, {} contradict); seconds {:.1f}, median "
             "{:.4f} (processor {:.4f}, {:.1f} in all), slowest "
             "first {:.4f}, over 5 % off: first {}, after 20 ms of work {}; memory {:.0f} MB\n",
             summary.instances,
             summary.checked,
             summary.proven,
             summary.value,
             summary.bound,
             100 * summary.gaps / std::max(1, summary.instances),
             summary.known_bound,
             summary.at_best_known,
             summary.with_best_known,
             summary.beats_known,
             summary.wrong,
             total,
             median,
             median_cpu,
             std::accumulate(summary.cpu.begin(), summary.cpu.end(), 0.0),
             summary.slowest_first,
             summary.first_far,
             summary.early_far,
             peak_megabytes());
}

/// One line of a file; false when it is no instance.
bool run_line(const std::string& kind,
              const std::string& line,
              const RunOptions& options,
              Summary& summary) {
  try {
    const json instance = json::parse(line);
    const Outcome outcome = run_one(kind, instance, options);
    print(outcome);
    add(summary, outcome, instance, kind.find("value") != std::string::npos);
    return true;
  } catch (const json::exception& trouble) {
    fmt::print(stderr, "not an instance of {}: {}\n", kind, trouble.what());
    return false;
  }
}

bool is_wanted(const std::string& line, const RunOptions& options) {
  const json instance = json::parse(line, nullptr, false);
  return options.set.empty() || !instance.is_object() ||
         (instance.value("set", "") + " " + instance.value("name", "")).find(options.set) !=
             std::string::npos;
}

}  // namespace

bool is_layout_kind(const std::string& kind) {
  return kind == "sheets" || kind == "sheet_value" || kind == "sheets_value" || kind == "bars";
}

int run_layout_kind(const std::string& kind, const RunOptions& given) {
  RunOptions options = given;
  if (options.variant.empty()) {
    options.variant = "guillotine_fixed";
  }
  Summary summary;
  bool sound = true;
  for (const std::string& name : options.files) {
    std::ifstream file{name};
    if (!file) {
      fmt::print(stderr, "{} cannot be read\n", name);
      return 1;
    }
    std::int64_t lines = 0;
    std::int64_t taken = 0;
    for (std::string line;
         (options.first < 0 || taken < options.first) && std::getline(file, line);) {
      if (lines++ % options.every == 0 && is_wanted(line, options)) {
        ++taken;
        sound = run_line(kind, line, options, summary) && sound;
      }
    }
  }
  print(summary);
  return sound ? 0 : 1;
}

}  // namespace plankwright::bench_tool
