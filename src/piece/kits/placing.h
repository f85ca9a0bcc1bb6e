#pragma once
// Small things the kits have in common: boxes from their corners, sizes in messages, fittings of
// the right kind.

#include <initializer_list>
#include <string>
#include <string_view>
#include <vector>

#include "piece/kit.h"

namespace plankwright::piece {

/// The box between two corners. A size is negative when `high` is below `low`.
Box between(Point low, Point high);

/// A size as messages show it: `3/8 in`, in the document's unit.
std::string shown(const KitCall& call, Length size);

/// A size that is usual in the unit of the document, so that neither shop is given odd figures.
Length usual(const KitCall& call, Length in_inches, Length in_millimetres);

/// Adds an error of the kind "does not fit" at `field`.
void does_not_fit(const KitCall& call, std::string_view field, std::string message);

/// The fitting `id`, when the shop has it and its kind is one of `kinds`. Complains at `field`
/// otherwise, naming `what` was expected and the nearest fitting of these kinds; nullptr without a
/// complaint when `id` is empty.
const shop::Hardware* fitting_of_kind(const KitCall& call,
                                      std::string_view id,
                                      std::initializer_list<std::string_view> kinds,
                                      std::string_view what,
                                      std::string_view field);

/// The edge band written under `field`, or nullptr; complains when the shop has none of that id.
const shop::BandStock* band_of(const KitCall& call, std::string_view field);

/// A size of a fitting from the shop's list, or `usual` when the list does not say.
Length size_of(const shop::Hardware& fitting, std::string_view size, Length usual);

/// The name of the run of grain written under `field`: none for `no`, `own` for `yes`, else the
/// name itself, which kits in several spaces may share.
std::string run_of(const KitCall& call, std::string_view field, const std::string& own);

/// Makes the part the next of the run; an empty name changes nothing.
void put_in_run(Piece& piece, PartIndex part, const std::string& run);

/// Screws pulls `id` on a front whose face looks at the user, with their holes: one for a knob, two
/// along `bar` for a bar. Complains at `pull` when the shop has none or the front is too small.
void add_pulls(const KitCall& call,
               std::string_view id,
               PartIndex front,
               const std::vector<Point>& centres,
               Axis bar,
               const std::string& where);

}  // namespace plankwright::piece
