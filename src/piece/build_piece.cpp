#include "piece/build_piece.h"

#include <algorithm>
#include <array>
#include <set>

#include <fmt/format.h>

#include "base/nearest.h"
#include "measure/expression.h"
#include "piece/kit.h"
#include "piece/sizes.h"
#include "piece/space.h"

namespace plankwright::piece {
namespace {

using document::Field;
using document::FieldKind;
using document::FieldRange;
using document::Fields;

constexpr std::array<std::string_view, 9> kJoinWords = {"screws",
                                                        "connectors",
                                                        "bolts",
                                                        "clips",
                                                        "dowels",
                                                        "biscuits",
                                                        "edge_glue",
                                                        "loose_tenons",
                                                        "stands"};

constexpr std::array kJoinFields = {
    Field{"between", FieldKind::kIdentifiers, "The two units, by their names", true},
    Field{.key = "with",
          .kind = FieldKind::kWord,
          .says = "What holds them",
          .required = true,
          .words = kJoinWords},
    Field{"fitting", FieldKind::kIdentifier, "The fitting that does it, from the shop's list"},
    Field{"count", FieldKind::kCount, "How many in all", false, "1", FieldRange::kPositive}};

constexpr std::array kFittingFields = {
    Field{"fitting", FieldKind::kIdentifier, "A fitting of the shop", true},
    Field{"count", FieldKind::kCount, "How many", false, "1", FieldRange::kPositive},
    Field{"where", FieldKind::kText, "Where it goes"}};

JointKind kind_of(std::string_view with) {
  constexpr std::array kKinds = {JointKind::kScrew,
                                 JointKind::kConnector,
                                 JointKind::kBolt,
                                 JointKind::kClip,
                                 JointKind::kDowel,
                                 JointKind::kBiscuit,
                                 JointKind::kEdgeGlue,
                                 JointKind::kLooseTenon,
                                 JointKind::kStands};
  const auto at = std::ranges::find(kJoinWords, with) - kJoinWords.begin();
  return kKinds.at(static_cast<std::size_t>(at) % kKinds.size());
}

bool is_in(const Part& part, const std::string& unit) {
  return part.path == unit || (part.path.size() > unit.size() && part.path.starts_with(unit) &&
                               part.path[unit.size()] == '.');
}

std::vector<std::string> unit_names(const Piece& piece) {
  std::set<std::string> names;
  for (const Part& part : piece.parts) {
    for (std::size_t dot = part.path.find('.'); dot != std::string::npos;
         dot = part.path.find('.', dot + 1)) {
      names.insert(part.path.substr(0, dot));
    }
  }
  return {names.begin(), names.end()};
}

/// Where two units touch, each place as a joint's contact with its way home.
struct Meeting {
  PartIndex a, b;
  Direction home;
};

std::vector<Meeting> meetings(const Piece& piece,
                              const std::string& first,
                              const std::string& second) {
  const std::set<PartIndex> moving = moving_parts(piece);
  std::vector<Meeting> found;
  for (const Contact& contact : contacts(piece)) {
    PartIndex a = contact.a;
    PartIndex b = contact.b;
    if (moving.contains(a) || moving.contains(b)) {
      continue;
    }
    if (!is_in(piece.parts[a], first) || !is_in(piece.parts[b], second)) {
      std::swap(a, b);
    }
    if (!is_in(piece.parts[a], first) || !is_in(piece.parts[b], second)) {
      continue;
    }
    for (const Axis axis : {Axis::kX, Axis::kY, Axis::kZ}) {
      if (contact.where.size[axis] <= Length::from_nm(1'000)) {
        const bool up = piece.parts[a].body.centre()[axis] < piece.parts[b].body.centre()[axis];
        found.push_back({a, b, {axis, up ? 1 : -1}});
        break;
      }
    }
  }
  return found;
}

void join_units(const KitCall& call) {
  const std::vector<std::string> between = call.fields.identifiers("between");
  if (between.size() != 2) {
    if (!between.empty()) {
      call.fields.complain(
          "between",
          fmt::format("found {} names, expected the names of two units", between.size()));
    }
    return;
  }
  const std::vector<std::string> units = unit_names(call.shop.piece);
  for (const std::string& unit : between) {
    if (std::ranges::find(units, unit) == units.end()) {
      call.fields.complain("between",
                           fmt::format("`{}` is not a unit of this piece", unit),
                           base::nearest_word(unit, std::span<const std::string>{units}));
      return;
    }
  }
  const std::vector<Meeting> places = meetings(call.shop.piece, between[0], between[1]);
  if (places.empty()) {
    call.fields.complain("between",
                         fmt::format("`{}` and `{}` do not touch", between[0], between[1]));
    return;
  }
  const int count = call.fields.count("count");
  const std::string fitting = call.fields.identifier("fitting");
  std::vector<PartIndex> held;
  const auto places_count = static_cast<int>(places.size());
  for (int i = 0; i < places_count; ++i) {
    const Meeting& place = places[static_cast<std::size_t>(i)];
    const int share = count / places_count + (i < count % places_count ? 1 : 0);
    Joint& joint =
        add_joint(call, kind_of(call.fields.word("with")), place.a, place.b, place.home, {}, share);
    joint.undone = joint.undone || joint.kind == JointKind::kScrew;
    joint.hardware = fitting;
    held.push_back(place.a);
  }
  add_hardware(call, fitting, count, between[0] + " to " + between[1], held, "fitting");
}

void add_loose_fittings(const KitCall& call) {
  add_hardware(call,
               call.fields.identifier("fitting"),
               call.fields.count("count"),
               call.fields.text("where"),
               {},
               "fitting");
}

/// Like complaints about one place are one complaint.
void drop_repeated(base::Errors& errors) {
  base::Errors once;
  for (const base::Error& error : errors) {
    const bool known = std::ranges::any_of(once, [&](const base::Error& seen) {
      return seen.at == error.at && seen.message == error.message;
    });
    if (!known) {
      once.push_back(error);
    }
  }
  errors = std::move(once);
}

void work_out_the_rest(Piece& piece, const shop::Shop& shop) {
  work_out_finished_sizes(piece);
  work_out_cut_sizes(piece, shop);
  add_features_of_joints(piece);
  give_codes(piece);
  weigh(piece, shop);
  pack(piece);
}

}  // namespace

document::FieldTable piece_fields() {
  static const std::vector<Field> kFields = [] {
    std::vector<Field> fields = {
        {"width",
         FieldKind::kLength,
         "Overall, from left to right",
         true,
         {},
         FieldRange::kPositive},
        {"depth",
         FieldKind::kLength,
         "Overall, from front to back",
         true,
         {},
         FieldRange::kPositive},
        {"height",
         FieldKind::kLength,
         "Overall, from the floor up",
         true,
         {},
         FieldRange::kPositive},
        {"fixed_to_building", FieldKind::kYesNo, "Yes for a built-in", false, "no"},
        {.key = "joins",
         .kind = FieldKind::kMaps,
         .says = "What holds one unit to the next",
         .inner = kJoinFields},
        {.key = "fittings",
         .kind = FieldKind::kMaps,
         .says = "Fittings that no kit adds",
         .inner = kFittingFields}};
    for (const Field& field : space_fields()) {
      if (field.key == "stack" || field.key == "row" ||
          std::ranges::any_of(all_kits(), [&](const Kit& k) { return k.word == field.key; })) {
        fields.push_back(field);
      }
    }
    return fields;
  }();
  return kFields;
}

BuiltPiece build_piece(const commission::Commission& commission, const shop::Shop& shop) {
  BuiltPiece built;
  Workshop workshop{shop, commission, built.errors, built.piece};
  const Fields fields{commission.piece, piece_fields(), commission.names, built.errors};
  built.piece.name = commission.name;
  built.piece.fixed_to_building = fields.yes("fixed_to_building");
  built.piece.overall = {{},
                         {fields.length("width"), fields.length("depth"), fields.length("height")}};
  Space whole;
  whole.box = built.piece.overall;
  const bool sized = built.errors.empty();
  fill(commission.piece, whole, workshop);
  if (!sized) {  // nothing fits a piece without a size; say only what is wrong by itself
    std::erase_if(built.errors,
                  [](const base::Error& e) { return e.code == base::ErrorCode::kDoesNotFit; });
  }
  if (built.errors.empty() && built.piece.parts.empty()) {
    built.errors.push_back({base::ErrorCode::kBadInput,
                            "there is nothing to build: no kit is written under `piece`",
                            commission.piece.at});
  }
  if (built.errors.empty()) {
    for (const Fields& join : fields.maps("joins")) {
      join_units({join, whole, workshop});
    }
    for (const Fields& fitting : fields.maps("fittings")) {
      add_loose_fittings({fitting, whole, workshop});
    }
  }
  drop_repeated(built.errors);
  if (built.errors.empty()) {
    work_out_the_rest(built.piece, shop);
  }
  return built;
}

}  // namespace plankwright::piece
