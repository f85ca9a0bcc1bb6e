// Days to order by and days on which sizes are frozen, reckoned back from the work that asks.

#include <algorithm>

#include "calendar/views.h"

namespace plankwright::calendar {
namespace {

/// The first entry that needs a purchase.
const Entry* first_need(const Calendar& calendar,
                        const Model& model,
                        std::size_t work,
                        std::size_t purchase) {
  for (const Entry& entry : calendar.entries) {
    const auto& needs = model.needs[work][entry.operation];
    if (entry.work == work && std::ranges::find(needs, purchase) != needs.end()) {
      return &entry;
    }
  }
  return nullptr;
}

void add_delivery(Calendar& calendar,
                  const Model& model,
                  const Work& work,
                  const Finish& finish,
                  std::size_t purchase,
                  const shop::Shop& shop) {
  const WorkingDays days{shop};
  const Entry* need = first_need(calendar, model, finish.work, purchase);
  if (need == nullptr) {  // no work is known to ask for it: it should be here from the start
    const auto first = std::ranges::find(calendar.entries, finish.work, &Entry::work);
    need = first != calendar.entries.end() ? &*first : nullptr;
  }
  if (need == nullptr) {
    return;
  }
  const stock::Purchase& bought = work.stock->purchases[purchase];
  const int later = std::max(0, finish.spare_days);
  const std::optional<Date> needed = days.add(need->starts.day, later);
  const std::optional<Date> by =
      needed ? order_by(days, *needed, bought.lead_days, shop.order_slack) : std::nullopt;
  if (!by) {
    return;
  }
  Delivery delivery{.work = finish.work,
                    .purchase = purchase,
                    .what = bought.what,
                    .lead_days = bought.lead_days,
                    .needed = *needed,
                    .order_by = *by,
                    .late = *by < calendar.starts};
  if (delivery.late) {  // ordered at once it comes without slack, as the plan reckons
    delivery.order_by = calendar.starts;
  }
  calendar.deliveries.push_back(std::move(delivery));
}

/// Drawers follow the measured openings, whether they are ordered or made.
void add_freezes(Calendar& calendar, const std::vector<Work>& works, const shop::Shop& shop) {
  const WorkingDays days{shop};
  for (const Delivery& delivery : calendar.deliveries) {
    const stock::Purchase& bought = works[delivery.work].stock->purchases[delivery.purchase];
    const shop::Hardware* fitting = shop.fitting(bought.stock);
    if (fitting != nullptr && fitting->kind == "drawer_box") {
      calendar.freezes.push_back({delivery.work,
                                  delivery.order_by,
                                  "sizes of the openings for drawers",
                                  fitting->name + " are ordered to size"});
    }
  }
  for (const Finish& finish : calendar.finishes) {
    const auto made = std::ranges::find_if(calendar.entries, [&](const Entry& entry) {
      return entry.work == finish.work &&
             works[entry.work].bench->operations[entry.operation].standard == "drawer_parts";
    });
    if (made != calendar.entries.end()) {
      const auto day = days.add(made->starts.day, std::max(0, finish.spare_days));
      calendar.freezes.push_back({finish.work,
                                  day.value_or(made->starts.day),
                                  "sizes of the openings for drawers",
                                  "the parts of the drawers are cut"});
    }
  }
}

}  // namespace

void add_deliveries(Calendar& calendar,
                    const Model& model,
                    const std::vector<Work>& works,
                    const shop::Shop& shop) {
  for (const Finish& finish : calendar.finishes) {
    for (std::size_t i = 0; i < works[finish.work].stock->purchases.size(); ++i) {
      add_delivery(calendar, model, works[finish.work], finish, i, shop);
    }
  }
  std::ranges::stable_sort(calendar.deliveries, {}, &Delivery::order_by);
  add_freezes(calendar, works, shop);
}

}  // namespace plankwright::calendar
