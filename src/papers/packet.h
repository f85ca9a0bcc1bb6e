#pragma once
// The sheets of the shop packet, one function each. Each adds its sheets to the set.

#include <string>

#include "papers/piece_drawing.h"
#include "papers/title_block.h"
#include "plan/plan.h"

namespace plankwright::papers {

/// What all sheets of one packet share.
struct Packet {
  const plan::Plan& plan;
  SheetSet& sheets;
  const PiecePicture* picture = nullptr;  // none when the piece cannot be drawn

  /// The title block of a sheet: what it shows, and what kind of document that is.
  SheetInfo info(const std::string& part_title, const std::string& document_type) const;
};

/// Text at arm's length, for what is read with the work in hand.
inline constexpr TextStyle kShopText{.letter_height = 2.6};
inline constexpr TextStyle kShopStrong{.letter_height = 2.6, .weight = Weight::kBold};

/// Perspective, key figures, and what to settle before the first cut, worst first.
void add_cover(const Packet& packet);
/// Front, side and top view with their key sizes.
void add_views(const Packet& packet);
/// Every line of the parts list with its sizes, by unit.
void add_parts_list(const Packet& packet);
/// What the material comes to: bounds, yields, boards to ask for, bars and edge bands, what comes
/// out of the rack and goes into it, and what a small change would save.
void add_material(const Packet& packet);
/// One sheet of paper for each way a sheet of board is cut.
void add_sheet_layouts(const Packet& packet);
/// How the parts may lie on boards of the usual size.
void add_board_layouts(const Packet& packet);
/// How bars and strips are cut.
void add_bar_layouts(const Packet& packet);
/// Settings, machine by machine, in figures to be read at the saw.
void add_settings(const Packet& packet);
/// Every cut on every part from its reference corner, and the settings for the joints.
void add_marking(const Packet& packet);
/// A card for each step, in working order.
void add_step_cards(const Packet& packet);
/// A card for each glue-up with its parts pulled apart.
void add_glue_ups(const Packet& packet);
void add_hardware(const Packet& packet);
void add_shopping_list(const Packet& packet);
void add_finish_schedule(const Packet& packet);
/// What leaves the shop as one, and what it weighs.
void add_packages(const Packet& packet);

}  // namespace plankwright::papers
