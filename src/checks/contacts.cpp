// What touches and is not held, what is held by nothing, what stands in another.

#include <algorithm>
#include <set>

#include <fmt/format.h>

#include "checks/report.h"

namespace plankwright::checks {
namespace {

bool joined(const piece::Piece& piece, PartIndex a, PartIndex b) {
  return std::ranges::any_of(piece.joints, [&](const piece::Joint& joint) {
    return (joint.a == a && joint.b == b) || (joint.a == b && joint.b == a);
  });
}

std::string unit_of(const Part& part) {
  return part.path.substr(0, part.path.rfind('.'));
}

/// Two units that meet in many places need not be joined in each: one joint between them holds
/// both.
bool units_joined(const piece::Piece& piece, const std::string& a, const std::string& b) {
  return std::ranges::any_of(piece.joints, [&](const piece::Joint& joint) {
    const std::string x = unit_of(piece.parts[joint.a]);
    const std::string y = unit_of(piece.parts[joint.b]);
    return (x == a && y == b) || (x == b && y == a);
  });
}

Finding model_fault(const Inspection& look,
                    const std::string& id,
                    std::string title,
                    std::vector<PartIndex> parts) {
  Finding finding;
  finding.id = id;
  finding.kind = "contact";
  finding.severity = Severity::kFails;
  finding.title = std::move(title);
  finding.source = "the piece as written";
  finding.from = look.part(parts.front()).from;
  finding.parts = std::move(parts);
  return finding;
}

}  // namespace

void check_contacts(const Inspection& look, std::vector<Finding>& findings) {
  const std::set<PartIndex> moving = piece::moving_parts(look.piece);
  for (const piece::Contact& contact : piece::contacts(look.piece)) {
    const Part& a = look.part(contact.a);
    const Part& b = look.part(contact.b);
    const bool apart = unit_of(a) != unit_of(b);
    if (moving.contains(contact.a) || moving.contains(contact.b) ||
        joined(look.piece, contact.a, contact.b) ||
        (apart && units_joined(look.piece, unit_of(a), unit_of(b)))) {
      continue;
    }
    Finding finding =
        model_fault(look,
                    fmt::format("contact.{}", a.path),
                    fmt::format("{} and {} touch and nothing holds them", a.name, b.name),
                    {contact.a, contact.b});
    finding.severity = Severity::kPoor;
    finding.figure = fmt::format("{} meets {}", a.path, b.path);
    finding.remedy = "write a joint for it, or leave a gap";
    findings.push_back(std::move(finding));
  }
  for (const piece::Contact& overlap : piece::overlaps(look.piece)) {
    const Part& a = look.part(overlap.a);
    const Part& b = look.part(overlap.b);
    Finding finding = model_fault(look,
                                  fmt::format("contact.overlap.{}", a.path),
                                  fmt::format("{} stands in {}", a.name, b.name),
                                  {overlap.a, overlap.b});
    finding.figure = fmt::format("{} x {} x {} of {} and {} in one place",
                                 look.size(overlap.where.size.x),
                                 look.size(overlap.where.size.y),
                                 look.size(overlap.where.size.z),
                                 a.path,
                                 b.path);
    finding.remedy = "change a size or a setback so that they meet";
    findings.push_back(std::move(finding));
  }
  for (const PartIndex part : piece::floating_parts(look.piece)) {
    Finding finding = model_fault(look,
                                  fmt::format("contact.floats.{}", look.part(part).path),
                                  fmt::format("The {} is held by nothing", look.part(part).name),
                                  {part});
    finding.figure = look.part(part).path;
    finding.remedy = "write how its unit is held under `joins`";
    findings.push_back(std::move(finding));
  }
}

}  // namespace plankwright::checks
