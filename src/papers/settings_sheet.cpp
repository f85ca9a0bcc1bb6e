// Settings machine by machine, each in figures that can be read from where one stands at the saw.

#include <algorithm>

#include <fmt/format.h>

#include "papers/packet.h"
#include "papers/text_stack.h"
#include "papers/wording.h"

namespace plankwright::papers {
namespace {

constexpr double kRowHeight = 31;
constexpr double kFigureWidth = 92;
constexpr double kWordHeight = 12;  // of settings that are words: a jig, a band
constexpr double kGap = 4;
constexpr double kTickBox = 7;
constexpr TextStyle kKindText{.letter_height = 2.6, .weight = Weight::kMedium, .colour = kAccent};
constexpr TextStyle kCountText{.letter_height = 5, .weight = Weight::kBold, .line_pitch = 1.5};
constexpr TextStyle kCodesText{.letter_height = 3, .weight = Weight::kMedium, .line_pitch = 1.6};
constexpr TextStyle kTestText{.letter_height = 2.4, .colour = kSoftPencil, .line_pitch = 1.6};

struct Setting {
  const bench::Operation* operation = nullptr;
  std::size_t step = 0;  // number of its card
};

struct MachineSettings {
  std::string machine;
  std::vector<Setting> settings;
};

/// In the order in which the machines are first needed.
std::vector<MachineSettings> by_machine(const bench::Bench& bench) {
  std::vector<MachineSettings> machines;
  for (std::size_t i = 0; i < bench.operations.size(); ++i) {
    const bench::Operation& operation = bench.operations[i];
    if (operation.setting.empty()) {
      continue;
    }
    const std::string name = operation.machine.empty() ? "bench and jigs" : operation.machine;
    auto found = std::ranges::find(machines, name, &MachineSettings::machine);
    if (found == machines.end()) {
      machines.push_back({name, {}});
      found = machines.end() - 1;
    }
    found->settings.push_back({&operation, i + 1});
  }
  return machines;
}

bool is_word(const std::string& setting) {
  return std::ranges::any_of(setting, [](unsigned char c) { return std::isalpha(c) != 0; }) &&
         setting.find(" x ") == std::string::npos;
}

std::string count_of(const bench::Operation& operation) {
  const std::string pieces = counted(static_cast<std::size_t>(operation.pieces), "piece");
  return operation.spares > 0 ? fmt::format("{}, {} spare in it", pieces, operation.spares)
                              : pieces;
}

std::vector<StackLine> right_lines(const plan::Plan& plan, const Setting& setting) {
  const bench::Operation& operation = *setting.operation;
  return {{fmt::format("{} \u00b7 step {}", operation.name, setting.step), kKindText},
          {count_of(operation), kCountText},
          {codes(plan, operation.parts), kCodesText},
          {operation.test.empty() ? "" : "Prove it on " + operation.test, kTestText}};
}

void set_setting(Flow& flow, const plan::Plan& plan, const Setting& setting) {
  const bench::Operation& operation = *setting.operation;
  const bool word = is_word(operation.setting);
  const double text_width = flow.body().width - kFigureWidth - kGap - kTickBox - 3;
  const std::vector<StackLine> lines = right_lines(plan, setting);
  const double height =
      std::max(word ? kWordHeight + 8 : kRowHeight + 4, stack_height(lines, text_width) + 4);
  const Rectangle row = flow.take(height);
  Page& page = flow.page();
  page.line({row.x, row.bottom()}, {row.right(), row.bottom()}, kFaintPen);
  const Rectangle figure{row.x, row.y + 3.5, kFigureWidth, row.height - 4.5};
  page.text({row.x, row.y + 1}, sentence(operation.setting_kind), kKindText);
  TextStyle style = kSawFigures;
  style.letter_height = word ? kWordHeight : style.letter_height;
  text_in_room(page, figure, operation.setting, style);
  set_stack(page, {row.x + kFigureWidth + kGap, row.y + 2}, lines, text_width);
  page.rectangle(
      {row.right() - kTickBox, row.y + 3, kTickBox, kTickBox}, std::nullopt, kOutlinePen);
}

}  // namespace

void add_settings(const Packet& packet) {
  const plan::Plan& plan = packet.plan;
  Flow flow = packet.sheets.flow(packet.info("Settings, machine by machine", "Setting list"));
  const std::vector<MachineSettings> machines = by_machine(plan.bench);
  if (machines.empty()) {
    flow.paragraph("No machine needs a setting for this piece.", kShopText);
    return;
  }
  flow.paragraph(
      fmt::format(
          "In {}, in the order of work. Set once, run all pieces, then tick. {} settings in "
          "all; working part by part it would be {}.",
          unit_name(plan),
          plan.bench.settings,
          plan.bench.settings_drawing_order),
      kShopText);
  for (const MachineSettings& machine : machines) {
    flow.heading(sentence(machine.machine), kTitleText, kRowHeight + 6);
    for (const Setting& setting : machine.settings) {
      set_setting(flow, plan, setting);
    }
  }
}

}  // namespace plankwright::papers
