// How long a plan takes from text to figures, without drawings: the whole of each demo commission,
// the study wall without the comparison of choices, an edit that touches one part, and the calendar
// of a plan by itself.

#include "plan/plan.h"

#include <string>

#include <benchmark/benchmark.h>
#include <sys/resource.h>

#include "store/files.h"

namespace {

using namespace plankwright;  // NOLINT(google-build-using-namespace): a benchmark's own file

std::string example(const std::string& name) {
  return PLANKWRIGHT_SOURCE_DIR "/examples/" + name + ".yaml";
}

const plan::Reference& reference() {
  static const plan::Reference kReference = store::read_reference().value();
  return kReference;
}

void run(benchmark::State& state, const std::string& name, const std::string& text, bool compare) {
  plan::PlanLimits limits;
  limits.compare_choices = compare;
  limits.look_for_nudges = compare;
  const auto open = store::open_beside(example(name));
  std::size_t parts = 0;
  for (auto _ : state) {
    const plan::Planned planned =
        plan::plan_commission(text, example(name), open, reference(), {}, limits);
    parts = planned.plan ? planned.plan->piece.parts.size() : 0;
  }
  rusage usage{};
  ::getrusage(RUSAGE_SELF, &usage);
  state.counters["parts"] = static_cast<double>(parts);
  state.counters["peak_MB"] = static_cast<double>(usage.ru_maxrss) / 1024.0;
}

void bm_plan(benchmark::State& state, const std::string& name, bool compare) {
  run(state, name, store::read_file(example(name)).value(), compare);
}

/// One shelf of the study wall made 2 mm shallower, planned afresh.
void bm_edit(benchmark::State& state) {
  std::string text = store::read_file(example("study_wall")).value();
  const std::string before = "shelf_deep: 260";
  text.replace(text.find(before), before.size(), "shelf_deep: 258");
  run(state, "study_wall", text, false);
}

/// The calendar of a plan that is there, with so many draws of its date.
void bm_calendar(benchmark::State& state, const std::string& name) {
  const plan::Planned planned = plan::plan_commission(store::read_file(example(name)).value(),
                                                      example(name),
                                                      store::open_beside(example(name)),
                                                      reference());
  const auto draws = static_cast<int>(state.range(0));
  for (auto _ : state) {
    benchmark::DoNotOptimize(plan::plan_together(
        {&*planned.plan}, reference(), planned.plan->calendar->starts, {.draws = draws}));
  }
}

}  // namespace

BENCHMARK_CAPTURE(bm_calendar, hall_cabinet, "hall_cabinet")
    ->Arg(0)
    ->Arg(200)
    ->Arg(10'000)
    ->Unit(benchmark::kMillisecond);
BENCHMARK_CAPTURE(bm_calendar, study_wall, "study_wall")
    ->Arg(0)
    ->Arg(200)
    ->Arg(10'000)
    ->Unit(benchmark::kMillisecond);
BENCHMARK_CAPTURE(bm_plan, hall_cabinet, "hall_cabinet", false)->Unit(benchmark::kMillisecond);
BENCHMARK_CAPTURE(bm_plan, dining_table, "dining_table", false)->Unit(benchmark::kMillisecond);
BENCHMARK_CAPTURE(bm_plan, study_wall, "study_wall", false)->Unit(benchmark::kMillisecond);
BENCHMARK_CAPTURE(bm_plan, study_wall_with_choices, "study_wall", true)
    ->Unit(benchmark::kMillisecond);
BENCHMARK(bm_edit)->Unit(benchmark::kMillisecond);
BENCHMARK_MAIN();
