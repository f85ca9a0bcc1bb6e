#include "piece/piece.h"

#include <algorithm>
#include <array>
#include <numeric>

namespace plankwright::piece {
namespace {

using namespace measure;  // NOLINT(google-build-using-namespace): units and axes, file scope

constexpr std::array kAxes = {Axis::kX, Axis::kY, Axis::kZ};

// Bodies are exact; a hair guards against sizes cut down to the nanometre by a division.
constexpr Length kHair = Length::from_nm(1'000);

bool same_bands(const Part& a, const Part& b) {
  return std::ranges::equal(a.bands, b.bands, [](const EdgeBand& x, const EdgeBand& y) {
    return x.stock == y.stock && x.side == y.side;
  });
}

bool same_shape(const Part& a, const Part& b) {
  const bool same_arch =
      a.arch.has_value() == b.arch.has_value() &&
      (!a.arch || (a.arch->span == b.arch->span && a.arch->rise == b.arch->rise));
  return same_arch && std::ranges::equal(a.tapers, b.tapers, [](const Taper& x, const Taper& y) {
           return x.from == y.from && x.to_size == y.to_size;
         });
}

bool share_a_line(const Part& a, const Part& b) {
  return a.name == b.name && a.stock == b.stock && a.hand == b.hand && a.finished == b.finished &&
         a.cut == b.cut && a.strips == b.strips && a.layers == b.layers && same_bands(a, b) &&
         same_shape(a, b);
}

bool halved(const Piece& piece, PartIndex a, PartIndex b) {
  return std::ranges::any_of(piece.joints, [&](const Joint& joint) {
    return joint.kind == JointKind::kHalving &&
           ((joint.a == a && joint.b == b) || (joint.a == b && joint.b == a));
  });
}

}  // namespace

Axis Part::width_axis() const {
  return *std::ranges::find_if(
      kAxes, [this](Axis axis) { return axis != length_axis && axis != thickness_axis; });
}

bool Part::shows(Direction side) const {
  return std::ranges::find(show_faces, side) != show_faces.end();
}

std::vector<PartLine> part_lines(const Piece& piece) {
  std::vector<PartLine> lines;
  for (PartIndex i = 0; i < piece.parts.size(); ++i) {
    const auto line = std::ranges::find_if(lines, [&](const PartLine& l) {
      return share_a_line(piece.parts[l.parts.front()], piece.parts[i]);
    });
    if (line == lines.end()) {
      lines.push_back({piece.parts[i].code, {i}});
    } else {
      line->parts.push_back(i);
    }
  }
  return lines;
}

std::string_view word(JointKind kind) {
  switch (kind) {
    case JointKind::kHousing:
      return "housing";
    case JointKind::kRabbet:
      return "rabbet";
    case JointKind::kGroove:
      return "groove";
    case JointKind::kMortiseTenon:
      return "mortise and tenon";
    case JointKind::kLooseTenon:
      return "loose tenon";
    case JointKind::kStubTenon:
      return "stub tenon";
    case JointKind::kDovetail:
      return "dovetail";
    case JointKind::kDowel:
      return "dowel";
    case JointKind::kBiscuit:
      return "biscuit";
    case JointKind::kPocketScrew:
      return "pocket screw";
    case JointKind::kScrew:
      return "screw";
    case JointKind::kEdgeGlue:
      return "edge glue";
    case JointKind::kFaceGlue:
      return "face glue";
    case JointKind::kHalving:
      return "halving";
    case JointKind::kButton:
      return "button";
    case JointKind::kClip:
      return "tabletop clip";
    case JointKind::kBolt:
      return "bolt";
    case JointKind::kConnector:
      return "connecting screw";
    case JointKind::kShelfPins:
      return "shelf pins";
    case JointKind::kHinge:
      return "hinge";
    case JointKind::kSlide:
      return "slide";
    case JointKind::kStands:
      return "stands on";
  }
  return "joint";
}

std::string_view word(FeatureKind kind) {
  switch (kind) {
    case FeatureKind::kMortise:
      return "mortise";
    case FeatureKind::kTenon:
      return "tenon";
    case FeatureKind::kLooseMortise:
      return "loose-tenon mortise";
    case FeatureKind::kHousing:
      return "housing";
    case FeatureKind::kGroove:
      return "groove";
    case FeatureKind::kRabbet:
      return "rabbet";
    case FeatureKind::kTongue:
      return "tongue";
    case FeatureKind::kDovetails:
      return "dovetails";
    case FeatureKind::kHalfLap:
      return "half lap";
    case FeatureKind::kDowelHoles:
      return "dowel holes";
    case FeatureKind::kBiscuitSlots:
      return "biscuit slots";
    case FeatureKind::kPocketHoles:
      return "pocket holes";
    case FeatureKind::kScrewHoles:
      return "screw holes";
    case FeatureKind::kPinHoles:
      return "shelf-pin holes";
    case FeatureKind::kHingeBore:
      return "hinge bores";
    case FeatureKind::kHingeMortise:
      return "hinge mortises";
    case FeatureKind::kClipSlots:
      return "clip slots";
    case FeatureKind::kTaper:
      return "taper";
    case FeatureKind::kArch:
      return "arch";
    case FeatureKind::kBore:
      return "bore";
    case FeatureKind::kNotch:
      return "notch";
    case FeatureKind::kLippedEdge:
      return "lipped edge";
  }
  return "feature";
}

std::string_view word(Hand hand) {
  return hand == Hand::kLeft ? "left" : hand == Hand::kRight ? "right" : "";
}

bool comes_apart(JointKind kind) {
  switch (kind) {
    case JointKind::kBolt:
    case JointKind::kConnector:
    case JointKind::kClip:
    case JointKind::kButton:
    case JointKind::kHinge:
    case JointKind::kSlide:
    case JointKind::kShelfPins:
    case JointKind::kStands:
      return true;
    default:
      return false;
  }
}

bool lets_in(JointKind kind) {
  switch (kind) {
    case JointKind::kHousing:
    case JointKind::kRabbet:
    case JointKind::kGroove:
    case JointKind::kMortiseTenon:
    case JointKind::kStubTenon:
    case JointKind::kDovetail:
    case JointKind::kButton:
      return true;
    default:
      return false;
  }
}

std::vector<Contact> contacts(const Piece& piece) {
  std::vector<Contact> found;
  for (PartIndex a = 0; a < piece.parts.size(); ++a) {
    for (PartIndex b = a + 1; b < piece.parts.size(); ++b) {
      const Box where = intersection(piece.parts[a].body, piece.parts[b].body);
      int flat = 0;
      int wide = 0;
      for (const Axis axis : kAxes) {
        flat += where.size[axis] >= -kHair && where.size[axis] <= kHair ? 1 : 0;
        wide += where.size[axis] > kHair ? 1 : 0;
      }
      if (flat == 1 && wide == 2) {
        found.push_back({a, b, where});
      }
    }
  }
  return found;
}

std::set<PartIndex> moving_parts(const Piece& piece) {
  std::set<PartIndex> moving;
  for (const Drawer& drawer : piece.drawers) {
    moving.insert(drawer.parts.begin(), drawer.parts.end());
  }
  for (const Door& door : piece.doors) {
    moving.insert(door.parts.begin(), door.parts.end());
  }
  return moving;
}

std::vector<Contact> overlaps(const Piece& piece) {
  std::vector<Contact> found;
  for (PartIndex a = 0; a < piece.parts.size(); ++a) {
    for (PartIndex b = a + 1; b < piece.parts.size(); ++b) {
      const Box where = intersection(piece.parts[a].body, piece.parts[b].body);
      const bool inside =
          std::ranges::all_of(kAxes, [&](Axis axis) { return where.size[axis] > kHair; });
      if (inside && !halved(piece, a, b)) {
        found.push_back({a, b, where});
      }
    }
  }
  return found;
}

std::vector<PartIndex> floating_parts(const Piece& piece) {
  std::vector<bool> held(piece.parts.size(), false);
  std::vector<PartIndex> open;
  if (!held.empty()) {
    held[0] = true;
    open.push_back(0);
  }
  while (!open.empty()) {
    const PartIndex part = open.back();
    open.pop_back();
    for (const Joint& joint : piece.joints) {
      if (joint.a != part && joint.b != part) {
        continue;
      }
      const PartIndex other = joint.a == part ? joint.b : joint.a;
      if (!held[other]) {
        held[other] = true;
        open.push_back(other);
      }
    }
  }
  std::vector<PartIndex> floating;
  for (PartIndex i = 0; i < held.size(); ++i) {
    if (!held[i]) {
      floating.push_back(i);
    }
  }
  return floating;
}

}  // namespace plankwright::piece
