#pragma once
// Marking out before a machine is switched on: where each cut lies on its part, from one end, one
// edge and one face, and what the machines are set to for the joints.

#include <string>
#include <vector>

#include "measure/length.h"
#include "piece/piece.h"

namespace plankwright::bench {

using measure::Length;

/// One cut, one row of holes or slots, or the tails of a corner, on one side of a part. All lengths
/// are cumulative from the reference end, edge and face. Each list says where a cut begins and
/// ends, or, with `centres`, the middle of each hole; of tails, their sides one after the other. A
/// list is empty where nothing is measured: the cut runs right through, or its depth says it.
struct Mark {
  std::string what;  // "mortise", "housing", "shelf-pin holes"
  std::string on;    // "front edge", "left face", "lower end"
  std::vector<Length> from_end, from_edge, from_face;
  bool centres = false;
  Length depth;
  Length wide;                     // of the cutter, bit or tongue
  int slope = 0;                   // of tails, 1 to so many
  int count = 1;                   // tenons, holes, slots, tails
  std::vector<std::string> mates;  // codes of the parts that meet here
};

/// Parts that are marked alike, laid side by side: left and right ones are mirror images, their
/// figures the same.
struct MarkedFamily {
  std::vector<piece::PartIndex> parts;
  std::vector<piece::PartIndex> mirrored;  // of them
  std::string end, edge, face;             // references of the first: "lower end", "front edge"
  Length length, width, thickness;         // tenons and tongues included
  std::vector<Mark> marks;                 // by their place along the part
};

/// Everything at joints that is cut with one setting of a machine, mates together.
struct JointSetting {
  std::string what;  // "mortise", "dowel holes", "housing"
  Length wide;       // bit, cutter or slot
  Length depth;
  Length from_face;                // middle of the cut from the reference face; zero: by its marks
  std::vector<std::string> codes;  // of the parts, in order
  int count = 0;
  bool mates = false;  // both parts of every joint pass in this setting
};

struct Marking {
  std::vector<MarkedFamily> families;  // in the order of the parts list
  std::vector<JointSetting> settings;
};

/// Marks out every part that has something to mark; screw and pocket holes, tapers, curves, clips
/// and edge bands have not. References: the side that shows, else the side away from the joints,
/// else left, front and lower; where that is free, the way that makes a part like those before it.
/// Rows of tails, dowels and slots lie as in piece/joint_layout.h. Deterministic.
Marking mark_out(const piece::Piece& piece);

/// The settings that these marks ask for, by what is cut and how wide.
std::vector<JointSetting> joint_settings(const piece::Piece& piece,
                                         const std::vector<MarkedFamily>& families);

}  // namespace plankwright::bench
