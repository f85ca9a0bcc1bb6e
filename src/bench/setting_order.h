#pragma once
// What an order of work costs beside the work itself.

#include "measure/quantity.h"

namespace plankwright::bench {

/// Minutes that go by between one operation and the next. Settings are labour and stand in the
/// hours; walking and fetching are in the share of a paid hour that nobody has hands on the work,
/// and stand nowhere else.
struct OrderMinutes {
  int settings = 0;  // made at the machines
  int walks = 0;     // from one machine to another
  int fetches = 0;   // of a pile that was not at the machine before
  measure::Minutes setting, walking, fetching;

  measure::Minutes total() const { return setting + walking + fetching; }
};

/// The order that is planned against working down the drawing: stage by stage as well, but each
/// machine set again whenever the next part of the list needs another setting than the last.
struct SettingOrder {
  OrderMinutes planned;
  OrderMinutes drawing;
  measure::Minutes bound;  // no order that does first what must come first takes less
  bool proven = false;     // the planned one takes no more

  measure::Minutes saved() const { return drawing.total() - planned.total(); }
};

}  // namespace plankwright::bench
