// A bank of drawers in an opening: how high each is, the rails between them, fronts, boxes,
// runners.

#include <algorithm>
#include <array>
#include <cmath>
#include <numeric>

#include <fmt/format.h>

#include "piece/kits/board.h"
#include "piece/kits/drawer_box.h"
#include "piece/kits/drawer_front.h"
#include "piece/kits/drawer_heights.h"
#include "piece/kits/drawer_runners.h"
#include "piece/kits/kits.h"
#include "piece/kits/placing.h"

namespace plankwright::piece {
namespace {

using namespace measure;  // NOLINT(google-build-using-namespace): units and axes, file scope
using document::Field;
using document::FieldKind;
using document::FieldRange;

constexpr int kMostDrawers = 40;
constexpr int kFrontScrews = 4;  // common practice, no source

constexpr std::array<std::string_view, 3> kGradings = {"equal", "arithmetic", "geometric"};
constexpr std::array<std::string_view, 4> kRailJoints = {
    "housed", "dowelled", "screwed", "loose_tenon"};

constexpr std::array kRailFields = {
    Field{"stock", FieldKind::kIdentifier, "Stock of the dividing rails", true},
    Field{"width", FieldKind::kLength, "From front to back", true, {}, FieldRange::kPositive},
    Field{"thickness",
          FieldKind::kLength,
          "Of solid rails (the most the stock finishes at)",
          false,
          {},
          FieldRange::kPositive},
    Field{.key = "joint",
          .kind = FieldKind::kWord,
          .says = "How their ends are held",
          .fallback = "housed",
          .words = kRailJoints},
    Field{"depth",
          FieldKind::kLength,
          "How deep a housing or loose tenon goes (a third of what it is let into)",
          false,
          {},
          FieldRange::kPositive}};

document::FieldTable fields() {
  static const std::vector<Field> kFields = {
      {"heights",
       FieldKind::kLengths,
       "Heights of the openings from the top down, which must fill the space with the rails",
       false,
       {},
       FieldRange::kPositive},
      {"count", FieldKind::kCount, "How many drawers, when their heights follow a rule"},
      {.key = "grading",
       .kind = FieldKind::kWord,
       .says = "Equal; arithmetic: each opening higher than the one above by `step`; geometric: "
               "`ratio` times as high",
       .fallback = "equal",
       .words = kGradings},
      {"step", FieldKind::kLength, "Of arithmetic grading", false, {}, FieldRange::kNotNegative},
      {"ratio", FieldKind::kNumber, "Of geometric grading", false, {}, FieldRange::kPositive},
      {.key = "rail",
       .kind = FieldKind::kMap,
       .says = "Rails between the drawers; without them front stands above front",
       .inner = kRailFields},
      {.key = "front",
       .kind = FieldKind::kMap,
       .says = "Drawer fronts",
       .required = true,
       .inner = drawer_front_fields()},
      {.key = "box",
       .kind = FieldKind::kMap,
       .says = "Drawer boxes",
       .required = true,
       .inner = drawer_box_fields()},
      {"runner", FieldKind::kIdentifier, "A slide pair of the shop, or `wooden`", true},
      {"runner_stock",
       FieldKind::kIdentifier,
       "Stock of wooden runners and of packing behind slides (as the boxes)"},
      {"runner_width",
       FieldKind::kLength,
       "How far a wooden runner reaches into the opening (3/4 in or 20 mm)",
       false,
       {},
       FieldRange::kPositive},
      {"runner_thickness",
       FieldKind::kLength,
       "Of wooden runners where no rail gives it, and of kickers (3/4 in or 20 mm)",
       false,
       {},
       FieldRange::kPositive}};
  return kFields;
}

// ---- Heights ------------------------------------------------------------------------------------

/// Smallest step marked on the maker's rule: what graded heights are rounded to.
Length mark_of(const KitCall& call) {
  return call.fields.unit() == LengthUnit::kInch ? 0.03125_in : 0.5_mm;
}

std::vector<Length> given_heights(const KitCall& call, Length rail) {
  if (call.fields.has("count")) {
    call.fields.complain("count", "the heights are written: leave `count` out");
  }
  std::vector<Length> heights = call.fields.lengths("heights");
  if (heights.empty() || std::ssize(heights) > kMostDrawers ||
      std::ranges::any_of(heights, [](Length h) { return h <= Length{}; })) {
    if (heights.empty() || std::ssize(heights) > kMostDrawers) {
      call.fields.complain(
          "heights",
          fmt::format("found {} heights, expected 1 to {}", heights.size(), kMostDrawers));
    }
    return {};
  }
  const Length rails = rail * (std::ssize(heights) - 1);
  const Length sum = std::accumulate(heights.begin(), heights.end(), rails);
  const Length over = sum - call.space.box.size.z;
  if (over != Length{}) {
    does_not_fit(call,
                 "heights",
                 fmt::format("these drawers{} add up to {}, but the opening is {} high: {} {}",
                             rails > Length{} ? " and their rails" : "",
                             shown(call, sum),
                             shown(call, call.space.box.size.z),
                             shown(call, over > Length{} ? over : -over),
                             over > Length{} ? "too much" : "is left over"));
    return {};
  }
  return heights;
}

/// A rule that lacks its step or ratio, or has the other's, is not what was meant.
bool rule_is_whole(const KitCall& call, const std::string& grading) {
  for (const auto& [rule, field] :
       {std::pair{std::string_view{"arithmetic"}, "step"}, {"geometric", "ratio"}}) {
    if (grading == rule && !call.fields.has(field)) {
      call.fields.complain("grading", fmt::format("{} grading needs a `{}`", rule, field));
      return false;
    }
    if (grading != rule && call.fields.has(field)) {
      call.fields.complain(field, fmt::format("`{}` belongs to {} grading", field, rule));
      return false;
    }
  }
  return true;
}

std::vector<Length> ruled_heights(const KitCall& call, Length rail) {
  const int count = call.fields.count("count");
  const std::string grading = call.fields.word("grading");
  if (count < 1 || count > kMostDrawers) {
    call.fields.complain(
        "count",
        call.fields.has("count")
            ? fmt::format("found {} drawers, expected 1 to {}", count, kMostDrawers)
            : "say the `heights` of the drawers, or their `count`");
    return {};
  }
  if (!rule_is_whole(call, grading)) {
    return {};
  }
  HeightRule rule;
  rule.count = count;
  if (grading == "arithmetic") {
    rule.grading = Grading::kArithmetic;
    rule.step = call.fields.length("step");
  } else if (grading == "geometric") {
    rule.grading = Grading::kGeometric;
    rule.ratio = call.fields.number("ratio");
  }
  const Length available = call.space.box.size.z - rail * (count - 1);
  auto heights = graded_heights(rule, available, mark_of(call));
  if (!heights.ok()) {
    does_not_fit(call,
                 "count",
                 fmt::format("{} drawers by this rule leave one of them nothing of the {} there is",
                             count,
                             shown(call, available)));
    return {};
  }
  return std::move(heights).value();
}

// ---- The bank -----------------------------------------------------------------------------------

class Bank {
 public:
  explicit Bank(const KitCall& call)
      : call_{call},
        rail_fields_{call.fields.map("rail")},
        front_fields_{call.fields.map("front")},
        box_fields_{call.fields.map("box")},
        rail_call_{rail_fields_, call.space, call.shop},
        front_call_{front_fields_, call.space, call.shop},
        box_call_{box_fields_, call.space, call.shop} {}

  void build() {
    has_rails_ = call_.fields.has("rail");
    rail_ = has_rails_ ? board_thickness(rail_call_, rail_fields_.identifier("stock")) : Length{};
    heights_ =
        call_.fields.has("heights") ? given_heights(call_, rail_) : ruled_heights(call_, rail_);
    front_ = read_front(front_call_);
    way_ = read_box_way(box_call_);
    const bool runs = read_runner(call_, way_.stock, runner_);
    if (heights_.empty() || !runs) {
      return;
    }
    place_openings();
    if (has_rails_) {
      add_rails();
    }
    for (std::size_t i = 0; i < openings_.size(); ++i) {
      add_drawer(i);
    }
  }

 private:
  void place_openings() {
    Length top = call_.space.box.end(Axis::kZ);
    for (const Length height : heights_) {
      Box opening = call_.space.box;
      opening.at.z = top - height;
      opening.size.z = height;
      openings_.push_back(opening);
      top = opening.at.z - rail_;
    }
  }

  // ---- Rails

  void add_rails() {
    const Length width = rail_fields_.length("width");
    if (width > call_.space.box.size.y) {
      does_not_fit(rail_call_,
                   "width",
                   fmt::format("rails {} from front to back do not fit in an opening {} deep",
                               shown(call_, width),
                               shown(call_, call_.space.box.size.y)));
      return;
    }
    for (std::size_t i = 0; i + 1 < openings_.size(); ++i) {
      Box body = call_.space.box;
      body.at.z = openings_[i].at.z - rail_;
      body.size.z = rail_;
      body.size.y = width;
      const PartIndex rail = add_part(rail_call_,
                                      {.name = "drawer rail",
                                       .path = fmt::format("rail_{}", i + 1),
                                       .stock = rail_fields_.identifier("stock"),
                                       .body = body,
                                       .length = Axis::kX,
                                       .thickness = Axis::kZ,
                                       .show_faces = {kToFront}});
      rails_.push_back(rail);
      join_rail(rail);
    }
  }

  void join_rail(PartIndex rail) {
    const std::string way = rail_fields_.word("joint");
    const JointKind kind = way == "dowelled"      ? JointKind::kDowel
                           : way == "screwed"     ? JointKind::kScrew
                           : way == "loose_tenon" ? JointKind::kLooseTenon
                                                  : JointKind::kHousing;
    const bool deep = kind == JointKind::kHousing || kind == JointKind::kLooseTenon;
    for (const Direction out : {kToLeft, kToRight}) {
      const std::vector<PartIndex> posts = touching(call_, rail, out);
      if (posts.empty()) {
        does_not_fit(rail_call_,
                     "stock",
                     fmt::format("there is nothing at the {} of this opening to hold its rails",
                                 out.sign < 0 ? "left" : "right"));
      }
      for (const PartIndex post : posts) {
        const Length third = call_.shop.piece.parts[post].body.size.x / 3;
        const Length depth = rail_fields_.optional_length("depth").value_or(third);
        add_joint(rail_call_,
                  kind,
                  rail,
                  post,
                  out,
                  deep ? depth : Length{},
                  kind == JointKind::kHousing ? 1 : 2);
      }
    }
  }

  // ---- One drawer

  /// "" when all drawers are alike, else the place of the first drawer as high as this one, so that
  /// like parts have like names.
  std::string number(std::size_t i) const {
    const bool alike = std::ranges::all_of(heights_, [&](Length h) { return h == heights_[0]; });
    const auto first = std::ranges::find(heights_, heights_[i]) - heights_.begin();
    return alike ? "" : fmt::format(" {}", first + 1);
  }

  /// Fronts of one run are not alike, however high they are.
  std::string front_number(std::size_t i) const {
    return front_.run.empty() || heights_.size() == 1 ? number(i) : fmt::format(" {}", i + 1);
  }

  FrontPlace front_place(std::size_t i) const {
    return {openings_[i], has_rails_ ? std::optional{rail_} : std::nullopt, i == 0, is_lowest(i)};
  }

  bool is_lowest(std::size_t i) const { return i + 1 == openings_.size(); }

  PartIndex rail_below(std::size_t i) const { return i < rails_.size() ? rails_[i] : Space::kNone; }

  /// The part that carries a box of this footprint all by itself, if there is one.
  PartIndex carrier(std::size_t i, const Box& outer) const {
    const PartIndex below = is_lowest(i) ? call_.space.below : rail_below(i);
    if (below == Space::kNone) {
      return Space::kNone;
    }
    const Box& body = call_.shop.piece.parts[below].body;
    const bool carries = same_place(body.end(Axis::kZ), openings_[i].at.z) &&
                         body.at.y <= outer.at.y && body.end(Axis::kY) >= outer.end(Axis::kY) &&
                         body.at.x <= outer.at.x && body.end(Axis::kX) >= outer.end(Axis::kX);
    return carries ? below : Space::kNone;
  }

  Length box_length() const {
    const Length room = call_.space.box.end(Axis::kY) - front_back(call_, front_);
    if (!runner_.wooden) {
      return runner_.length;
    }
    // Room behind a drawer on wooden runners (common practice, no source).
    return box_fields_.optional_length("length").value_or(room - usual(call_, 0.25_in, 6_mm));
  }

  bool box_length_fits(Length length) const {
    const Length room = call_.space.box.end(Axis::kY) - front_back(call_, front_);
    if (!runner_.wooden && box_fields_.has("length")) {
      box_fields_.complain("length", "a box on slides is as long as they are: leave `length` out");
    }
    if (length <= room && length > Length{}) {
      return true;
    }
    does_not_fit(runner_.wooden && box_fields_.has("length") ? box_call_ : call_,
                 runner_.wooden && box_fields_.has("length") ? "length" : "runner",
                 fmt::format("the drawer box is {} long, but there is only {} behind its front",
                             shown(call_, length),
                             shown(call_, room)));
    return false;
  }

  /// How much lower a box is than its opening; `takes` is what its runner takes of it.
  Length height_less(Length takes) const {
    const std::optional<Length> written = box_fields_.optional_length("height_less");
    if (written && *written < runner_.height_less && !runner_.wooden) {
      does_not_fit(box_call_,
                   "height_less",
                   fmt::format("these slides need {} of the height of the opening, found {}",
                               shown(call_, runner_.height_less),
                               shown(call_, *written)));
    }
    return written.value_or(runner_.height_less + takes);
  }

  /// Outer size of the box, with the runner it stands on where nothing else carries it.
  std::optional<Box> place_box(std::size_t i, OnRunner& drawer) const {
    const Box& opening = openings_[i];
    Box outer = opening;
    outer.at.x += runner_.width_less / 2;
    outer.size.x -= runner_.width_less;
    outer.at.y = front_back(call_, front_);
    outer.size.y = box_length();
    if (!box_length_fits(outer.size.y)) {
      return std::nullopt;
    }
    drawer.rail = rail_below(i);
    drawer.below = carrier(i, outer);
    const Length takes = runner_takes(runner_, drawer);
    const Length less = height_less(takes);
    outer.size.z -= less;
    if (way_.height_step > Length{}) {
      outer.size.z = way_.height_step * (outer.size.z.nm() / way_.height_step.nm());
    }
    outer.at.z += runner_.wooden ? takes : (opening.size.z - outer.size.z) / 2;
    if (outer.empty() || outer.end(Axis::kZ) >= opening.end(Axis::kZ)) {
      does_not_fit(
          box_call_,
          "height_less",
          fmt::format(
              "a box {} lower than its opening of {}{} has no room",
              shown(call_, less),
              shown(call_, opening.size.z),
              takes > Length{} ? fmt::format(" on a runner of {}", shown(call_, takes)) : ""));
      return std::nullopt;
    }
    return outer;
  }

  void add_drawer(std::size_t i) {
    OnRunner drawer;
    drawer.opening = openings_[i];
    drawer.path = fmt::format("drawer_{}", i + 1);
    drawer.where =
        fmt::format("{}drawer {}", call_.space.name.empty() ? "" : call_.space.name + " ", i + 1);
    const auto front = add_drawer_front(front_call_,
                                        front_,
                                        front_place(i),
                                        "drawer front" + front_number(i),
                                        drawer.path,
                                        drawer.where);
    const auto outer = place_box(i, drawer);
    if (!front || !outer) {
      return;
    }
    drawer.outer = *outer;
    const DrawerBox box =
        add_drawer_box(box_call_, way_, *outer, number(i), drawer.path, drawer.where);
    if (box.parts.empty()) {
      return;
    }
    add_joint(call_, JointKind::kScrew, box.front, *front, kToFront, {}, kFrontScrews);
    for (const PartIndex part : box.parts) {
      let_meet_neighbours(call_, part, {kToFront});  // ends of sides that run through
    }
    run_drawer(call_, runner_, drawer, box);
    register_drawer(drawer, *front, box);
  }

  void register_drawer(const OnRunner& drawer, PartIndex front, const DrawerBox& box) {
    Drawer moving;
    moving.path = call_.space.name.empty() ? drawer.path : call_.space.name + "." + drawer.path;
    moving.parts = {front};
    moving.parts.insert(moving.parts.end(), box.parts.begin(), box.parts.end());
    moving.inside = box.inside;
    // A third stays in the case on wooden runners (from memory: common practice, a third to a
    // half).
    moving.travel = runner_.wooden ? drawer.outer.size.y * 2 / 3 : runner_.travel;
    moving.bought = way_.bought;
    call_.shop.piece.drawers.push_back(std::move(moving));
  }

  const KitCall& call_;
  document::Fields rail_fields_, front_fields_, box_fields_;
  KitCall rail_call_, front_call_, box_call_;
  bool has_rails_ = false;
  Length rail_;
  std::vector<Length> heights_;
  std::vector<Box> openings_;
  std::vector<PartIndex> rails_;
  FrontWay front_;
  BoxWay way_;
  Runner runner_;
};

void build(const KitCall& call) {
  Bank{call}.build();
}

}  // namespace

const Kit& drawer_bank_kit() {
  static const Kit kKit = {
      "drawer_bank", "Drawers above each other, with the rails between them", fields(), build};
  return kKit;
}

}  // namespace plankwright::piece
