// The papers for the shop, sheet by sheet.

#include "papers/calendar_sheets.h"
#include "papers/packet.h"
#include "papers/page_output.h"
#include "papers/paper_pages.h"
#include "papers/papers.h"
#include "papers/wording.h"

namespace plankwright::papers {

SheetInfo Packet::info(const std::string& part_title, const std::string& document_type) const {
  return {.legal_owner = plan.shop.name,
          .title = plan.commission.name,
          .part_title = part_title,
          .document_type = document_type,
          .identification = plan.commission.number,
          .revision = plan.commission.revision,
          .date = plan.commission.quoted.value_or(measure::Date{}),
          .created_by = plan.shop.owner,
          .approved_by = "",
          .scale = ""};
}

Paper shop_packet_pages(const plan::Plan& plan) {
  Paper paper{.info = paper_info(plan, "Shop packet"), .pages = {}};
  SheetSet sheets{paper, page_size(plan.shop)};
  const auto picture = picture_of(plan);
  const Packet packet{plan, sheets, picture.ok() ? &picture.value() : nullptr};
  add_cover(packet);
  add_views(packet);
  add_parts_list(packet);
  add_material(packet);
  add_sheet_layouts(packet);
  add_board_layouts(packet);
  add_bar_layouts(packet);
  add_calendar(packet);
  add_settings(packet);
  add_marking(packet);
  add_step_cards(packet);
  add_glue_ups(packet);
  add_hardware(packet);
  add_shopping_list(packet);
  add_finish_schedule(packet);
  add_packages(packet);
  sheets.finish();
  return paper;
}

std::string shop_packet(const plan::Plan& plan) {
  return to_pdf(shop_packet_pages(plan));
}

}  // namespace plankwright::papers
