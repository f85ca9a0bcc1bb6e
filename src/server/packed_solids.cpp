#include "server/packed_solids.h"

#include <array>
#include <bit>
#include <cmath>
#include <cstring>
#include <map>

#include <nlohmann/json.hpp>

#include "papers/cut_body.h"
#include "papers/part_body.h"
#include "piece/pull_apart.h"

namespace plankwright::server {
namespace {

using Json = nlohmann::ordered_json;
using measure::Axis;
using measure::Box;
using measure::Length;
using measure::Point;
using papers::Colour;

static_assert(std::endian::native == std::endian::little, "the bytes go out as they are");

constexpr double kLeastPulled = 0.25;  // of a step; less is no more than the spring's give
constexpr Colour kFittingColour{0.55, 0.56, 0.57};

solid::Lump moved(const solid::Lump& lump, Point by) {
  if (const auto* box = std::get_if<Box>(&lump)) {
    return Box{box->at + by, box->size};
  }
  solid::Extrusion drawn = std::get<solid::Extrusion>(lump);
  drawn.from += by[drawn.along];
  // An outline's u is the earlier of its two axes (solid/body.h).
  const Length u = drawn.along == Axis::kX ? by.y : by.x;
  const Length v = drawn.along == Axis::kZ ? by.y : by.z;
  const auto move = [&](solid::OutlinePoint& p) {
    p.u += u;
    p.v += v;
  };
  for (solid::OutlineEdge& edge : drawn.outline.edges) {
    move(edge.to);
    if (edge.through) {
      move(*edge.through);
    }
  }
  return drawn;
}

solid::Body moved(const solid::Body& body, Point by) {
  solid::Body out;
  for (const solid::Lump& lump : body.wood) {
    out.wood.push_back(moved(lump, by));
  }
  for (const solid::Lump& lump : body.cuts) {
    out.cuts.push_back(moved(lump, by));
  }
  return out;
}

Json axis_json(Axis axis) {
  Json list = {0, 0, 0};
  list[static_cast<std::size_t>(axis)] = 1;
  return list;
}

/// Columns of the matrix that moves a part to its place.
Json move_json(Point to) {
  return {1, 0, 0, 0, 0, 1, 0, 0, 0, 0, 1, 0, to.x.mm(), to.y.mm(), to.z.mm(), 1};
}

void add_pulled(Json& json, const piece::PulledOut& out) {
  json["shift"] = {out.x, out.y, out.z};
  const double far = std::sqrt(out.x * out.x + out.y * out.y + out.z * out.z);
  if (far < kLeastPulled) {
    json["apart"] = {0, 0, 0};
    json["stage"] = 0;
    return;
  }
  json["apart"] = {out.x / far, out.y / far, out.z / far};
  json["stage"] = std::max(1L, std::lround(far));
}

std::string_view word(piece::Material material) {
  switch (material) {
    case piece::Material::kSolid:
      return "solid";
    case piece::Material::kSheet:
      return "sheet";
    case piece::Material::kBoughtIn:
      break;
  }
  return "bought_in";
}

/// Collects meshes, each once, and where they lie in the run.
class Packer {
 public:
  struct Place {
    std::size_t first_corner = 0, corners = 0, first_index = 0, indices = 0;
  };

  Place add(const DrawingDesk::Mesh& mesh) {
    const auto [found, is_new] = places_.try_emplace(mesh);
    if (is_new) {
      const std::size_t corner = mesh_.places.size() / 3;
      found->second = {
          corner, mesh->places.size() / 3, mesh_.triangles.size(), mesh->triangles.size()};
      mesh_.places.insert(mesh_.places.end(), mesh->places.begin(), mesh->places.end());
      mesh_.normals.insert(mesh_.normals.end(), mesh->normals.begin(), mesh->normals.end());
      // Counted from the part's own first corner.
      mesh_.triangles.insert(mesh_.triangles.end(), mesh->triangles.begin(), mesh->triangles.end());
    }
    return found->second;
  }

  std::string pack(Json parts) const {
    const Json head = {{"nv", mesh_.places.size() / 3},
                       {"ni", mesh_.triangles.size()},
                       {"parts", std::move(parts)}};
    std::string json = head.dump();
    json.resize((json.size() + 3) / 4 * 4, ' ');
    const auto length = static_cast<std::uint32_t>(json.size());
    std::string bytes;
    append(bytes, &length, 1);
    bytes += json;
    append(bytes, mesh_.places.data(), mesh_.places.size());
    append(bytes, mesh_.normals.data(), mesh_.normals.size());
    append(bytes, mesh_.triangles.data(), mesh_.triangles.size());
    return bytes;
  }

 private:
  template <class T>
  static void append(std::string& bytes, const T* data, std::size_t count) {
    bytes.append(reinterpret_cast<const char*>(data), count * sizeof(T));
  }

  solid::Mesh mesh_;
  std::map<DrawingDesk::Mesh, Place> places_;
};

/// The body meshed at the origin, or nothing when it has no shape.
DrawingDesk::Mesh mesh_at_origin(const solid::Body& body, Point from, DrawingDesk& desk) {
  const auto mesh = desk.mesh(moved(body, Point{} - from));
  return mesh.ok() ? mesh.value() : nullptr;
}

struct Drawn {
  std::string code, path;
  piece::PartIndex index = 0;
  Point at;
  std::string_view material;
  Axis grain = Axis::kX;
  Colour colour;
  piece::PulledOut pulled;
};

Json part_json(const Drawn& drawn, const Packer::Place& place) {
  Json json = {{"code", drawn.code},
               {"path", drawn.path},
               {"index", drawn.index},
               {"v0", place.first_corner},
               {"nv", place.corners},
               {"i0", place.first_index},
               {"ni", place.indices},
               {"m", move_json(drawn.at)},
               {"material", drawn.material},
               {"grain", axis_json(drawn.grain)}};
  json["colour"] = {drawn.colour.red, drawn.colour.green, drawn.colour.blue};
  add_pulled(json, drawn.pulled);
  return json;
}

}  // namespace

std::string packed_solids(const plan::Plan& plan, DrawingDesk& desk) {
  const piece::Piece& piece = plan.piece;
  const std::vector<solid::Body> bodies = papers::cut_bodies(piece);
  const std::vector<piece::PulledOut> pulled = piece::pull_apart(piece);
  Packer packer;
  Json parts = Json::array();
  for (piece::PartIndex i = 0; i < piece.parts.size(); ++i) {
    const piece::Part& part = piece.parts[i];
    DrawingDesk::Mesh mesh = mesh_at_origin(bodies[i], part.body.at, desk);
    if (!mesh) {
      mesh = mesh_at_origin({.wood = {part.body}}, part.body.at, desk);
    }
    if (mesh) {
      parts.push_back(part_json({part.code,
                                 part.path,
                                 i,
                                 part.body.at,
                                 word(part.material),
                                 part.length_axis,
                                 papers::wood_colour(part),
                                 pulled[i]},
                                packer.add(mesh)));
    }
  }
  for (const papers::DrawnPull& pull : papers::pulls_of(piece, plan.shop)) {
    const piece::Part& front = piece.parts[pull.front];
    if (const DrawingDesk::Mesh mesh = mesh_at_origin(pull.body, front.body.at, desk)) {
      parts.push_back(part_json({front.code,
                                 front.path,
                                 pull.front,
                                 front.body.at,
                                 "fitting",
                                 Axis::kY,
                                 kFittingColour,
                                 pulled[pull.front]},
                                packer.add(mesh)));
    }
  }
  return packer.pack(std::move(parts));
}

}  // namespace plankwright::server
