// Settings machine by machine, each in figures that can be read from where one stands at the saw.

#include <algorithm>

#include <fmt/format.h>

#include "papers/packet.h"
#include "papers/text_stack.h"
#include "papers/wording.h"

namespace plankwright::papers {
namespace {

constexpr double kRowHeight = 28.5;
constexpr double kKindWidth = 13;
constexpr double kFigureWidth = 86;
constexpr double kWordHeight = 12;  // of settings that are words: a jig, a band
constexpr double kGap = 3;
constexpr double kTickBox = 7;
constexpr TextStyle kKindText{.letter_height = 2.6, .weight = Weight::kMedium, .colour = kAccent};
constexpr TextStyle kNameText{.letter_height = 2.4, .weight = Weight::kMedium, .colour = kAccent};
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

/// What the shop lets change by a little, so that a setting is saved.
std::string joined_text(const bench::Operation& operation) {
  return operation.joined.empty() ? "" : fmt::format("taken for {} too", listed(operation.joined));
}

std::string order_text(const bench::SettingOrder& order) {
  return fmt::format(
      "{} settings, {} walks from machine to machine and {} piles fetched take {}; working part by "
      "part it would be {} settings and {}. {}",
      order.planned.settings,
      order.planned.walks,
      order.planned.fetches,
      duration(order.planned.total()),
      order.drawing.settings,
      duration(order.drawing.total()),
      order.proven ? "No order takes less."
                   : fmt::format("No order can take less than {}.", duration(order.bound)));
}

std::vector<StackLine> right_lines(const plan::Plan& plan, const Setting& setting) {
  const bench::Operation& operation = *setting.operation;
  return {{fmt::format("{} \u00b7 step {}", operation.name, setting.step), kNameText},
          {count_of(operation), kCountText},
          {codes(plan, operation.parts), kCodesText},
          {joined_text(operation), kNameText},
          {operation.test.empty() ? "" : fmt::format("Test: {}", operation.test), kTestText}};
}

void set_setting(Flow& flow, const plan::Plan& plan, const Setting& setting) {
  const bench::Operation& operation = *setting.operation;
  const bool word = is_word(operation.setting);
  const double left = kKindWidth + kFigureWidth + kGap;
  const double text_width = flow.body().width - left - kTickBox - 2;
  const std::vector<StackLine> lines = right_lines(plan, setting);
  const double height =
      std::max(word ? kWordHeight + 6 : kRowHeight, stack_height(lines, text_width) + 3);
  const Rectangle row = flow.take(height);
  Page& page = flow.page();
  page.line({row.x, row.bottom()}, {row.right(), row.bottom()}, kFaintPen);
  const Rectangle figure{row.x + kKindWidth, row.y + 1, kFigureWidth, row.height - 2};
  page.text({row.x, row.centre().y},
            sentence(operation.setting_kind),
            kKindText,
            {.anchor = Anchor::kMiddle});
  TextStyle style = kSawFigures;
  style.letter_height = word ? kWordHeight : style.letter_height;
  text_in_room(page, figure, plain(operation.setting), style);
  set_stack(page, {row.x + left, row.y + 2}, lines, text_width);
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
  flow.paragraph(fmt::format("In {}, in the order of work. Set once, run all pieces, then tick. {}",
                             unit_name(plan),
                             order_text(plan.bench.order)),
                 kShopText);
  for (const MachineSettings& machine : machines) {
    flow.gap(2.5);
    flow.heading(sentence(machine.machine), kTitleText, kRowHeight + 6);
    for (const Setting& setting : machine.settings) {
      set_setting(flow, plan, setting);
    }
  }
}

}  // namespace plankwright::papers
