// Whether the piece suits the people who use it.

#include <algorithm>
#include <optional>

#include <fmt/format.h>

#include "checks/report.h"
#include "wood/ergonomics.h"

namespace plankwright::checks {
namespace {

bool is_table(const std::string& what) {
  return what.find("table") != std::string::npos || what.find("desk") != std::string::npos;
}

/// Clear height below the rails of a table: what knees get.
std::optional<Length> knee_height(const piece::Piece& piece, PartIndex& lowest) {
  std::optional<Length> clear;
  for (PartIndex i = 0; i < piece.parts.size(); ++i) {
    const Part& part = piece.parts[i];
    const bool across = part.length_axis != Axis::kZ && part.thickness_axis != Axis::kZ;
    const bool upper = part.body.begin(Axis::kZ) > piece.overall.size.z / 2;
    if (across && upper && part.name.find("rail") != std::string::npos &&
        (!clear || part.body.begin(Axis::kZ) < *clear)) {
      clear = part.body.begin(Axis::kZ);
      lowest = i;
    }
  }
  return clear;
}

void check_knees(const Inspection& look, std::vector<Finding>& findings) {
  PartIndex rail = 0;
  const auto clear = knee_height(look.piece, rail);
  const bool desk = look.commission.use.what.find("desk") != std::string::npos;
  const wood::UsualSize* usual =
      look.wood.usual_sizes.get(desk ? "desk_knee_height" : "dining_knee_height");
  if (!clear || usual == nullptr || !usual->least) {
    return;
  }
  const auto& wished = look.commission.use.knee_height;
  const Length wanted = wished ? std::max(*wished, *usual->least) : *usual->least;
  if (*clear >= wanted) {
    return;
  }
  Finding finding;
  finding.id = "ergonomics.knee_height";
  finding.kind = "ergonomics";
  finding.severity = wished ? Severity::kFails : Severity::kPoor;
  finding.title = "Too little height for knees";
  finding.figure = fmt::format("{} clear below the {}", look.size(*clear), look.part(rail).name);
  finding.limit = look.size(wanted) + (wished ? ", asked for by the client" : "");
  finding.value = clear->mm();
  finding.limit_value = wanted.mm();
  finding.unit = "mm";
  finding.source = wished ? "written in the commission; usual least " + look.size(*usual->least) +
                                " " + wood::print(usual->from)
                          : wood::print(usual->from);
  const Length height = look.part(rail).body.size.z - (wanted - *clear);
  finding.remedy = height > Length{}
                       ? fmt::format("a rail {} high at most there, or one set back from the edge",
                                     look.size(height))
                       : "no rail at that side, or a higher table";
  if (height > Length{}) {
    const Length lower = look.rule_below(height);
    finding.mends.push_back({look.part(rail).from,
                             {"height"},
                             look.part(rail).body.size.z,
                             lower,
                             fmt::format("rail {} high", look.size(lower))});
  }
  finding.parts = {rail};
  finding.from = look.part(rail).from;
  findings.push_back(std::move(finding));
}

struct HeightOf {
  std::string_view use, size;
};

void check_height(const Inspection& look, std::vector<Finding>& findings) {
  constexpr HeightOf kHeights[] = {{"dining_table", "dining_table_height"},
                                   {"desk", "desk_height_usual"},
                                   {"writing_table", "desk_height_usual"},
                                   {"coffee_table", "coffee_table_height"},
                                   {"side_table", "side_table_height"},
                                   {"console", "console_height"},
                                   {"bedside", "nightstand_height"},
                                   {"counter", "kitchen_counter_height"},
                                   {"bar", "bar_height"},
                                   {"chest_of_drawers", "chest_height"}};
  for (const HeightOf& entry : kHeights) {
    const wood::UsualSize* usual = look.wood.usual_sizes.get(entry.size);
    const Length height = look.piece.overall.size.z;
    if (!look.commission.use.what.starts_with(entry.use) || usual == nullptr ||
        wood::outside_by(*usual, height) == Length{}) {
      continue;
    }
    Finding finding;
    finding.id = "ergonomics.height";
    finding.kind = "ergonomics";
    finding.severity = Severity::kPoor;
    finding.title = fmt::format("An unusual {}", usual->what);
    finding.figure = look.size(height) + " high";
    finding.limit = fmt::format("{} to {}",
                                look.size(usual->least.value_or(Length{})),
                                look.size(usual->most.value_or(height)));
    finding.value = height.mm();
    finding.limit_value = usual->most.value_or(height).mm();
    finding.unit = "mm";
    finding.source = wood::print(usual->from);
    finding.remedy = "ask the client to sit at a mock-up";
    finding.from = look.commission.piece.at;
    findings.push_back(std::move(finding));
    return;
  }
}

}  // namespace

void check_body_measures(const Inspection& look, std::vector<Finding>& findings) {
  if (is_table(look.commission.use.what)) {
    check_knees(look, findings);
  }
  check_height(look, findings);
}

}  // namespace plankwright::checks
