#pragma once
// Every kit, one file each.

#include "piece/kit.h"

namespace plankwright::piece {

const Kit& carcase_kit();
const Kit& leg_and_rail_frame_kit();
const Kit& slab_kit();
const Kit& drawer_bank_kit();
const Kit& panel_door_kit();
const Kit& slab_door_kit();
const Kit& shelves_kit();
const Kit& ladder_base_kit();
const Kit& scribe_strip_kit();
const Kit& filler_kit();
const Kit& plain_part_kit();

}  // namespace plankwright::piece
