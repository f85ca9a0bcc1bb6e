#pragma once
// The back of a case: in rabbets of the sides, in grooves all round, or planted on the rear edges.

#include <array>
#include <string>
#include <string_view>
#include <vector>

#include "document/fields.h"
#include "piece/kit.h"

namespace plankwright::piece {

inline constexpr std::array<std::string_view, 3> kBackWays = {"rabbet", "groove", "none"};
inline constexpr std::array<std::string_view, 3> kBackGrains = {"as_it_fits", "across", "up"};

inline constexpr std::array kCaseBackFields = {
    document::Field{
        "stock", document::FieldKind::kIdentifier, "Sheet or solid stock of the back", true},
    document::Field{
        .key = "way",
        .kind = document::FieldKind::kWord,
        .says = "How it stands in the case: in rabbets of the sides, in grooves all round, or "
                "planted on "
                "the rear edges",
        .fallback = "rabbet",
        .words = kBackWays},
    document::Field{"thickness",
                    document::FieldKind::kLength,
                    "Of a solid back (the most the stock finishes at)",
                    false,
                    {},
                    document::FieldRange::kPositive},
    document::Field{"depth",
                    document::FieldKind::kLength,
                    "How far it reaches into the sides, in a groove also into bottom and top",
                    false,
                    "1/4 in",
                    document::FieldRange::kNotNegative},
    document::Field{"inset",
                    document::FieldKind::kLength,
                    "From the rear edges to a back in a groove",
                    false,
                    "0",
                    document::FieldRange::kNotNegative},
    document::Field{"play",
                    document::FieldKind::kLength,
                    "Room left at each edge in the groove or rabbet",
                    false,
                    "0",
                    document::FieldRange::kNotNegative},
    document::Field{
        .key = "grain",
        .kind = document::FieldKind::kWord,
        .says =
            "Which way its grain runs; as it fits: across the case unless the sheet is too narrow",
        .fallback = "as_it_fits",
        .words = kBackGrains}};

struct CaseBack {
  bool fitted = false;
  std::string way = "none";  // one of kBackWays
  std::string stock;
  Length thickness;
  Length depth;  // into the sides
  Length inset;  // from the rear edges
  Length play;   // at each edge
};

/// Reads the map `back`; `call.fields` is read by kCaseBackFields.
CaseBack read_case_back(const KitCall& call);

/// Adds the back and ties it to every one of `boards` that it meets: let in where they meet at its
/// edge, screwed where it lies against them, screws at most `spacing` apart.
PartIndex add_case_back(const KitCall& call,
                        const CaseBack& back,
                        const Box& body,
                        const std::vector<PartIndex>& boards,
                        Length spacing);

}  // namespace plankwright::piece
