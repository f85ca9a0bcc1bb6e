#pragma once
// Drawer fronts: how they stand in or before their openings, in one run of grain, with their pulls.

#include <optional>
#include <string>

#include "document/fields.h"
#include "piece/kit.h"

namespace plankwright::piece {

/// The field `front` of a bank of drawers.
document::FieldTable drawer_front_fields();

/// The choices in it, read once.
struct FrontWay {
  std::string stock, run;
  Length thickness;
  bool inset = true;
  Length reveal, gap, top_reveal, bottom_reveal, stand_off;
  std::optional<Length> overlay;
  std::string pull;
  int pulls = 1;
  const shop::BandStock* band = nullptr;
};

FrontWay read_front(const KitCall& front_call);

/// Where one front belongs.
struct FrontPlace {
  Box opening;
  std::optional<Length> rail;  // height of the rails between the drawers, when there are any
  bool highest = true;
  bool lowest = true;
};

/// The body of the front, reveals taken off.
Box front_body(const KitCall& front_call, const FrontWay& way, const FrontPlace& place);

/// Where the back of the fronts is, and the boxes begin.
Length front_back(const KitCall& call, const FrontWay& way);

/// Adds the front with bands and pulls; nothing, with a complaint, when the reveals leave nothing.
std::optional<PartIndex> add_drawer_front(const KitCall& front_call,
                                          const FrontWay& way,
                                          const FrontPlace& place,
                                          const std::string& name,
                                          const std::string& path,
                                          const std::string& where);

}  // namespace plankwright::piece
