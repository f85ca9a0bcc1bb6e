// The first sheet: what it will look like, how much it is, what to settle before the first cut.

#include <algorithm>

#include <fmt/format.h>

#include "papers/packet.h"
#include "papers/table.h"
#include "papers/text_stack.h"
#include "papers/three_views.h"
#include "papers/wording.h"

namespace plankwright::papers {
namespace {

using checks::Severity;

constexpr double kPictureHeight = 92;
constexpr double kFigureHeight = 11;
constexpr int kFiguresAcross = 4;
constexpr double kBadge = 17;
constexpr double kFindingGap = 2.2;
constexpr double kCardInside = 1.6;
constexpr TextStyle kCaptionStyle{.letter_height = 1.8, .colour = kSoftPencil};
constexpr TextStyle kFigureStyle{.letter_height = 2.8, .weight = Weight::kBold};
constexpr TextStyle kTitleStyle{.letter_height = 2.6, .weight = Weight::kBold, .line_pitch = 1.6};
constexpr TextStyle kTextStyle{.letter_height = 2.3, .line_pitch = 1.65};
constexpr TextStyle kRemedyStyle{
    .letter_height = 2.3, .weight = Weight::kMedium, .colour = kAccent, .line_pitch = 1.65};

struct KeyFigure {
  std::string caption;
  std::string value;
};

std::string finish_name(const plan::Plan& plan) {
  const shop::Finish* finish = plan.shop.finish(plan.commission.finish);
  return finish != nullptr ? finish->name : "none";
}

std::vector<KeyFigure> key_figures(const plan::Plan& plan) {
  const auto& size = plan.piece.overall.size;
  const bench::Spread& hours = plan.bench.total;
  return {{fmt::format("Width \u00d7 depth \u00d7 height, {}", unit_name(plan)),
           fmt::format("{} \u00d7 {} \u00d7 {}",
                       length(plan, size.x),
                       length(plan, size.y),
                       length(plan, size.z))},
          {"Parts",
           fmt::format(
               "{} in {} lines", plan.piece.parts.size(), piece::part_lines(plan.piece).size())},
          {"Weight, fittings in it", weight(plan, plan.piece.mass)},
          {"Wanted", plan.commission.wanted ? long_date(*plan.commission.wanted) : "no date set"},
          {"Hours, office in them", fmt::format("{}", half_hours(hours.mean))},
          {"Four times in five under", fmt::format("{} hours", half_hours(hours.p80))},
          {"Machine settings", std::to_string(plan.bench.settings)},
          {"Air of the room",
           fmt::format("{:g} to {:g} %",
                       plan.commission.room.humidity_low.count(),
                       plan.commission.room.humidity_high.count())}};
}

void set_key_figures(Flow& flow, const plan::Plan& plan) {
  const std::vector<KeyFigure> figures = key_figures(plan);
  for (std::size_t i = 0; i < figures.size(); i += kFiguresAcross) {
    const Rectangle row = flow.take(kFigureHeight);
    // The first column holds three sizes and needs more room than the others.
    constexpr std::array kShares{0.36, 0.22, 0.22, 0.20};
    double x = row.x;
    for (std::size_t k = 0; k < kFiguresAcross && i + k < figures.size(); ++k) {
      const double width = row.width * kShares[k];
      const Rectangle cell{x, row.y, width - 2, row.height};
      x += width;
      flow.page().line({cell.x, cell.y}, {cell.right(), cell.y}, kThinPen);
      text_in_room(flow.page(),
                   {cell.x, cell.y + 1, cell.width, 3.4},
                   figures[i + k].caption,
                   kCaptionStyle);
      text_in_room(
          flow.page(), {cell.x, cell.y + 4.4, cell.width, 5}, figures[i + k].value, kFigureStyle);
    }
  }
}

Colour ground_of(Severity severity) {
  switch (severity) {
    case Severity::kDanger:
      return kPencil;
    case Severity::kFails:
      return kAccent;
    case Severity::kPoor:
      return kFaintPencil;
    case Severity::kNote:
      break;
  }
  return kWhite;
}

void set_badge(Page& page, PagePoint at, Severity severity) {
  const Rectangle badge{at.x, at.y, kBadge, 5};
  const bool dark = severity == Severity::kDanger || severity == Severity::kFails;
  page.rectangle(badge, ground_of(severity), kThinPen);
  text_in_room(page,
               badge.inset(0.8),
               sentence(checks::word(severity)),
               {.letter_height = 2.2, .weight = Weight::kBold, .colour = dark ? kWhite : kPencil},
               Align::kCentre);
}

std::vector<StackLine> lines_of(const plan::Plan& plan, const checks::Finding& finding) {
  std::string figure = sentence(plain(finding.figure));
  if (!finding.limit.empty()) {
    figure += fmt::format(". Limit: {}", finding.limit);
  }
  const std::string parts =
      finding.parts.empty() ? "" : fmt::format("Parts: {}", codes(plan, finding.parts));
  return {{sentence(finding.title), kTitleStyle},
          {figure, kTextStyle},
          {sentence(finding.remedy), kRemedyStyle},
          {parts, kTextStyle}};
}

void set_finding(Flow& flow, const plan::Plan& plan, const checks::Finding& finding) {
  const double left = kBadge + 3;
  const std::vector<StackLine> lines = lines_of(plan, finding);
  const double width = flow.body().width - left;
  const Rectangle card = flow.take(std::max(6.0, stack_height(lines, width)) + kCardInside);
  set_badge(flow.page(), {card.x, card.y}, finding.severity);
  set_stack(flow.page(), {card.x + left, card.y + 0.6}, lines, width);
  flow.gap(kFindingGap);
}

void set_findings(Flow& flow, const plan::Plan& plan) {
  const auto& open = plan.findings.open;
  flow.heading("To settle before the first cut", kHeadingText, 25);
  if (open.empty()) {
    flow.paragraph("Nothing was found that stands against building it as drawn.", kShopText);
  }
  for (const checks::Finding& finding : open) {
    set_finding(flow, plan, finding);
  }
  for (const checks::Finding& finding : plan.findings.dismissed) {
    flow.paragraph(fmt::format("Seen and accepted: {} ({})", finding.title, finding.dismissed),
                   kTextStyle);
  }
  if (!open.empty()) {
    flow.paragraph(
        "Structure, wall fixings, electrical and fire matters follow the codes where the piece "
        "will "
        "stand, and belong to the trades licensed for them.",
        kSmallText);
  }
}

}  // namespace

void add_cover(const Packet& packet) {
  const plan::Plan& plan = packet.plan;
  Flow flow = packet.sheets.flow(packet.info("Overview and findings", "Cover sheet"));
  flow.page().text({flow.body().x, flow.body().y}, plan.commission.name, kTitleText);
  flow.take(9);
  const std::string client =
      plan.commission.client.name.empty()
          ? plan.commission.use.says
          : fmt::format("For {}. {}", plan.commission.client.name, plan.commission.use.says);
  flow.paragraph(client, kShopText);
  const Rectangle room = flow.take(kPictureHeight);
  if (packet.picture != nullptr) {
    draw_perspective_with_sizes(flow.page(), room, *packet.picture, plan);
  }
  flow.gap(2);
  set_key_figures(flow, plan);
  flow.paragraph(fmt::format("Finish: {}.", finish_name(plan)), kShopText);
  set_findings(flow, plan);
}

void add_views(const Packet& packet) {
  if (packet.picture == nullptr) {
    return;
  }
  SheetInfo info = packet.info("Views and key sizes", "Drawing");
  info.projection = projection_of(packet.plan);
  const bool across =
      views_want_landscape(*packet.picture, packet.plan, page_size(packet.plan.shop));
  Page& page = across ? packet.sheets.add_landscape(info) : packet.sheets.add(info);
  const Rectangle area = sheet_area(page.size());
  packet.sheets.last().scale = draw_three_views(page, area, *packet.picture, packet.plan).name;
  page.text({area.x, area.bottom()},
            fmt::format("All sizes in {}. Do not measure on the paper.", unit_name(packet.plan)),
            kSmallText,
            {.anchor = Anchor::kBottom});
}

}  // namespace plankwright::papers
