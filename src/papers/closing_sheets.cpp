// The end of the work: finish, and what is carried out of the shop.

#include <algorithm>

#include <fmt/format.h>

#include "papers/packet.h"
#include "papers/table.h"
#include "papers/wording.h"

namespace plankwright::papers {
namespace {

struct FinishFact {
  std::string what;
  std::string value;
};

std::string area_text(const plan::Plan& plan, measure::SquareMillimetres area) {
  return plan.shop.unit == measure::LengthUnit::kInch
             ? fmt::format("{:.0f} square feet", measure::square_feet(area))
             : fmt::format("{:.1f} m\u00b2", measure::square_metres(area));
}

std::vector<FinishFact> finish_facts(const plan::Plan& plan, const shop::Finish& finish) {
  std::vector<FinishFact> facts{{"Finish", finish.name}};
  if (finish.coats > 0) {
    facts.push_back({"Coats", std::to_string(finish.coats)});
  }
  if (plan.stock.finish) {
    facts.push_back({"Area of one coat", area_text(plan, plan.stock.finish->area)});
    if (plan.stock.finish->litres > 0) {
      facts.push_back(
          {"Have ready",
           fmt::format(
               "{:.1f} litres ({})", plan.stock.finish->litres, plain(plan.stock.finish->from))});
    }
  }
  if (finish.recoat.count() > 0) {
    facts.push_back({"Between coats", duration(finish.recoat)});
  }
  if (finish.runs > 0) {
    facts.push_back({"Trips to the finisher", std::to_string(finish.runs)});
  }
  return facts;
}

void set_facts(Flow& flow, const std::vector<FinishFact>& facts) {
  Table table{.columns = {{.header = "", .width = ColumnWidth::fit()}, {.header = ""}},
              .rows = {},
              .empty_text = "",
              .style = kShopText,
              .shaded = false};
  for (const FinishFact& fact : facts) {
    table.rows.push_back({.cells = {{fact.what}, {.text = fact.value, .strong = true}}});
  }
  set_table(flow, table);
}

void set_finish_steps(Flow& flow, const plan::Plan& plan) {
  Table table{.columns = {{.header = "Step", .width = ColumnWidth::fit(), .align = Align::kRight},
                          {.header = "Work"},
                          {.header = "Hands on", .width = ColumnWidth::fit()},
                          {.header = "Then leave it", .width = ColumnWidth::fit()},
                          {.header = "Day, initials", .width = ColumnWidth::fixed(28)}},
              .rows = {},
              .empty_text = "No coats are put on in this shop.",
              .style = kShopText};
  for (std::size_t i = 0; i < plan.bench.operations.size(); ++i) {
    const bench::Operation& operation = plan.bench.operations[i];
    if (operation.phase == "finish") {
      table.rows.push_back(
          {.cells = {{std::to_string(i + 1)},
                     {operation.name},
                     {duration(operation.total())},
                     {operation.unattended.count() > 0 ? duration(operation.unattended) : ""},
                     {""}}});
    }
  }
  set_table(flow, table);
}

/// Every caution of the finish steps once.
std::vector<std::string> finish_cautions(const plan::Plan& plan) {
  std::vector<std::string> cautions;
  for (const bench::Operation& operation : plan.bench.operations) {
    for (const std::string& caution : operation.cautions) {
      if (operation.phase == "finish" && std::ranges::find(cautions, caution) == cautions.end()) {
        cautions.push_back(caution);
      }
    }
  }
  return cautions;
}

/// Packages that are alike stand on one line.
struct PackageLine {
  std::vector<const piece::Package*> packages;
};

bool alike(const piece::Package& a, const piece::Package& b, const piece::Piece& piece) {
  return a.box.size == b.box.size && a.mass == b.mass && a.parts.size() == b.parts.size() &&
         std::ranges::equal(a.parts, b.parts, [&](piece::PartIndex p, piece::PartIndex q) {
           return piece.parts[p].code == piece.parts[q].code;
         });
}

std::vector<PackageLine> package_lines(const piece::Piece& piece) {
  std::vector<PackageLine> lines;
  for (const piece::Package& package : piece.packages) {
    const auto same = std::ranges::find_if(lines, [&](const PackageLine& line) {
      return alike(*line.packages.front(), package, piece);
    });
    if (same == lines.end()) {
      lines.push_back({{&package}});
    } else {
      same->packages.push_back(&package);
    }
  }
  return lines;
}

/// A part or two are called by the first one's name; what is put together, by its unit.
std::string package_name(const plan::Plan& plan, const piece::Package& package) {
  return package.parts.size() <= 2 ? plan.piece.parts[package.parts.front()].name
                                   : plain(package.name);
}

/// All their names, each once; of many the first and how many more.
std::string package_names(const plan::Plan& plan, const PackageLine& line) {
  constexpr std::size_t kMost = 3;
  std::vector<std::string> names;
  for (const piece::Package* package : line.packages) {
    const std::string name = package_name(plan, *package);
    if (std::ranges::find(names, name) == names.end()) {
      names.push_back(name);
    }
  }
  if (names.size() > kMost) {
    const std::size_t more = names.size() - 1;
    names = {names.front(), fmt::format("{} more", more)};
  }
  return sentence(listed(names));
}

/// What it is put together from, the first few; nothing for a single part.
std::string parts_in(const plan::Plan& plan, const piece::Package& package) {
  constexpr std::size_t kMost = 4;
  std::vector<std::string> names;
  for (const piece::PartIndex part : package.parts) {
    const std::string& name = plan.piece.parts[part].name;
    if (std::ranges::find(names, name) == names.end()) {
      names.push_back(name);
    }
  }
  if (names.size() > kMost) {
    const std::size_t more = names.size() - (kMost - 1);
    names.resize(kMost - 1);
    names.push_back(fmt::format("{} more", more));
  }
  return package.parts.size() > 1 ? listed(names) : "";
}

}  // namespace

void add_finish_schedule(const Packet& packet) {
  const plan::Plan& plan = packet.plan;
  Flow flow = packet.sheets.flow(packet.info("Finish", "Finish schedule"));
  const shop::Finish* finish = plan.shop.finish(plan.commission.finish);
  if (finish == nullptr) {
    flow.paragraph("No finish: the piece leaves the shop raw.", kShopText);
    return;
  }
  set_facts(flow, finish_facts(plan, *finish));
  flow.heading("Coat by coat");
  set_finish_steps(flow, plan);
  const std::vector<std::string> cautions = finish_cautions(plan);
  if (!cautions.empty()) {
    flow.heading("Mind");
    for (const std::string& caution : cautions) {
      flow.paragraph("\u26a0  " + caution, kShopText);
    }
  }
}

void add_packages(const Packet& packet) {
  const plan::Plan& plan = packet.plan;
  Flow flow = packet.sheets.flow(packet.info("Packages", "Packing list"));
  flow.paragraph(
      fmt::format(
          "What leaves the shop as one. Sizes in {} without wrapping; {} in all, fittings in "
          "it.",
          unit_name(plan),
          weight(plan, plan.piece.mass)),
      kShopText);
  Table table{
      .columns = {{.header = "", .width = ColumnWidth::fixed(7)},
                  {.header = "Package", .width = ColumnWidth::share(0.8)},
                  {.header = "Count", .width = ColumnWidth::fit(), .align = Align::kRight},
                  {.header = "Width \u00d7 depth \u00d7 height", .width = ColumnWidth::fit()},
                  {.header = "Weight each",
                   .width = ColumnWidth::fit(),
                   .align = Align::kRight,
                   .numbers = true},
                  {.header = "Parts"}},
      .rows = {},
      .empty_text = "Nothing to carry.",
      .style = kShopText};
  for (const PackageLine& line : package_lines(plan.piece)) {
    const piece::Package& package = *line.packages.front();
    table.rows.push_back(
        {.cells = {{"\u2610"},
                   {.text = package_names(plan, line), .note = parts_in(plan, package)},
                   {.text = std::to_string(line.packages.size()), .strong = true},
                   {fmt::format("{} \u00d7 {} \u00d7 {}",
                                length(plan, package.box.size.x),
                                length(plan, package.box.size.y),
                                length(plan, package.box.size.z))},
                   {.text = weight(plan, package.mass), .strong = true},
                   {codes(plan, package.parts)}}});
  }
  set_table(flow, table);
}

}  // namespace plankwright::papers
