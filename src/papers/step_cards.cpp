// Cards for the bench, in working order, two side by side.

#include <algorithm>

#include <fmt/format.h>

#include "papers/packet.h"
#include "papers/text_stack.h"
#include "papers/wording.h"

namespace plankwright::papers {
namespace {

constexpr double kBetween = 4;  // cards side by side
constexpr double kBelow = 3.5;  // and below each other
constexpr double kInside = 2.4;
constexpr double kHeadHeight = 8.5;
constexpr double kNumberWidth = 11;
constexpr double kSettingHeight = 10;
constexpr std::size_t kMostCautions = 3;
constexpr TextStyle kNumberText{
    .letter_height = 4.2, .weight = Weight::kBold, .colour = kWhite, .tabular = true};
constexpr TextStyle kTitleOnCard{.letter_height = 2.7, .weight = Weight::kBold};
constexpr TextStyle kLongTitle{.letter_height = 2.2, .weight = Weight::kBold, .line_pitch = 1.45};
constexpr TextStyle kTimeText{.letter_height = 2.3, .weight = Weight::kMedium, .colour = kAccent};
constexpr TextStyle kSettingText{.letter_height = 7, .weight = Weight::kBold, .tabular = true};
constexpr TextStyle kSettingKind{.letter_height = 2.1, .colour = kSoftPencil};
constexpr TextStyle kSaysText{.letter_height = 2.4, .line_pitch = 1.65};
constexpr TextStyle kCodesText{.letter_height = 2.4, .weight = Weight::kMedium, .line_pitch = 1.65};
constexpr TextStyle kCautionText{
    .letter_height = 2.3, .weight = Weight::kMedium, .line_pitch = 1.6};
constexpr TextStyle kQuietText{.letter_height = 2.1, .colour = kSoftPencil, .line_pitch = 1.6};

class Card {
 public:
  Card(const plan::Plan& plan, std::size_t index)
      : plan_{plan}, operation_{plan.bench.operations[index]}, index_{index} {}

  double height(double width) const {
    return kHeadHeight + kInside + kSaysText.letter_height * 0.2 +
           stack_height(lines(), width - 2 * kInside) +
           (operation_.setting.empty() ? 0 : kSettingHeight) + kInside;
  }

  void set(Page& page, const Rectangle& at) const {
    page.rectangle(at, std::nullopt, kOutlinePen);
    set_head(page, {at.x, at.y, at.width, kHeadHeight});
    double y = at.y + kHeadHeight + kInside;
    if (!operation_.setting.empty()) {
      set_setting(page, {at.x + kInside, y - 1, at.width - 2 * kInside, kSettingHeight});
      y += kSettingHeight;
    }
    set_stack(page, {at.x + kInside, y}, lines(), at.width - 2 * kInside);
  }

 private:
  void set_head(Page& page, const Rectangle& head) const {
    page.rectangle({head.x, head.y, kNumberWidth, head.height}, kAccent);
    text_in_room(page,
                 Rectangle{head.x, head.y, kNumberWidth, head.height}.inset(1),
                 std::to_string(index_ + 1),
                 kNumberText,
                 Align::kCentre);
    page.line({head.x, head.bottom()}, {head.right(), head.bottom()}, kThinPen);
    const double width = head.width - kNumberWidth - 3;
    const bool fits = text_size(operation_.name, kTitleOnCard).width <= width;
    page.text({head.x + kNumberWidth + 2, head.centre().y},
              operation_.name,
              fits ? kTitleOnCard : kLongTitle,
              {.anchor = Anchor::kMiddle, .width = width});
  }

  void set_setting(Page& page, const Rectangle& room) const {
    const std::string kind = sentence(operation_.setting_kind);
    const double width = text_size(kind, kSettingKind).width + 2;
    page.text({room.x, room.centre().y}, kind, kSettingKind, {.anchor = Anchor::kMiddle});
    text_in_room(page,
                 {room.x + width, room.y, room.width - width, room.height},
                 plain(operation_.setting),
                 kSettingText);
  }

  /// Where, how long, and what runs by itself afterwards.
  std::string time() const {
    std::string text = sentence(operation_.machine.empty() ? operation_.phase : operation_.machine);
    if (operation_.total().count() > 0) {
      text += " \u00b7 " + duration(operation_.total());
    }
    if (operation_.people > 1) {
      text += fmt::format(" \u00b7 {} people", operation_.people);
    }
    if (operation_.unattended.count() > 0) {
      text += fmt::format(" \u00b7 then {} untouched", duration(operation_.unattended));
    }
    return text;
  }

  /// The steps that come before this one; the last alone when it is the one just before.
  std::string after() const {
    if (operation_.after.empty()) {
      return "";
    }
    std::vector<std::string> numbers;
    for (const std::size_t before : operation_.after) {
      numbers.push_back(std::to_string(before + 1));
    }
    return fmt::format("Only after {} {}", numbers.size() == 1 ? "step" : "steps", listed(numbers));
  }

  std::vector<StackLine> lines() const {
    std::vector<StackLine> all{
        {time(), kTimeText},
        {operation_.says, kSaysText},
        {parts(), kCodesText},
        {operation_.test.empty() ? "" : fmt::format("Test: {}.", operation_.test), kSaysText}};
    const std::size_t most = std::min(kMostCautions, operation_.cautions.size());
    for (std::size_t i = 0; i < most; ++i) {
      all.push_back({operation_.cautions[i], kCautionText, 1.2, 4, "\u26a0"});
    }
    all.push_back({after(), kQuietText, 1.2});
    return all;
  }

  /// The parts by code, unless the text has named every one already.
  std::string parts() const {
    const bool whole_piece = operation_.parts.size() == plan_.piece.parts.size();
    const bool named = std::ranges::all_of(operation_.parts, [&](piece::PartIndex part) {
      return operation_.says.find(" " + plan_.piece.parts[part].code + " ") != std::string::npos;
    });
    return whole_piece || named ? "" : fmt::format("Parts {}", codes(plan_, operation_.parts));
  }

  const plan::Plan& plan_;
  const bench::Operation& operation_;
  std::size_t index_;
};

}  // namespace

void add_step_cards(const Packet& packet) {
  const plan::Plan& plan = packet.plan;
  Flow flow = packet.sheets.flow(packet.info("Steps in working order", "Step cards"));
  if (plan.bench.operations.empty()) {
    flow.paragraph("No steps: nothing in this piece needs work.", kShopText);
    return;
  }
  // Down the left column, then down the right one, so that the numbers follow each other.
  const double width = (flow.body().width - kBetween) / 2;
  int column = 0;
  double y = flow.body().y;
  for (std::size_t i = 0; i < plan.bench.operations.size(); ++i) {
    const Card card{plan, i};
    const double height = card.height(width);
    if (y + height > flow.body().bottom() && y > flow.body().y) {
      y = flow.body().y;
      if (++column == 2) {
        column = 0;
        flow.new_page();
      }
    }
    card.set(flow.page(), {flow.body().x + column * (width + kBetween), y, width, height});
    y += height + kBelow;
  }
}

}  // namespace plankwright::papers
