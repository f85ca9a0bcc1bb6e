#include "main/settings_text.h"

#include <algorithm>
#include <map>
#include <vector>

#include <fmt/format.h>

#include "bench/setting_list.h"
#include "main/wrapped.h"

namespace plankwright::cli {
namespace {

constexpr int kIndent = 12;

/// "6 A11, 1 A12"
std::string codes_of(const plan::Plan& plan, const bench::MachineSetting& setting) {
  std::vector<std::pair<std::string, int>> counts;
  for (const piece::PartIndex part : setting.parts) {
    const std::string& code = plan.piece.parts[part].code;
    const auto found = std::ranges::find(counts, code, &std::pair<std::string, int>::first);
    if (found == counts.end()) {
      counts.emplace_back(code, 1);
    } else {
      ++found->second;
    }
  }
  std::string text;
  for (const auto& [code, count] : counts) {
    text += fmt::format("{}{} {}", text.empty() ? "" : ", ", count, code);
  }
  return text;
}

std::string line_of(const plan::Plan& plan, const bench::MachineSetting& setting, bool says_test) {
  const bool bare = setting.length > measure::Length{};
  const char* unit = plan.commission.unit() == measure::LengthUnit::kInch ? " in" : " mm";
  std::string text = fmt::format("{} {}{}: {} piece{}",
                                 setting.kind,
                                 setting.figure,
                                 bare ? unit : "",
                                 setting.pieces,
                                 setting.pieces == 1 ? "" : "s");
  text += setting.spares > 0 ? fmt::format(", {} of them spare", setting.spares) : "";
  text += fmt::format(" ({})", codes_of(plan, setting));
  for (const std::string& joined : setting.joined) {
    text += fmt::format("; taken for {} too", joined);
  }
  text += setting.test.empty() || !says_test ? "" : fmt::format("; test: {}", setting.test);
  return fmt::format(
      "    step {:>3}  {}\n", setting.operations.front() + 1, wrapped(text, kIndent));
}

/// Machines in the order in which they are first set; a test is said where it changes.
std::string lines_of(const plan::Plan& plan, const std::vector<bench::MachineSetting>& list) {
  std::vector<std::string> machines;
  std::map<std::string, std::string> lines;
  std::map<std::string, std::string> test;
  for (const bench::MachineSetting& setting : list) {
    if (!lines.contains(setting.machine)) {
      machines.push_back(setting.machine);
    }
    lines[setting.machine] += line_of(plan, setting, test[setting.machine] != setting.test);
    test[setting.machine] = setting.test;
  }
  std::string text;
  for (const std::string& machine : machines) {
    text += fmt::format("  {}\n{}", machine.empty() ? "at the bench" : machine, lines[machine]);
  }
  return text;
}

std::string order_line(const bench::SettingOrder& order) {
  return fmt::format(
      "  {} settings, {} walks and {} piles fetched: {:.0f} min; part by part {} settings, {:.0f} "
      "min; {}\n",
      order.planned.settings,
      order.planned.walks,
      order.planned.fetches,
      order.planned.total().count(),
      order.drawing.settings,
      order.drawing.total().count(),
      order.proven ? "no order takes less"
                   : fmt::format("no order takes less than {:.0f} min", order.bound.count()));
}

}  // namespace

std::string settings_text(const plan::Plan& plan) {
  const std::vector<bench::MachineSetting> list = bench::setting_list(plan.bench);
  return list.empty() ? "" : lines_of(plan, list) + order_line(plan.bench.order);
}

}  // namespace plankwright::cli
