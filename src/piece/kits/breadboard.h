#pragma once
// Breadboard ends: pieces across the ends of a solid top that keep it flat and let it move.

#include <array>
#include <vector>

#include "document/fields.h"
#include "piece/kit.h"

namespace plankwright::piece {

inline constexpr std::array kBreadboardFields = {
    document::Field{"stock", document::FieldKind::kIdentifier, "Of the end pieces (as the slab)"},
    document::Field{"width",
                    document::FieldKind::kLength,
                    "Of an end piece (three times the thickness)",
                    false,
                    {},
                    document::FieldRange::kPositive},
    document::Field{"tongue",
                    document::FieldKind::kLength,
                    "How far the slab reaches into it (a third of its width)",
                    false,
                    {},
                    document::FieldRange::kPositive},
    document::Field{"pins",
                    document::FieldKind::kCount,
                    "Through the tongue; the middle one is glued",
                    false,
                    "3"},
    document::Field{"play",
                    document::FieldKind::kLength,
                    "Room for each outer pin on both sides (half of what the slab moves in a year)",
                    false,
                    {},
                    document::FieldRange::kNotNegative}};

/// Width of an end piece on a top of this thickness; `call.fields` is read by kBreadboardFields, as
/// for the other function.
Length breadboard_width(const KitCall& call, Length thickness);

/// Adds both ends between `slab`, which stops short of them along its length, and the ends of the
/// space. The slab reaches into them with a tongue glued only in the middle.
std::vector<PartIndex> add_breadboard_ends(const KitCall& call, PartIndex slab);

}  // namespace plankwright::piece
