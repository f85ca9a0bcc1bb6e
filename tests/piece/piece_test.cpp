#include "piece/piece.h"

#include <array>
#include <numbers>

#include <gmock/gmock.h>
#include <gtest/gtest.h>
#include <rapidcheck/gtest.h>

#include "piece/sizes.h"
#include "piece/surface.h"

namespace plankwright::piece {
namespace {

using namespace measure;  // NOLINT(google-build-using-namespace): length literals
using ::testing::ElementsAre;
using ::testing::IsEmpty;
using ::testing::SizeIs;

Part board(std::string path, Box body, Axis length = Axis::kX, Axis thickness = Axis::kZ) {
  Part part;
  part.name = path.substr(path.rfind('.') + 1);
  part.path = std::move(path);
  part.body = body;
  part.length_axis = length;
  part.thickness_axis = thickness;
  part.stock = "ash_4_4";
  return part;
}

Joint joint(JointKind kind, PartIndex a, PartIndex b, Direction home, Length depth = {}) {
  Joint made;
  made.kind = kind;
  made.a = a;
  made.b = b;
  made.home = home;
  made.depth = depth;
  made.undone = comes_apart(kind);
  return made;
}

/// A shelf between two uprights: 47 in clear, as in a case 48 1/2 in wide.
Piece shelf_between_uprights() {
  Piece piece;
  piece.overall = {{}, {48.5_in, 16_in, 27_in}};
  piece.parts = {
      board("case.left", {{}, {0.75_in, 16_in, 27_in}}, Axis::kZ, Axis::kX),
      board("case.right", {{47.75_in, 0_in, 0_in}, {0.75_in, 16_in, 27_in}}, Axis::kZ, Axis::kX),
      board("case.shelf", {{0.75_in, 0_in, 0_in}, {47_in, 16_in, 0.75_in}})};
  piece.joints = {joint(JointKind::kHousing, 2, 0, {Axis::kX, -1}, 0.25_in),
                  joint(JointKind::kHousing, 2, 1, {Axis::kX, 1}, 0.25_in)};
  return piece;
}

TEST(FinishedSize, GrowsByTheJointsAtBothEnds) {
  Piece piece = shelf_between_uprights();
  work_out_finished_sizes(piece);
  EXPECT_EQ(piece.parts[2].finished, (Size{47.5_in, 16_in, 0.75_in}));
  EXPECT_EQ(piece.parts[0].finished, (Size{27_in, 16_in, 0.75_in}));
}

TEST(FinishedSize, CountsTheDeepestJointAtAnEndOnce) {
  Piece piece = shelf_between_uprights();
  piece.joints.push_back(joint(JointKind::kHousing, 2, 0, {Axis::kX, -1}, 0.375_in));
  piece.joints.push_back(joint(JointKind::kDowel, 2, 0, {Axis::kX, -1}, 1_in));  // lets nothing in
  work_out_finished_sizes(piece);
  EXPECT_EQ(piece.parts[2].finished.length, 47_in + 0.375_in + 0.25_in);
}

TEST(Features, OfAGrooveAreAsDeepAsItIsCutNotAsItsPanelReaches) {
  Piece piece = shelf_between_uprights();
  piece.joints = {joint(JointKind::kGroove, 2, 0, {Axis::kX, -1}, 0.375_in)};
  piece.joints[0].play = 0.125_in;
  add_features_of_joints(piece);
  ASSERT_THAT(piece.parts[0].features, SizeIs(1));
  EXPECT_EQ(piece.parts[0].features[0].kind, FeatureKind::kGroove);
  EXPECT_EQ(piece.parts[0].features[0].depth, 0.5_in);
}

TEST(Contacts, AreFoundWhereBodiesTouchOnMoreThanALine) {
  const Piece piece = shelf_between_uprights();
  EXPECT_THAT(contacts(piece), SizeIs(2));
  Piece edge = piece;
  edge.parts[2].body.at.z = 27_in;  // now only an edge meets an edge
  EXPECT_THAT(contacts(edge), IsEmpty());
}

TEST(Overlaps, AreFoundUnlessTheBodiesAreHalved) {
  Piece piece = shelf_between_uprights();
  EXPECT_THAT(overlaps(piece), IsEmpty());
  piece.parts[2].body.size.x += 0.5_in;
  EXPECT_THAT(overlaps(piece), SizeIs(1));
  piece.joints.push_back(joint(JointKind::kHalving, 2, 1, {Axis::kX, 1}));
  EXPECT_THAT(overlaps(piece), IsEmpty());
}

TEST(FloatingParts, AreThoseNoChainOfJointsReaches) {
  Piece piece = shelf_between_uprights();
  EXPECT_THAT(floating_parts(piece), IsEmpty());
  piece.joints.pop_back();
  EXPECT_THAT(floating_parts(piece), ElementsAre(PartIndex{1}));
}

TEST(PartLines, KeepHandedPartsApart) {
  Piece piece = shelf_between_uprights();
  piece.parts[0].name = piece.parts[1].name = "upright";
  work_out_finished_sizes(piece);
  EXPECT_THAT(part_lines(piece), SizeIs(2));
  piece.parts[0].hand = Hand::kLeft;
  piece.parts[1].hand = Hand::kRight;
  EXPECT_THAT(part_lines(piece), SizeIs(3));
}

TEST(Packages, FallApartWhereJointsAreUndone) {
  Piece piece = shelf_between_uprights();
  pack(piece);
  EXPECT_THAT(piece.packages, SizeIs(1));
  EXPECT_EQ(piece.packages[0].name, "case");
  piece.joints[1] = joint(JointKind::kBolt, 2, 1, {Axis::kX, 1});
  pack(piece);
  EXPECT_THAT(piece.packages, SizeIs(2));
}

// A leg tapered on two faces from 80 to 50 mm over its whole length is a truncated pyramid:
// h/3 (A1 + A2 + sqrt(A1 A2)) (Euclid's frustum).
TEST(Volume, OfATaperedLegIsTheFrustum) {
  Part leg = board("base.leg", {{}, {80_mm, 80_mm, 600_mm}}, Axis::kZ, Axis::kX);
  leg.finished = {600_mm, 80_mm, 80_mm};
  leg.tapers = {{{Axis::kX, 1}, 0_mm, 50_mm}, {{Axis::kY, 1}, 0_mm, 50_mm}};
  EXPECT_NEAR(volume_of(leg).count(), 600.0 / 3 * (6400 + 2500 + 4000), 1.0);
}

// Half a circle sawn out of a rail: span 2r, rise r, area pi r2 / 2.
TEST(Volume, OfAnArchedRailLosesTheSegment) {
  Part rail = board("base.rail", {{}, {400_mm, 20_mm, 150_mm}}, Axis::kX, Axis::kY);
  rail.finished = {400_mm, 150_mm, 20_mm};
  rail.arch = Arch{{Axis::kZ, -1}, 200_mm, 100_mm, false};
  const double left = 400.0 * 150 * 20 - std::numbers::pi * 100 * 100 / 2 * 20;
  EXPECT_NEAR(volume_of(rail).count(), left, 1.0);
}

TEST(FinishedAreas, LeaveOutWhatIsCovered) {
  Piece piece = shelf_between_uprights();
  piece.parts[2].body.at.z = 10_in;
  const auto areas = finished_areas(piece);
  const double shelf = 2 * (47 * 16.0 + 47 * 0.75);  // both ends are against the uprights
  EXPECT_NEAR(areas[2].count() / (25.4 * 25.4), shelf, 1e-6);
}

RC_GTEST_PROP(FinishedAreas, NeverExceedTheSurface, ()) {
  Piece piece;
  const int count = *rc::gen::inRange(1, 6);
  for (int i = 0; i < count; ++i) {
    const auto mm = [](int low, int high) { return Length::from_mm(*rc::gen::inRange(low, high)); };
    piece.parts.push_back(
        board("p" + std::to_string(i),
              {{mm(0, 50), mm(0, 50), mm(1, 50)}, {mm(1, 50), mm(1, 50), mm(1, 50)}}));
    piece.overall = hull(piece.overall, piece.parts.back().body);
  }
  const auto areas = finished_areas(piece);
  for (std::size_t i = 0; i < areas.size(); ++i) {
    const auto& s = piece.parts[i].body.size;
    const double whole = 2 * (s.x.mm() * s.y.mm() + s.y.mm() * s.z.mm() + s.x.mm() * s.z.mm());
    RC_ASSERT(areas[i].count() >= 0);
    RC_ASSERT(areas[i].count() <= whole + 1e-6);
  }
}

}  // namespace
}  // namespace plankwright::piece
