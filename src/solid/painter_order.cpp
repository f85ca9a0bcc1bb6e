// A binary space partition (Fuchs, Kedem and Naylor 1980): the plane of one face divides the others
// into those on the eye's side and those beyond, which are painted first; faces across it are cut.
// Cutting each loop of a face on its own (Sutherland and Hodgman 1974) is right for faces with
// holes too, since the double edges it leaves along the plane enclose nothing.

#include "solid/painter_order.h"

#include <algorithm>
#include <iterator>
#include <utility>

namespace plankwright::solid {
namespace {

constexpr double kOnPlane = 1e-4;        // mm
constexpr double kEdgeOn = 1e-9;         // a face seen on its edge is not seen
constexpr std::size_t kCandidates = 12;  // planes tried at each division

struct Plane {
  Vector normal;
  double offset = 0;
  double height(Vector p) const { return dot(normal, p) - offset; }
};

Plane plane_of(const FlatFace& face) {
  return {face.normal, dot(face.normal, face.loops.front().front())};
}

struct Reach {
  double low = 0;
  double high = 0;
  bool across() const { return low < -kOnPlane && high > kOnPlane; }
  bool in_plane() const { return low >= -kOnPlane && high <= kOnPlane; }
};

Reach reach(const FlatFace& face, const Plane& plane) {
  Reach found{.low = 1e300, .high = -1e300};
  for (const auto& loop : face.loops) {
    for (const Vector p : loop) {
      const double h = plane.height(p);
      found = {std::min(found.low, h), std::max(found.high, h)};
    }
  }
  return found;
}

std::vector<Vector> above(const std::vector<Vector>& loop, const Plane& plane) {
  std::vector<Vector> kept;
  for (std::size_t i = 0; i < loop.size(); ++i) {
    const Vector a = loop[i];
    const Vector b = loop[(i + 1) % loop.size()];
    const double ha = plane.height(a);
    const double hb = plane.height(b);
    if (ha >= 0) {
      kept.push_back(a);
    }
    if ((ha < 0) != (hb < 0)) {
      kept.push_back(a + (b - a) * (ha / (ha - hb)));
    }
  }
  return kept;
}

void add_part_above(const FlatFace& face, const Plane& plane, std::vector<FlatFace>& parts) {
  FlatFace part{.tag = face.tag, .normal = face.normal, .loops = {}};
  for (const auto& loop : face.loops) {
    auto kept = above(loop, plane);
    if (kept.size() > 2) {
      part.loops.push_back(std::move(kept));
    }
  }
  if (!part.loops.empty()) {
    parts.push_back(std::move(part));
  }
}

bool faces_eye(const Plane& plane, const Camera& camera) {
  if (!camera.eye_distance) {
    return dot(plane.normal, camera.to_eye) > kEdgeOn;
  }
  return plane.height(camera.target + camera.to_eye * *camera.eye_distance) > kOnPlane;
}

// The plane that cuts the fewest of the others, of a few spread over the list.
Plane dividing_plane(const std::vector<FlatFace>& faces) {
  const std::size_t step = std::max<std::size_t>(1, faces.size() / kCandidates);
  std::ptrdiff_t fewest = std::ssize(faces) + 1;
  Plane best;
  for (std::size_t i = 0; i < faces.size(); i += step) {
    const Plane plane = plane_of(faces[i]);
    const auto cut =
        std::ranges::count_if(faces, [&](const FlatFace& f) { return reach(f, plane).across(); });
    if (cut < fewest) {
      fewest = cut;
      best = plane;
    }
  }
  return best;
}

struct Divided {
  std::vector<FlatFace> beyond, within, near;
};

// All planes looked at are those of faces turned to the eye, so the eye is above every one.
Divided divide(std::vector<FlatFace> faces, const Plane& plane) {
  const Plane turned{plane.normal * -1, -plane.offset};
  Divided parts;
  for (FlatFace& face : faces) {
    const Reach r = reach(face, plane);
    if (r.in_plane()) {
      parts.within.push_back(std::move(face));
    } else if (r.across()) {
      add_part_above(face, plane, parts.near);
      add_part_above(face, turned, parts.beyond);
    } else {
      (r.high > kOnPlane ? parts.near : parts.beyond).push_back(std::move(face));
    }
  }
  return parts;
}

void paint(std::vector<FlatFace> faces, std::vector<FlatFace>& painted) {
  if (faces.empty()) {
    return;
  }
  const Plane plane = dividing_plane(faces);
  Divided parts = divide(std::move(faces), plane);
  paint(std::move(parts.beyond), painted);
  std::ranges::move(parts.within, std::back_inserter(painted));
  paint(std::move(parts.near), painted);
}

}  // namespace

std::vector<FlatFace> painter_order(std::vector<FlatFace> faces, const Camera& camera) {
  std::erase_if(faces, [&](const FlatFace& f) { return !faces_eye(plane_of(f), camera); });
  std::vector<FlatFace> painted;
  paint(std::move(faces), painted);
  return painted;
}

}  // namespace plankwright::solid
