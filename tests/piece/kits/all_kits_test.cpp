#include <map>

#include <gtest/gtest.h>

#include "piece/kit.h"
#include "piece/kits/test_shop.h"

namespace plankwright::piece::test {
namespace {

using document::FieldKind;
using document::Node;

/// A good use of every kit, in a case where it needs one.
const std::map<std::string, std::string, std::less<>>& good_uses() {
  static const std::map<std::string, std::string, std::less<>> kUses = {
      {"carcase",
       "{stock: oak_board_18, back: {stock: oak_board_6}, lipping: {stock: oak_5_4, thickness: "
       "8}}"},
      {"leg_and_rail_frame",
       "{leg: {stock: oak_8_4, size: 44}, rail: {stock: oak_5_4, height: 80, thickness: 22}, "
       "joint: "
       "mortise_and_tenon, tenon: {length: 20, thickness: 8}}"},
      {"slab", "{stock: oak_board_18, layers: 2, name: top}"},
      {"drawer_bank",
       "{heights: [322, 322], front: {stock: oak_5_4, thickness: 20, reveal: 2}, box: {stock: "
       "maple_4_4, side: 12, "
       "bottom_stock: oak_board_6}, rail: {stock: oak_5_4, width: 60, thickness: 20, depth: 6}, "
       "runner: wooden}"},
      {"panel_door",
       "{stock: oak_5_4, thickness: 22, stile: 60, rail: 60, tongue: 10, reveal: 2, hinge: "
       "butt_hinge_2_1_2, hinges: 2}"},
      {"slab_door", "{stock: oak_board_18, hinge: cup_hinge_110, hinges: 2}"},
      {"shelves",
       "{stock: oak_board_18, fixed: 1, adjustable: 2, pin: shelf_pin_steel, nosing: {stock: "
       "oak_5_4, height: 38, "
       "thickness: 20}}"},
      {"ladder_base", "{stock: oak_board_18, cross_members: 3, kick: {stock: oak_board_18}}"},
      {"scribe_strip", "{stock: oak_board_18}"},
      {"filler", "{stock: oak_board_18}"},
      {"part", "{name: rail, stock: oak_board_18, length: 300, width: 60}"}};
  return kUses;
}

void set(Node& map, std::string_view key, const Node& value) {
  for (Node::Entry& entry : map.entries) {
    if (entry.key == key) {
      entry.value = value;
      return;
    }
  }
  map.entries.push_back({std::string{key}, map.at, value});
}

/// Where a kit may stand: alone, as a flat top, in the opening of a case.
std::vector<Node> pieces_with(std::string_view word, const Node& use) {
  std::vector<Node> pieces(
      3, document::parse_yaml("{width: 900, depth: 450, height: 700}", "test.yaml").root);
  set(pieces[0], word, use);
  Node stack = document::parse_yaml("[{height: 36}, {height: rest}]", "test.yaml").root;
  set(stack.items[0], word, use);
  set(pieces[1], "stack", stack);
  Node carcase = document::parse_yaml("{stock: oak_board_18, bays: [{}]}", "test.yaml").root;
  set(carcase.entries.back().value.items.front(), word, use);
  set(pieces[2], "carcase", carcase);
  return pieces;
}

/// Builds the kit wherever it may stand; true when it can be built somewhere without an error.
bool try_out(std::string_view word, const Node& use) {
  static const shop::Shop kShop = test_shop();
  bool good = false;
  for (Node& piece : pieces_with(word, use)) {
    commission::Commission commission;
    commission.piece = std::move(piece);
    const BuiltPiece built = build_piece(commission, kShop);
    EXPECT_LE(built.piece.parts.size(), 20'000U);
    if (built.errors.empty()) {
      good = true;
      for (const Part& part : built.piece.parts) {
        EXPECT_FALSE(part.body.empty()) << word << " " << part.path;
      }
    }
  }
  return good;
}

// Whatever a maker writes in a field, wrong kinds and sizes out of all measure too, is answered
// with an error or a piece, never with a crash or a part without wood.
TEST(AllKits, AnswerAnyValueInAnyField) {
  static constexpr std::string_view kValues[] = {"-1",
                                                 "0",
                                                 "0.001",
                                                 "0.6 mm",
                                                 "7",
                                                 "449",
                                                 "1000000",
                                                 "1e300",
                                                 "2 * 3 in",
                                                 "oak_5_4",
                                                 "nonsense",
                                                 "''",
                                                 "[]",
                                                 "[1, 2, 3]",
                                                 "[[1], {a: 2}]",
                                                 "{}",
                                                 "{stock: oak_5_4}",
                                                 "{length: 1, thickness: -5}",
                                                 "~",
                                                 "yes"};
  for (const Kit& kit : all_kits()) {
    SCOPED_TRACE(kit.word);
    ASSERT_TRUE(good_uses().contains(kit.word));
    const Node good = document::parse_yaml(good_uses().find(kit.word)->second, "test.yaml").root;
    EXPECT_TRUE(try_out(kit.word, good));
    for (const document::Field& field : kit.fields) {
      for (const std::string_view value : kValues) {
        SCOPED_TRACE(std::string{field.key} + ": " + std::string{value});
        const Node wrong = document::parse_yaml(value, "test.yaml").root;
        Node use = good;
        set(use, field.key, wrong);
        try_out(kit.word, use);
        for (const document::Field& inner : field.inner) {
          const Node* written = good.find(field.key);
          Node map = document::parse_yaml("{}", "test.yaml").root;
          if (written != nullptr) {
            map = *written;
          }
          if (field.kind == FieldKind::kMap && map.kind == Node::Kind::kMap) {
            set(map, inner.key, wrong);
            set(use, field.key, map);
            try_out(kit.word, use);
          }
        }
      }
    }
  }
}

TEST(AllKits, AreDescribedForTheHandbook) {
  for (const Kit& kit : all_kits()) {
    EXPECT_FALSE(kit.says.empty()) << kit.word;
    for (const document::Field& field : kit.fields) {
      EXPECT_FALSE(field.says.empty()) << kit.word << " " << field.key;
      for (const document::Field& inner : field.inner) {
        EXPECT_FALSE(inner.says.empty()) << kit.word << " " << field.key << " " << inner.key;
      }
    }
  }
}

}  // namespace
}  // namespace plankwright::piece::test
