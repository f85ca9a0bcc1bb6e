#include "main/yard_text.h"

#include <algorithm>

#include <fmt/format.h>

#include "main/wrapped.h"
#include "measure/expression.h"
#include "stock/yard.h"

namespace plankwright::cli {
namespace {

std::string size(const plan::Plan& plan, measure::Length length, measure::Length width) {
  const auto unit = plan.commission.unit();
  return fmt::format(
      "{} x {}", measure::print(length, unit), measure::print_with_unit(width, unit));
}

std::string counted(int count, std::string_view what) {
  return fmt::format("{} {}{}", count, what, count == 1 ? "" : "s");
}

/// `case side x 2, top`, in the order given.
std::string names_of(const plan::Plan& plan, const std::vector<piece::PartIndex>& parts) {
  std::vector<std::pair<std::string, int>> names;
  for (const piece::PartIndex i : parts) {
    const std::string& name = plan.piece.parts[i].name;
    auto known = std::ranges::find(names, name, &std::pair<std::string, int>::first);
    if (known == names.end()) {
      known = names.insert(names.end(), {name, 0});
    }
    ++known->second;
  }
  std::string text;
  for (const auto& [name, count] : names) {
    text += (text.empty() ? "" : ", ") + name + (count > 1 ? fmt::format(" x {}", count) : "");
  }
  return text;
}

std::string stock_name(const plan::Plan& plan, const std::string& id) {
  const shop::SolidStock* stock = plan.shop.solid(id);
  return stock != nullptr ? stock->name : id;
}

void write_stock(std::string& out, const plan::Plan& plan, const stock::YardStock& yard) {
  out += fmt::format("\n{}: {}\n",
                     stock_name(plan, yard.stock),
                     yard.tallied == 0 ? "nothing tallied yet"
                                       : fmt::format("{} tallied, {:.1f} board feet",
                                                     counted(yard.tallied, "board"),
                                                     yard.tallied_board_feet));
  if (yard.covered.empty() && yard.missing.empty()) {
    out += "  the piece needs none of it\n";
    return;
  }
  if (!yard.covered.empty()) {
    out += fmt::format("  covered: {}\n", wrapped(names_of(plan, yard.covered), 11));
  }
  if (yard.missing.empty()) {
    out += "  everything is covered\n";
  } else {
    out += fmt::format("  still missing: {}\n", wrapped(names_of(plan, yard.missing), 17));
  }
  for (const stock::BoardAsk& ask : yard.asks) {
    out += fmt::format("    ask for {}\n",
                       wrapped(fmt::format("{} at least {}, {} ({})",
                                           counted(ask.count, "board"),
                                           size(plan, ask.length, ask.width),
                                           ask.quality,
                                           ask.why),
                               12));
  }
  for (const stock::TallyBoard& spare : yard.spare) {
    out += fmt::format("  not needed: {} of line {}, {}\n",
                       counted(spare.count, "board"),
                       spare.at.line,
                       size(plan, spare.length, spare.width));
  }
}

void write_boards(std::string& out, const plan::Plan& plan, const stock::SolidNeed& need) {
  for (const stock::BoardLayout& board : need.boards) {
    if (!board.tallied()) {
      continue;
    }
    std::vector<piece::PartIndex> parts;
    for (const stock::BoardPiece& placed : board.pieces) {
      parts.push_back(placed.part);
    }
    std::ranges::sort(parts);
    const std::string head =
        fmt::format("  line {}, {}: ", board.line, size(plan, board.length, board.width));
    out += head + wrapped(names_of(plan, parts), head.size()) + "\n";
  }
}

}  // namespace

std::string yard_text(const plan::Plan& plan) {
  std::string out = fmt::format("IN THE YARD FOR {}\n", plan.commission.name);
  for (const stock::YardStock& yard :
       stock::look_in_the_yard(plan.piece, plan.shop, plan.stock, plan.tally)) {
    write_stock(out, plan, yard);
  }
  std::string boards;
  for (const stock::SolidNeed& need : plan.stock.solids) {
    write_boards(boards, plan, need);
  }
  return boards.empty() ? out : out + "\nWHAT COMES OUT OF WHICH BOARD\n" + boards;
}

}  // namespace plankwright::cli
