#include "papers/stock_json.h"

#include "papers/json_values.h"

namespace plankwright::papers {
namespace {

using Json = nlohmann::ordered_json;
using measure::Length;
using measure::Money;

class Writer : JsonValues {
 public:
  explicit Writer(const plan::Plan& plan) : JsonValues{plan}, plan_{&plan} {}

  Json stock() const {
    const stock::Stock& s = plan_->stock;
    Json json = {{"solids", Json::array()},
                 {"sheets", Json::array()},
                 {"bars", Json::array()},
                 {"bands", Json::array()},
                 {"from_rack", Json::array()},
                 {"to_rack", Json::array()},
                 {"purchases", Json::array()}};
    for (const stock::SolidNeed& need : s.solids) {
      json["solids"].push_back(solid(need));
    }
    for (const stock::SheetNeed& need : s.sheets) {
      json["sheets"].push_back(sheet(need));
    }
    for (const stock::BarNeed& need : s.bars) {
      json["bars"].push_back(bars(need));
    }
    for (const stock::FromRack& each : s.from_rack) {
      json["from_rack"].push_back(from_rack(each));
    }
    for (const stock::ToRack& each : s.to_rack) {
      json["to_rack"].push_back(to_rack(each));
    }
    for (const stock::BandNeed& need : s.bands) {
      json["bands"].push_back(band(need));
    }
    if (s.finish) {
      json["finish"] = {{"id", s.finish->finish},
                        {"area_m2", measure::square_metres(s.finish->area)},
                        {"litres", s.finish->litres},
                        {"price", money(s.finish->price)},
                        {"from", s.finish->from}};
    }
    for (const stock::Purchase& each : s.purchases) {
      json["purchases"].push_back(purchase(each));
    }
    return json;
  }

  Json nudges() const {
    Json list = Json::array();
    for (const stock::Nudge& nudge : plan_->nudges) {
      list.push_back({{"what", nudge.what},
                      {"from", length(nudge.from)},
                      {"to", length(nudge.to)},
                      {"parts", paths(nudge.parts)},
                      {"saves", nudge.saves},
                      {"money", money(nudge.money)},
                      {"at", place(nudge.at)}});
    }
    return list;
  }

 private:
  static const char* word(shop::RackKind kind) {
    return kind == shop::RackKind::kBoard   ? "board"
           : kind == shop::RackKind::kSheet ? "sheet"
                                            : "bar";
  }
  Json offcuts(const std::vector<stock::Offcut>& from) const {
    Json list = Json::array();
    for (const stock::Offcut& offcut : from) {
      list.push_back({{"x_mm", offcut.x.mm()},
                      {"y_mm", offcut.y.mm()},
                      {"length", length(offcut.length)},
                      {"width", length(offcut.width)},
                      {"value", money(offcut.value)}});
    }
    return list;
  }

  Json odds(const stock::BuyingOdds& from) const {
    Json json = {{"purchases", from.purchases},
                 {"planned_board_feet", from.planned_board_feet},
                 {"planned_odds", from.planned_odds},
                 {"best_board_feet", from.best_board_feet},
                 {"best_odds", from.best_odds},
                 {"trip", money(from.trip)},
                 {"left_over", money(from.left_over)},
                 {"from", from.from},
                 {"enough", Json::array()}};
    for (const stock::EnoughBoards& enough : from.enough) {
      json["enough"].push_back(
          {{"odds", enough.odds}, {"board_feet", enough.board_feet}, {"boards", enough.boards}});
    }
    return json;
  }

  Json solid(const stock::SolidNeed& need) const {
    Json json = {{"stock", need.stock},
                 {"net_board_feet", need.net_board_feet},
                 {"rough_board_feet", need.rough_board_feet},
                 {"rack_board_feet", need.rack_board_feet},
                 {"asked_board_feet", need.asked_board_feet},
                 {"buy_board_feet", need.buy_board_feet},
                 {"buy_sold", need.buy_sold},
                 {"price", money(need.price)},
                 {"from", need.from},
                 {"laid_board_feet", need.laid_board_feet},
                 {"bound_board_feet", need.bound_board_feet},
                 {"proven", need.proven},
                 {"asks", Json::array()},
                 {"boards", Json::array()}};
    for (const stock::BoardAsk& ask : need.asks) {
      json["asks"].push_back({{"count", ask.count},
                              {"length", length(ask.length)},
                              {"width", length(ask.width)},
                              {"quality", ask.quality},
                              {"why", ask.why},
                              {"spare", ask.spare}});
    }
    for (const stock::BoardLayout& board : need.boards) {
      Json pieces = Json::array();
      for (const stock::BoardPiece& placed : board.pieces) {
        pieces.push_back({{"part", plan_->piece.parts[placed.part].path},
                          {"strip", placed.strip},
                          {"x_mm", placed.x.mm()},
                          {"y_mm", placed.y.mm()},
                          {"length_mm", placed.length.mm()},
                          {"width_mm", placed.width.mm()}});
      }
      json["boards"].push_back(
          {{"length", length(board.length)}, {"width", length(board.width)}, {"pieces", pieces}});
      if (board.tallied()) {
        json["boards"].back()["tally_line"] = board.line;
      }
      if (!board.rack.empty()) {
        json["boards"].back()["rack"] = board.rack;
        json["boards"].back()["rests"] = offcuts(board.rests);
      }
    }
    if (need.odds) {
      json["odds"] = odds(*need.odds);
    }
    return json;
  }

  Json layout(const stock::SheetLayout& from) const {
    Json json = {{"copies", from.copies},
                 {"length", length(from.length)},
                 {"width", length(from.width)},
                 {"pieces", Json::array()},
                 {"cuts", Json::array()},
                 {"offcuts", offcuts(from.offcuts)}};
    for (const stock::SheetPiece& placed : from.pieces) {
      json["pieces"].push_back({{"part", plan_->piece.parts[placed.part].path},
                                {"x_mm", placed.x.mm()},
                                {"y_mm", placed.y.mm()},
                                {"length_mm", placed.length.mm()},
                                {"width_mm", placed.width.mm()},
                                {"turned", placed.turned}});
    }
    for (const stock::SheetCut& cut : from.cuts) {
      json["cuts"].push_back({{"number", cut.number},
                              {"stage", cut.stage},
                              {"along", cut.along},
                              {"at_mm", cut.at.mm()},
                              {"from_mm", cut.from.mm()},
                              {"to_mm", cut.to.mm()},
                              {"setting", length(cut.setting)}});
    }
    if (!from.rack.empty()) {
      json["rack"] = from.rack;
    }
    return json;
  }

  Json sheet(const stock::SheetNeed& need) const {
    Json json = {{"stock", need.stock},
                 {"sheets", need.sheets},
                 {"rack_pieces", need.rack_pieces},
                 {"bound", need.bound},
                 {"proven", need.proven},
                 {"buy_sheets", need.buy_sheets},
                 {"price", money(need.price)},
                 {"offcut_value", money(need.offcut_value)},
                 {"rack_value", money(need.rack_value)},
                 {"used_share", need.used_share},
                 {"unplaced", paths(need.unplaced)},
                 {"notes", need.notes},
                 {"layouts", Json::array()}};
    for (const stock::SheetLayout& each : need.layouts) {
      json["layouts"].push_back(layout(each));
    }
    return json;
  }

  Json bar(const stock::BarLayout& from) const {
    Json json = {{"length", length(from.length)},
                 {"pieces", Json::array()},
                 {"rest", length(from.rest)},
                 {"keep", from.keep},
                 {"rest_value", money(from.rest_value)}};
    for (const stock::BarPiece& placed : from.pieces) {
      json["pieces"].push_back({{"part", plan_->piece.parts[placed.part].path},
                                {"from_mm", placed.from.mm()},
                                {"length_mm", placed.length.mm()}});
    }
    if (!from.rack.empty()) {
      json["rack"] = from.rack;
    }
    return json;
  }

  Json bars(const stock::BarNeed& need) const {
    Json json = {{"stock", need.stock},
                 {"bars", need.bars},
                 {"fewest", need.fewest},
                 {"cost", money(need.cost)},
                 {"bound", money(need.bound)},
                 {"proven", need.proven},
                 {"price", money(need.price)},
                 {"rest_value", money(need.rest_value)},
                 {"used_share", need.used_share},
                 {"buys", Json::array()},
                 {"layouts", Json::array()}};
    for (const stock::BarBuy& buy : need.buys) {
      json["buys"].push_back(
          {{"length", length(buy.length)}, {"count", buy.count}, {"price", money(buy.price)}});
    }
    for (const stock::BarLayout& each : need.layouts) {
      json["layouts"].push_back(bar(each));
    }
    return json;
  }

  Json band(const stock::BandNeed& need) const {
    Json json = {{"stock", need.stock},
                 {"net_m", need.net.metres()},
                 {"buy_m", need.buy.metres()},
                 {"edges", need.edges},
                 {"price", money(need.price)}};
    if (need.strips) {
      json["strips"] = bars(*need.strips);
    }
    return json;
  }

  Json from_rack(const stock::FromRack& each) const {
    return {{"label", each.label},
            {"stock", each.stock},
            {"kind", word(each.kind)},
            {"length", length(each.length)},
            {"width", length(each.width)},
            {"count", each.count},
            {"value", money(each.value)},
            {"parts", paths(each.parts)}};
  }

  Json to_rack(const stock::ToRack& each) const {
    return {{"stock", each.stock},
            {"kind", word(each.kind)},
            {"length", length(each.length)},
            {"width", length(each.width)},
            {"count", each.count},
            {"value", money(each.value)},
            {"from", each.from}};
  }

  Json purchase(const stock::Purchase& p) const {
    Json json = {{"what", p.what},
                 {"stock", p.stock},
                 {"kind", p.kind},
                 {"quantity", p.quantity},
                 {"what_for", p.what_for},
                 {"price", money(p.price)},
                 {"supplier", p.supplier},
                 {"lead_days", p.lead_days}};
    if (p.order_by) {
      json["order_by"] = measure::print(*p.order_by);
    }
    return json;
  }

  const plan::Plan* plan_;
};

}  // namespace

Json stock_json(const plan::Plan& plan) {
  return Writer{plan}.stock();
}

Json nudges_json(const plan::Plan& plan) {
  return Writer{plan}.nudges();
}

}  // namespace plankwright::papers
