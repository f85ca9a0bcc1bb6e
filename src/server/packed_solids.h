#pragma once
// The piece as triangles in one run of bytes, as the picture that turns reads it.

#include <string>

#include "plan/plan.h"
#include "server/drawing_desk.h"

namespace plankwright::server {

/// `u32 n | n bytes of JSON, padded to 4 | f32 places[3 nv] | f32 normals[3 nv] | u32 corners[ni]`,
/// all little-endian, millimetres, z up; docs/server.md tells what the JSON says of each part. Like
/// parts share their triangles. A part whose joints cannot be worked out comes without them.
std::string packed_solids(const plan::Plan& plan, DrawingDesk& desk);

}  // namespace plankwright::server
