#pragma once
// What may go wrong with the piece, found before the first cut.

#include <string>
#include <vector>

#include "commission/commission.h"
#include "measure/length.h"
#include "piece/piece.h"
#include "shop/shop.h"
#include "wood/reference.h"

namespace plankwright::checks {

/// Worst first: someone can be hurt; it will fail; it will disappoint; worth knowing.
enum class Severity { kDanger, kFails, kPoor, kNote };

/// Another value of something written that may end a finding. What else it changes only a plan with
/// it shows.
struct Mend {
  base::Position from;              // where that stands, of which it is one value
  std::vector<std::string> fields;  // keys from there on, any of them: "nosing/height"
  measure::Length was;              // what it comes to now, when it is written as it is
  measure::Length to;
  std::string says;  // "rail 68 mm high"
};

/// One finding. Figures are printed in the document's unit; `value` and `limit_value` carry them
/// for pictures (mm, or a plain ratio, as `unit` says).
struct Finding {
  std::string id;    // "sag.upper.left.shelf_1": stable, to be dismissed by
  std::string kind;  // "sag", "movement", "tip_over", "passage", "ergonomics", "contact", "sheet",
                     // "machine", "edge", "weight", "joint", "run_out", "strip"
  Severity severity = Severity::kNote;
  std::string title;   // "Shelf sags under binders"
  std::string figure;  // "4.0 mm now, 5.9 mm in time"
  std::string limit;   // "1.4 mm (span / 600)"
  std::string source;  // document and mark
  std::string remedy;  // "a nosing 22 x 38 brings it to 1.1 mm"
  std::vector<Mend> mends;
  std::vector<piece::PartIndex> parts;
  double value = 0;
  double limit_value = 0;
  std::string unit;
  base::Position from;    // line of the document that made it so
  std::string dismissed;  // the maker's reason, or ""
};

struct Findings {
  std::vector<Finding> open;  // worst first
  std::vector<Finding> dismissed;
  base::Errors errors;  // a dismissal that matches nothing
};

/// Runs every check. Like findings on like parts are one finding that names them all.
Findings check_piece(const piece::Piece& piece,
                     const commission::Commission& commission,
                     const shop::Shop& shop,
                     const wood::Reference& reference);

std::string_view word(Severity severity);

}  // namespace plankwright::checks
