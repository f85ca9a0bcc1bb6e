#include <array>

#include "piece/kits/kits.h"

namespace plankwright::piece {

std::span<const Kit> all_kits() {
  static const std::array<Kit, 11> kKits = {carcase_kit(),
                                            leg_and_rail_frame_kit(),
                                            slab_kit(),
                                            drawer_bank_kit(),
                                            panel_door_kit(),
                                            slab_door_kit(),
                                            shelves_kit(),
                                            ladder_base_kit(),
                                            scribe_strip_kit(),
                                            filler_kit(),
                                            plain_part_kit()};
  return kKits;
}

}  // namespace plankwright::piece
