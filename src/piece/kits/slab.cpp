// A top: boards glued edge to edge, or sheet in one or more layers; with a nosing, breadboard ends
// and buttons when they are asked for.

#include <algorithm>
#include <array>

#include <fmt/format.h>

#include "piece/kits/board.h"
#include "piece/kits/breadboard.h"
#include "piece/kits/buttons.h"
#include "piece/kits/kits.h"
#include "piece/kits/placing.h"

namespace plankwright::piece {
namespace {

using document::Field;
using document::FieldKind;
using document::FieldRange;

constexpr int kMostLayers = 12;
constexpr int kMostBoards = 60;

constexpr std::array<std::string_view, 2> kGrains = {"side_to_side", "front_to_back"};
constexpr std::array<std::string_view, 2> kEnds = {"plain", "breadboard"};

constexpr std::array kNosingFields = {
    Field{"stock", FieldKind::kIdentifier, "Solid stock of the nosing", true},
    Field{"height",
          FieldKind::kLength,
          "From its top, flush with the slab, to its lower edge (as the slab)",
          false,
          {},
          FieldRange::kPositive},
    Field{"thickness",
          FieldKind::kLength,
          "How much narrower the slab is for it",
          true,
          {},
          FieldRange::kPositive},
    Field{"site_length",
          FieldKind::kLength,
          "Left over for trimming on site",
          false,
          "0",
          FieldRange::kNotNegative}};

constexpr std::array kFields = {
    Field{"stock", FieldKind::kIdentifier, "Boards or sheet", true},
    Field{"name", FieldKind::kText, "What the makers call it (the name of its space)"},
    Field{"boards",
          FieldKind::kCount,
          "How many boards a solid slab is glued from; 0: as the usual board asks for",
          false,
          "0"},
    Field{"layers",
          FieldKind::kCount,
          "Layers glued face to face",
          false,
          "1",
          FieldRange::kPositive},
    Field{"joints",
          FieldKind::kLengths,
          "From the left end of the slab to where each layer of sheet is pieced, from the lowest "
          "layer up",
          false,
          {},
          FieldRange::kPositive},
    Field{"site_length",
          FieldKind::kLength,
          "Left over for trimming on site, on the longest piece of each layer",
          false,
          "0",
          FieldRange::kNotNegative},
    Field{.key = "grain",
          .kind = FieldKind::kWord,
          .says = "Which way the grain runs",
          .fallback = "side_to_side",
          .words = kGrains},
    Field{.key = "nosing",
          .kind = FieldKind::kMap,
          .says = "Solid strip along the front edge, its top flush",
          .inner = kNosingFields},
    Field{.key = "ends",
          .kind = FieldKind::kWord,
          .says = "Plain, or held flat by breadboard ends that let it move",
          .fallback = "plain",
          .words = kEnds},
    Field{.key = "breadboard",
          .kind = FieldKind::kMap,
          .says = "How breadboard ends are made",
          .inner = kBreadboardFields},
    Field{.key = "buttons",
          .kind = FieldKind::kMap,
          .says = "Wooden buttons that hold the slab to the rails below",
          .inner = kButtonFields},
    Field{"band", FieldKind::kIdentifier, "Edge band on sheets"},
    Field{"band_edges",
          FieldKind::kIdentifiers,
          "Edges that get the band: front, back, left, right",
          false,
          "front"}};

struct Nosing {
  bool fitted = false;
  std::string stock;
  Length height, thickness, site_length;
};

class Slab {
 public:
  explicit Slab(const KitCall& call);
  void build();

 private:
  bool is_possible() const;
  bool thickness_is_right() const;
  bool joints_are_right() const;
  NewPart piece_of(const Box& body) const;
  void add_solid();
  void add_layers();
  void add_layer(int layer, const Box& body);
  void band(PartIndex part) const;
  void check_length(PartIndex part) const;
  void glue_faces();
  void add_nosing();

  const KitCall& call_;
  std::string stock_, name_;
  bool sheet_;
  int layers_;
  Axis along_, across_;
  Nosing nosing_;
  bool breadboard_;
  Box core_;  // without nosing and breadboard ends
  std::vector<Length> joints_;
  std::vector<PartIndex> parts_;  // without the nosing
};

std::string name_of(const KitCall& call) {
  if (call.fields.has("name")) {
    return call.fields.text("name");
  }
  const std::string& space = call.space.name;
  const std::string last = space.substr(space.rfind('.') + 1);
  return last.empty() ? "top" : last;
}

Nosing read_nosing(const KitCall& call) {
  Nosing nosing;
  if (call.fields.has("nosing")) {
    const document::Fields fields = call.fields.map("nosing");
    nosing = {true,
              fields.identifier("stock"),
              fields.optional_length("height").value_or(call.space.box.size.z),
              fields.length("thickness"),
              fields.length("site_length")};
  }
  return nosing;
}

Slab::Slab(const KitCall& call)
    : call_{call},
      stock_{call.fields.identifier("stock")},
      name_{name_of(call)},
      sheet_{is_sheet(call, stock_)},
      layers_{count_up_to(call, "layers", kMostLayers)},
      along_{call.fields.word("grain") == "front_to_back" ? Axis::kY : Axis::kX},
      across_{along_ == Axis::kX ? Axis::kY : Axis::kX},
      nosing_{read_nosing(call)},
      breadboard_{call.fields.word("ends") == "breadboard"},
      core_{call.space.box},
      joints_{call.fields.lengths("joints")} {
  core_.at.y += nosing_.thickness;
  core_.size.y -= nosing_.thickness;
  if (breadboard_) {
    const document::Fields fields = call.fields.map("breadboard");
    const Length end = breadboard_width({fields, call.space, call.shop}, core_.size.z);
    core_.at[along_] += end;
    core_.size[along_] -= end * 2;
  }
}

bool Slab::thickness_is_right() const {
  const shop::SheetStock* sheet = call_.shop.shop.sheet(stock_);
  const Length height = call_.space.box.size.z;
  if (sheet == nullptr || sheet->thickness * layers_ == height) {
    return true;
  }
  does_not_fit(call_,
               "layers",
               fmt::format("{} of {} make {}, but the space is {} high",
                           layers_ == 1 ? "1 layer" : fmt::format("{} layers", layers_),
                           sheet->name,
                           shown(call_, sheet->thickness * layers_),
                           shown(call_, height)));
  return false;
}

bool Slab::joints_are_right() const {
  if (joints_.size() > static_cast<std::size_t>(layers_)) {
    call_.fields.complain(
        "joints",
        fmt::format("found {} joints for {}, expected one a layer at most",
                    joints_.size(),
                    layers_ == 1 ? "1 layer" : fmt::format("{} layers", layers_)));
    return false;
  }
  for (const Length at : joints_) {
    if (at >= core_.size[along_]) {
      does_not_fit(call_,
                   "joints",
                   fmt::format("a joint at {} is not on the slab, which is {} long",
                               shown(call_, at),
                               shown(call_, core_.size[along_])));
      return false;
    }
  }
  return true;
}

bool Slab::is_possible() const {
  const auto complain_if = [&](bool wrong, std::string_view key, const char* message) {
    if (wrong) {
      call_.fields.complain(key, message);
    }
    return !wrong;
  };
  bool good = complain_if(sheet_ && breadboard_, "ends", "breadboard ends are for solid slabs");
  good &= complain_if(!sheet_ && !joints_.empty(),
                      "joints",
                      "only sheet is pieced in its length; a solid slab takes boards long enough");
  good &= complain_if(breadboard_ && nosing_.fitted,
                      "nosing",
                      "a slab with breadboard ends takes no nosing: it must be free to move");
  if (core_.size[along_] <= Length{} || core_.size[across_] <= Length{}) {
    does_not_fit(call_,
                 breadboard_ ? "breadboard" : "nosing",
                 "the strips around the slab leave nothing of it");
    good = false;
  }
  return good && thickness_is_right() && joints_are_right();
}

NewPart Slab::piece_of(const Box& body) const {
  NewPart part;
  part.name = name_;
  part.path = "slab";
  part.stock = stock_;
  part.body = body;
  part.length = along_;
  part.thickness = Axis::kZ;
  part.show_faces = {kUp};
  for (const Direction side : {kToFront, kToBack, kToLeft, kToRight}) {
    const Box& whole = call_.space.box;
    const bool outside = side.sign < 0 ? body.begin(side.axis) == whole.begin(side.axis)
                                       : body.end(side.axis) == whole.end(side.axis);
    if (outside) {
      part.show_faces.push_back(side);
    }
  }
  return part;
}

void Slab::add_solid() {
  NewPart part = piece_of(core_);
  part.layers = layers_;
  parts_.push_back(add_part(call_, part));
  Part& slab = call_.shop.piece.parts[parts_.front()];
  slab.strips = std::max(1, count_up_to(call_, "boards", kMostBoards));
  slab.site_length = call_.fields.length("site_length");
}

void Slab::band(PartIndex part) const {
  const FrontEdge edge = read_band(call_);
  if (edge.band.empty()) {
    return;
  }
  const std::array<std::pair<std::string_view, Direction>, 4> kSides = {
      std::pair{"front", kToFront}, {"back", kToBack}, {"left", kToLeft}, {"right", kToRight}};
  Part& sheet = call_.shop.piece.parts[part];
  for (const std::string& wanted : call_.fields.identifiers("band_edges")) {
    const auto side = std::ranges::find(
        kSides, wanted, [](const auto& named) { return std::string{named.first}; });
    if (side == kSides.end()) {
      call_.fields.complain("band_edges",
                            fmt::format("found `{}`, expected front, back, left or right", wanted));
    } else if (sheet.shows(side->second)) {
      sheet.bands.push_back({side->second, edge.band, edge.band_thickness});
    }
  }
}

void Slab::add_layer(int layer, const Box& body) {
  const auto index = static_cast<std::size_t>(layer);
  const bool pieced = index < joints_.size();
  const Length split = pieced ? joints_[index] : body.size[along_];
  Box first = body;
  first.size[along_] = split;
  Box second = body;
  second.at[along_] += split;
  second.size[along_] -= split;
  NewPart part = piece_of(first);
  part.name += layers_ > 1 ? " layer" : "";
  part.path = fmt::format("layer_{}{}", layer + 1, pieced ? "_left" : "");
  parts_.push_back(add_part(call_, part));
  PartIndex longest = parts_.back();
  if (pieced) {
    NewPart rest = piece_of(second);
    rest.name = part.name;
    rest.path = fmt::format("layer_{}_right", layer + 1);
    parts_.push_back(add_part(call_, rest));
    add_joint(call_, JointKind::kEdgeGlue, longest, parts_.back(), {along_, 1});
    longest = second.size[along_] > split ? parts_.back() : longest;
  }
  call_.shop.piece.parts[longest].site_length = call_.fields.length("site_length");
}

void Slab::glue_faces() {
  for (const PartIndex upper : parts_) {
    for (const PartIndex lower : touching(call_, upper, kDown)) {
      if (std::ranges::find(parts_, lower) != parts_.end()) {
        add_joint(call_, JointKind::kFaceGlue, upper, lower, kDown);
      }
    }
  }
}

/// A layer longer than the sheet has to be pieced somewhere.
void Slab::check_length(PartIndex part) const {
  const Part& piece = call_.shop.piece.parts[part];
  const Length length = piece.body.size[along_] + piece.site_length;
  const shop::SheetStock* sheet = call_.shop.shop.sheet(stock_);
  if (sheet != nullptr && length > sheet->length) {
    does_not_fit(call_,
                 "joints",
                 fmt::format("{} of the {} does not come out of a sheet {} long: write in `joints` "
                             "where each layer is pieced",
                             shown(call_, length),
                             piece.name,
                             shown(call_, sheet->length)));
  }
}

void Slab::add_layers() {
  Box body = core_;
  body.size.z = core_.size.z / layers_;
  for (int layer = 0; layer < layers_; ++layer) {
    add_layer(layer, body);
    body.at.z += body.size.z;
  }
  glue_faces();
  for (const PartIndex part : parts_) {
    check_length(part);
    band(part);
  }
}

void Slab::add_nosing() {
  if (!nosing_.fitted) {
    return;
  }
  const document::Fields fields = call_.fields.map("nosing");
  const Box& whole = call_.space.box;
  NewPart part;
  part.name = name_ + " nosing";
  part.path = "nosing";
  part.stock = nosing_.stock;
  part.body = between({whole.at.x, whole.at.y, whole.end(Axis::kZ) - nosing_.height},
                      {whole.end(Axis::kX), core_.at.y, whole.end(Axis::kZ)});
  part.thickness = Axis::kY;
  part.show_faces = {kToFront, kUp, kDown, kToLeft, kToRight};
  const PartIndex strip = add_part({fields, call_.space, call_.shop}, part);
  call_.shop.piece.parts[strip].site_length = nosing_.site_length;
  for (const PartIndex behind : parts_) {
    if (touch(call_, strip, behind, Axis::kY)) {
      add_joint(call_, JointKind::kEdgeGlue, strip, behind, kToBack);
    }
  }
}

void Slab::build() {
  if (!is_possible()) {
    return;
  }
  if (sheet_) {
    add_layers();
  } else {
    add_solid();
  }
  add_nosing();
  if (breadboard_) {
    const document::Fields fields = call_.fields.map("breadboard");
    const auto ends = add_breadboard_ends({fields, call_.space, call_.shop}, parts_.front());
    parts_.insert(parts_.end(), ends.begin(), ends.end());
  }
  if (call_.fields.has("buttons")) {
    const document::Fields fields = call_.fields.map("buttons");
    add_buttons({fields, call_.space, call_.shop}, parts_);
  }
}

void build_slab(const KitCall& call) {
  Slab{call}.build();
}

}  // namespace

const Kit& slab_kit() {
  static const Kit kKit{
      "slab", "A top of boards glued together, or of sheet in layers", kFields, build_slab};
  return kKit;
}

}  // namespace plankwright::piece
