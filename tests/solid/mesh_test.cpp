#include "solid/mesh.h"

#include <cmath>
#include <map>
#include <numbers>
#include <tuple>

#include <gtest/gtest.h>
#include <rapidcheck/gtest.h>

#include "solid/box_body.h"
#include "solid/shapes.h"
#include "solid/solid.h"
#include "solid/vector.h"

namespace plankwright::solid {
namespace {

Vector corner(const Mesh& mesh, std::size_t i) {
  const std::size_t at = 3 * mesh.triangles[i];
  return {mesh.places[at], mesh.places[at + 1], mesh.places[at + 2]};
}

/// The space within a closed surface: a sixth of the sum of triple products (divergence theorem).
/// It comes out right only when every face looks outwards and none is missing.
double space_within(const Mesh& mesh) {
  double sum = 0;
  for (std::size_t i = 0; i < mesh.triangles.size(); i += 3) {
    sum += dot(corner(mesh, i), cross(corner(mesh, i + 1), corner(mesh, i + 2))) / 6;
  }
  return sum;
}

void expect_normals_agree(const Mesh& mesh) {
  for (std::size_t i = 0; i < mesh.triangles.size(); i += 3) {
    const Vector across =
        cross(corner(mesh, i + 1) - corner(mesh, i), corner(mesh, i + 2) - corner(mesh, i));
    for (std::size_t k = 0; k < 3; ++k) {
      const std::size_t at = 3 * mesh.triangles[i + k];
      const Vector normal{mesh.normals[at], mesh.normals[at + 1], mesh.normals[at + 2]};
      ASSERT_NEAR(norm(normal), 1, 1e-5);
      ASSERT_GT(dot(normal, unit(across)), 0.999);
    }
  }
}

TEST(Mesh, OfABoxIsTwelveTriangles) {
  const auto mesh = mesh_of({.wood = {box(10, 20, 30, 400, 50, 6)}}, mm(0.1));
  ASSERT_TRUE(mesh.ok());
  EXPECT_EQ(mesh.value().triangles.size(), 36U);
  EXPECT_NEAR(space_within(mesh.value()), 400.0 * 50 * 6, 0.5);
  expect_normals_agree(mesh.value());
}

TEST(Mesh, AMortiseAddsItsFourSidesAndItsBottom) {
  const Body leg{.wood = {box(0, 0, 0, 60, 60, 700)}, .cuts = {box(20, -1, 600, 12, 31, 60)}};
  const auto mesh = mesh_of(leg, mm(0.1));
  ASSERT_TRUE(mesh.ok());
  EXPECT_NEAR(space_within(mesh.value()), 60.0 * 60 * 700 - 12.0 * 30 * 60, 1);
}

RC_GTEST_PROP(Mesh, OfBoxesEnclosesTheirWood, ()) {
  constexpr int kRoom = 7;
  const GridBody made{*few_boxes(kRoom, 4), *few_boxes(kRoom, 3)};
  const int cubes =
      count_cubes(kRoom, [&](int x, int y, int z) { return made.holds_wood(x, y, z); });
  const auto mesh = mesh_of(made.body(), mm(0.1));
  RC_ASSERT(mesh.ok() == (cubes > 0));
  if (mesh.ok()) {
    RC_ASSERT(std::abs(space_within(mesh.value()) - cubes) < 1e-3);
  }
}

TEST(Mesh, OfACurveIsAsNearAsAsked) {
  const Body arched{.wood = {box(0, 0, 0, 1000, 20, 100)},
                    .cuts = {Extrusion{.outline = circle(at(500, -400), mm(450)),
                                       .along = measure::Axis::kY,
                                       .from = mm(-1),
                                       .length = mm(22)}}};
  const auto mesh = mesh_of(arched, mm(0.1));
  ASSERT_TRUE(mesh.ok());
  const double exact = Solid::make(arched).value().volume().count();
  EXPECT_NEAR(space_within(mesh.value()) / exact, 1, 2e-4);
  expect_normals_agree(mesh.value());
}

TEST(Mesh, RefusesWhatHasNoWood) {
  EXPECT_FALSE(mesh_of({}, mm(0.1)).ok());
  EXPECT_FALSE(
      mesh_of({.wood = {box(0, 0, 0, 1, 1, 1)}, .cuts = {box(-1, -1, -1, 3, 3, 3)}}, mm(0.1)).ok());
}

}  // namespace
}  // namespace plankwright::solid
