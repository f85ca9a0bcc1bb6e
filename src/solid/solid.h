#pragma once
// The wood of a part as an exact solid: how much there is, where it balances, what runs into what.

#include <memory>

#include "base/result.h"
#include "measure/box.h"
#include "measure/quantity.h"
#include "solid/body.h"

namespace plankwright::solid {

/// A body worked out. A value: cheap to copy and to move about, never changed.
class Solid {
 public:
  /// Error kBadInput, naming the lump by its place in the list, when a box or an outline has no
  /// size, an outline crosses itself or an arc's three points are in line; kDoesNotFit when the
  /// cuts leave nothing.
  static base::Result<Solid> make(const Body& body);

  measure::CubicMillimetres volume() const;
  /// Where it balances, the wood taken as even.
  measure::Point centre_of_mass() const;
  /// The box around it.
  measure::Box bounds() const;
  /// How many loose pieces it is in; more than one when a cut goes right through.
  int pieces() const;
  /// Closed, without gaps or faces that cross: the library's full check.
  bool valid() const;
  /// The same solid elsewhere; shares the geometry.
  Solid moved(measure::Point by) const;

  struct Inside;
  const Inside& inside() const { return *inside_; }

 private:
  explicit Solid(std::shared_ptr<const Inside> inside) : inside_{std::move(inside)} {}
  std::shared_ptr<const Inside> inside_;
};

/// How much wood of `a` and `b` is in the same place. Zero when they only touch.
measure::CubicMillimetres interference(const Solid& a, const Solid& b);

/// The same of bodies; microseconds when both are of boxes only, which are then not checked for
/// boxes without size. Errors as Solid::make.
base::Result<measure::CubicMillimetres> interference(const Body& a, const Body& b);

}  // namespace plankwright::solid
