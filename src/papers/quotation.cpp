// The paper for the client.

#include <algorithm>

#include <fmt/format.h>

#include "papers/client_text.h"
#include "papers/page_output.h"
#include "papers/paper_pages.h"
#include "papers/papers.h"
#include "papers/piece_drawing.h"
#include "papers/table.h"
#include "papers/text_stack.h"
#include "papers/title_block.h"
#include "papers/wording.h"

namespace plankwright::papers {
namespace {

constexpr double kSideMargin = 22;
constexpr double kFootMargin = 20;
constexpr double kHeadMargin = 16;
constexpr double kFollowingHead = 20;   // of the second page and on
constexpr double kPictureShare = 0.34;  // of the height of the page
constexpr double kFigureIndent = 6;
constexpr TextStyle kShopName{.letter_height = 4.4, .weight = Weight::kBold, .colour = kAccent};
constexpr TextStyle kAddress{.letter_height = 1.9, .colour = kSoftPencil, .line_pitch = 1.7};
constexpr TextStyle kPieceName{.letter_height = 5, .weight = Weight::kBold, .line_pitch = 1.5};
constexpr TextStyle kLabel{.letter_height = 1.8, .colour = kSoftPencil};
constexpr TextStyle kValue{.letter_height = 2.3, .weight = Weight::kMedium};
constexpr TextStyle kText{.letter_height = 2.3, .line_pitch = 1.75};
constexpr TextStyle kFine{.letter_height = 2.05, .line_pitch = 1.7};
constexpr TextStyle kSection{
    .letter_height = 2.8, .weight = Weight::kBold, .colour = kAccent, .line_pitch = 1.6};

Rectangle body_below(const Page& page, double head) {
  return {kSideMargin,
          head,
          page.size().width - 2 * kSideMargin,
          page.size().height - head - kFootMargin};
}

/// The head of the first page: who offers, and to whom.
Rectangle letterhead(Page& page, const plan::Plan& plan) {
  const double right = page.size().width - kSideMargin;
  page.text({kSideMargin, kHeadMargin}, plan.shop.name, kShopName);
  std::string address = plan.shop.owner;
  for (const std::string& line : plan.shop.address) {
    address += "\n" + line;
  }
  const Rectangle set =
      page.text({right, kHeadMargin}, address, kAddress, {.align = Align::kRight});
  const double rule = std::max(set.bottom(), kHeadMargin + 8) + 2;
  page.line({kSideMargin, rule}, {right, rule}, kAccentPen);
  return body_below(page, rule + 6);
}

Rectangle following_head(Page& page, const plan::Plan& plan) {
  page.text({kSideMargin, kHeadMargin - 2},
            fmt::format("{} \u00b7 {}", plan.shop.name, plan.commission.name),
            kLabel);
  return body_below(page, kFollowingHead);
}

std::string quotation_name(const plan::Plan& plan) {
  return fmt::format("Quotation {}, revision {}", plan.commission.number, plan.commission.revision);
}

void set_page_numbers(Paper& paper, const plan::Plan& plan) {
  for (std::size_t i = 0; i < paper.pages.size(); ++i) {
    Page& page = paper.pages[i];
    const double y = page.size().height - kFootMargin / 2;
    page.text({kSideMargin, y}, quotation_name(plan), kLabel, {.anchor = Anchor::kBottom});
    page.text({page.size().width - kSideMargin, y},
              fmt::format("Page {} of {}", i + 1, paper.pages.size()),
              kLabel,
              {.align = Align::kRight, .anchor = Anchor::kBottom});
  }
}

/// The client on the left; number and days on the right.
void set_addressee(Flow& flow, const plan::Plan& plan) {
  std::vector<StackLine> client{{"For", kLabel}, {plan.commission.client.name, kValue}};
  for (const std::string& line : plan.commission.client.address) {
    client.push_back({line, kText, 0});
  }
  std::vector<ClientLine> facts{{"Quotation", plan.commission.number},
                                {"Revision", plan.commission.revision}};
  if (plan.commission.quoted) {
    facts.push_back({"Date", long_date(*plan.commission.quoted)});
    facts.push_back({"Valid until", long_date(*valid_until(plan))});
  }
  constexpr double kFactHeight = 5;
  const double left_width = flow.body().width * 0.55;
  const double height =
      std::max(stack_height(client, left_width), kFactHeight * static_cast<double>(facts.size()));
  const Rectangle room = flow.take(height);
  set_stack(flow.page(), {room.x, room.y}, client, left_width);
  double y = room.y;
  for (const ClientLine& fact : facts) {
    const double x = room.x + room.width * 0.62;
    flow.page().text({x, y}, fact.about, kLabel);
    flow.page().text({room.right(), y}, fact.says, kValue, {.align = Align::kRight});
    y += kFactHeight;
  }
  flow.gap(5);
}

void set_picture(Flow& flow, const plan::Plan& plan) {
  const auto picture = picture_of(plan);
  if (picture.ok()) {
    const Rectangle room = flow.take(kPictureShare * flow.page().size().height);
    draw_perspective_with_sizes(flow.page(), room, picture.value(), plan);
  } else {
    const auto& size = plan.piece.overall.size;
    flow.paragraph(fmt::format("{} wide, {} deep, {} high",
                               length_with_unit(plan, size.x),
                               length_with_unit(plan, size.y),
                               length_with_unit(plan, size.z)),
                   kText);
  }
}

void set_client_lines(Flow& flow, const std::vector<ClientLine>& lines, double about_share) {
  Table table{.columns = {{.header = "", .width = ColumnWidth::share(about_share)},
                          {.header = "", .width = ColumnWidth::share(1)}},
              .rows = {},
              .empty_text = "",
              .style = kText,
              .shaded = false};
  for (const ClientLine& line : lines) {
    table.rows.push_back({.cells = {{line.about}, {.text = sentence(line.says), .strong = true}}});
  }
  if (!table.rows.empty()) {
    set_table(flow, table);
  }
}

Column amount_column(std::string header) {
  return {.header = std::move(header),
          .width = ColumnWidth::fit(),
          .align = Align::kRight,
          .numbers = true};
}

std::string tax_name(const plan::Plan& plan) {
  const shop::Terms& terms = plan.commission.terms;
  return fmt::format(
      "{}, {:g} %", sentence(terms.tax_name.empty() ? "tax" : terms.tax_name), terms.tax.count());
}

void set_price(Flow& flow, const plan::Plan& plan) {
  flow.heading("Price", kSection, 30);
  set_table(
      flow,
      {.columns = {{.header = ""}, amount_column("")},
       .rows = {{.cells = {{"The piece as described, made and finished"},
                           {money(plan, plan.price.price)}},
                 .keep_with_next = true},
                {.cells = {{tax_name(plan)}, {money(plan, plan.price.tax)}}},
                {.cells = {{"Total"}, {money(plan, plan.price.total)}}, .kind = Row::Kind::kTotal}},
       .empty_text = "",
       .style = kText,
       .shaded = false});
}

void set_payments(Flow& flow, const plan::Plan& plan) {
  flow.heading("Payments", kSection, 25);
  Table table{.columns = {amount_column("Share"),
                          {.header = "When"},
                          amount_column("Without tax"),
                          amount_column("To pay")},
              .rows = {},
              .empty_text = "In full on delivery.",
              .style = kText,
              .shaded = false};
  for (const price::Payment& payment : plan.price.payments) {
    table.rows.push_back({.cells = {{fmt::format("{:g} %", payment.share.count())},
                                    {sentence(payment.event)},
                                    {money(plan, payment.amount)},
                                    {.text = money(plan, payment.with_tax), .strong = true}},
                          .keep_with_next = true});
  }
  set_table(flow, table);
}

void set_days(Flow& flow, const plan::Plan& plan) {
  std::string text = plan.commission.wanted
                         ? fmt::format(
                               "Wanted by {}. The day is agreed when the first payment is "
                               "in.",
                               long_date(*plan.commission.wanted))
                         : "The day of delivery is agreed when the first payment is in.";
  flow.heading("Delivery", kSection, 10);
  flow.paragraph(text, kText);
}

/// Numbered or marked sentences, each kept whole.
void set_points(Flow& flow,
                std::string_view title,
                const std::vector<std::string>& points,
                const TextStyle& style,
                std::string_view mark = {}) {
  if (points.empty()) {
    return;
  }
  flow.heading(title, kSection, 14);
  for (std::size_t i = 0; i < points.size(); ++i) {
    const std::vector<StackLine> lines{
        {points[i],
         style,
         0,
         kFigureIndent,
         mark.empty() ? fmt::format("{}.", i + 1) : std::string{mark}}};
    const double height = stack_height(lines, flow.body().width);
    const Rectangle room = flow.take(height);
    set_stack(flow.page(), {room.x, room.y}, lines, room.width);
    flow.gap(0.8);
  }
}

void set_signature(Page& page, const Rectangle& room, const std::string& who) {
  page.text({room.x, room.y}, who, kValue, {.width = room.width});
  constexpr double kFirstLine = 19;
  constexpr double kSecondLine = 33;
  for (const auto& [y, what] :
       {std::pair{kFirstLine, "Signature"}, std::pair{kSecondLine, "Name, place and day"}}) {
    page.line({room.x, room.y + y}, {room.right(), room.y + y}, kThinPen);
    page.text({room.x, room.y + y + 1.2}, what, kLabel);
  }
}

void set_signatures(Flow& flow, const plan::Plan& plan) {
  constexpr double kHeight = 57;
  const Rectangle room = flow.take(kHeight);
  Page& page = flow.page();
  page.text({room.x, room.y + 4}, "Agreement", kSection);
  page.text({room.x, room.y + 10},
            fmt::format("We agree to {} as drawn and described, for {} with tax.",
                        quotation_name(plan),
                        money(plan, plan.price.total)),
            kText,
            {.width = room.width});
  const double width = room.width * 0.45;
  set_signature(page, {room.x, room.y + 21, width, 0}, plan.commission.client.name);
  set_signature(page,
                {room.right() - width, room.y + 21, width, 0},
                fmt::format("{}, {}", plan.shop.name, plan.shop.owner));
}

}  // namespace

Paper quotation_pages(const plan::Plan& plan) {
  Paper paper{.info = paper_info(plan, "Quotation"), .pages = {}};
  Flow flow{paper, page_size(plan.shop), [&](Page& page, int number) {
              return number == 1 ? letterhead(page, plan) : following_head(page, plan);
            }};
  set_addressee(flow, plan);
  flow.heading(plan.commission.name, kPieceName);
  flow.paragraph(plan.commission.says, kText);
  set_picture(flow, plan);
  flow.heading("What it is made of", kSection);
  set_client_lines(flow, made_of(plan), 0.28);
  const std::vector<ClientLine> choices = choices_taken(plan);
  if (!choices.empty()) {
    flow.heading("What was chosen", kSection);
    set_client_lines(flow, choices, 0.9);
  }
  set_price(flow, plan);
  set_payments(flow, plan);
  set_days(flow, plan);
  set_points(flow, "Please know before you sign", client_cautions(plan), kText, "\u26a0");
  set_points(flow, "Not in the price", plan.commission.terms.exclusions, kFine);
  set_points(flow, "Conditions", plan.commission.terms.conditions, kFine);
  const shop::Finish* finish = plan.shop.finish(plan.commission.finish);
  if (finish != nullptr && !finish->care.empty()) {
    flow.heading("Care", kSection, 10);
    flow.paragraph(finish->care, kFine);
  }
  set_signatures(flow, plan);
  set_page_numbers(paper, plan);
  return paper;
}

std::string quotation(const plan::Plan& plan) {
  return to_pdf(quotation_pages(plan));
}

}  // namespace plankwright::papers
