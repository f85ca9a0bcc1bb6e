#pragma once
// A small shop and a bench to build kits on: what a piece written in a test comes to, and questions
// that every piece must answer well.

#include <fstream>
#include <iterator>
#include <set>
#include <string>
#include <string_view>
#include <utility>
#include <vector>

#include <gtest/gtest.h>

#include "commission/commission.h"
#include "document/names.h"
#include "document/node.h"
#include "measure/expression.h"
#include "piece/build_piece.h"
#include "piece/piece.h"
#include "shop/shop.h"
#include "wood/panel.h"
#include "wood/species.h"

namespace plankwright::piece {

// Lets gtest print what it found in trade words.
inline void PrintTo(const Size& size, std::ostream* out) {
  *out << size.length.mm() << " x " << size.width.mm() << " x " << size.thickness.mm() << " mm";
}

namespace test {

using measure::LengthUnit;

inline std::string source_text(const std::string& path) {
  std::ifstream in{std::string{PLANKWRIGHT_SOURCE_DIR} + "/" + path};
  return {std::istreambuf_iterator<char>{in}, {}};
}

inline shop::SolidStock solid(std::string id, std::string species, int quarters, Length surfaced) {
  shop::SolidStock stock;
  stock.id = id;
  stock.name = std::move(id);
  stock.species = std::move(species);
  stock.quarters = quarters;
  stock.rough_thickness = Length::from_inches(quarters / 4.0);
  stock.surfaced_thickness = surfaced;
  stock.board_width = Length::from_inches(6);
  stock.board_length = Length::from_inches(96);
  return stock;
}

inline shop::SheetStock sheet(std::string id, std::string face, Length thickness) {
  shop::SheetStock stock;
  stock.id = id;
  stock.name = std::move(id);
  stock.panel = "veneered_fibreboard";
  stock.face_species = std::move(face);
  stock.thickness = thickness;
  stock.length = Length::from_mm(2440);
  stock.width = Length::from_mm(1220);
  return stock;
}

inline shop::Hardware fitting(std::string id,
                              std::string kind,
                              std::map<std::string, Length, std::less<>> sizes = {}) {
  shop::Hardware hardware;
  hardware.id = id;
  hardware.name = std::move(id);
  hardware.kind = std::move(kind);
  hardware.sizes = std::move(sizes);
  return hardware;
}

/// Boards, sheets, a band and fittings under the ids that the examples use. Prices are left at
/// zero.
inline shop::Shop test_shop() {
  using namespace measure;
  shop::Shop shop;
  shop.solids = {solid("cherry_4_4", "cherry_black", 4, 0.8125_in),
                 solid("cherry_5_4", "cherry_black", 5, 1.0625_in),
                 solid("cherry_8_4", "cherry_black", 8, 1.75_in),
                 solid("maple_4_4", "maple_sugar", 4, 0.8125_in),
                 solid("oak_5_4", "oak_white", 5, 28_mm),
                 solid("oak_6_4", "oak_white", 6, 34_mm),
                 solid("oak_8_4", "oak_white", 8, 44_mm),
                 solid("oak_16_4", "oak_white", 16, 95_mm)};
  shop.sheets = {sheet("oak_board_18", "oak_white", 18_mm),
                 sheet("oak_board_25", "oak_white", 25_mm),
                 sheet("oak_board_6", "oak_white", 6_mm),
                 sheet("cherry_ply_3_4", "cherry_black", 0.75_in),
                 sheet("cherry_ply_1_4", "cherry_black", 0.25_in),
                 sheet("maple_ply_1_4", "maple_sugar", 0.25_in)};
  shop::BandStock band;
  band.id = "band_oak";
  band.name = "oak band";
  band.thickness = 1_mm;
  band.width = 22_mm;
  shop.bands = {band};
  shop.hardware = {
      fitting("shelf_pin_steel", "shelf_pin", {{"hole", 5_mm}, {"depth", 9_mm}}),
      fitting("shelf_pin_brass", "shelf_pin", {{"hole", 0.25_in}, {"depth", 0.375_in}}),
      fitting("screw_4_30", "button_screw"),
      fitting("screw_4_50", "screw"),
      fitting("plinth_block", "leveller"),
      fitting("connector_screw", "connector"),
      fitting("wall_fixing", "wall_fixing"),
      fitting("top_clip", "top_clip"),
      fitting("glide_felt", "glide"),
      fitting("leg_bolt_m8", "leg_bolt"),
      fitting("insert_m8", "insert"),
      fitting("butt_hinge_2_1_2",
              "butt_hinge",
              {{"length", 2.5_in}, {"width", 0.875_in}, {"thickness", 0.09375_in}}),
      fitting("cup_hinge_110",
              "cup_hinge",
              {{"bore", 35_mm}, {"bore_depth", 12.5_mm}, {"edge", 4_mm}, {"overlay", 18_mm}}),
      fitting("catch_touch", "catch"),
      fitting("knob_turned", "pull"),
      fitting("pull_bar_oak", "pull", {{"spacing", 160_mm}}),
      fitting("slide_concealed_15",
              "slide_pair",
              {{"width_less", 0.625_in},
               {"length", 15_in},
               {"height_less", 1_in},
               {"travel", 14.75_in}}),
      fitting("slide_concealed_400",
              "slide_pair",
              {{"width_less", 16_mm}, {"length", 400_mm}, {"height_less", 26_mm}}),
      fitting("drawer_box_bought",
              "drawer_box",
              {{"side", 0.5_in}, {"bottom", 0.25_in}, {"height_step", 0.125_in}})};
  shop.allowances.rough_length = 1_in;
  shop.allowances.rough_width = 0.25_in;
  shop.allowances.glued_width = 0.25_in;
  shop.allowances.show_gap = 2_mm;
  shop.species = wood::read_species(source_text("data/species.csv"), "species.csv").value();
  shop.panels = wood::read_panels(source_text("data/panels.csv"), "panels.csv").value();
  return shop;
}

/// What the map `piece` of a document comes to.
inline BuiltPiece build(std::string_view piece_yaml,
                        LengthUnit unit = LengthUnit::kMillimetre,
                        const shop::Shop& shop = test_shop()) {
  document::Parsed parsed = document::parse_yaml(piece_yaml, "test.yaml");
  EXPECT_TRUE(parsed.errors.empty()) << describe(parsed.errors.front(), piece_yaml);
  commission::Commission commission;
  commission.file = "test.yaml";
  commission.names = document::Names{unit};
  commission.piece = std::move(parsed.root);
  return build_piece(commission, shop);
}

/// One kit in a space of its own called `unit`, as wide, deep and high as written. `kit` is in flow
/// style: `slab: {stock: oak_6_4}`.
inline BuiltPiece build_kit(const std::string& width,
                            const std::string& depth,
                            const std::string& height,
                            const std::string& kit,
                            LengthUnit unit = LengthUnit::kMillimetre) {
  return build("width: " + width + "\ndepth: " + depth + "\nheight: " + height +
                   "\nstack:\n  - name: unit\n    height: rest\n    " + kit + "\n",
               unit);
}

/// The messages alone, for comparing with the whole list that is expected.
inline std::vector<std::string> messages(const base::Errors& errors) {
  std::vector<std::string> texts;
  for (const base::Error& error : errors) {
    texts.push_back(error.message);
  }
  return texts;
}

/// The part at `path`; a failed test and an empty part when there is none.
inline const Part& part_at(const Piece& piece, std::string_view path) {
  for (const Part& part : piece.parts) {
    if (part.path == path) {
      return part;
    }
  }
  std::string all;
  for (const Part& part : piece.parts) {
    all += " " + part.path;
  }
  ADD_FAILURE() << "no part `" << path << "` among" << all;
  static const Part nothing;
  return nothing;
}

/// How many parts have this name.
inline int count_named(const Piece& piece, std::string_view name) {
  int count = 0;
  for (const Part& part : piece.parts) {
    count += part.name == name ? 1 : 0;
  }
  return count;
}

/// All fittings of one id, added up.
inline int count_fittings(const Piece& piece, std::string_view id) {
  int count = 0;
  for (const HardwareUse& use : piece.hardware) {
    count += use.id == id ? use.count : 0;
  }
  return count;
}

inline bool jointed(const Piece& piece, PartIndex a, PartIndex b, bool only_halving = false) {
  for (const Joint& joint : piece.joints) {
    const bool same = (joint.a == a && joint.b == b) || (joint.a == b && joint.b == a);
    if (same && (!only_halving || joint.kind == JointKind::kHalving)) {
      return true;
    }
  }
  return false;
}

/// Pairs of bodies that are in each other's way: sharing room without a halving joint.
inline std::vector<std::string> in_the_way(const Piece& piece) {
  std::vector<std::string> found;
  for (PartIndex a = 0; a < piece.parts.size(); ++a) {
    for (PartIndex b = a + 1; b < piece.parts.size(); ++b) {
      if (!intersection(piece.parts[a].body, piece.parts[b].body).empty() &&
          !jointed(piece, a, b, true)) {
        found.push_back(piece.parts[a].path + " and " + piece.parts[b].path);
      }
    }
  }
  return found;
}

/// Pairs of bodies that touch on more than a line while no joint holds them.
inline std::vector<std::string> loose_contacts(const Piece& piece) {
  std::vector<std::string> found;
  for (const Contact& contact : contacts(piece)) {
    if (!jointed(piece, contact.a, contact.b)) {
      found.push_back(piece.parts[contact.a].path + " and " + piece.parts[contact.b].path);
    }
  }
  return found;
}

/// Parts that no chain of joints ties to the first part.
inline std::vector<std::string> afloat(const Piece& piece) {
  std::set<PartIndex> reached = {0};
  for (bool more = !piece.parts.empty(); more;) {
    more = false;
    for (const Joint& joint : piece.joints) {
      if (reached.contains(joint.a) != reached.contains(joint.b)) {
        reached.insert({joint.a, joint.b});
        more = true;
      }
    }
  }
  std::vector<std::string> found;
  for (PartIndex index = 0; index < piece.parts.size(); ++index) {
    if (!reached.contains(index)) {
      found.push_back(piece.parts[index].path);
    }
  }
  return found;
}

/// Paths that stand for more than one part.
inline std::vector<std::string> repeated_paths(const Piece& piece) {
  std::set<std::string> seen;
  std::vector<std::string> found;
  for (const Part& part : piece.parts) {
    if (!seen.insert(part.path).second) {
      found.push_back(part.path);
    }
  }
  return found;
}

/// The smallest box around all bodies.
inline Box whole(const Piece& piece) {
  Box box = piece.parts.empty() ? Box{} : piece.parts.front().body;
  for (const Part& part : piece.parts) {
    box = hull(box, part.body);
  }
  return box;
}

/// All that must hold of any piece built without an error.
inline void expect_sound(const BuiltPiece& built) {
  using Strings = std::vector<std::string>;
  EXPECT_EQ(messages(built.errors), Strings{});
  EXPECT_EQ(in_the_way(built.piece), Strings{});
  EXPECT_EQ(loose_contacts(built.piece), Strings{});
  EXPECT_EQ(afloat(built.piece), Strings{});
  EXPECT_EQ(repeated_paths(built.piece), Strings{});
}

/// One line of a table of expected parts.
struct ExpectedPart {
  std::string_view path;
  Size finished;
};

inline void expect_parts(const Piece& piece, const std::vector<ExpectedPart>& expected) {
  for (const ExpectedPart& line : expected) {
    SCOPED_TRACE(line.path);
    EXPECT_EQ(part_at(piece, line.path).finished, line.finished);
  }
}

}  // namespace test
}  // namespace plankwright::piece
