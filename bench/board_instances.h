#pragma once
// Boards with their faults, and cutting bills of our own examples to saw from them.

#include <string>
#include <vector>

#include "base/result.h"
#include "solve/boards.h"

namespace plankwright::bench_tool {

/// One cutting bill on the boards of one set.
struct BoardInstance {
  std::string name;
  solve::BoardJob job;
};

/// Reads files of lines, each a board (`length`, `width`, `set`, `defects_front`, `defects_back` as
/// [x1, y1, x2, y2, type]) or a cutting bill (`parts` [length, width, count, quality], `panels`
/// [length, width, narrowest, widest, joint, count, quality], `kerf`, trims), all in sixteenths of
/// an inch; and pairs every set with every bill. `variant` is `yield`, the bill as often as the
/// boards could hold it by area and the greatest area cut from them; or `money`, a third of that
/// for the least board area.
base::Result<std::vector<BoardInstance>> read_board_instances(const std::vector<std::string>& files,
                                                              const std::string& variant);

}  // namespace plankwright::bench_tool
