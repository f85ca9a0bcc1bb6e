#include "papers/bench_json.h"

#include <string>
#include <vector>

#include "bench/setting_list.h"
#include "papers/json_values.h"
#include "papers/stage_picture.h"

namespace plankwright::papers {
namespace {

using Json = nlohmann::ordered_json;
using measure::Length;

Json spread_json(const bench::Spread& s) {
  return {{"table", s.table},
          {"median", s.median},
          {"mean", s.mean},
          {"p10", s.p10},
          {"p80", s.p80},
          {"p90", s.p90}};
}

class Writer : JsonValues {
 public:
  explicit Writer(const plan::Plan& plan) : JsonValues{plan}, plan_{plan}, bench_{plan.bench} {}

  Json whole() const {
    Json json = {{"hours",
                  {{"bench", spread_json(bench_.bench)},
                   {"office", spread_json(bench_.office)},
                   {"total", spread_json(bench_.total)}}},
                 {"phases", Json::array()},
                 {"settings", bench_.settings},
                 {"settings_drawing_order", bench_.settings_drawing_order},
                 {"saved_minutes", bench_.saved.count()},
                 {"driven_by", bench_.driven_by},
                 {"operations", Json::array()},
                 {"order", order()},
                 {"setting_list", Json::array()},
                 {"marking", marking()},
                 {"glue_ups", glue_ups()}};
    for (const bench::PhaseHours& phase : bench_.phases) {
      json["phases"].push_back({{"phase", phase.phase}, {"hours", spread_json(phase.hours)}});
    }
    for (const bench::Operation& each : bench_.operations) {
      json["operations"].push_back(operation(each));
    }
    for (const bench::MachineSetting& each : bench::setting_list(bench_)) {
      json["setting_list"].push_back(setting(each));
    }
    return json;
  }

 private:
  const std::string& path(piece::PartIndex part) const { return plan_.piece.parts[part].path; }
  /// Null for what there is none of.
  Json length_or_none(Length size) const { return size > Length{} ? length(size) : Json{}; }
  static Json axis(measure::Axis axis) {
    constexpr const char* kNames[] = {"x", "y", "z"};
    return kNames[static_cast<std::size_t>(axis)];
  }

  Json operation(const bench::Operation& o) const {
    return {{"standard", o.standard},
            {"name", o.name},
            {"phase", o.phase},
            {"machine", o.machine},
            {"setting", o.setting},
            {"setting_kind", o.setting_kind},
            {"parts", paths(o.parts)},
            {"pieces", o.pieces},
            {"spares", o.spares},
            {"units", o.units},
            {"setup_minutes", o.setup.count()},
            {"work_minutes", o.work.count()},
            {"sigma", o.sigma},
            {"people", o.people},
            {"unattended_minutes", o.unattended.count()},
            {"test", o.test},
            {"says", o.says},
            {"cautions", o.cautions},
            {"after", o.after},
            {"from", o.from}};
  }

  Json setting(const bench::MachineSetting& s) const {
    return {{"machine", s.machine},
            {"kind", s.kind},
            {"figure", s.figure},
            {"length", length_or_none(s.length)},
            {"depth", length_or_none(s.depth)},
            {"operations", s.operations},
            {"parts", paths(s.parts)},
            {"pieces", s.pieces},
            {"spares", s.spares},
            {"joined", s.joined},
            {"test", s.test},
            {"setup_minutes", s.setup.count()},
            {"work_minutes", s.work.count()}};
  }

  static Json order_minutes(const bench::OrderMinutes& m) {
    return {{"settings", m.settings},
            {"walks", m.walks},
            {"fetches", m.fetches},
            {"setting_minutes", m.setting.count()},
            {"walking_minutes", m.walking.count()},
            {"fetching_minutes", m.fetching.count()},
            {"minutes", m.total().count()}};
  }

  Json order() const {
    const bench::SettingOrder& o = bench_.order;
    return {{"planned", order_minutes(o.planned)},
            {"drawing", order_minutes(o.drawing)},
            {"saved_minutes", o.saved().count()},
            {"bound_minutes", o.bound.count()},
            {"proven", o.proven}};
  }

  Json lengths(const std::vector<Length>& list) const {
    Json json = Json::array();
    for (const Length each : list) {
      json.push_back(length(each));
    }
    return json;
  }

  Json mark(const bench::Mark& m) const {
    return {{"what", m.what},
            {"on", m.on},
            {"from_end", lengths(m.from_end)},
            {"from_edge", lengths(m.from_edge)},
            {"from_face", lengths(m.from_face)},
            {"centres", m.centres},
            {"depth", length_or_none(m.depth)},
            {"wide", length_or_none(m.wide)},
            {"slope", m.slope},
            {"count", m.count},
            {"mates", m.mates}};
  }

  Json family(const bench::MarkedFamily& f) const {
    Json json = {{"parts", paths(f.parts)},
                 {"mirrored", paths(f.mirrored)},
                 {"end", f.end},
                 {"edge", f.edge},
                 {"face", f.face},
                 {"length", length(f.length)},
                 {"width", length(f.width)},
                 {"thickness", length(f.thickness)},
                 {"marks", Json::array()}};
    for (const bench::Mark& each : f.marks) {
      json["marks"].push_back(mark(each));
    }
    return json;
  }

  Json marking() const {
    Json json = {{"families", Json::array()}, {"settings", Json::array()}};
    for (const bench::MarkedFamily& each : bench_.marking.families) {
      json["families"].push_back(family(each));
    }
    for (const bench::JointSetting& each : bench_.marking.settings) {
      json["settings"].push_back({{"what", each.what},
                                  {"wide", length_or_none(each.wide)},
                                  {"depth", length_or_none(each.depth)},
                                  {"from_face", length_or_none(each.from_face)},
                                  {"codes", each.codes},
                                  {"count", each.count},
                                  {"mates", each.mates}});
    }
    return json;
  }

  Json clamp(const bench::ClampLine& line) const {
    Json at = Json::array();
    for (const measure::Point& place : line.at) {
      at.push_back(point(place));
    }
    return {{"part", path(line.part)},
            {"along", axis(line.axis)},
            {"count", line.count},
            {"span", length(line.span)},
            {"reach", length_or_none(line.reach)},
            {"force_newtons", line.force.count()},
            {"at", std::move(at)}};
  }

  /// The joints in the order in which they close, as indices into piece.joints.
  Json stage(const bench::StageCard& card) const {
    Json json = {{"name", card.name},
                 {"operation", card.operation},
                 {"flat", card.flat},
                 {"parts", paths(card.parts)},
                 {"joints", card.joints},
                 {"glued", card.glued},
                 {"people", card.people},
                 {"spread_minutes", card.spread.count()},
                 {"assemble_minutes", card.assemble.count()},
                 {"square_minutes", card.square.count()},
                 {"takes_minutes", card.takes.count()},
                 {"has_minutes", card.has.count()},
                 {"clamps", Json::array()},
                 {"cauls", card.cauls},
                 {"diagonal", length_or_none(card.diagonal)},
                 {"clamps_off_minutes", card.clamps_off.count()},
                 {"worked_minutes", card.worked.count()},
                 {"finished_before", paths(card.reach)},
                 {"pulled_out", Json::array()},
                 {"warnings", card.warnings}};
    for (const bench::ClampLine& line : card.clamps) {
      json["clamps"].push_back(clamp(line));
    }
    for (const measure::Point& move : pulled_out(plan_.piece, card)) {
      json["pulled_out"].push_back(point(move));
    }
    return json;
  }

  Json glue_ups() const {
    Json json = {{"stages", Json::array()},
                 {"bound", bench_.glue_ups_bound},
                 {"cannot_assemble", bench_.cannot_assemble}};
    for (const bench::StageCard& card : bench_.glue_ups) {
      json["stages"].push_back(stage(card));
    }
    return json;
  }

  const plan::Plan& plan_;
  const bench::Bench& bench_;
};

}  // namespace

Json bench_json(const plan::Plan& plan) {
  return Writer{plan}.whole();
}

}  // namespace plankwright::papers
