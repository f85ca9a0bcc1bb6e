// The piece in pictures: triangles to turn about, views with sizes, the papers.
#include <charconv>

#include <fmt/format.h>
#include <nlohmann/json.hpp>

#include "server/office.h"
#include "server/packed_solids.h"

namespace plankwright::server {
namespace {

using Json = nlohmann::ordered_json;

constexpr int kCannotBeDrawn = 422;

/// The plan that a picture or a paper is of, or what to answer instead.
struct Subject {
  SharedPlan planned;
  Answer refused;
};

Subject subject_of(const SharedPlan& planned) {
  Subject subject;
  if (planned->plan) {
    subject.planned = planned;
  } else {
    subject.refused = refusal(kCannotBeDrawn, planned->errors);
  }
  return subject;
}

struct PaperName {
  const char* id;
  const char* name;
  PaperKind kind;
};
constexpr PaperName kPapers[] = {{"quotation", "Quotation", PaperKind::kQuotation},
                                 {"shop_packet", "Shop packet", PaperKind::kShopPacket}};

/// The whole plan as kept; papers list the choices too.
Subject paper_subject(const Office& office, const Request& request) {
  auto order = order_for(office, request, nlohmann::json::object());
  if (!order.ok()) {
    return {nullptr, refusal_of(order.error())};
  }
  return subject_of(office.planner.plan(order.value().plan));
}

std::size_t page_number(const std::string& text) {
  std::size_t number = 0;
  std::from_chars(text.data(), text.data() + text.size(), number);
  return number;
}

}  // namespace

Answer post_solids(const Office& office, const Request& request) {
  Asked asked = read_order(office, request);
  if (!asked.order) {
    return asked.refused;
  }
  const Subject subject = subject_of(plan_at_hand(office, std::move(asked.order->plan)));
  if (!subject.planned) {
    return subject.refused;
  }
  return {.type = "application/octet-stream",
          .body = packed_solids(*subject.planned->plan, office.desk)};
}

Answer post_drawing(const Office& office, const Request& request) {
  Asked asked = read_order(office, request);
  if (!asked.order) {
    return asked.refused;
  }
  const Subject subject = subject_of(plan_at_hand(office, std::move(asked.order->plan)));
  if (!subject.planned) {
    return subject.refused;
  }
  const auto view = asked.body.find("view");
  const bool is_named = view != asked.body.end() && view->is_string();
  const auto drawn =
      office.desk.view(*subject.planned->plan, is_named ? view->get<std::string>() : "front");
  if (!drawn.ok()) {
    return refusal(400, base::Errors{drawn.error()});
  }
  return {.type = "image/svg+xml", .body = drawn.value()};
}

Answer get_papers(const Office& office, const Request& request) {
  const Subject subject = paper_subject(office, request);
  if (!subject.planned) {
    return subject.refused;
  }
  Json list = Json::array();
  for (const PaperName& paper : kPapers) {
    list.push_back({{"id", paper.id},
                    {"name", paper.name},
                    {"pages", office.desk.paper(subject.planned, paper.kind)->pages.size()}});
  }
  return json_answer({{"papers", std::move(list)}});
}

Answer get_paper(const Office& office, const Request& request) {
  const auto* named = std::ranges::find_if(
      kPapers, [&](const PaperName& paper) { return request.rest == paper.id; });
  if (named == std::end(kPapers)) {
    return refusal(
        404, fmt::format("found paper `{}`, expected quotation or shop_packet", request.rest));
  }
  const Subject subject = paper_subject(office, request);
  if (!subject.planned) {
    return subject.refused;
  }
  const auto as_picture = request.query.find("svg");
  if (as_picture == request.query.end() || as_picture->second != "1") {
    Answer answer{.type = "application/pdf", .body = office.desk.pdf(subject.planned, named->kind)};
    answer.headers["Content-Disposition"] =
        fmt::format("inline; filename=\"{}_{}.pdf\"", request.id, named->id);
    return answer;
  }
  const auto asked = request.query.find("page");
  const auto page = office.desk.page(
      subject.planned, named->kind, asked == request.query.end() ? 1 : page_number(asked->second));
  if (!page.ok()) {
    return refusal(404, base::Errors{page.error()});
  }
  return {.type = "image/svg+xml", .body = page.value()};
}

}  // namespace plankwright::server
