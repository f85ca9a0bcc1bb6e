// A card for each glue-up: its parts pulled apart along the ways they go home, clamps, diagonals
// and times.

#include <algorithm>
#include <array>
#include <map>

#include <fmt/format.h>

#include "papers/packet.h"
#include "papers/stage_picture.h"
#include "papers/text_stack.h"
#include "papers/wording.h"
#include "solid/hidden_lines.h"

namespace plankwright::papers {
namespace {

using measure::Length;

constexpr double kCardHeight = 68;
constexpr double kPictureWidth = 88;
constexpr double kGap = 4;
constexpr double kInside = 3;
constexpr double kTurn = 32;
constexpr double kLift = 24;
constexpr Pen kPicturePen{.width = 0.2, .colour = kPencil};
constexpr TextStyle kNameText{.letter_height = 3, .weight = Weight::kBold};
constexpr TextStyle kTimeText{.letter_height = 2.4, .weight = Weight::kMedium, .colour = kAccent};
constexpr TextStyle kLineText{.letter_height = 2.4, .line_pitch = 1.6};
constexpr TextStyle kDiagonalText{.letter_height = 3.4, .weight = Weight::kBold, .tabular = true};
constexpr TextStyle kWarningText{
    .letter_height = 2.3, .weight = Weight::kMedium, .line_pitch = 1.6};

base::Result<solid::View> pulled_apart(const Packet& packet, const bench::StageCard& card) {
  const std::vector<measure::Point> moves = pulled_out(packet.plan.piece, card);
  measure::Box whole = packet.plan.piece.parts[card.parts.front()].body;
  whole.at = whole.at + moves.front();
  std::vector<solid::DrawnSolid> solids;
  for (std::size_t i = 0; i < card.parts.size(); ++i) {
    solids.push_back(packet.picture->solids[card.parts[i]]);
    solids.back().solid = solids.back().solid.moved(moves[i]);
    measure::Box body = packet.plan.piece.parts[card.parts[i]].body;
    body.at = body.at + moves[i];
    whole = measure::hull(whole, body);
  }
  const std::array cameras{solid::perspective_view(whole, kTurn, kLift)};
  auto views = solid::hidden_line_views(solids, cameras);
  if (!views.ok()) {
    return views.error();
  }
  return std::move(views).value().front();
}

/// Nothing when the piece cannot be drawn.
void draw_apart(Page& page,
                const Rectangle& room,
                const Packet& packet,
                const bench::StageCard& card) {
  if (packet.picture == nullptr) {
    return;
  }
  if (const auto view = pulled_apart(packet, card); view.ok()) {
    const DrawingScale scale = picture_scale(view.value().bounds, room);
    Drawing drawing{page, room, centred(view.value().bounds, scale.factor, room)};
    drawing.view(view.value(), kPicturePen);
  }
}

std::string time_line(const bench::StageCard& card) {
  std::string text = fmt::format("Step {} \u00b7 {} with glue \u00b7 {:.0f} min",
                                 card.operation + 1,
                                 counted(static_cast<std::size_t>(card.glued), "joint"),
                                 card.takes.count());
  if (card.has.count() > 0) {
    text += fmt::format(" of the {:.0f} the glue gives", card.has.count());
  }
  return card.people > 1 ? text + fmt::format(" \u00b7 {} people", card.people) : text;
}

std::string force_text(const plan::Plan& plan, measure::Newtons force) {
  constexpr double kNewtonsPerPound = 4.4482;
  return plan.commission.unit() == measure::LengthUnit::kInch
             ? fmt::format("{:.0f} lb", force.count() / kNewtonsPerPound)
             : fmt::format("{:.1f} kN", force.count() / 1000);
}

/// "6 of 24 in with 600 lb each over B3 and B4": by reach, shortest first.
std::string clamp_line(const plan::Plan& plan, const bench::StageCard& card) {
  struct Taken {
    int count = 0;
    measure::Newtons force;
    std::vector<piece::PartIndex> parts;
  };
  std::map<Length, Taken> by_reach;
  for (const bench::ClampLine& line : card.clamps) {
    Taken& taken = by_reach[line.reach];
    taken.count += line.count;
    taken.force = line.force;
    if (std::ranges::find(taken.parts, line.part) == taken.parts.end()) {
      taken.parts.push_back(line.part);
    }
  }
  std::vector<std::string> words;
  for (const auto& [reach, taken] : by_reach) {
    words.push_back(reach > Length{} ? fmt::format("{} of {} with {} each over {}",
                                                   taken.count,
                                                   length_with_unit(plan, reach),
                                                   force_text(plan, taken.force),
                                                   codes(plan, taken.parts))
                                     : fmt::format("{} that no clamp here reaches over {}",
                                                   taken.count,
                                                   codes(plan, taken.parts)));
  }
  if (words.empty()) {
    return "";
  }
  return fmt::format(
      "Clamps: {}{}.", listed(words), card.cauls > 0 ? fmt::format("; {} cauls", card.cauls) : "");
}

std::vector<StackLine> lines_of(const plan::Plan& plan, const bench::StageCard& card) {
  std::vector<StackLine> lines{
      {sentence(card.name), kNameText},
      {time_line(card), kTimeText},
      {fmt::format("In this order: {}.", codes(plan, card.parts)), kLineText},
      {clamp_line(plan, card), kLineText},
      {card.diagonal > Length{}
           ? fmt::format("Both diagonals {}", length_with_unit(plan, card.diagonal))
           : "",
       kDiagonalText,
       1.6},
      {card.diagonal > Length{} ? "over the outer corners; equal before it sets." : "", kLineText},
      {card.clamps_off.count() > 0 ? fmt::format("Clamps off after {}; worked or loaded after {}.",
                                                 duration(card.clamps_off),
                                                 duration(card.worked))
                                   : "",
       kLineText},
      {card.reach.empty()
           ? ""
           : fmt::format("Inner faces sanded and finished before: {}.", codes(plan, card.reach)),
       kLineText}};
  for (const std::string& warning : card.warnings) {
    lines.push_back({warning, kWarningText, 1.2, 4, "\u26a0"});
  }
  return lines;
}

void set_card(Flow& flow, const Packet& packet, const bench::StageCard& card) {
  const std::vector<StackLine> lines = lines_of(packet.plan, card);
  const double width = flow.body().width - kPictureWidth - kGap - 2 * kInside;
  const double height = std::max(kCardHeight, stack_height(lines, width) + 2 * kInside);
  const Rectangle at = flow.take(height);
  Page& page = flow.page();
  page.rectangle(at, std::nullopt, kOutlinePen);
  const Rectangle room = Rectangle{at.x, at.y, kPictureWidth, at.height}.inset(kInside);
  draw_apart(page, room, packet, card);
  set_stack(page, {at.x + kPictureWidth + kGap, at.y + kInside}, lines, width);
  flow.gap(kGap);
}

}  // namespace

void add_glue_ups(const Packet& packet) {
  const bench::Bench& bench = packet.plan.bench;
  if (bench.glue_ups.empty()) {
    return;
  }
  Flow flow = packet.sheets.flow(packet.info("Glue-ups, stage by stage", "Stage cards"));
  flow.paragraph(
      fmt::format("{}; fewer than {} cannot be. Try each dry, clamps set, before the first drop "
                  "of glue. The maker's sheet of the glue goes before these times.",
                  counted(bench.glue_ups.size(), "stage"),
                  bench.glue_ups_bound),
      kShopText);
  for (const std::string& blocked : bench.cannot_assemble) {
    flow.paragraph(sentence(blocked), kShopStrong);
  }
  flow.gap(2);
  for (const bench::StageCard& card : bench.glue_ups) {
    set_card(flow, packet, card);
  }
}

}  // namespace plankwright::papers
