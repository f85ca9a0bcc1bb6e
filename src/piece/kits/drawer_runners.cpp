#include "piece/kits/drawer_runners.h"

#include <algorithm>
#include <optional>

#include <fmt/format.h>

#include "base/nearest.h"
#include "piece/kits/board.h"
#include "piece/kits/placing.h"

namespace plankwright::piece {
namespace {

using namespace measure;  // NOLINT(google-build-using-namespace): units and axes, file scope

constexpr std::string_view kWooden = "wooden";

// Wooden runners (common practice, no source): play from side to side and above the box; a kicker
// thinner than this is no use, and what stands above does its work.
Length play_of(const KitCall& call) {
  return usual(call, 0.0625_in, 1.5_mm);
}
Length thinnest_kicker(const KitCall& call) {
  return usual(call, 0.25_in, 6_mm);
}
// Packing behind a slide (common practice, no source).
Length packing_height(const KitCall& call) {
  return usual(call, 2_in, 50_mm);
}
constexpr Length kScrewSpacing = 200_mm;

/// One of the two sides an opening is bounded on.
struct Flank {
  Direction out;
  PartIndex post;
};

std::array<Flank, 2> flanks(const KitCall& call) {
  return {{{kToLeft, call.space.left}, {kToRight, call.space.right}}};
}

/// Inner face of what bounds the opening at this side.
Length face_of(const KitCall& call, const Flank& flank) {
  const Box& body = call.shop.piece.parts[flank.post].body;
  return flank.out.sign < 0 ? body.end(Axis::kX) : body.at.x;
}

/// How far that face stands back behind the side of the opening.
Length set_back(const KitCall& call, const Flank& flank, const Box& opening) {
  const Length side = flank.out.sign < 0 ? opening.at.x : opening.end(Axis::kX);
  return (face_of(call, flank) - side) * flank.out.sign;
}

/// Cuts the strip short of parts that stand in its way in front or behind.
Box clear_of_others(const KitCall& call, Box strip) {
  const Length middle = strip.centre().y;
  for (const Part& part : call.shop.piece.parts) {
    if (intersection(part.body, strip).empty()) {
      continue;
    }
    const Length end = strip.end(Axis::kY);
    if (part.body.centre().y < middle) {
      strip.at.y = part.body.end(Axis::kY) + play_of(call);
      strip.size.y = end - strip.at.y;
    } else {
      strip.size.y = part.body.at.y - play_of(call) - strip.at.y;
    }
  }
  return strip;
}

struct Strip {
  std::string name, path;
  Length bottom, height;
  Length front, back;
  Length over;  // how far it reaches into the opening
};

/// A strip along the side of the opening, screwed to what bounds it.
std::optional<PartIndex> add_strip(const KitCall& call,
                                   const Runner& runner,
                                   const Flank& flank,
                                   const Box& opening,
                                   const Strip& strip) {
  const Length face = face_of(call, flank);
  const Length side = flank.out.sign < 0 ? opening.at.x : opening.end(Axis::kX);
  const Length inner = side - strip.over * flank.out.sign;
  const Box body =
      clear_of_others(call,
                      between({std::min(face, inner), strip.front, strip.bottom},
                              {std::max(face, inner), strip.back, strip.bottom + strip.height}));
  const bool flat = body.size.z <= body.size.x;
  const PartIndex part = add_part(call,
                                  {.name = strip.name,
                                   .path = strip.path + (flank.out.sign < 0 ? "_left" : "_right"),
                                   .stock = runner.stock,
                                   .body = body,
                                   .length = Axis::kY,
                                   .thickness = flat ? Axis::kZ : Axis::kX},
                                  call.fields.has("runner_stock") ? "runner_stock" : "runner");
  if (body.empty()) {
    return std::nullopt;
  }
  for (const PartIndex post : touching(call, part, flank.out)) {
    add_joint(call,
              JointKind::kScrew,
              part,
              post,
              flank.out,
              {},
              fixings_along(body.size.y, kScrewSpacing));
  }
  return part;
}

bool bounded_on_both_sides(const KitCall& call) {
  for (const Flank& flank : flanks(call)) {
    if (flank.post == Space::kNone) {
      does_not_fit(call,
                   "runner",
                   fmt::format("there is nothing at the {} of this opening to hold a drawer",
                               flank.out.sign < 0 ? "left" : "right"));
      return false;
    }
  }
  return true;
}

void hang_on_slides(const KitCall& call,
                    const Runner& runner,
                    const OnRunner& drawer,
                    const DrawerBox& box) {
  for (const Flank& flank : flanks(call)) {
    PartIndex holds = flank.post;
    if (set_back(call, flank, drawer.opening) > 1_mm) {
      const auto packing = add_strip(call,
                                     runner,
                                     flank,
                                     drawer.opening,
                                     {"slide packing",
                                      drawer.path + ".packing",
                                      drawer.opening.at.z,
                                      std::min(packing_height(call), drawer.opening.size.z),
                                      drawer.outer.at.y,
                                      drawer.outer.end(Axis::kY),
                                      {}});
      if (packing) {
        let_meet_neighbours(call, *packing, {kToFront, kToBack, kDown, kUp});
        holds = *packing;
      }
    }
    const PartIndex side = flank.out.sign < 0 ? box.left : box.right;
    add_joint(call, JointKind::kSlide, side, holds, flank.out).hardware = runner.id;
  }
  add_hardware(call, runner.id, 1, drawer.where, {box.left, box.right}, "runner");
}

/// Runners beside each other under the sides of the box: behind the rail, or on the floor of an
/// opening that nothing bounds below.
void add_runners(const KitCall& call, const Runner& runner, const OnRunner& drawer) {
  const bool on_rail = drawer.rail != Space::kNone;
  Strip strip = {"drawer runner",
                 drawer.path + ".runner",
                 drawer.opening.at.z,
                 runner.strip_thickness,
                 drawer.outer.at.y,
                 call.space.box.end(Axis::kY) - play_of(call),
                 runner.strip};
  if (on_rail) {
    const Box& rail = call.shop.piece.parts[drawer.rail].body;
    strip.bottom = rail.at.z;
    strip.height = rail.size.z;
    strip.front = rail.end(Axis::kY);
  } else {
    strip.front += play_of(call);
  }
  for (const Flank& flank : flanks(call)) {
    if (const auto part = add_strip(call, runner, flank, drawer.opening, strip)) {
      let_meet_neighbours(call, *part, {kToFront, kToBack, kDown});
    }
  }
}

/// Strips just above the sides of the box keep it from tipping when it is pulled out.
void add_kickers(const KitCall& call, const Runner& runner, const OnRunner& drawer) {
  const Length bottom = drawer.outer.end(Axis::kZ) + play_of(call);
  const Length room = drawer.opening.end(Axis::kZ) - play_of(call) - bottom;
  const Length height = std::min(room, runner.strip_thickness);
  if (height < thinnest_kicker(call)) {
    return;
  }
  for (const Flank& flank : flanks(call)) {
    const auto part = add_strip(call,
                                runner,
                                flank,
                                drawer.opening,
                                {"drawer kicker",
                                 drawer.path + ".kicker",
                                 bottom,
                                 height,
                                 drawer.outer.at.y + play_of(call),
                                 call.space.box.end(Axis::kY) - play_of(call),
                                 runner.strip});
    if (part) {
      let_meet_neighbours(call, *part, {kToFront, kToBack});
    }
  }
}

void run_on_wood(const KitCall& call,
                 const Runner& runner,
                 const OnRunner& drawer,
                 const DrawerBox& box) {
  if (drawer.below == Space::kNone) {
    add_runners(call, runner, drawer);
  }
  add_kickers(call, runner, drawer);
  for (const PartIndex side : {box.left, box.right}) {
    const std::vector<PartIndex> carried_by = touching(call, side, kDown);
    if (carried_by.empty()) {
      does_not_fit(
          call, "runner", "the drawer box does not lie on its runners: too short or too narrow");
    }
    for (const PartIndex runs_on : carried_by) {
      add_joint(call, JointKind::kSlide, side, runs_on, kDown);
    }
  }
  for (const PartIndex part : box.parts) {
    let_meet_neighbours(call, part, {kDown});
  }
}

bool read_slides(const KitCall& call, Runner& runner) {
  const std::string what = fmt::format("a slide pair or `{}`", kWooden);
  const shop::Hardware* slides = fitting_of_kind(call, runner.id, {"slide_pair"}, what, "runner");
  if (slides == nullptr) {
    return false;
  }
  for (const std::string_view size : {"width_less", "length", "height_less"}) {
    if (!slides->sizes.contains(size)) {
      call.fields.complain(
          "runner", fmt::format("the shop's list does not say `{}` of {}", size, slides->name));
      return false;
    }
  }
  runner.width_less = size_of(*slides, "width_less", {});
  runner.length = size_of(*slides, "length", {});
  runner.height_less = size_of(*slides, "height_less", {});
  runner.travel = size_of(*slides, "travel", runner.length);
  return true;
}

}  // namespace

bool read_runner(const KitCall& call, const std::string& fallback_stock, Runner& runner) {
  runner.id = call.fields.identifier("runner");
  runner.stock = call.fields.identifier("runner_stock");
  if (runner.stock.empty()) {
    runner.stock = fallback_stock;
  }
  const Length strip = usual(call, 0.75_in, 20_mm);
  runner.strip = call.fields.optional_length("runner_width").value_or(strip);
  runner.strip_thickness = call.fields.optional_length("runner_thickness").value_or(strip);
  runner.wooden = runner.id == kWooden;
  if (!bounded_on_both_sides(call)) {
    return false;
  }
  if (runner.wooden) {
    if (runner.stock.empty()) {
      call.fields.complain("runner_stock", "`runner_stock` is missing: stock of wooden runners");
    }
    runner.width_less = play_of(call);
    runner.height_less = 2 * play_of(call);
    return true;
  }
  return read_slides(call, runner);
}

Length runner_takes(const Runner& runner, const OnRunner& drawer) {
  const bool carried = drawer.rail != Space::kNone || drawer.below != Space::kNone;
  return runner.wooden && !carried ? runner.strip_thickness : Length{};
}

void run_drawer(const KitCall& call,
                const Runner& runner,
                const OnRunner& drawer,
                const DrawerBox& box) {
  if (runner.wooden) {
    run_on_wood(call, runner, drawer, box);
  } else {
    hang_on_slides(call, runner, drawer, box);
  }
}

}  // namespace plankwright::piece
