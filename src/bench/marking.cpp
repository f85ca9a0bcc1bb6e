// Every cut is measured from the corner of its part in which reference end, edge and face meet.
// Which corner that is, is free where nothing shows: a part is laid the way in which its figures
// are those of parts before it, so that left and right ones are marked side by side.

#include "bench/marking.h"

#include <algorithm>
#include <array>
#include <map>
#include <optional>
#include <set>
#include <tuple>

#include "bench/laid_part.h"
#include "piece/joint_layout.h"

namespace plankwright::bench {
namespace {

using measure::Axis;
using measure::Box;
using piece::Feature;
using piece::FeatureKind;
using piece::Joint;
using piece::JointKind;
using piece::Part;
using piece::PartIndex;

constexpr int kTailSlope = 8;  // as piece/joint_layout.h leans them

bool is_marked(const Feature& feature) {
  switch (feature.kind) {
    case FeatureKind::kScrewHoles:
    case FeatureKind::kPocketHoles:
    case FeatureKind::kTaper:
    case FeatureKind::kArch:
    case FeatureKind::kLippedEdge:
    case FeatureKind::kClipSlots:
      return false;
    case FeatureKind::kDowelHoles:
    case FeatureKind::kBiscuitSlots:
    case FeatureKind::kLooseMortise:
      return true;
    default:
      return feature.depth > Length{};
  }
}

/// Holes and slots are marked by their middles.
bool is_row(FeatureKind kind) {
  return kind == FeatureKind::kDowelHoles || kind == FeatureKind::kBiscuitSlots ||
         kind == FeatureKind::kLooseMortise || kind == FeatureKind::kPinHoles ||
         kind == FeatureKind::kHingeBore || kind == FeatureKind::kBore;
}

/// Narrower than the wood that meets: cut in the middle of the contact.
bool is_centred(FeatureKind kind) {
  return kind == FeatureKind::kMortise || kind == FeatureKind::kTenon;
}

/// What a joint cuts; the contact is as large as the parts meet.
bool is_of_a_joint(FeatureKind kind) {
  return is_centred(kind) || kind == FeatureKind::kDowelHoles ||
         kind == FeatureKind::kBiscuitSlots || kind == FeatureKind::kLooseMortise;
}

bool touches(const Box& a, const Box& b) {
  const Box shared = measure::intersection(a, b);
  return shared.size.x >= Length{} && shared.size.y >= Length{} && shared.size.z >= Length{};
}

using Place = std::pair<Axis, Axis>;  // across and along a cut, on its side

/// The axes of the side a cut is on: the one it is shorter along, then the longer one.
Place axes_of(const Feature& feature) {
  constexpr std::array kAll = {Axis::kX, Axis::kY, Axis::kZ};
  std::vector<Axis> two;
  std::ranges::copy_if(
      kAll, std::back_inserter(two), [&](Axis axis) { return axis != feature.face.axis; });
  const bool first_is_longer = feature.place.size[two[0]] > feature.place.size[two[1]];
  return first_is_longer ? Place{two[1], two[0]} : Place{two[0], two[1]};
}

void centre_on(Box& box, Axis axis, Length size) {
  if (size > Length{} && size < box.size[axis]) {
    box.at[axis] += (box.size[axis] - size) / 2;
    box.size[axis] = size;
  }
}

/// The side in the layout instead of in the piece, so that mirror images agree.
std::string role_of(const Part& part, const LaidPart& laid, const std::string& on) {
  for (const measure::Direction& side : {laid.end, laid.edge, laid.face}) {
    if (side_name(part, side) == on) {
      return "reference" + on.substr(on.rfind(' '));
    }
  }
  return "other" + on.substr(on.rfind(' '));
}

/// Marks of one part laid one way.
class PartMarks {
 public:
  PartMarks(const piece::Piece& piece, PartIndex part) : piece_{piece}, index_{part} {}

  std::vector<Mark> on(const LaidPart& laid) const {
    std::vector<Mark> marks;
    for (const Feature& feature : part().features) {
      if (is_marked(feature)) {
        marks.push_back(mark(laid, feature));
      }
    }
    std::ranges::stable_sort(marks, {}, [&](const Mark& mark) {
      return std::tuple{role_of(part(), laid, mark.on),
                        mark.from_end.empty() ? Length{} : mark.from_end.front(),
                        mark.from_edge.empty() ? Length{} : mark.from_edge.front(),
                        mark.what};
    });
    return marks;
  }

 private:
  const Part& part() const { return piece_.parts[index_]; }

  Mark mark(const LaidPart& laid, const Feature& feature) const {
    Mark mark;
    mark.what = piece::word(feature.kind);
    mark.on = side_name(part(), feature.face);
    mark.depth = feature.depth;
    mark.wide = feature.across;
    mark.count = std::max(1, feature.count);
    mark.mates = mates_of(feature);
    mark.centres = is_row(feature.kind);
    if (feature.kind == FeatureKind::kDovetails) {
      set_tails(mark, laid, feature);
    } else if (mark.centres) {
      set_row(mark, laid, feature);
    } else {
      set_cut(mark, laid, feature);
    }
    return mark;
  }

  std::vector<Length>& list(Mark& mark, Axis axis) const {
    return axis == part().length_axis      ? mark.from_end
           : axis == part().thickness_axis ? mark.from_face
                                           : mark.from_edge;
  }

  /// Where a cut begins and ends, along all but the way it is cut in. A tenon is what is left: its
  /// shoulder counts too.
  void set_cut(Mark& mark, const LaidPart& laid, const Feature& feature) const {
    Box box = feature.place;
    if (is_centred(feature.kind)) {
      const auto [across, along] = axes_of(feature);
      centre_on(box, across, feature.across);
      centre_on(box, along, feature.along);
    }
    for (const Axis axis : {Axis::kX, Axis::kY, Axis::kZ}) {
      if (axis == feature.face.axis && feature.kind != FeatureKind::kTenon) {
        continue;
      }
      const Length a = laid.from(axis, box.begin(axis));
      const Length b = laid.from(axis, box.end(axis));
      const auto [from, to] = std::minmax(a, b);
      const bool whole = from <= Length{} && to >= laid.outline.size[axis];
      if (!whole) {
        list(mark, axis) = {std::max(Length{}, from), std::min(to, laid.outline.size[axis])};
      }
    }
  }

  void set_row(Mark& mark, const LaidPart& laid, const Feature& feature) const {
    const auto [across, along] = axes_of(feature);
    const Length size = feature.place.size[along];
    if (feature.kind == FeatureKind::kDowelHoles) {
      size_dowels(mark, feature);
    }
    const std::vector<Length> row = is_of_a_joint(feature.kind)
                                        ? piece::fixings_in_row(size, mark.count)
                                        : holes_in_row(size, mark.count, mark.wide);
    std::vector<Length>& centres = list(mark, along);
    for (const Length at : row) {
      centres.push_back(laid.from(along, feature.place.begin(along) + at));
    }
    std::ranges::sort(centres);
    list(mark, across) = {laid.from(across, feature.place.centre()[across])};
  }

  /// The first and the last hole touch the ends of their place.
  static std::vector<Length> holes_in_row(Length size, int count, Length wide) {
    if (count == 1) {
      return {size / 2};
    }
    std::vector<Length> centres;
    for (std::int64_t i = 0; i < count; ++i) {
      centres.push_back(wide / 2 + Length::from_nm((size - wide).nm() * i / (count - 1)));
    }
    return centres;
  }

  void size_dowels(Mark& mark, const Feature& feature) const {
    for (const Joint& joint : piece_.joints) {
      if (joint.kind == JointKind::kDowel && is_at(joint, feature)) {
        const piece::DowelDepths depths = piece::dowel_depths(piece_, joint);
        mark.wide = piece::dowel_thickness(joint);
        mark.depth = joint.a == index_ ? depths.in_a : depths.in_b;
        return;
      }
    }
  }

  /// The tails' sides on the face where they are widest, on the board with the tails and on the one
  /// with the sockets alike.
  void set_tails(Mark& mark, const LaidPart& laid, const Feature& feature) const {
    const auto [across, along] = axes_of(feature);
    const bool has_tails = feature.face.axis == part().length_axis;
    const std::vector<piece::Tail> tails =
        piece::dovetail_tails(feature.place.size[along], mark.count, feature.depth);
    mark.what = has_tails ? "tails" : "sockets for tails";
    mark.slope = kTailSlope;
    mark.count = static_cast<int>(tails.size());
    std::vector<Length>& sides = list(mark, along);
    for (const piece::Tail& tail : tails) {
      sides.push_back(laid.from(along, feature.place.begin(along) + tail.from));
      sides.push_back(laid.from(along, feature.place.begin(along) + tail.to));
    }
    std::ranges::sort(sides);
    const Axis length = part().length_axis;
    const Length a = laid.from(length, feature.place.begin(length));
    const Length b = laid.from(length, feature.place.end(length));
    mark.from_end = {std::min(a, b), std::max(a, b)};
    mark.depth = has_tails ? Length{} : feature.depth;
  }

  bool is_at(const Joint& joint, const Feature& feature) const {
    return (joint.a == index_ || joint.b == index_) && touches(joint.contact, feature.place);
  }

  std::vector<std::string> mates_of(const Feature& feature) const {
    std::set<std::string> codes;
    for (const Joint& joint : piece_.joints) {
      const bool lies_in = joint.home.axis == feature.face.axis;
      if (lies_in && joint.kind != JointKind::kScrew && is_at(joint, feature)) {
        codes.insert(piece_.parts[joint.a == index_ ? joint.b : joint.a].code);
      }
    }
    codes.erase("");
    return {codes.begin(), codes.end()};
  }

  const piece::Piece& piece_;
  PartIndex index_;
};

std::vector<measure::Direction> sides_cut_into(const Part& part) {
  std::vector<measure::Direction> sides;
  for (const Feature& feature : part.features) {
    if (is_marked(feature)) {
      sides.push_back(feature.face);
    }
  }
  return sides;
}

/// Figures alone.
using Figures = std::vector<std::tuple<std::string,
                                       std::string,
                                       std::vector<Length>,
                                       std::vector<Length>,
                                       std::vector<Length>,
                                       Length,
                                       Length,
                                       int>>;

Figures figures_of(const Part& part, const LaidPart& laid, const std::vector<Mark>& marks) {
  Figures figures;
  for (const Mark& mark : marks) {
    figures.emplace_back(mark.what,
                         role_of(part, laid, mark.on),
                         mark.from_end,
                         mark.from_edge,
                         mark.from_face,
                         mark.depth,
                         mark.wide,
                         mark.count);
  }
  return figures;
}

class MarkerOut {
 public:
  explicit MarkerOut(const piece::Piece& piece) : piece_{piece} {}

  Marking all() {
    for (const piece::PartLine& line : piece::part_lines(piece_)) {
      for (const PartIndex part : line.parts) {
        add(part);
      }
    }
    return std::move(marking_);
  }

 private:
  /// A family and what its parts have in common.
  struct Known {
    std::size_t family;
    Figures figures;
    int handedness;
  };
  using Kind = std::tuple<std::string, std::int64_t, std::int64_t, std::int64_t>;

  void add(PartIndex index) {
    const Part& part = piece_.parts[index];
    const std::vector<measure::Direction> sides = sides_cut_into(part);
    if (sides.empty() || part.material == piece::Material::kBoughtIn) {
      return;
    }
    const PartMarks marks{piece_, index};
    const std::vector<LaidPart> ways = ways_to_lay(piece_, index, sides);
    std::vector<Known>& known = known_[{part.name,
                                        part.finished.length.nm(),
                                        part.finished.width.nm(),
                                        part.finished.thickness.nm()}];
    if (!join(index, marks, ways, known)) {
      found(index, marks.on(ways.front()), ways.front(), known);
    }
  }

  /// Joins a family in which the part has the same figures: a left or right part as it is liked to
  /// lie, any part laid the same way round if it can be.
  bool join(PartIndex index,
            const PartMarks& marks,
            const std::vector<LaidPart>& ways,
            const std::vector<Known>& known) {
    const bool handed = piece_.parts[index].hand != piece::Hand::kNone;
    if (handed && (join_laid(index, marks, ways.front(), known, false) ||
                   join_laid(index, marks, ways.front(), known, true))) {
      return true;
    }
    for (const bool mirrored : {false, true}) {
      for (const LaidPart& way : ways) {
        if (join_laid(index, marks, way, known, mirrored)) {
          return true;
        }
      }
    }
    return false;
  }

  bool join_laid(PartIndex index,
                 const PartMarks& marks,
                 const LaidPart& way,
                 const std::vector<Known>& known,
                 bool mirrored) {
    const std::vector<Mark> here = marks.on(way);
    const Figures figures = figures_of(piece_.parts[index], way, here);
    const auto same = std::ranges::find_if(known, [&](const Known& one) {
      return one.figures == figures && (one.handedness != way.handedness()) == mirrored;
    });
    if (same == known.end()) {
      return false;
    }
    put(marking_.families[same->family], index, here, mirrored);
    return true;
  }

  static void put(MarkedFamily& family,
                  PartIndex index,
                  const std::vector<Mark>& marks,
                  bool mirrored) {
    family.parts.push_back(index);
    if (mirrored) {
      family.mirrored.push_back(index);
    }
    for (std::size_t i = 0; i < marks.size(); ++i) {
      std::set<std::string> mates{family.marks[i].mates.begin(), family.marks[i].mates.end()};
      mates.insert(marks[i].mates.begin(), marks[i].mates.end());
      family.marks[i].mates = {mates.begin(), mates.end()};
    }
  }

  void found(PartIndex index,
             std::vector<Mark> marks,
             const LaidPart& laid,
             std::vector<Known>& known) {
    const Part& part = piece_.parts[index];
    known.push_back({marking_.families.size(), figures_of(part, laid, marks), laid.handedness()});
    marking_.families.push_back({.parts = {index},
                                 .mirrored = {},
                                 .end = side_name(part, laid.end),
                                 .edge = side_name(part, laid.edge),
                                 .face = side_name(part, laid.face),
                                 .length = laid.outline.size[part.length_axis],
                                 .width = laid.outline.size[part.width_axis()],
                                 .thickness = laid.outline.size[part.thickness_axis],
                                 .marks = std::move(marks)});
  }

  const piece::Piece& piece_;
  Marking marking_;
  std::map<Kind, std::vector<Known>> known_;
};

}  // namespace

Marking mark_out(const piece::Piece& piece) {
  Marking marking = MarkerOut{piece}.all();
  marking.settings = joint_settings(piece, marking.families);
  return marking;
}

}  // namespace plankwright::bench
