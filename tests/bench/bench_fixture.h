#pragma once
// Pieces built by hand, the shipped tables, and the examples through the real stages.

#include <fstream>
#include <sstream>
#include <stdexcept>
#include <string>
#include <vector>

#include "bench/bench.h"
#include "bench/rules.h"
#include "commission/commission.h"
#include "document/node.h"
#include "piece/build_piece.h"
#include "shop/read_shop.h"
#include "stock/stock.h"

namespace plankwright::bench {

using measure::Axis;
using measure::Direction;
using measure::operator""_in;
using measure::operator""_mm;

}  // namespace plankwright::bench

namespace plankwright::bench::testing {

inline base::Result<std::string> text_of(const std::string& name) {
  for (const char* folder : {"/data/", "/examples/"}) {
    std::ifstream file{PLANKWRIGHT_SOURCE_DIR + std::string{folder} + name};
    if (file) {
      std::ostringstream text;
      text << file.rdbuf();
      return text.str();
    }
  }
  return base::Error{.code = base::ErrorCode::kIo, .message = "there is no file " + name};
}

inline void expect_none(const base::Errors& errors) {
  if (!errors.empty()) {
    throw std::runtime_error(base::describe(errors.front()));
  }
}

/// The shipped rules and cautions. Throws when they are wrong, which fails the test that asks.
inline const Rules& rules() {
  static const Rules kRules = [] {
    ReadRules read = read_rules(text_of("operation_rules.csv").value(), "operation_rules.csv");
    expect_none(read.errors);
    expect_none(read_cautions(text_of("cautions.csv").value(), "cautions.csv", read.rules));
    return read.rules;
  }();
  return kRules;
}

inline shop::Shop read_shop(const std::string& file) {
  shop::ReadShop read = shop::read_shop(text_of(file).value(), file, text_of);
  expect_none(read.errors);
  return std::move(read.shop);
}

inline const shop::Shop& inch_shop() {
  static const shop::Shop kShop = read_shop("shop.yaml");
  return kShop;
}

/// An example from its text to its bench.
struct Worked {
  shop::Shop shop;
  commission::Commission commission;
  piece::Piece piece;
  stock::Stock stock;
  Bench bench;
};

inline Worked work(const std::string& file, const commission::Picks& picks = {}) {
  Worked worked;
  const document::Parsed parsed = document::parse_yaml(text_of(file).value(), file);
  expect_none(parsed.errors);
  const std::string named = commission::shop_named_by(parsed.root);
  worked.shop = read_shop(named.empty() ? "shop.yaml" : named);
  commission::ReadCommission read =
      commission::read_commission(parsed.root, file, worked.shop, picks);
  expect_none(read.errors);
  worked.commission = std::move(read.commission);
  piece::BuiltPiece built = piece::build_piece(worked.commission, worked.shop);
  expect_none(built.errors);
  worked.piece = std::move(built.piece);
  worked.stock = stock::plan_stock(worked.piece, worked.shop, worked.commission.finish, 0.2);
  expect_none(worked.stock.errors);
  worked.bench = plan_bench(worked.piece, worked.stock, worked.shop, worked.commission, rules());
  return worked;
}

inline commission::Commission plain_commission(
    measure::LengthUnit unit = measure::LengthUnit::kInch) {
  commission::Commission commission;
  commission.names = document::Names{unit};
  return commission;
}

/// A rail of solid cherry lying along x.
inline piece::Part rail(const std::string& name, Length length, Length width, Length thickness) {
  piece::Part part;
  part.name = name;
  part.path = name;
  part.stock = "cherry_4_4";
  part.species = "cherry_black";
  part.body = {{}, {length, thickness, width}};
  part.finished = part.cut = part.rough = {length, width, thickness};
  return part;
}

inline piece::Joint joint(piece::JointKind kind,
                          piece::PartIndex a,
                          piece::PartIndex b,
                          Direction home) {
  piece::Joint made;
  made.kind = kind;
  made.a = a;
  made.b = b;
  made.home = home;
  made.undone = piece::comes_apart(kind);
  made.glued = !made.undone && kind != piece::JointKind::kScrew;
  return made;
}

inline Bench bench_of(const piece::Piece& piece,
                      const shop::Shop& shop = inch_shop(),
                      const commission::Commission& commission = plain_commission()) {
  return plan_bench(piece, stock::Stock{}, shop, commission, rules());
}

inline std::vector<Operation> of_standard(const Bench& bench, const std::string& standard) {
  std::vector<Operation> found;
  for (const Operation& operation : bench.operations) {
    if (operation.standard == standard) {
      found.push_back(operation);
    }
  }
  return found;
}

inline double minutes_of(const Bench& bench, const std::string& standard) {
  double minutes = 0;
  for (const Operation& operation : of_standard(bench, standard)) {
    minutes += operation.total().count();
  }
  return minutes;
}

}  // namespace plankwright::bench::testing
