#pragma once
// Drawing sheets: the frame, and the title block with the fields of ISO 7200 (from memory).

#include <optional>
#include <string>
#include <vector>

#include "measure/date.h"
#include "papers/drawing_scale.h"
#include "papers/page_flow.h"

namespace plankwright::papers {

/// What the title block of a sheet says.
struct SheetInfo {
  std::string legal_owner;     // the shop
  std::string title;           // of the piece
  std::string part_title;      // what this sheet shows
  std::string document_type;   // parts list, part drawing, step card ...
  std::string identification;  // number of the commission
  std::string revision;
  measure::Date date;  // of issue; none is left open
  std::string created_by;
  std::string approved_by;
  std::string scale;                                    // of the main drawing; empty for lists
  std::optional<Projection> projection = std::nullopt;  // shown as its symbol
};

/// The room inside the frame above the title block.
Rectangle sheet_area(PageSize size);

/// What is free inside the frame left of the title block, on a sheet wider than the block; else
/// without size.
Rectangle beside_block(PageSize size);

/// A set of sheets that are numbered together. Add the sheets, draw on them, then finish().
class SheetSet {
 public:
  SheetSet(Paper& paper, PageSize size) : paper_{&paper}, size_{size} {}

  /// A new sheet; draw inside sheet_area(page.size()).
  Page& add(SheetInfo info);
  Page& add_landscape(SheetInfo info);
  /// A flow each page of which is a sheet with the same title block; `across`: lying on its side.
  Flow flow(SheetInfo info, bool across = false);
  /// Changes what the title block of the last sheet says, such as a scale found while drawing.
  SheetInfo& last() { return infos_.back(); }
  /// Draws frames and title blocks; `sheet 3/12` needs to know how many there are.
  void finish();

 private:
  Page& add(PageSize size, SheetInfo info);

  Paper* paper_;
  PageSize size_;
  std::vector<SheetInfo> infos_;
  std::vector<std::size_t> pages_;
};

/// `text` on one line in `room`, as large as `style` says or as small as it must be; what does not
/// fit even at 60 % is broken into lines there.
void text_in_room(Page& page,
                  const Rectangle& room,
                  const std::string& text,
                  TextStyle style,
                  Align align = Align::kLeft);

}  // namespace plankwright::papers
