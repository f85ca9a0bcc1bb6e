// A part placed by hand, for what no kit makes.

#include <algorithm>
#include <array>

#include <fmt/format.h>

#include "base/nearest.h"
#include "piece/kits/board.h"
#include "piece/kits/kits.h"
#include "piece/kits/placing.h"

namespace plankwright::piece {
namespace {

using document::Field;
using document::FieldKind;
using document::FieldRange;

constexpr int kMostRepeats = 500;
constexpr std::array kAxes = {Axis::kX, Axis::kY, Axis::kZ};

constexpr std::array<std::string_view, 3> kAxisWords = {"x", "y", "z"};

constexpr std::array<std::pair<std::string_view, JointKind>, 18> kKinds = {
    std::pair{"housing", JointKind::kHousing},
    {"rabbet", JointKind::kRabbet},
    {"groove", JointKind::kGroove},
    {"mortise_and_tenon", JointKind::kMortiseTenon},
    {"loose_tenon", JointKind::kLooseTenon},
    {"stub_tenon", JointKind::kStubTenon},
    {"dovetail", JointKind::kDovetail},
    {"dowel", JointKind::kDowel},
    {"biscuit", JointKind::kBiscuit},
    {"pocket_screw", JointKind::kPocketScrew},
    {"screw", JointKind::kScrew},
    {"edge_glue", JointKind::kEdgeGlue},
    {"face_glue", JointKind::kFaceGlue},
    {"halving", JointKind::kHalving},
    {"button", JointKind::kButton},
    {"clip", JointKind::kClip},
    {"bolt", JointKind::kBolt},
    {"stands", JointKind::kStands}};

constexpr std::array<std::string_view, kKinds.size()> kKindWords = [] {
  std::array<std::string_view, kKinds.size()> words;
  std::ranges::transform(kKinds, words.begin(), [](const auto& kind) { return kind.first; });
  return words;
}();

constexpr std::array kJointFields = {
    Field{"to",
          FieldKind::kText,
          "Path of the other part, as in the parts list: `case.side_left`",
          true},
    Field{.key = "kind",
          .kind = FieldKind::kWord,
          .says = "How the two are held",
          .required = true,
          .words = kKindWords},
    Field{"depth",
          FieldKind::kLength,
          "How far this part reaches into the other",
          false,
          "0",
          FieldRange::kNotNegative},
    Field{"count", FieldKind::kCount, "Dowels, screws, tenons", false, "1", FieldRange::kPositive},
    Field{"fitting", FieldKind::kIdentifier, "Fitting of the shop that does it"}};

constexpr std::array kFields = {
    Field{"name", FieldKind::kText, "What the makers call it", true},
    Field{"stock", FieldKind::kIdentifier, "Boards or sheet", true},
    Field{"at",
          FieldKind::kLengths,
          "Its lowest corner in the space: from the left, from the front, from the bottom",
          false,
          "[0, 0, 0]"},
    Field{"length",
          FieldKind::kLength,
          "Along the grain (as long as the space)",
          false,
          {},
          FieldRange::kPositive},
    Field{"width",
          FieldKind::kLength,
          "Across the grain (as wide as the space)",
          false,
          {},
          FieldRange::kPositive},
    Field{"thickness",
          FieldKind::kLength,
          "Of solid wood (the most the stock finishes at)",
          false,
          {},
          FieldRange::kPositive},
    Field{
        .key = "along",
        .kind = FieldKind::kWord,
        .says = "Which way its length runs: x from left to right, y from front to back, z upwards",
        .fallback = "x",
        .words = kAxisWords},
    Field{.key = "thickness_along",
          .kind = FieldKind::kWord,
          .says = "Which way its thickness lies",
          .fallback = "y",
          .words = kAxisWords},
    Field{"layers",
          FieldKind::kCount,
          "Boards glued face to face",
          false,
          "1",
          FieldRange::kPositive},
    Field{"count", FieldKind::kCount, "How many alike", false, "1", FieldRange::kPositive},
    Field{"step", FieldKind::kLengths, "From one of them to the next, three sizes as in `at`"},
    Field{"band", FieldKind::kIdentifier, "Edge band on its front edge"},
    Field{.key = "joints",
          .kind = FieldKind::kMaps,
          .says = "What holds it; every one of several alike has them all",
          .inner = kJointFields}};

Axis axis_of(const KitCall& call, std::string_view key) {
  const auto at = std::ranges::find(kAxisWords, call.fields.word(key)) - kAxisWords.begin();
  return kAxes.at(static_cast<std::size_t>(at) % kAxes.size());
}

/// Three sizes, or nothing with a complaint.
std::optional<Point> point_of(const KitCall& call, std::string_view key) {
  const std::vector<Length> sizes = call.fields.lengths(key);
  if (sizes.size() != kAxes.size()) {
    call.fields.complain(
        key,
        fmt::format(
            "found {} sizes, expected three: from the left, from the front, from the bottom",
            sizes.size()));
    return std::nullopt;
  }
  return Point{sizes[0], sizes[1], sizes[2]};
}

Point size_in_space(const KitCall& call, const NewPart& part) {
  Point size = call.space.box.size;
  for (const Axis axis : kAxes) {
    const bool along = axis == part.length;
    const bool through = axis == part.thickness;
    if (through) {
      size[axis] = board_thickness(call, part.stock);
    } else {
      size[axis] = call.fields.optional_length(along ? "length" : "width").value_or(size[axis]);
    }
  }
  return size;
}

/// The part called `path`, in the piece or in this space.
std::optional<PartIndex> find_part(const KitCall& call, const std::string& path) {
  const std::vector<Part>& parts = call.shop.piece.parts;
  for (const std::string& candidate : {path, call.space.name + "." + path}) {
    const auto found = std::ranges::find(parts, candidate, &Part::path);
    if (found != parts.end()) {
      return static_cast<PartIndex>(found - parts.begin());
    }
  }
  return std::nullopt;
}

/// The way `a` moves to meet `b`: square to the face they share, or to the thinnest size of what
/// they share when they are halved into each other. Nothing when they are apart.
std::optional<Direction> home_of(const Box& a, const Box& b, bool halved) {
  const Box shared = measure::intersection(a, b);
  std::optional<Axis> through;
  for (const Axis axis : kAxes) {
    if (shared.size[axis] < Length{} && !same_place(shared.size[axis], {})) {
      return std::nullopt;
    }
    if (same_place(shared.size[axis], {}) ||
        (halved && (!through || shared.size[axis] < shared.size[*through]))) {
      through = axis;
    }
  }
  if (!through) {
    return std::nullopt;
  }
  return Direction{*through, a.centre()[*through] <= b.centre()[*through] ? 1 : -1};
}

void add_joint_of(const KitCall& call, PartIndex part, const document::Fields& fields) {
  const KitCall inner{fields, call.space, call.shop};
  const std::string path = fields.text("to");
  const std::string word = fields.word("kind");
  const auto kind =
      std::ranges::find(kKinds, std::string_view{word}, [](const auto& k) { return k.first; });
  if (path.empty() || kind == kKinds.end()) {
    return;  // reported already
  }
  const auto other = find_part(call, path);
  if (!other || *other == part) {
    std::vector<std::string> paths;
    std::ranges::transform(call.shop.piece.parts, std::back_inserter(paths), &Part::path);
    fields.complain("to",
                    fmt::format("`{}` is not a part that stands before this one", path),
                    base::nearest_word(path, std::span<const std::string>{paths}));
    return;
  }
  const std::vector<Part>& parts = call.shop.piece.parts;
  const auto home =
      home_of(parts[part].body, parts[*other].body, kind->second == JointKind::kHalving);
  if (!home) {
    does_not_fit(
        inner,
        "to",
        fmt::format("the {} does not lie against `{}`", parts[part].name, parts[*other].path));
    return;
  }
  const int count = fields.count("count");
  Joint& joint = add_joint(inner, kind->second, part, *other, *home, fields.length("depth"), count);
  joint.hardware = fields.identifier("fitting");
  add_hardware(inner, fields.identifier("fitting"), count, parts[part].name, {part}, "fitting");
}

std::string path_of(std::string name) {
  std::ranges::replace_if(
      name, [](char c) { return c == ' ' || c == '.'; }, '_');
  return name;
}

PartIndex place(const KitCall& call, NewPart part, Point offset, int number) {
  part.body.at = part.body.at + offset;
  if (number > 0) {
    part.path += fmt::format("_{}", number);
  }
  const PartIndex index = add_part(call, part);
  const FrontEdge edge = read_band(call);
  if (!edge.band.empty() && is_sheet(call, part.stock)) {
    call.shop.piece.parts[index].bands.push_back({kToFront, edge.band, edge.band_thickness});
  }
  return index;
}

void build_plain_part(const KitCall& call) {
  NewPart part;
  part.name = call.fields.text("name");
  part.path = path_of(part.name);
  part.stock = call.fields.identifier("stock");
  part.length = axis_of(call, "along");
  part.thickness = axis_of(call, "thickness_along");
  part.layers = count_up_to(call, "layers", kMostRepeats);
  part.show_faces = {kToFront};
  const int count = count_up_to(call, "count", kMostRepeats);
  const auto at = point_of(call, "at");
  const std::optional<Point> step =
      count > 1 || call.fields.has("step") ? point_of(call, "step") : Point{};
  if (part.length == part.thickness) {
    call.fields.complain("thickness_along", "length and thickness cannot lie the same way");
    return;
  }
  if (!at || !step) {
    return;
  }
  part.body = {call.space.box.at + *at, size_in_space(call, part)};
  Point offset;
  for (int i = 0; i < count; ++i) {
    const PartIndex index = place(call, part, offset, count > 1 ? i + 1 : 0);
    for (const document::Fields& joint : call.fields.maps("joints")) {
      add_joint_of(call, index, joint);
    }
    offset = offset + *step;
  }
}

}  // namespace

const Kit& plain_part_kit() {
  static const Kit kKit{
      "part", "A part placed by hand, for what no kit makes", kFields, build_plain_part};
  return kKit;
}

}  // namespace plankwright::piece
