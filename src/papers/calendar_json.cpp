#include "papers/calendar_json.h"

#include <fmt/format.h>

namespace plankwright::papers {
namespace {

using Json = nlohmann::ordered_json;
using namespace calendar;  // NOLINT(google-build-using-namespace): this file writes its values

Json entry_json(const Entry& entry, const std::vector<Work>& works) {
  const bench::Operation& operation = works[entry.work].bench->operations[entry.operation];
  return {{"commission", entry.work},
          {"operation", entry.operation},
          {"name", entry.name},
          {"phase", operation.phase},
          {"machine", operation.machine},
          {"starts", print_moment(entry.starts)},
          {"ends", print_moment(entry.ends)},
          {"free", print_moment(entry.free)},
          {"hands_on_minutes", entry.hands_on.count()},
          {"people", entry.people},
          {"who", entry.who},
          {"helper", entry.helper},
          {"called_in", entry.called_in},
          {"waits_for", entry.waits_for},
          {"drives", entry.drives},
          {"critical", entry.critical}};
}

Json finish_json(const Finish& finish) {
  Json json = {{"planned", measure::print(finish.planned)}, {"odds", Json::array()}};
  for (const DateOdds& odds : finish.odds) {
    json["odds"].push_back({{"share", odds.share}, {"date", measure::print(odds.day)}});
  }
  if (finish.wanted_holds) {
    json["wanted_holds"] = *finish.wanted_holds;
    json["spare_days"] = finish.spare_days;
  }
  return json;
}

Json delivery_json(const Delivery& delivery) {
  return {{"commission", delivery.work},
          {"purchase", delivery.purchase},
          {"what", delivery.what},
          {"lead_days", delivery.lead_days},
          {"needed", measure::print(delivery.needed)},
          {"order_by", measure::print(delivery.order_by)},
          {"late", delivery.late}};
}

Json overlap_json(const Overlap& overlap) {
  Json json = {{"entry", overlap.entry},
               {"open_minutes", overlap.open.count()},
               {"fits", Json::array()},
               {"says", overlap.says}};
  for (const Fit& fit : overlap.fits) {
    json["fits"].push_back(
        {{"name", fit.name}, {"times", fit.times}, {"minutes", fit.minutes.count()}});
  }
  return json;
}

Json held_up_json(const HeldUp& held) {
  return {{"commission", held.work},
          {"by", held.by},
          {"entry", held.entry},
          {"what_for", held.what_for},
          {"times", held.times},
          {"open_minutes", held.open.count()}};
}

Json week_json(const Week& week) {
  Json json = {{"monday", measure::print(week.monday)},
               {"at_hand_minutes", week.at_hand.count()},
               {"promised_minutes", Json::array()}};
  for (const measure::Minutes& minutes : week.promised) {
    json["promised_minutes"].push_back(minutes.count());
  }
  return json;
}

}  // namespace

std::string print_moment(const Moment& moment) {
  return fmt::format(
      "{}T{:02}:{:02}", measure::print(moment.day), moment.minute / 60, moment.minute % 60);
}

Json calendar_json(const Calendar& calendar, const std::vector<Work>& works) {
  Json json = {{"starts", measure::print(calendar.starts)},
               {"finish", finish_json(calendar.finishes.front())},
               {"bound", measure::print(calendar.bound)},
               {"proven", calendar.proven},
               {"draws", calendar.draws}};
  for (const char* key : {"commissions",
                          "entries",
                          "driven_by",
                          "critical",
                          "held_up",
                          "weeks",
                          "deliveries",
                          "freezes",
                          "overlaps"}) {
    json[key] = Json::array();
  }
  for (const Finish& finish : calendar.finishes) {
    json["commissions"].push_back({{"name", works[finish.work].commission->name},
                                   {"number", works[finish.work].commission->number},
                                   {"finish", finish_json(finish)}});
  }
  for (const Entry& entry : calendar.entries) {
    json["entries"].push_back(entry_json(entry, works));
  }
  for (const Driver& driver : calendar.driven_by) {
    json["driven_by"].push_back({{"what", driver.what}, {"share", driver.share}});
  }
  for (const Critical& critical : calendar.critical) {
    json["critical"].push_back(
        {{"commission", critical.work}, {"what", critical.what}, {"share", critical.share}});
  }
  for (const HeldUp& held : calendar.held_up) {
    json["held_up"].push_back(held_up_json(held));
  }
  for (const Week& week : calendar.weeks) {
    json["weeks"].push_back(week_json(week));
  }
  for (const Delivery& delivery : calendar.deliveries) {
    json["deliveries"].push_back(delivery_json(delivery));
  }
  for (const Freeze& freeze : calendar.freezes) {
    json["freezes"].push_back({{"commission", freeze.work},
                               {"date", measure::print(freeze.day)},
                               {"what", freeze.what},
                               {"why", freeze.why}});
  }
  for (const Overlap& overlap : calendar.overlaps) {
    json["overlaps"].push_back(overlap_json(overlap));
  }
  json["notes"] = calendar.notes;
  return json;
}

}  // namespace plankwright::papers
