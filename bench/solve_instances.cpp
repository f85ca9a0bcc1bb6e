// Runs the solvers over files of open instances and prints how good the answers are: one JSON line
// an instance to standard output, a summary to standard error.

#include <algorithm>
#include <chrono>
#include <condition_variable>
#include <cstdint>
#include <cstdio>
#include <ctime>
#include <fstream>
#include <mutex>
#include <string>
#include <thread>
#include <vector>

#include <fmt/format.h>
#include <nlohmann/json.hpp>

#include "board_kind.h"
#include "order_kinds.h"
#include "solve/bars.h"
#include "solve/check_sheets.h"
#include "solve/sheet_value.h"
#include "solve/sheets.h"

namespace {

using nlohmann::json;
using Clock = std::chrono::steady_clock;
namespace solve = plankwright::solve;

constexpr std::int64_t kEarlyWork = 20'000'000;  // about 20 ms

struct Options {
  std::string kind;
  std::vector<std::string> files;
  std::string variant;
  double seconds = 2;
  double cpu = 0;   // processor seconds of both threads, instead of seconds
  double work = 0;  // in billions; what the seconds allow when nought
  std::int64_t first = -1;
  std::int64_t every = 1;  // k: the first of every k lines only
  int threads = 2;
  std::string set;
};

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

double since(Clock::time_point start) {
  return std::chrono::duration<double>(Clock::now() - start).count();
}

/// Of all threads of this process.
double cpu_seconds() {
  return static_cast<double>(std::clock()) / CLOCKS_PER_SEC;
}

/// Without a limit on work the seconds decide; the work is then only a guard.
std::int64_t work_of(const Options& options) {
  return static_cast<std::int64_t>(
      (options.work > 0 ? options.work : std::max(options.seconds, options.cpu) * 10) * 1e9);
}

/// Asks to stop after so many seconds, or so many seconds of processor time when those are given
/// (on a machine that others use as well), unless it is destroyed first.
class Alarm {
 public:
  explicit Alarm(const Options& options)
      : thread_{[this, options] {
          const auto start = Clock::now();
          const double cpu = cpu_seconds();
          std::unique_lock lock{mutex_};
          while (!ended_.wait_for(lock, std::chrono::milliseconds(2), [&] { return over_; })) {
            const bool late = options.cpu > 0 ? cpu_seconds() - cpu > options.cpu
                                              : since(start) > options.seconds;
            if (late) {
              source_.request_stop();
            }
          }
        }} {}
  ~Alarm() {
    {
      const std::scoped_lock lock{mutex_};
      over_ = true;
    }
    ended_.notify_all();
  }
  Alarm(const Alarm&) = delete;
  Alarm& operator=(const Alarm&) = delete;
  std::stop_token token() const { return source_.get_token(); }

 private:
  std::stop_source source_;
  std::mutex mutex_;
  std::condition_variable ended_;
  bool over_ = false;
  std::jthread thread_;
};

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

/// One equal sheet as in the open sets, or kinds with prices, kerf, trim and grain as in shop
/// orders.
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

Outcome run_sheets(const json& instance, const Options& options) {
  const solve::SheetJob job = sheet_job(instance, options.variant);
  Outcome outcome{instance["name"], options.variant};
  const auto start = Clock::now();
  const double cpu = cpu_seconds();
  const Alarm alarm{options};
  solve::SheetLimits limits;
  limits.work = work_of(options);
  limits.threads = options.threads;
  limits.stop = alarm.token();
  limits.progress = [&](const solve::SheetProgress& progress) {
    if (outcome.early_value == 0 || progress.work <= kEarlyWork) {
      outcome.early_value = progress.cost;
    }
    if (outcome.first_value == 0) {
      outcome.first_value = progress.cost;
      outcome.first_seconds = since(start);
    }
  };
  const auto answer = solve_sheets(job, limits);
  outcome.seconds = since(start);
  outcome.cpu_seconds = cpu_seconds() - cpu;
  if (answer.ok()) {
    outcome.value = answer.value().cost;
    outcome.bound = answer.value().bound;
    outcome.proven = answer.value().proven;
    const auto faults = check_sheets(job, answer.value());
    outcome.checked = faults.empty();
    for (const auto& fault : faults) {
      fmt::print(stderr, "{}: {}\n", outcome.name, fault.message);
    }
  } else {
    fmt::print(stderr, "{}: {}\n", outcome.name, answer.error().message);
  }
  return outcome;
}

Outcome run_bars(const json& instance, const Options& options) {
  solve::BarJob job;
  job.kinds.push_back({instance["capacity"].get<std::int64_t>(), 1, {}, {}});
  for (const json& item : instance["items"]) {
    job.parts.push_back({item[0].get<std::int64_t>(), item[1].get<std::int64_t>()});
  }
  Outcome outcome{instance["name"], "bars"};
  const auto start = Clock::now();
  const double cpu = cpu_seconds();
  const Alarm alarm{options};
  solve::BarLimits limits;
  limits.work = work_of(options);
  limits.threads = options.threads;
  limits.stop = alarm.token();
  limits.progress = [&](const solve::BarProgress& progress) {
    if (outcome.first_value == 0) {
      outcome.first_value = progress.cost;
      outcome.first_seconds = since(start);
    }
  };
  const auto answer = solve_bars(job, limits);
  outcome.seconds = since(start);
  outcome.cpu_seconds = cpu_seconds() - cpu;
  if (!answer.ok()) {
    fmt::print(stderr, "{}: {}\n", outcome.name, answer.error().message);
    return outcome;
  }
  outcome.value = answer.value().cost;
  outcome.bound = answer.value().bound;
  outcome.proven = answer.value().proven;
  const auto faults = check_bars(job, answer.value());
  outcome.checked = faults.empty();
  for (const auto& fault : faults) {
    fmt::print(stderr, "{}: {}\n", outcome.name, fault);
  }
  return outcome;
}

Outcome run_value(const json& instance, const Options& options) {
  const solve::ValueJob job = value_job(instance, options.variant);
  Outcome outcome{instance["name"], options.variant};
  const auto start = Clock::now();
  const double cpu = cpu_seconds();
  const Alarm alarm{options};
  solve::ValueLimits limits;
  limits.work = work_of(options);
  limits.threads = options.threads;
  limits.stop = alarm.token();
  limits.progress = [&](std::int64_t value, std::int64_t) {
    if (outcome.first_value == 0 && value > 0) {
      outcome.first_value = value;
      outcome.first_seconds = since(start);
    }
  };
  const auto answer = solve_sheet_value(job, limits);
  outcome.seconds = since(start);
  outcome.cpu_seconds = cpu_seconds() - cpu;
  if (!answer.ok()) {
    fmt::print(stderr, "{}: {}\n", outcome.name, answer.error().message);
    return outcome;
  }
  outcome.value = answer.value().value;
  outcome.bound = answer.value().bound;
  outcome.proven = answer.value().proven;
  const auto faults = check_sheet_value(job, answer.value());
  outcome.checked = faults.empty();
  for (const auto& fault : faults) {
    fmt::print(stderr, "{}: {}\n", outcome.name, fault);
  }
  return outcome;
}

Outcome run_one(const json& instance, const Options& options) {
  if (options.kind == "bars") {
    return run_bars(instance, options);
  }
  return options.kind == "sheets" ? run_sheets(instance, options) : run_value(instance, options);
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
             "{:.4f} (processor {:.4f}), slowest "
             "first {:.4f}, over 5 % off: first {}, after 20 ms of work {}\n",
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
             summary.slowest_first,
             summary.first_far,
             summary.early_far);
}

int run(const Options& options) {
  Summary summary;
  for (const std::string& name : options.files) {
    std::ifstream file{name};
    if (!file) {
      fmt::print(stderr, "{} cannot be read\n", name);
      return 1;
    }
    std::string line;
    std::int64_t lines = 0;
    for (std::int64_t taken = 0;
         std::getline(file, line) && (options.first < 0 || taken < options.first);) {
      if (lines++ % options.every != 0) {
        continue;
      }
      const json instance = json::parse(line);
      if (!options.set.empty() &&
          instance["set"].get<std::string>().find(options.set) == std::string::npos) {
        continue;
      }
      ++taken;
      const Outcome outcome = run_one(instance, options);
      print(outcome);
      add(summary, outcome, instance, options.kind.find("value") != std::string::npos);
    }
  }
  print(summary);
  return 0;
}

}  // namespace

int main(int count, char** words) {
  if (count > 1 && std::string{words[1]} == "boards") {
    return plankwright::bench_tool::run_board_kind({words + 2, words + count});
  }
  if (count > 1 && plankwright::bench_tool::is_order_kind(words[1])) {
    return plankwright::bench_tool::run_order_kind(words[1], {words + 2, words + count});
  }
  Options options;
  options.variant = "guillotine_fixed";
  for (int i = 1; i < count; ++i) {
    const std::string word = words[i];
    const bool has_value = i + 1 < count;
    if (word == "--variant" && has_value) {
      options.variant = words[++i];
    } else if (word == "--seconds" && has_value) {
      options.seconds = std::stod(words[++i]);
    } else if (word == "--cpu" && has_value) {
      options.cpu = std::stod(words[++i]);
    } else if (word == "--work" && has_value) {
      options.work = std::stod(words[++i]);
    } else if (word == "--first" && has_value) {
      options.first = std::stoll(words[++i]);
    } else if (word == "--every" && has_value) {
      options.every = std::max(1LL, std::stoll(words[++i]));
    } else if (word == "--threads" && has_value) {
      options.threads = std::stoi(words[++i]);
    } else if (word == "--set" && has_value) {
      options.set = words[++i];
    } else if (options.kind.empty()) {
      options.kind = word;
    } else {
      options.files.push_back(word);
    }
  }
  const std::vector<std::string> kinds = {"sheets", "sheet_value", "sheets_value", "bars"};
  if (std::ranges::find(kinds, options.kind) == kinds.end() || options.files.empty()) {
    fmt::print(
        stderr,
        "solve_instances sheets|sheet_value|sheets_value|bars FILE... [--variant V] [--seconds S]\n"
        "                [--cpu S] [--work BILLIONS] [--threads N] [--first N] [--every K] [--set "
        "NAME]\n");
    return 2;
  }
  return run(options);
}
