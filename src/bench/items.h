#pragma once
// What there is to work on: every part, joint, cut, fitting, glue-up and load of a piece, each as
// one thing that the rules may ask work for.

#include <string>
#include <string_view>
#include <vector>

#include "bench/rules.h"
#include "bench/staging.h"
#include "commission/commission.h"
#include "measure/quantity.h"
#include "piece/piece.h"
#include "shop/shop.h"
#include "stock/stock.h"

namespace plankwright::bench {

using piece::PartIndex;

/// One thing, in the measures the rules count in. Subjects and kinds:
///   part          solid, sheet, bar, glued_up, laminated, wide, tapered, sawn_arch, bent_arch,
///                 inside, outside, back, strip, screwed, scribed, trimmed
///   shape         sawn_arch: one for all arches of one shape
///   glue_line     edge, face
///   band          edge
///   feature, drawer_feature, joint, drawer_joint   the words of the piece, `_` between
///   opening       word of the kit that fills it, or open
///   glue_stage    case, door
///   drawer        made, bought, on_runners, front
///   door          hung, adjusted, adjusted_on_site
///   fitting       its kind in the shop's list
///   coat          wiped, brushed, sprayed, between
///   finisher      run
///   package       bundle, cabinet, on_site
///   supply        yard, boards, sheets
///   piece         any, fixed
///   extra         id of a labour standard
struct Item {
  std::string subject;
  std::string kind;
  std::vector<PartIndex> parts;      // worked on
  std::vector<PartIndex> waits_for;  // must have come as far as this work
  double count = 1;                  // holes, hinges, sheets, hours
  double blanks = 0;
  double feet = 0;
  double square_feet = 0;
  Length across, depth;         // of a cut
  std::string label;            // of a jig, a coat, a stage
  std::string chain;            // things of one chain are done one after the other ...
  int sequence = 0;             // ... in this order
  measure::Kilograms mass;      // of what is lifted
  measure::Minutes unattended;  // instead of the standard's, when not zero
  int people = 1;               // when more than the standard asks for
};

/// Everything the items are made from.
struct Job {
  const piece::Piece& piece;
  const stock::Stock& stock;
  const shop::Shop& shop;
  const commission::Commission& commission;
  const Limits& limits;
  measure::Minutes minutes_a_joint;  // of an assembly glue-up
};

/// From the first glue to the last clamp, as far as the shop uses it: the share of open and closed
/// time that it allows itself, less in a warm shop. Zero when the glue's times are not known.
measure::Minutes time_to_close(const Job& job);

/// Joints that one person closes before the glue of the commission sets: in the share of its open
/// and closed time that the shop allows itself. At least one; no bound when the glue's times are
/// not known.
int most_joints_a_stage(const Job& job);

/// The assembly in stages, with the glue of the commission and the clamps of the shop.
GlueUp glue_up_of(const Job& job);
/// The chain (Item::chain) of a stage.
std::string chain_of(const GlueStage& stage);

/// All items of a job, in the order of the piece.
std::vector<Item> items_of(const Job& job);

/// The same by what they come from.
void add_part_items(const Job& job, std::vector<Item>& items);
void add_joint_items(const Job& job, std::vector<Item>& items);
void add_moving_items(const Job& job, std::vector<Item>& items);
void add_supply_items(const Job& job, std::vector<Item>& items);
void add_finish_items(const Job& job, std::vector<Item>& items);
void add_load_items(const Job& job, std::vector<Item>& items);

/// Parts of drawer boxes made here; their labour standards cover all that is done to them.
std::vector<bool> box_parts(const piece::Piece& piece);

/// True when any of `parts` is marked.
bool any_of(const std::vector<PartIndex>& parts, const std::vector<bool>& marked);

/// The parts that joints tie these to, hinges and slides included, themselves left out.
std::vector<PartIndex> neighbours(const piece::Piece& piece, const std::vector<PartIndex>& parts);

/// Every part of the piece.
std::vector<PartIndex> all_parts(const piece::Piece& piece);

/// A trade word as it stands in the tables: `loose-tenon mortise` is `loose_tenon_mortise`.
std::string table_word(std::string_view trade_word);

}  // namespace plankwright::bench
