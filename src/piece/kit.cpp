#include "piece/kit.h"

#include <algorithm>
#include <utility>

#include <fmt/format.h>

#include "base/nearest.h"
#include "measure/expression.h"
#include "piece/space.h"

namespace plankwright::piece {
namespace {

constexpr int kDeepestNesting = 16;
constexpr std::size_t kMostParts = 5'000;

std::string joined(const std::string& space, const std::string& name) {
  return space.empty() ? name : space + "." + name;
}

/// A path that no part has yet: the name itself, or with a number behind it.
std::string unused_path(const Piece& piece, const std::string& path) {
  const auto taken = [&](const std::string& candidate) {
    return std::ranges::any_of(piece.parts,
                               [&](const Part& part) { return part.path == candidate; });
  };
  std::string candidate = path;
  for (int n = 2; taken(candidate); ++n) {
    candidate = fmt::format("{}_{}", path, n);
  }
  return candidate;
}

/// Material, species and strips follow from the stock; complains when it is not in the shop.
void take_stock(const KitCall& call, Part& part, std::string_view field) {
  if (const shop::SolidStock* solid = call.shop.shop.solid(part.stock)) {
    part.material = Material::kSolid;
    part.species = solid->species;
    part.cut_kind = solid->cut_kind;
    return;
  }
  if (const shop::SheetStock* sheet = call.shop.shop.sheet(part.stock)) {
    part.material = Material::kSheet;
    part.species = sheet->face_species;
    return;
  }
  if (const shop::BarStock* bar = call.shop.shop.bar(part.stock)) {
    part.material = bar->species.empty() ? Material::kBoughtIn : Material::kSolid;
    part.species = bar->species;
    part.cut_kind = bar->species.empty() ? "" : bar->cut_kind;
    return;
  }
  if (call.shop.shop.fitting(part.stock) != nullptr) {
    part.material = Material::kBoughtIn;
    return;
  }
  if (!part.stock.empty()) {
    const std::vector<std::string> known = call.shop.shop.stock_ids();
    call.fields.complain(field,
                         fmt::format("`{}` is not a stock of the shop", part.stock),
                         base::nearest_word(part.stock, std::span<const std::string>{known}));
  }
}

/// What is bought in its section has it, lying or on edge.
void check_section(const KitCall& call,
                   const Part& part,
                   const shop::BarStock& bar,
                   std::string_view field) {
  const Length thickness = part.body.size[part.thickness_axis];
  const Length width = part.body.size[part.width_axis()];
  const auto same = [](Length a, Length b) {
    constexpr Length kHair = Length::from_nm(50'000);
    return a - b <= kHair && b - a <= kHair;
  };
  if (!same(std::min(thickness, width), bar.thickness) ||
      !same(std::max(thickness, width), bar.width)) {
    const auto unit = call.fields.unit();
    call.fields.complain(field,
                         fmt::format("the {} is {} by {}, but {} measures {} by {}",
                                     part.name,
                                     measure::print(width, unit),
                                     measure::print_with_unit(thickness, unit),
                                     bar.name,
                                     measure::print(bar.width, unit),
                                     measure::print_with_unit(bar.thickness, unit)));
  }
}

/// A part thicker than its stock can give is a mistake of the document.
void check_thickness(const KitCall& call, const Part& part, std::string_view field) {
  const Length thickness = part.body.size[part.thickness_axis];
  const auto unit = call.fields.unit();
  if (const shop::SolidStock* solid = call.shop.shop.solid(part.stock)) {
    const Length thickest = solid->surfaced_thickness * part.layers;
    if (thickness > thickest) {
      call.fields.complain(
          field,
          fmt::format("the {} is {} thick, but {}{} finishes at {} at most",
                      part.name,
                      measure::print_with_unit(thickness, unit),
                      part.layers > 1 ? fmt::format("{} layers of ", part.layers) : "",
                      solid->name,
                      measure::print_with_unit(thickest, unit)));
    }
  } else if (const shop::SheetStock* sheet = call.shop.shop.sheet(part.stock)) {
    if (thickness != sheet->thickness) {
      call.fields.complain(field,
                           fmt::format("the {} is {} thick, but {} measures {}",
                                       part.name,
                                       measure::print_with_unit(thickness, unit),
                                       sheet->name,
                                       measure::print_with_unit(sheet->thickness, unit)));
    }
  } else if (const shop::BarStock* bar = call.shop.shop.bar(part.stock)) {
    check_section(call, part, *bar, field);
  }
}

bool sizes_are_positive(const KitCall& call, const NewPart& part) {
  for (const Axis axis : {Axis::kX, Axis::kY, Axis::kZ}) {
    if (part.body.size[axis] <= Length{}) {
      if (call.shop.errors.empty()) {  // else the size is wrong because something else is
        const char* side = axis == part.length      ? "length"
                           : axis == part.thickness ? "thickness"
                                                    : "width";
        call.shop.errors.push_back(
            {base::ErrorCode::kDoesNotFit,
             fmt::format("the {} would have a {} of {}: there is no room for it",
                         part.name,
                         side,
                         measure::print_with_unit(part.body.size[axis], call.fields.unit())),
             call.fields.at()});
      }
      return false;
    }
  }
  return true;
}

Box touching(const Part& a, const Part& b) {
  Box where = measure::intersection(a.body, b.body);
  for (const Axis axis : {Axis::kX, Axis::kY, Axis::kZ}) {
    if (where.size[axis] < Length{}) {  // apart by a gap: a door and its case
      where.at[axis] += where.size[axis];
      where.size[axis] = Length{};
    }
  }
  return where;
}

struct Counts {
  std::size_t parts, joints, hardware;
};

Counts counts_of(const Piece& piece) {
  return {piece.parts.size(), piece.joints.size(), piece.hardware.size()};
}

/// Everything a kit made says so; kits within it have signed theirs already.
void sign_what_is_new(Piece& piece, const Counts& before, std::string_view kit) {
  const auto sign = [&](auto& things, std::size_t first) {
    for (std::size_t i = first; i < things.size(); ++i) {
      if (things[i].kit.empty()) {
        things[i].kit = kit;
      }
    }
  };
  sign(piece.parts, before.parts);
  sign(piece.joints, before.joints);
  sign(piece.hardware, before.hardware);
}

void run_kit(const Kit& kit, const document::Node& node, const Space& space, Workshop& shop) {
  if (shop.depth >= kDeepestNesting) {
    shop.errors.push_back(
        {base::ErrorCode::kBadInput,
         fmt::format("kits stand more than {} deep in each other", kDeepestNesting),
         node.at});
    return;
  }
  if (shop.piece.parts.size() > kMostParts) {
    if (shop.errors.empty()) {
      shop.errors.push_back(
          {base::ErrorCode::kBadInput, fmt::format("more than {} parts", kMostParts), node.at});
    }
    return;
  }
  const document::Fields fields{node, kit.fields, shop.commission.names, shop.errors};
  const Counts before = counts_of(shop.piece);
  ++shop.depth;
  kit.build({fields, space, shop});
  --shop.depth;
  sign_what_is_new(shop.piece, before, kit.word);
}

}  // namespace

void fill(const document::Node& node, const Space& space, Workshop& shop) {
  for (const document::Node::Entry& entry : node.entries) {
    const auto kit =
        std::ranges::find_if(all_kits(), [&](const Kit& k) { return k.word == entry.key; });
    if (kit != all_kits().end()) {
      if (entry.value.kind == document::Node::Kind::kList) {
        for (const document::Node& item : entry.value.items) {
          run_kit(*kit, item, space, shop);
        }
      } else {
        run_kit(*kit, entry.value, space, shop);
      }
    } else if (entry.key == "stack") {
      fill_cells(entry.value, Axis::kZ, space, shop);
    } else if (entry.key == "row") {
      fill_cells(entry.value, Axis::kX, space, shop);
    }
  }
}

std::vector<Cell> read_cells(const KitCall& call,
                             std::string_view field,
                             std::string_view size_key,
                             Length available) {
  const document::Node* list = call.fields.node(field);
  if (list == nullptr) {
    return {};
  }
  return read_cell_list(*list, size_key, available, call.shop);
}

PartIndex add_part(const KitCall& call, const NewPart& wanted, std::string_view field) {
  Part part;
  part.name = wanted.name;
  part.path = unused_path(call.shop.piece, joined(call.space.name, wanted.path));
  part.from = call.fields.at();
  part.stock = wanted.stock;
  part.body = wanted.body;
  part.length_axis = wanted.length;
  part.thickness_axis = wanted.thickness;
  part.show_faces = wanted.show_faces;
  part.hand = wanted.hand;
  part.layers = wanted.layers;
  take_stock(call, part, field);
  if (sizes_are_positive(call, wanted)) {
    check_thickness(call, part, field);
  }
  call.shop.piece.parts.push_back(std::move(part));
  return call.shop.piece.parts.size() - 1;
}

Joint& add_joint(const KitCall& call,
                 JointKind kind,
                 PartIndex a,
                 PartIndex b,
                 Direction home,
                 Length depth,
                 int count) {
  Piece& piece = call.shop.piece;
  const Part& into = piece.parts[b];
  const Length room = into.body.size[home.axis];
  if (lets_in(kind) && depth > room && room > Length{}) {
    call.shop.errors.push_back(
        {base::ErrorCode::kDoesNotFit,
         fmt::format("the {} of the {} is {} deep, but the {} is only {} thick there",
                     word(kind),
                     piece.parts[a].name,
                     measure::print_with_unit(depth, call.fields.unit()),
                     into.name,
                     measure::print_with_unit(room, call.fields.unit())),
         call.fields.at()});
  }
  Joint joint;
  joint.kind = kind;
  joint.a = a;
  joint.b = b;
  joint.contact = touching(piece.parts[a], into);
  joint.home = home;
  joint.depth = depth;
  joint.count = count;
  joint.undone = comes_apart(kind);
  joint.glued = !joint.undone && kind != JointKind::kScrew;
  joint.from = call.fields.at();
  piece.joints.push_back(std::move(joint));
  return piece.joints.back();
}

void add_hardware(const KitCall& call,
                  std::string_view id,
                  int count,
                  std::string where,
                  std::vector<PartIndex> parts,
                  std::string_view field) {
  if (id.empty() || count <= 0) {
    return;
  }
  if (call.shop.shop.fitting(id) == nullptr) {
    const std::vector<std::string> known = call.shop.shop.fitting_ids();
    call.fields.complain(field,
                         fmt::format("`{}` is not a fitting of the shop", id),
                         base::nearest_word(id, std::span<const std::string>{known}));
    return;
  }
  HardwareUse use;
  use.id = id;
  use.count = count;
  use.where = std::move(where);
  use.at =
      parts.empty() ? call.space.box.centre() : call.shop.piece.parts[parts.front()].body.centre();
  use.parts = std::move(parts);
  use.from = call.fields.at();
  call.shop.piece.hardware.push_back(std::move(use));
}

Length stock_thickness(const KitCall& call, std::string_view stock, Length wanted) {
  const shop::SheetStock* sheet = call.shop.shop.sheet(stock);
  return sheet != nullptr ? sheet->thickness : wanted;
}

}  // namespace plankwright::piece
