#include "piece/pull_apart.h"

#include <gtest/gtest.h>

namespace plankwright::piece {
namespace {

Joint joint(PartIndex a, PartIndex b, Axis axis, int sign) {
  Joint made;
  made.a = a;
  made.b = b;
  made.home = {axis, sign};
  return made;
}

Piece piece_of(std::size_t parts, std::vector<Joint> joints) {
  Piece piece;
  piece.parts.resize(parts);
  piece.joints = std::move(joints);
  return piece;
}

TEST(PullApart, SidesGoOutAndTheShelfStays) {
  // 0 shelf, 1 left side, 2 right side; the shelf goes into both.
  const auto out = pull_apart(piece_of(3, {joint(0, 1, Axis::kX, -1), joint(0, 2, Axis::kX, 1)}));
  EXPECT_NEAR(out[0].x, 0, 0.01);
  EXPECT_NEAR(out[1].x, -1, 0.03);
  EXPECT_NEAR(out[2].x, 1, 0.03);
  EXPECT_EQ(out[1].y, 0);
}

TEST(PullApart, ARowOfBaysFansOut) {
  // side - shelf - divider - shelf - side
  const auto out = pull_apart(piece_of(5,
                                       {joint(1, 0, Axis::kX, -1),
                                        joint(1, 2, Axis::kX, 1),
                                        joint(3, 2, Axis::kX, -1),
                                        joint(3, 4, Axis::kX, 1)}));
  for (std::size_t i = 1; i < out.size(); ++i) {
    EXPECT_NEAR(out[i].x - out[i - 1].x, 1, 0.1);
  }
}

TEST(PullApart, DoorsAndDrawersComeOutToTheFrontHoweverTheyAreScrewedOn) {
  for (const JointKind kind : {JointKind::kHinge, JointKind::kSlide}) {
    // 0 side, 1 door or drawer side, screwed on sideways
    Joint held = joint(1, 0, Axis::kX, -1);
    held.kind = kind;
    const auto out = pull_apart(piece_of(2, {held}));
    EXPECT_LT(out[1].y - out[0].y, -1.5);
    EXPECT_EQ(out[1].x, 0);
  }
}

TEST(PullApart, ADrawerComesOutAgainstTheWayItGoesIn) {
  const auto out = pull_apart(piece_of(2, {joint(1, 0, Axis::kY, 1)}));
  EXPECT_LT(out[1].y - out[0].y, -0.9);
}

TEST(PullApart, PartsWithoutJointsStay) {
  EXPECT_EQ(pull_apart(piece_of(2, {}))[1], PulledOut{});
}

}  // namespace
}  // namespace plankwright::piece
