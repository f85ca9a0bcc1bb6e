#include "shop/stock_fields.h"

namespace plankwright::shop {
namespace {

using document::Field;
using document::FieldKind;
using document::FieldRange;

constexpr std::string_view kCuts[] = {"flat_sawn", "quarter_sawn", "rift_sawn"};
constexpr std::string_view kSoldBy[] = {"board_foot", "cubic_metre"};

constexpr Field kSolid[] = {
    {.key = "name", .kind = FieldKind::kText, .says = "What it is called on the papers"},
    {.key = "species", .kind = FieldKind::kIdentifier, .says = "Wood, an id of the table of woods"},
    {.key = "cut_kind",
     .kind = FieldKind::kWord,
     .says = "How the boards are sawn",
     .words = kCuts},
    {.key = "quarters",
     .kind = FieldKind::kCount,
     .says = "Nominal rough thickness in quarters of an inch",
     .range = FieldRange::kPositive},
    {.key = "rough_thickness",
     .kind = FieldKind::kLength,
     .says = "Rough thickness where it is not that of the quarters",
     .range = FieldRange::kPositive},
    {.key = "surfaced",
     .kind = FieldKind::kLength,
     .says = "Thickest finished part it gives",
     .range = FieldRange::kPositive},
    {.key = "grade", .kind = FieldKind::kText, .says = "Grade asked for"},
    {.key = "price",
     .kind = FieldKind::kMoney,
     .says = "Price of one unit sold",
     .range = FieldRange::kPositive},
    {.key = "sold_by", .kind = FieldKind::kWord, .says = "Unit it is sold by", .words = kSoldBy},
    {.key = "least",
     .kind = FieldKind::kNumber,
     .says = "Smallest quantity sold",
     .range = FieldRange::kNotNegative},
    {.key = "step",
     .kind = FieldKind::kNumber,
     .says = "It is sold in whole multiples of this",
     .range = FieldRange::kNotNegative},
    {.key = "board_width",
     .kind = FieldKind::kLength,
     .says = "Width of a usual board",
     .range = FieldRange::kPositive},
    {.key = "board_length",
     .kind = FieldKind::kLength,
     .says = "Length of a usual board",
     .range = FieldRange::kPositive},
    {.key = "buy_factor",
     .kind = FieldKind::kNumber,
     .says = "Bought for each foot laid out rough: grade loss, colour, a spare",
     .range = FieldRange::kPositive},
    {.key = "supplier", .kind = FieldKind::kText, .says = "Who sells it"},
    {.key = "lead_days", .kind = FieldKind::kCount, .says = "Working days from order to arrival"}};

constexpr Field kSheet[] = {
    {.key = "name", .kind = FieldKind::kText, .says = "What it is called on the papers"},
    {.key = "panel",
     .kind = FieldKind::kIdentifier,
     .says = "Kind of sheet, an id of the table of sheets"},
    {.key = "face_species",
     .kind = FieldKind::kIdentifier,
     .says = "Wood of the face, an id of the table of woods; not written for plain board"},
    {.key = "thickness",
     .kind = FieldKind::kLength,
     .says = "Thickness as measured",
     .range = FieldRange::kPositive},
    {.key = "length",
     .kind = FieldKind::kLength,
     .says = "Length, along which the face grain runs",
     .range = FieldRange::kPositive},
    {.key = "width", .kind = FieldKind::kLength, .says = "Width", .range = FieldRange::kPositive},
    {.key = "price",
     .kind = FieldKind::kMoney,
     .says = "Price of a sheet",
     .range = FieldRange::kPositive},
    {.key = "smallest_share",
     .kind = FieldKind::kNumber,
     .says = "Smallest share of a sheet that is sold: 0.5 for half sheets",
     .range = FieldRange::kPositive},
    {.key = "grain", .kind = FieldKind::kYesNo, .says = "Whether parts must lie along the grain"},
    {.key = "supplier", .kind = FieldKind::kText, .says = "Who sells it"},
    {.key = "lead_days", .kind = FieldKind::kCount, .says = "Working days from order to arrival"}};

constexpr Field kSoldLength[] = {{.key = "length",
                                  .kind = FieldKind::kLength,
                                  .says = "A length it is sold in",
                                  .required = true,
                                  .range = FieldRange::kPositive},
                                 {.key = "price",
                                  .kind = FieldKind::kMoney,
                                  .says = "Price of one of them",
                                  .required = true,
                                  .range = FieldRange::kPositive}};

constexpr Field kBar[] = {
    {.key = "name", .kind = FieldKind::kText, .says = "What it is called on the papers"},
    {.key = "species",
     .kind = FieldKind::kIdentifier,
     .says = "Wood, an id of the table of woods; not written for metal and plastic"},
    {.key = "cut_kind", .kind = FieldKind::kWord, .says = "How the wood is sawn", .words = kCuts},
    {.key = "width",
     .kind = FieldKind::kLength,
     .says = "Larger side of the section, as measured",
     .range = FieldRange::kPositive},
    {.key = "thickness",
     .kind = FieldKind::kLength,
     .says = "Smaller side of the section, as measured",
     .range = FieldRange::kPositive},
    {.key = "lengths",
     .kind = FieldKind::kMaps,
     .says = "Lengths it is sold in, each with its price",
     .inner = kSoldLength},
    {.key = "end_trim",
     .kind = FieldKind::kLength,
     .says = "Taken off each end of a new bar before the first part",
     .range = FieldRange::kNotNegative},
    {.key = "kg_per_metre",
     .kind = FieldKind::kNumber,
     .says = "Mass of a metre, where it is not of wood",
     .range = FieldRange::kPositive},
    {.key = "supplier", .kind = FieldKind::kText, .says = "Who sells it"},
    {.key = "lead_days", .kind = FieldKind::kCount, .says = "Working days from order to arrival"}};

constexpr Field kBand[] = {
    {.key = "name", .kind = FieldKind::kText, .says = "What it is called on the papers"},
    {.key = "thickness",
     .kind = FieldKind::kLength,
     .says = "Thickness",
     .range = FieldRange::kPositive},
    {.key = "width", .kind = FieldKind::kLength, .says = "Width", .range = FieldRange::kPositive},
    {.key = "price_per_metre",
     .kind = FieldKind::kMoney,
     .says = "Price of a metre",
     .range = FieldRange::kPositive},
    {.key = "roll",
     .kind = FieldKind::kLength,
     .says = "Length of a roll, where it is sold by the roll",
     .range = FieldRange::kPositive},
    {.key = "strips",
     .kind = FieldKind::kMaps,
     .says = "Lengths it is sold in, each with its price, where it comes in strips",
     .inner = kSoldLength},
    {.key = "supplier", .kind = FieldKind::kText, .says = "Who sells it"},
    {.key = "lead_days", .kind = FieldKind::kCount, .says = "Working days from order to arrival"}};

}  // namespace

document::FieldTable solid_fields() {
  return kSolid;
}

document::FieldTable sheet_fields() {
  return kSheet;
}

document::FieldTable bar_fields() {
  return kBar;
}

document::FieldTable band_fields() {
  return kBand;
}

}  // namespace plankwright::shop
