#include "papers/client_text.h"

#include <algorithm>
#include <array>
#include <cctype>
#include <chrono>

#include <fmt/format.h>

#include "papers/wording.h"

namespace plankwright::papers {
namespace {

void add_once(std::vector<std::string>& names, std::string name) {
  if (!name.empty() && std::ranges::find(names, name) == names.end()) {
    names.push_back(std::move(name));
  }
}

/// The name of a stock without its thickness and what follows: `black cherry 4/4` is black cherry.
std::string without_thickness(const std::string& name) {
  const auto figure =
      std::ranges::find_if(name, [](unsigned char c) { return std::isdigit(c) != 0; });
  std::string words{name.begin(), figure};
  while (!words.empty() && (words.back() == ' ' || words.back() == ',')) {
    words.pop_back();
  }
  return words.empty() ? name : words;
}

std::string material_name(const plan::Plan& plan, const piece::Part& part) {
  if (part.material == piece::Material::kBoughtIn) {
    return "";
  }
  const std::string name = without_thickness(stock_name(plan, part.stock));
  return part.material == piece::Material::kSolid ? "solid " + name : name;
}

std::vector<std::string> materials(const plan::Plan& plan, bool seen) {
  std::vector<std::string> names;
  for (const piece::Part& part : plan.piece.parts) {
    if (part.show_faces.empty() != seen) {
      add_once(names, material_name(plan, part));
    }
  }
  return names;
}

std::string inside(const plan::Plan& plan) {
  const std::vector<std::string> seen = materials(plan, true);
  std::vector<std::string> hidden;
  for (const std::string& name : materials(plan, false)) {
    if (std::ranges::find(seen, name) == seen.end()) {
      hidden.push_back(name);
    }
  }
  return listed(hidden);
}

/// Fittings that a client sees or feels; screws and clips are not worth a line.
std::string fittings(const plan::Plan& plan) {
  constexpr std::array<std::string_view, 5> kFelt = {
      "pull", "slide_pair", "butt_hinge", "cup_hinge", "catch"};
  std::vector<std::string> names;
  for (const stock::HardwareNeed& need : plan.stock.hardware) {
    const shop::Hardware* fitting = plan.shop.fitting(need.id);
    if (fitting != nullptr && std::ranges::find(kFelt, fitting->kind) != kFelt.end()) {
      names.push_back(fmt::format("{} \u00d7 {}", need.count, fitting->name));
    }
  }
  return listed(names);
}

std::string brought_by_client(const plan::Plan& plan) {
  std::vector<std::string> names;
  for (const stock::HardwareNeed& need : plan.stock.hardware) {
    if (need.client_item) {
      names.push_back(stock_name(plan, need.id));
    }
  }
  for (const commission::ExtraCost& extra : plan.commission.extra_costs) {
    if (extra.kind == "client_item") {
      names.push_back(extra.what);
    }
  }
  return listed(names);
}

std::string finish(const plan::Plan& plan) {
  const shop::Finish* used = plan.shop.finish(plan.commission.finish);
  if (used == nullptr) {
    return "none, left raw";
  }
  return used->coats > 1 ? fmt::format("{}, {} coats", used->name, used->coats) : used->name;
}

/// What the client asked for and does not get, or what stops it on the way in.
bool is_for_client(const checks::Finding& finding) {
  const bool touches = finding.kind == "ergonomics" || finding.kind == "passage";
  return touches && finding.severity <= checks::Severity::kPoor;
}

bool tips(const plan::Plan& plan) {
  return std::ranges::any_of(plan.findings.open, [](const checks::Finding& finding) {
    return finding.kind == "tip_over" && finding.severity <= checks::Severity::kPoor;
  });
}

}  // namespace

std::vector<ClientLine> made_of(const plan::Plan& plan) {
  std::vector<ClientLine> lines{{"Seen", listed(materials(plan, true))},
                                {"Inside", inside(plan)},
                                {"Fittings", fittings(plan)},
                                {"Finish", finish(plan)},
                                {"Weight", "about " + weight(plan, plan.piece.mass)},
                                {"Made for",
                                 fmt::format("rooms between {:g} and {:g} % relative humidity",
                                             plan.commission.room.humidity_low.count(),
                                             plan.commission.room.humidity_high.count())},
                                {"Brought by you", brought_by_client(plan)}};
  std::erase_if(lines, [](const ClientLine& line) { return line.says.empty(); });
  return lines;
}

std::vector<ClientLine> choices_taken(const plan::Plan& plan) {
  std::vector<ClientLine> lines;
  for (const commission::Choice& choice : plan.commission.choices) {
    const auto picked = std::ranges::find(choice.options, choice.picked, &commission::Option::id);
    if (picked != choice.options.end()) {
      lines.push_back({choice.asks, picked->says});
    }
  }
  return lines;
}

std::vector<std::string> client_cautions(const plan::Plan& plan) {
  std::vector<std::string> cautions;
  if (tips(plan)) {
    cautions.emplace_back(
        "This piece can tip over when someone climbs or hangs on it, even when it stands well by "
        "itself. It must be anchored to the wall before it is used, and stay anchored. What your "
        "wall holds, and with which anchor, is for someone licensed for such work where you live; "
        "your local codes come first. Until then keep children away from it.");
  }
  if (plan.piece.fixed_to_building) {
    cautions.emplace_back(
        "This piece is fixed to the building. Before anything is drilled, the pipes and cables in "
        "the wall must be known; what the wall carries, and everything electrical, belongs to the "
        "trades licensed for it and to your local codes.");
  }
  for (const checks::Finding& finding : plan.findings.open) {
    if (is_for_client(finding)) {
      cautions.push_back(fmt::format("{}: {}. {}",
                                     finding.title,
                                     plain(finding.figure),
                                     finding.limit.empty()
                                         ? "Please tell us whether you accept this."
                                         : fmt::format("Wanted: {}. Please tell us whether you "
                                                       "accept this as drawn.",
                                                       plain(finding.limit))));
    }
  }
  return cautions;
}

std::optional<measure::Date> valid_until(const plan::Plan& plan) {
  if (!plan.commission.quoted) {
    return std::nullopt;
  }
  return measure::Date{std::chrono::sys_days{*plan.commission.quoted} +
                       std::chrono::days{plan.commission.terms.valid_days}};
}

}  // namespace plankwright::papers
