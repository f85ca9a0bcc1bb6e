#include "solid/painted.h"

#include <algorithm>
#include <cmath>
#include <cstdint>

#include <Standard_Failure.hxx>
#include <fmt/format.h>

#include "solid/flat_faces.h"
#include "solid/painter_order.h"

namespace plankwright::solid {
namespace {

using base::Error;
using base::Result;

const Vector kToLight = unit({-0.45, -0.65, 1.0});
constexpr double kAlong = 0.99;        // a normal this near to the grain makes an end-grain face
constexpr double kStrokePitches = 14;  // mean length of a stroke, in pitches
constexpr double kWander = 0.6;        // how far strokes stray from an even pitch, in pitches
constexpr double kGap = 0.35;          // share of places where no stroke is drawn

Vector axis_vector(measure::Axis axis) {
  return {axis == measure::Axis::kX ? 1.0 : 0.0,
          axis == measure::Axis::kY ? 1.0 : 0.0,
          axis == measure::Axis::kZ ? 1.0 : 0.0};
}

// Between 0 and 1, the same for the same numbers (SplitMix64's mixing, Steele et al. 2014).
double scatter(std::int64_t a, std::int64_t b, std::int64_t c) {
  std::uint64_t z = static_cast<std::uint64_t>(a) * 0x9E3779B97F4A7C15ULL ^
                    static_cast<std::uint64_t>(b) * 0xBF58476D1CE4E5B9ULL ^
                    static_cast<std::uint64_t>(c) * 0x94D049BB133111EBULL;
  z = (z ^ (z >> 30)) * 0xBF58476D1CE4E5B9ULL;
  z = (z ^ (z >> 27)) * 0x94D049BB133111EBULL;
  return static_cast<double>((z ^ (z >> 31)) >> 11) * 0x1.0p-53;
}

// The grain of one face as straight strokes in its plane. `along` runs with the grain and `across`
// square to it; both are measured from the zero of space, so that the pieces of a cut face agree.
class Grain {
 public:
  Grain(const FlatFace& face, Vector along, double pitch, int seed)
      : face_{face},
        along_{unit(along - face.normal * dot(along, face.normal))},
        across_{cross(face.normal, along_)},
        height_{dot(face.normal, face.loops.front().front())},
        pitch_{pitch},
        seed_{seed} {}

  std::vector<std::pair<Vector, Vector>> strokes() const {
    std::vector<std::pair<Vector, Vector>> strokes;
    const auto [low, high] = reach_across();
    const auto first = static_cast<std::int64_t>(std::floor(low / pitch_)) - 1;
    const auto last = static_cast<std::int64_t>(std::ceil(high / pitch_)) + 1;
    for (std::int64_t row = first; row <= last; ++row) {
      const double y =
          pitch_ * (static_cast<double>(row) + kWander * scatter(seed_, row, face_side()));
      const auto crossings = crossings_at(y);
      for (std::size_t i = 1; i < crossings.size(); i += 2) {
        add_strokes(row, y, crossings[i - 1], crossings[i], strokes);
      }
    }
    return strokes;
  }

 private:
  std::int64_t face_side() const { return std::llround(height_ * 8); }

  std::pair<double, double> reach_across() const {
    double low = 1e300;
    double high = -1e300;
    for (const auto& loop : face_.loops) {
      for (const Vector p : loop) {
        low = std::min(low, dot(p, across_));
        high = std::max(high, dot(p, across_));
      }
    }
    return {low, high};
  }

  std::vector<double> crossings_at(double y) const {
    std::vector<double> found;
    for (const auto& loop : face_.loops) {
      for (std::size_t i = 0; i < loop.size(); ++i) {
        const Vector a = loop[i];
        const Vector b = loop[(i + 1) % loop.size()];
        const double ya = dot(a, across_);
        const double yb = dot(b, across_);
        if ((ya < y) != (yb < y)) {
          found.push_back(dot(a + (b - a) * ((y - ya) / (yb - ya)), along_));
        }
      }
    }
    std::ranges::sort(found);
    return found;
  }

  // The stretch from `from` to `to` is divided into cells; most cells hold one stroke.
  void add_strokes(std::int64_t row,
                   double y,
                   double from,
                   double to,
                   std::vector<std::pair<Vector, Vector>>& strokes) const {
    const double cell = pitch_ * kStrokePitches;
    for (auto i = static_cast<std::int64_t>(std::floor(from / cell)) - 1;; ++i) {
      const double at = cell * static_cast<double>(i);
      if (at >= to) {
        return;
      }
      if (scatter(seed_, row, i) < kGap) {
        continue;
      }
      const double start = at + cell * 0.5 * scatter(seed_, i, row);
      const double end = at + cell * (0.6 + 0.6 * scatter(seed_ + 1, row, i));
      if (std::min(end, to) > std::max(start, from)) {
        strokes.emplace_back(place(std::max(start, from), y), place(std::min(end, to), y));
      }
    }
  }

  Vector place(double x, double y) const {
    return along_ * x + across_ * y + face_.normal * height_;
  }

  const FlatFace& face_;
  Vector along_;
  Vector across_;
  double height_;
  double pitch_;
  int seed_;
};

PaintedFace painted(const FlatFace& face,
                    const DrawnSolid& drawn,
                    const Camera& camera,
                    double pitch) {
  PaintedFace out{.solid = drawn.id, .light = std::max(0.0, dot(face.normal, kToLight))};
  for (const auto& loop : face.loops) {
    auto& flat = out.loops.emplace_back();
    std::ranges::transform(
        loop, std::back_inserter(flat), [&](Vector p) { return project(camera, p); });
  }
  if (!drawn.grain) {
    return out;
  }
  const Vector along = axis_vector(*drawn.grain);
  out.end_grain = std::abs(dot(along, face.normal)) > kAlong;
  if (!out.end_grain && pitch > 0) {
    for (const auto& [a, b] : Grain(face, along, pitch, drawn.id).strokes()) {
      out.grain.emplace_back(project(camera, a), project(camera, b));
    }
  }
  return out;
}

}  // namespace

Result<std::vector<PaintedFace>> painted_view(std::span<const DrawnSolid> solids,
                                              const Camera& camera,
                                              measure::Length grain_pitch) {
  if (const auto refused = refuse_near_eye(solids, camera)) {
    return *refused;
  }
  try {
    std::vector<FlatFace> faces;
    for (std::size_t i = 0; i < solids.size(); ++i) {
      std::ranges::move(flat_faces(solids[i].solid, i), std::back_inserter(faces));
    }
    std::vector<PaintedFace> view;
    for (const FlatFace& face : painter_order(std::move(faces), camera)) {
      view.push_back(painted(face, solids[face.tag], camera, grain_pitch.mm()));
    }
    return view;
  } catch (const Standard_Failure& failure) {  // not a std::exception
    return Error{.message = fmt::format(
                     "view {} cannot be painted ({})", camera.name, failure.DynamicType()->Name())};
  }
}

}  // namespace plankwright::solid
