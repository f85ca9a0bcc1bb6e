#pragma once
// Wooden buttons: small blocks screwed under a top whose tongues ride in grooves of the rails, so
// that the top is held down and still moves.

#include <array>
#include <vector>

#include "document/fields.h"
#include "piece/kit.h"

namespace plankwright::piece {

inline constexpr std::array kButtonFields = {
    document::Field{"stock", document::FieldKind::kIdentifier, "Solid stock of the buttons", true},
    document::Field{"count",
                    document::FieldKind::kCount,
                    "How many in all, shared out over the rails by their length",
                    true,
                    {},
                    document::FieldRange::kPositive},
    document::Field{"length",
                    document::FieldKind::kLength,
                    "Over all, square to the rail, tongue included",
                    false,
                    "45 mm",
                    document::FieldRange::kPositive},
    document::Field{"width",
                    document::FieldKind::kLength,
                    "Along the rail",
                    false,
                    "30 mm",
                    document::FieldRange::kPositive},
    document::Field{"thickness",
                    document::FieldKind::kLength,
                    "From the top down",
                    false,
                    "22 mm",
                    document::FieldRange::kPositive},
    document::Field{"tongue",
                    document::FieldKind::kLength,
                    "Length of the tongue",
                    false,
                    "10 mm",
                    document::FieldRange::kPositive},
    document::Field{"tongue_thickness",
                    document::FieldKind::kLength,
                    "Of the tongue (a third of the button)",
                    false,
                    {},
                    document::FieldRange::kPositive},
    document::Field{"play",
                    document::FieldKind::kLength,
                    "How far the tongue may move out of its groove",
                    false,
                    "5 mm",
                    document::FieldRange::kNotNegative},
    document::Field{
        "screw", document::FieldKind::kIdentifier, "Fitting that holds a button to the top"}};

/// Adds the buttons that `call.fields` (read by kButtonFields) asks for under `slab`, on the inside
/// of the outermost rails that touch it from below; `slab` then stands on all that it touches
/// there. Complains when there is no such rail or no room on it.
void add_buttons(const KitCall& call, const std::vector<PartIndex>& slab);

}  // namespace plankwright::piece
