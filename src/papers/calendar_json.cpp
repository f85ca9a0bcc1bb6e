#include "papers/calendar_json.h"

#include <fmt/format.h>

namespace plankwright::papers {
namespace {

using Json = nlohmann::ordered_json;
using namespace calendar;  // NOLINT(google-build-using-namespace): this file writes its values

Json entry_json(const Entry& entry, const bench::Bench& bench) {
  const bench::Operation& operation = bench.operations[entry.operation];
  return {{"operation", entry.operation},
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
          {"drives", entry.drives}};
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
  return {{"purchase", delivery.purchase},
          {"what", delivery.what},
          {"lead_days", delivery.lead_days},
          {"needed", measure::print(delivery.needed)},
          {"order_by", measure::print(delivery.order_by)},
          {"late", delivery.late}};
}

}  // namespace

std::string print_moment(const Moment& moment) {
  return fmt::format(
      "{}T{:02}:{:02}", measure::print(moment.day), moment.minute / 60, moment.minute % 60);
}

Json calendar_json(const Calendar& calendar, const bench::Bench& bench) {
  Json json = {{"starts", measure::print(calendar.starts)},
               {"finish", finish_json(calendar.finishes.front())},
               {"bound", measure::print(calendar.bound)},
               {"proven", calendar.proven},
               {"draws", calendar.draws}};
  for (const char* key : {"entries", "driven_by", "deliveries", "freezes", "overlaps"}) {
    json[key] = Json::array();
  }
  for (const Entry& entry : calendar.entries) {
    json["entries"].push_back(entry_json(entry, bench));
  }
  for (const Driver& driver : calendar.driven_by) {
    json["driven_by"].push_back({{"what", driver.what}, {"share", driver.share}});
  }
  for (const Delivery& delivery : calendar.deliveries) {
    json["deliveries"].push_back(delivery_json(delivery));
  }
  for (const Freeze& freeze : calendar.freezes) {
    json["freezes"].push_back(
        {{"date", measure::print(freeze.day)}, {"what", freeze.what}, {"why", freeze.why}});
  }
  for (const Overlap& overlap : calendar.overlaps) {
    json["overlaps"].push_back(
        {{"entry", overlap.entry}, {"open_minutes", overlap.open.count()}, {"says", overlap.says}});
  }
  json["notes"] = calendar.notes;
  return json;
}

}  // namespace plankwright::papers
