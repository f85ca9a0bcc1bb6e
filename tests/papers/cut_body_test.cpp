#include "papers/cut_body.h"

#include <numbers>

#include <gtest/gtest.h>

#include "papers/planned_example.h"
#include "solid/solid.h"

namespace plankwright::papers {
namespace {

using measure::Axis;
using measure::Length;
using namespace measure;  // NOLINT(google-build-using-namespace): 15_mm

piece::Part board(double x, double length, double width) {
  piece::Part part;
  part.body = {{Length::from_mm(x), Length{}, Length{}},
               {Length::from_mm(length), Length::from_mm(20), Length::from_mm(width)}};
  return part;
}

double volume(const solid::Body& body) {
  return solid::Solid::make(body).value().volume().count();
}

/// A rail 400 long, 60 wide, 20 thick, tenoned 30 deep into a stile.
piece::Piece frame(piece::JointKind kind) {
  piece::Piece piece;
  piece.parts = {board(0, 400, 60), board(400, 50, 600)};
  piece::Joint joint;
  joint.kind = kind;
  joint.a = 0;
  joint.b = 1;
  joint.contact = {{Length::from_mm(400), Length{}, Length{}},
                   {Length{}, Length::from_mm(20), Length::from_mm(60)}};
  joint.home = {Axis::kX, 1};
  joint.depth = Length::from_mm(30);
  joint.tongue_thickness = Length::from_mm(6);
  joint.tongue_width = Length::from_mm(40);
  joint.play = Length::from_mm(2);
  piece.joints = {joint};
  return piece;
}

TEST(CutBodies, ATenonFillsItsMortise) {
  const auto bodies = cut_bodies(frame(piece::JointKind::kMortiseTenon));
  EXPECT_NEAR(volume(bodies[0]), 400.0 * 60 * 20 + 30.0 * 6 * 40, 0.01);
  EXPECT_NEAR(volume(bodies[1]), 50.0 * 600 * 20 - 30.0 * 6 * 40, 0.01);
  EXPECT_NEAR(solid::interference(bodies[0], bodies[1]).value().count(), 0, 0.01);
}

TEST(CutBodies, AGrooveLeavesThePanelItsPlay) {
  const auto bodies = cut_bodies(frame(piece::JointKind::kGroove));
  EXPECT_NEAR(volume(bodies[0]), 400.0 * 60 * 20 + 30.0 * 6 * 40, 0.01);
  EXPECT_NEAR(volume(bodies[1]), 50.0 * 600 * 20 - 32.0 * 6 * 40, 0.01);
}

TEST(CutBodies, ScrewsChangeNoShape) {
  const auto bodies = cut_bodies(frame(piece::JointKind::kScrew));
  EXPECT_NEAR(volume(bodies[0]), 400.0 * 60 * 20, 0.01);
  EXPECT_NEAR(volume(bodies[1]), 50.0 * 600 * 20, 0.01);
}

/// A drawer side 12 thick and 100 high, 300 long along y, whose tails go through a front 15 thick.
piece::Piece drawer_corner(int tails) {
  piece::Piece piece;
  piece::Part side;
  side.body = {{0_mm, 15_mm, 0_mm}, {12_mm, 300_mm, 100_mm}};
  piece::Part front;
  front.body = {{0_mm, 0_mm, 0_mm}, {400_mm, 15_mm, 100_mm}};
  piece.parts = {side, front};
  piece::Joint joint;
  joint.kind = piece::JointKind::kDovetail;
  joint.a = 0;
  joint.b = 1;
  joint.contact = {{0_mm, 15_mm, 0_mm}, {12_mm, 0_mm, 100_mm}};
  joint.home = {Axis::kY, -1};
  joint.depth = 15_mm;
  joint.count = tails;
  piece.joints = {joint};
  return piece;
}

// By hand: three tails of 100 less two half pins of 6, in eleven steps of 8 (3 + 1 + 3 + 1 + 3):
// each tail 24 wide at its end and 24 - 2 x 15/8 = 20.25 at the shoulder.
TEST(CutBodies, TailsFillTheirSockets) {
  const auto bodies = cut_bodies(drawer_corner(3));
  const double tails = 3 * (24 + 20.25) / 2 * 15 * 12;
  EXPECT_NEAR(volume(bodies[0]), 12.0 * 300 * 100 + tails, 0.1);
  EXPECT_NEAR(volume(bodies[1]), 400.0 * 15 * 100 - tails, 0.1);
  EXPECT_NEAR(solid::interference(bodies[0], bodies[1]).value().count(), 0, 0.01);
  EXPECT_EQ(solid::Solid::make(bodies[1]).value().pieces(), 1);
}

// A shelf 20 thick and 100 deep onto a side 20 thick with two dowels: a third of 20 thick, three
// times that deep in the shelf, and four fifths of the side, which is too thin for 20.
TEST(CutBodies, DowelHolesAreDrilledIntoBothParts) {
  piece::Piece piece;
  piece::Part shelf;
  shelf.body = {{20_mm, 0_mm, 0_mm}, {600_mm, 100_mm, 20_mm}};
  piece::Part side;
  side.body = {{0_mm, 0_mm, -300_mm}, {20_mm, 100_mm, 700_mm}};
  piece.parts = {shelf, side};
  piece::Joint joint;
  joint.kind = piece::JointKind::kDowel;
  joint.a = 0;
  joint.b = 1;
  joint.contact = {{20_mm, 0_mm, 0_mm}, {0_mm, 100_mm, 20_mm}};
  joint.home = {Axis::kX, -1};
  joint.count = 2;
  piece.joints = {joint};
  const auto bodies = cut_bodies(piece);
  const double round = std::numbers::pi / 4 * (20.0 / 3) * (20.0 / 3);
  EXPECT_NEAR(volume(bodies[0]), 600.0 * 100 * 20 - 2 * round * 20, 0.1);
  EXPECT_NEAR(volume(bodies[1]), 20.0 * 100 * 700 - 2 * round * 16, 0.1);
}

// What goes into each other in the demos fits: no wood is in two parts at once.
TEST(CutBodies, OfTheDemosFitIntoEachOther) {
  for (const char* example : kExamples) {
    const piece::Piece& piece = example_plan(example).piece;
    const auto bodies = cut_bodies(piece);
    for (const piece::Joint& joint : piece.joints) {
      if (!piece::lets_in(joint.kind) && joint.kind != piece::JointKind::kDovetail) {
        continue;
      }
      const auto shared = solid::interference(bodies[joint.a], bodies[joint.b]);
      ASSERT_TRUE(shared.ok()) << piece.parts[joint.a].path << ": " << shared.error().message;
      EXPECT_NEAR(shared.value().count(), 0, 0.5)
          << example << ": " << piece.parts[joint.a].path << " in " << piece.parts[joint.b].path;
    }
  }
}

}  // namespace
}  // namespace plankwright::papers
