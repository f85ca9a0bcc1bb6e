#include "papers/title_block.h"

#include <algorithm>
#include <utility>

#include <fmt/format.h>

namespace plankwright::papers {
namespace {

// ISO 5457 (from memory): 20 mm at the left to bind the sheet, 10 mm elsewhere.
constexpr double kBinding = 20;
constexpr double kMargin = 10;
constexpr double kBlockWidth = 180;  // ISO 7200: at most
constexpr double kUpperRow = 13;
constexpr double kLowerRow = 9;
constexpr double kBlockHeight = kUpperRow + kLowerRow;
constexpr double kAreaGap = 4;  // between the frame and what is drawn
constexpr double kInside = 1.2;
constexpr double kSmallest = 0.6;
constexpr TextStyle kField{.letter_height = 2.1, .weight = Weight::kMedium, .fractions = false};
constexpr TextStyle kOwnerField{
    .letter_height = 2.8, .weight = Weight::kBold, .colour = kAccent, .fractions = false};
constexpr TextStyle kTitleField{.letter_height = 2.8, .weight = Weight::kBold, .fractions = false};
constexpr TextStyle kCaption{.letter_height = 1.35, .colour = kSoftPencil, .fractions = false};

Rectangle frame(PageSize size) {
  return {kBinding, kMargin, size.width - kBinding - kMargin, size.height - 2 * kMargin};
}

Rectangle block(PageSize size) {
  const Rectangle f = frame(size);
  // On a sheet only a little wider than the block it runs across.
  const double width = f.width < kBlockWidth + 2 * kBinding ? f.width : kBlockWidth;
  return {f.right() - width, f.bottom() - kBlockHeight, width, kBlockHeight};
}

// Fields side by side in a row; widths add up to 180 and shrink with the block.
class FieldRow {
 public:
  FieldRow(Page& page, const Rectangle& row) : page_{page}, row_{row}, x_{row.x} {}

  Rectangle next(double width, const std::string& caption) {
    const Rectangle cell{x_, row_.y, width * row_.width / kBlockWidth, row_.height};
    if (x_ > row_.x) {
      page_.line({x_, row_.y}, {x_, row_.bottom()}, kThinPen);
    }
    page_.text({x_ + kInside, row_.y + kInside}, caption, kCaption);
    x_ = cell.right();
    const double top = kInside + 1.9 * kCaption.letter_height;
    return {cell.x + kInside, cell.y + top, cell.width - 2 * kInside, cell.height - top - kInside};
  }

  void field(double width,
             const std::string& caption,
             const std::string& value,
             const TextStyle& style = kField) {
    text_in_room(page_, next(width, caption), value, style);
  }

 private:
  Page& page_;
  Rectangle row_;
  double x_;
};

// A cone with its small end cut off, seen from the side and from its small end (ISO 5456-2).
void projection_symbol(Page& page, const Rectangle& room, Projection projection) {
  const PagePoint c = room.centre();
  const double r = std::min(room.height / 2, room.width / 5);
  const double circle_way = projection == Projection::kFirstAngle ? 1 : -1;
  const PagePoint rings{c.x + circle_way * 1.5 * r, c.y};
  const double x = c.x - circle_way * 1.5 * r;
  page.circle(rings, r, std::nullopt, kThinPen);
  page.circle(rings, r / 2, std::nullopt, kThinPen);
  // The small end lies to the left in both; in third angle the rings stand beside that end.
  page.area({{{x - r, c.y - r / 2}, {x + r, c.y - r}, {x + r, c.y + r}, {x - r, c.y + r / 2}}},
            std::nullopt,
            kThinPen);
}

void set_upper_row(Page& page,
                   const Rectangle& row,
                   const SheetInfo& info,
                   const std::string& sheet) {
  FieldRow fields{page, row};
  fields.field(48, "Legal owner", info.legal_owner, kOwnerField);
  const Rectangle title = fields.next(82, "Title");
  const double half = info.part_title.empty() ? title.height : title.height * 0.55;
  text_in_room(page, {title.x, title.y, title.width, half}, info.title, kTitleField);
  text_in_room(
      page, {title.x, title.y + half, title.width, title.height - half}, info.part_title, kField);
  fields.field(32, "Identification number", info.identification, kTitleField);
  fields.field(18, "Sheet", sheet, kTitleField);
}

void set_lower_row(Page& page, const Rectangle& row, const SheetInfo& info) {
  FieldRow fields{page, row};
  fields.field(46, "Document type", info.document_type);
  fields.field(30, "Created by", info.created_by);
  fields.field(30, "Approved by", info.approved_by);
  fields.field(26,
               "Scale",
               info.scale.empty() ? "\u2013" : info.scale,
               TextStyle{.letter_height = kField.letter_height, .weight = kField.weight});
  const Rectangle symbol = fields.next(12, "");
  if (info.projection) {
    const Rectangle whole{symbol.x, row.y + kInside, symbol.width, row.height - 2 * kInside};
    projection_symbol(page, whole, *info.projection);
  }
  fields.field(12, "Revision", info.revision);
  fields.field(24, "Date of issue", info.date.ok() ? measure::print(info.date) : "");
}

void set_title_block(Page& page, const SheetInfo& info, const std::string& sheet) {
  const Rectangle b = block(page.size());
  page.rectangle(frame(page.size()), std::nullopt, kFramePen);
  page.rectangle(b, std::nullopt, kFramePen);
  page.line({b.x, b.y}, {b.right(), b.y}, kAccentPen);
  page.line({b.x, b.y + kUpperRow}, {b.right(), b.y + kUpperRow}, kThinPen);
  set_upper_row(page, {b.x, b.y, b.width, kUpperRow}, info, sheet);
  set_lower_row(page, {b.x, b.y + kUpperRow, b.width, kLowerRow}, info);
}

}  // namespace

Rectangle sheet_area(PageSize size) {
  const Rectangle f = frame(size);
  return {f.x + kAreaGap,
          f.y + kAreaGap,
          f.width - 2 * kAreaGap,
          f.height - kBlockHeight - 2 * kAreaGap};
}

Rectangle beside_block(PageSize size) {
  const Rectangle f = frame(size);
  const Rectangle b = block(size);
  if (b.width == f.width) {
    return {};
  }
  return Rectangle{f.x, b.y, b.x - f.x, b.height}.inset(kAreaGap / 2);
}

Page& SheetSet::add(PageSize size, SheetInfo info) {
  pages_.push_back(paper_->pages.size());
  infos_.push_back(std::move(info));
  return paper_->pages.emplace_back(size);
}

Page& SheetSet::add(SheetInfo info) {
  return add(size_, std::move(info));
}

Page& SheetSet::add_landscape(SheetInfo info) {
  return add(landscape(size_), std::move(info));
}

Flow SheetSet::flow(SheetInfo info, bool across) {
  // Flow adds the page itself; here it is only counted in.
  return {*paper_, across ? landscape(size_) : size_, [this, info](Page& page, int) {
            pages_.push_back(paper_->pages.size() - 1);
            infos_.push_back(info);
            return sheet_area(page.size());
          }};
}

void SheetSet::finish() {
  for (std::size_t i = 0; i < pages_.size(); ++i) {
    Page& page = paper_->pages[pages_[i]];
    set_title_block(page, infos_[i], fmt::format("{}/{}", i + 1, pages_.size()));
    if (i == 0 || infos_[i].part_title != infos_[i - 1].part_title) {
      page.set_bookmark(infos_[i].part_title);
    }
  }
}

void text_in_room(
    Page& page, const Rectangle& room, const std::string& text, TextStyle style, Align align) {
  if (text.empty()) {
    return;
  }
  const TextSize wanted = text_size(text, style);
  const double shrink = std::min({1.0, room.width / wanted.width, room.height / wanted.height});
  const double x = align == Align::kLeft     ? room.x
                   : align == Align::kCentre ? room.centre().x
                                             : room.right();
  style.letter_height *= std::max(kSmallest, shrink);
  if (shrink < kSmallest) {
    style.line_pitch = 1.4;
    page.text({x, room.centre().y},
              text,
              style,
              {.align = align, .anchor = Anchor::kMiddle, .width = room.width});
    return;
  }
  // By the baseline, so that words with and without descenders stand level with their neighbours.
  const double baseline = room.centre().y + style.letter_height / 2;
  page.text({x, baseline}, text, style, {.align = align, .anchor = Anchor::kBaseline});
}

}  // namespace plankwright::papers
