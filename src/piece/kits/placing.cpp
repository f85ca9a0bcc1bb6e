#include "piece/kits/placing.h"

#include <algorithm>
#include <utility>

#include <fmt/format.h>

#include "base/nearest.h"
#include "measure/expression.h"

namespace plankwright::piece {
namespace {

// Room for the screw of a pull (common practice, no source).
constexpr Length kPullHole = Length::from_mm(5);

/// The holes of one pull, right through the front.
Feature pull_holes(const Part& front, Point centre, Axis bar, Length spacing) {
  Feature holes;
  holes.kind = FeatureKind::kBore;
  holes.face = {Axis::kY, -1};
  holes.count = spacing > Length{} ? 2 : 1;
  holes.depth = front.body.size.y;
  holes.across = kPullHole;
  holes.along = spacing;
  Point size = {kPullHole, front.body.size.y, kPullHole};
  size[bar] += spacing;
  holes.place = {{centre.x - size.x / 2, front.body.at.y, centre.z - size.z / 2}, size};
  return holes;
}

}  // namespace

Box between(Point low, Point high) {
  return {low, high - low};
}

std::string shown(const KitCall& call, Length size) {
  return measure::print_with_unit(size, call.fields.unit());
}

Length usual(const KitCall& call, Length in_inches, Length in_millimetres) {
  return call.fields.unit() == measure::LengthUnit::kInch ? in_inches : in_millimetres;
}

void does_not_fit(const KitCall& call, std::string_view field, std::string message) {
  call.shop.errors.push_back(
      {base::ErrorCode::kDoesNotFit, std::move(message), call.fields.at(field)});
}

const shop::Hardware* fitting_of_kind(const KitCall& call,
                                      std::string_view id,
                                      std::initializer_list<std::string_view> kinds,
                                      std::string_view what,
                                      std::string_view field) {
  if (id.empty()) {
    return nullptr;
  }
  std::vector<std::string> known;
  for (const std::string_view kind : kinds) {
    for (std::string& fitting : call.shop.shop.fitting_ids(kind)) {
      known.push_back(std::move(fitting));
    }
  }
  const shop::Hardware* fitting = call.shop.shop.fitting(id);
  if (fitting != nullptr && std::ranges::find(kinds, fitting->kind) != kinds.end()) {
    return fitting;
  }
  call.fields.complain(
      field,
      fitting != nullptr
          ? fmt::format("`{}` is a {} of the shop, expected {}", id, fitting->kind, what)
          : fmt::format("`{}` is not a fitting of the shop, expected {}", id, what),
      base::nearest_word(id, std::span<const std::string>{known}));
  return nullptr;
}

const shop::BandStock* band_of(const KitCall& call, std::string_view field) {
  const std::string id = call.fields.identifier(field);
  const shop::BandStock* band = call.shop.shop.band(id);
  if (band == nullptr && !id.empty()) {
    std::vector<std::string> known;
    for (const shop::BandStock& stock : call.shop.shop.bands) {
      known.push_back(stock.id);
    }
    call.fields.complain(field,
                         fmt::format("`{}` is not an edge band of the shop", id),
                         base::nearest_word(id, std::span<const std::string>{known}));
  }
  return band;
}

Length size_of(const shop::Hardware& fitting, std::string_view size, Length usual) {
  const auto found = fitting.sizes.find(size);
  return found != fitting.sizes.end() ? found->second : usual;
}

std::string run_of(const KitCall& call, std::string_view field, const std::string& own) {
  const std::string written = call.fields.identifier(field);
  if (written == "no" || written == "false") {
    return "";
  }
  return written == "yes" || written == "true" ? own : written;
}

void put_in_run(Piece& piece, PartIndex part, const std::string& run) {
  if (run.empty()) {
    return;
  }
  const auto before =
      std::ranges::count_if(piece.parts, [&](const Part& other) { return other.run == run; });
  piece.parts[part].run = run;
  piece.parts[part].place_in_run = static_cast<int>(before);
}

void add_pulls(const KitCall& call,
               std::string_view id,
               PartIndex front,
               const std::vector<Point>& centres,
               Axis bar,
               const std::string& where) {
  const shop::Hardware* pull = fitting_of_kind(call, id, {"pull"}, "a pull", "pull");
  if (pull == nullptr || centres.empty()) {
    return;
  }
  const Length spacing = size_of(*pull, "spacing", {});
  Part& part = call.shop.piece.parts[front];
  if (spacing + kPullHole > part.body.size[bar] && part.body.size[bar] > Length{}) {
    does_not_fit(call,
                 "pull",
                 fmt::format("{} has its screws {} apart, the {} is only {}",
                             pull->name,
                             shown(call, spacing),
                             part.name,
                             shown(call, part.body.size[bar])));
    return;
  }
  for (const Point& centre : centres) {
    part.features.push_back(pull_holes(part, centre, bar, spacing));
  }
  add_hardware(call, id, static_cast<int>(centres.size()), where, {front}, "pull");
}

}  // namespace plankwright::piece
