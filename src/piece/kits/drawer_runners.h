#pragma once
// What drawers run on: slides with the deductions of their maker, or wooden runners and kickers.

#include <string>
#include <string_view>

#include "document/fields.h"
#include "piece/kit.h"
#include "piece/kits/drawer_box.h"

namespace plankwright::piece {

/// What the runner of a bank asks of its boxes.
struct Runner {
  bool wooden = false;
  std::string id;      // of the slide pair
  Length width_less;   // the box is so much narrower than its opening
  Length height_less;  // and so much lower, at least
  Length length;       // of slide and box; zero when wooden
  Length travel;       // zero when wooden
  std::string stock;   // of wooden runners, and of packing behind slides
  Length strip;        // width of a runner under a drawer side
  Length strip_thickness;
};

/// Reads the fields `runner`, `runner_stock`, `runner_width` and `runner_thickness`.
/// `fallback_stock` is taken for strips when nothing is written. False, with a complaint, when the
/// shop has no such slides or its list lacks their deductions.
bool read_runner(const KitCall& call, const std::string& fallback_stock, Runner& runner);

/// One drawer as its runner sees it.
struct OnRunner {
  Box opening;
  Box outer;                       // of the box
  PartIndex rail = Space::kNone;   // dividing rail below, if any
  PartIndex below = Space::kNone;  // what carries the box without a runner, if anything
  std::string path, where;
};

/// Room a wooden runner takes from the height of its opening: none when a rail or a bottom carries
/// the drawer.
Length runner_takes(const Runner& runner, const OnRunner& drawer);

/// Holds the box: a slide pair, with packing where what bounds the opening stands back; or runners,
/// kickers, and joints to all that the box rests on.
void run_drawer(const KitCall& call,
                const Runner& runner,
                const OnRunner& drawer,
                const DrawerBox& box);

}  // namespace plankwright::piece
