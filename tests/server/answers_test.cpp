// Every endpoint over a real socket, with the commissions as files and in a book.
#include <cstring>
#include <fstream>

#include <fmt/format.h>

#include "server/served.h"

namespace plankwright::server {
namespace {

const std::string kOne = "/api/commissions/";

class Answers : public testing::TestWithParam<bool> {
 protected:
  Served served_{GetParam()};
};

INSTANTIATE_TEST_SUITE_P(BothWays, Answers, testing::Values(false, true), [](const auto& way) {
  return way.param ? "Book" : "Folder";
});

std::string replaced(std::string text, const std::string& from, const std::string& to) {
  const std::size_t at = text.find(from);
  EXPECT_NE(at, std::string::npos) << from;
  return text.replace(at, from.size(), to);
}

TEST_P(Answers, TheShelfShowsEveryCommission) {
  const Json shelf = served_.get("/api/shelf");
  EXPECT_EQ(shelf["book"], GetParam());
  ASSERT_EQ(shelf["commissions"].size(), 3U);
  EXPECT_GE(shelf["patterns"].size(), 8U);
  for (const Json& one : shelf["commissions"]) {
    EXPECT_EQ(one["errors"], 0) << one;
    EXPECT_GT(one["price"], one["cost"]);
    EXPECT_GT(one["margin_80"], 0.05);
    EXPECT_LT(one["margin_80"], 0.2);  // the wanted margin; at the 80 % hours less is left
    EXPECT_TRUE(one["worst_finding"].contains("title"));
  }
  EXPECT_EQ(shelf["commissions"][1]["client"], "Ines and Tobias Aldershaw");
  EXPECT_EQ(shelf["commissions"][1]["worst_finding"]["severity"], "danger");
}

TEST_P(Answers, ANewPieceBeginsFromAPatternOrFromNothing) {
  const Json made = served_.post("/api/shelf",
                                 {{"pattern", "bench"},
                                  {"name", "Porch bench"},
                                  {"sizes", {{"width", "60 in"}}},
                                  {"stock", "ash"}},
                                 201);
  EXPECT_EQ(made["id"], "porch_bench");
  const Json plan = served_.post(kOne + "porch_bench/plan", {{"quick", true}});
  EXPECT_TRUE(plan["errors"].empty()) << plan["errors"];
  EXPECT_EQ(plan["plan"]["piece"]["overall"]["size"][0], 1524.0);
  EXPECT_EQ(served_.post("/api/shelf", {{"pattern", ""}, {"name", "Porch bench"}}, 201)["id"],
            "porch_bench_2");
  const Json empty = served_.post(kOne + "porch_bench_2/plan", Json::object());
  EXPECT_TRUE(empty["plan"].is_null());
  EXPECT_FALSE(empty["errors"].empty());
  served_.post("/api/shelf", {{"pattern", "bench"}, {"sizes", {{"width", "wide"}}}}, 422);
  served_.post("/api/shelf", {{"pattern", "boat"}}, 422);
  EXPECT_EQ(served_.get("/api/shelf")["commissions"].size(), 5U);
}

TEST_P(Answers, ATextIsKeptOnlyOverTheOneItWasMadeFrom) {
  const Json first = served_.get(kOne + "study_wall/text");
  const std::string mine = replaced(first["text"], "bay: 860", "bay: 850");
  const Json kept =
      served_.put(kOne + "study_wall/text", {{"text", mine}, {"version", first["version"]}});
  EXPECT_EQ(served_.get(kOne + "study_wall/text")["version"], kept["version"]);
  const Json refused =
      served_.put(kOne + "study_wall/text", {{"text", "x"}, {"version", first["version"]}}, 409);
  EXPECT_EQ(refused["text"], mine);
  EXPECT_EQ(refused["version"], kept["version"]);
  EXPECT_FALSE(refused["errors"].empty());
  EXPECT_EQ(served_.get(kOne + "study_wall/text")["text"], mine);
  served_.put(kOne + "study_wall/text", {{"text", "x"}}, 400);
  served_.get(kOne + "nothing/text", 404);
}

TEST_P(Answers, ThePlanIsThatOfTheTextAndNothingIsStored) {
  const Json kept = served_.post(kOne + "study_wall/plan", Json::object());
  EXPECT_EQ(kept["plan"]["format"], "plankwright-plan-1");
  EXPECT_FALSE(kept["plan"]["choices"].empty());
  const std::string text = served_.get(kOne + "study_wall/text")["text"];
  const Json changed =
      served_.post(kOne + "study_wall/plan",
                   {{"text", replaced(text, "bay: 860", "bay: 800")}, {"quick", true}});
  EXPECT_TRUE(changed["quick"]);
  EXPECT_EQ(changed["version"], kept["version"]);
  EXPECT_NE(changed["planned"], kept["planned"]);
  EXPECT_LT(changed["plan"]["price"]["materials"], kept["plan"]["price"]["materials"]);
  EXPECT_EQ(served_.get(kOne + "study_wall/text")["text"], text);
  const Json picked = served_.post(kOne + "study_wall/plan", {{"picks", {{"shelves", "thick"}}}});
  EXPECT_NE(picked["plan"]["price"]["price"], kept["plan"]["price"]["price"]);
}

TEST_P(Answers, MistakesComeWithTheirPlaces) {
  const std::string text = served_.get(kOne + "dining_table/text")["text"];
  const Json answer = served_.post(kOne + "dining_table/plan",
                                   {{"text", replaced(text, "boards: 7", "boards: seven")}});
  EXPECT_TRUE(answer["plan"].is_null());
  ASSERT_EQ(answer["errors"].size(), 1U);
  const Json& error = answer["errors"][0];
  EXPECT_GT(error["line"], 60);
  EXPECT_GT(error["column"], 1);
  EXPECT_NE(error["message"].get<std::string>().find("seven"), std::string::npos);
}

Json value_at(const Json& values, const std::string& path) {
  for (const Json& value : values) {
    if (value["path"] == path) {
      return value;
    }
  }
  ADD_FAILURE() << "no value at " << path;
  return {{"kind", "none"}};
}

TEST_P(Answers, ValuesCanBeChangedWhereTheyStand) {
  const Json values = served_.post(kOne + "hall_cabinet/values", Json::object())["values"];
  const Json side = value_at(values, "names/side");
  EXPECT_EQ(side["kind"], "length");
  EXPECT_EQ(side["millimetres"], 19.05);
  const std::string text = served_.get(kOne + "hall_cabinet/text")["text"];
  const Json edit = {{"text", text},
                     {"at", {{"line", side["line"]}, {"column", side["column"]}}},
                     {"from", "3/4"},
                     {"to", "13/16"}};
  EXPECT_EQ(served_.post(kOne + "hall_cabinet/edit", edit)["text"],
            replaced(text, "side: 3/4", "side: 13/16"));
  Json stale = edit;
  stale["from"] = "7/8";
  served_.post(kOne + "hall_cabinet/edit", stale, 422);
  served_.post(kOne + "hall_cabinet/edit", {{"text", text}}, 400);
}

TEST_P(Answers, ValuesKnowTheirKinds) {
  const Json values = served_.post(kOne + "hall_cabinet/values", Json::object())["values"];
  const auto kind = [&](const std::string& path) { return value_at(values, path)["kind"]; };
  EXPECT_EQ(kind("piece/width"), "length");
  EXPECT_EQ(kind("piece/stack/1/carcase/thickness"), "expression");
  EXPECT_EQ(kind("piece/stack/1/height"), "text");  // rest
  EXPECT_EQ(kind("choices/drawers/pick"), "choice");
  EXPECT_EQ(kind("piece/stack/1/carcase/joint"), "choice");
  EXPECT_EQ(kind("piece/joins/0/count"), "number");
  EXPECT_EQ(kind("client/name"), "text");
  EXPECT_EQ(kind("piece/stack/1/carcase/bays/1/drawer_bank/heights/2"), "length");
}

TEST_P(Answers, ChoicesStandSideBySide) {
  const Json some = served_.get(kOne + "study_wall/compare");
  ASSERT_EQ(some["choices"].size(), 5U);  // as written, and 2 + 1 + 1 other options
  EXPECT_TRUE(some["choices"][0]["chosen"]);
  EXPECT_EQ(some["choices"][0]["name"], "As written");
  const Json all = served_.get(kOne + "study_wall/compare?all=1");
  ASSERT_EQ(all["choices"].size(), 12U);  // 3 x 2 x 2
  int undominated = 0;
  for (const Json& one : all["choices"]) {
    undominated += one["undominated"].get<bool>() ? 1 : 0;
    for (const Json& other : all["choices"]) {
      EXPECT_FALSE(one["undominated"].get<bool>() && other["price"] < one["price"] &&
                   other["hours_mean"] < one["hours_mean"]);
    }
  }
  EXPECT_GE(undominated, 1);
  EXPECT_FALSE(served_.get(kOne + "hall_cabinet/compare")["make_or_buy"].empty());
}

/// The packed solids taken apart again.
struct Unpacked {
  Json head;
  std::vector<float> places, normals;
  std::vector<std::uint32_t> corners;
};

template <class T>
std::vector<T> take(const std::string& bytes, std::size_t& at, std::size_t count) {
  std::vector<T> values(count);
  EXPECT_LE(at + count * sizeof(T), bytes.size());
  std::memcpy(values.data(), bytes.data() + at, count * sizeof(T));
  at += count * sizeof(T);
  return values;
}

Unpacked unpack(const std::string& bytes) {
  Unpacked solids;
  std::size_t at = 0;
  const std::uint32_t length = take<std::uint32_t>(bytes, at, 1)[0];
  EXPECT_EQ(length % 4, 0U);
  solids.head = Json::parse(bytes.substr(at, length));
  at += length;
  solids.places = take<float>(bytes, at, 3 * solids.head["nv"].get<std::size_t>());
  solids.normals = take<float>(bytes, at, 3 * solids.head["nv"].get<std::size_t>());
  solids.corners = take<std::uint32_t>(bytes, at, solids.head["ni"].get<std::size_t>());
  EXPECT_EQ(at, bytes.size());
  return solids;
}

/// The space within one part, in cubic millimetres (divergence theorem).
double space_within(const Unpacked& solids, const Json& part) {
  const auto corner = [&](std::size_t i) {
    const std::size_t at =
        3 * (part["v0"].get<std::size_t>() + solids.corners[part["i0"].get<std::size_t>() + i]);
    return std::array<double, 3>{solids.places[at], solids.places[at + 1], solids.places[at + 2]};
  };
  double sum = 0;
  for (std::size_t i = 0; i < part["ni"].get<std::size_t>(); i += 3) {
    const auto [a, b, c] = std::array{corner(i), corner(i + 1), corner(i + 2)};
    sum += (a[0] * (b[1] * c[2] - b[2] * c[1]) + a[1] * (b[2] * c[0] - b[0] * c[2]) +
            a[2] * (b[0] * c[1] - b[1] * c[0])) /
           6;
  }
  return sum;
}

TEST_P(Answers, SolidsAreClosedAndStandWhereThePlanSays) {
  for (const char* id : {"hall_cabinet", "dining_table", "study_wall"}) {
    const auto answer = served_.client().Post(kOne + id + "/solids", "{}", "application/json");
    ASSERT_TRUE(answer);
    ASSERT_EQ(answer->status, 200);
    EXPECT_EQ(answer->get_header_value("Content-Type"), "application/octet-stream");
    const Unpacked solids = unpack(answer->body);
    const Json plan = served_.post(kOne + id + "/plan", Json::object())["plan"];
    std::size_t parts = 0;
    for (const Json& part : solids.head["parts"]) {
      EXPECT_GT(space_within(solids, part), 0) << part["path"];
      if (part["material"] == "fitting") {
        continue;
      }
      const Json& known = plan["piece"]["parts"][part["index"].get<std::size_t>()];
      EXPECT_EQ(known["path"], part["path"]);
      EXPECT_EQ(known["body"]["at"][2], part["m"][14]);
      ++parts;
      // Joints take wood off and add it, but no part becomes another one by them.
      const Json& size = known["body"]["size"];
      const double box = size[0].get<double>() * size[1].get<double>() * size[2].get<double>();
      EXPECT_LT(space_within(solids, part), 1.35 * box) << part["path"];
      EXPECT_GT(space_within(solids, part), 0.3 * box) << part["path"];
    }
    EXPECT_EQ(parts, plan["piece"]["parts"].size());
  }
}

TEST_P(Answers, DrawingsAreTextAndLines) {
  for (const char* view : {"front", "side", "top", "perspective"}) {
    const auto answer = served_.client().Post(
        kOne + "dining_table/drawing", Json{{"view", view}}.dump(), "application/json");
    ASSERT_TRUE(answer);
    ASSERT_EQ(answer->status, 200) << answer->body;
    EXPECT_EQ(answer->get_header_value("Content-Type"), "image/svg+xml");
    EXPECT_EQ(answer->body.rfind("<svg", 0), 0U);
    // How long the table is stands at every view of it but the one from the side.
    EXPECT_EQ(answer->body.find("2100") == std::string::npos, std::string{view} == "side");
    EXPECT_NE(answer->body.find("<text"), std::string::npos) << view;
  }
  served_.post(kOne + "dining_table/drawing", {{"view", "below"}}, 400);
}

TEST_P(Answers, PapersArePrintedAndShownPageByPage) {
  const Json papers = served_.get(kOne + "dining_table/papers")["papers"];
  ASSERT_EQ(papers.size(), 2U);
  for (const Json& paper : papers) {
    const std::string at = kOne + "dining_table/papers/" + paper["id"].get<std::string>() + ".pdf";
    const auto pdf = served_.client().Get(at);
    ASSERT_TRUE(pdf);
    EXPECT_EQ(pdf->get_header_value("Content-Type"), "application/pdf");
    EXPECT_EQ(pdf->body.substr(0, 5), "%PDF-");
    const int pages = paper["pages"];
    for (const int page : {1, pages}) {
      const auto svg = served_.client().Get(fmt::format("{}?page={}&svg=1", at, page));
      ASSERT_TRUE(svg);
      EXPECT_EQ(svg->status, 200);
      EXPECT_NE(svg->body.find("</svg>"), std::string::npos);
    }
    served_.get(fmt::format("{}?page={}&svg=1", at, pages + 1), 404);
    served_.get(at + "?page=0&svg=1", 404);
  }
  served_.get(kOne + "dining_table/papers/secrets.pdf", 404);
}

// RFC 5545: the media type of 8.1, CRLF after every line (3.1), one calendar object (3.4).
TEST_P(Answers, TheCalendarIsAFileForOtherPrograms) {
  const auto file = served_.client().Get(kOne + "hall_cabinet/calendar.ics");
  ASSERT_TRUE(file);
  ASSERT_EQ(file->status, 200) << file->body;
  EXPECT_EQ(file->get_header_value("Content-Type"), "text/calendar; charset=utf-8");
  EXPECT_EQ(file->get_header_value("Content-Disposition"),
            "attachment; filename=\"hall_cabinet.ics\"");
  EXPECT_EQ(file->body.rfind("BEGIN:VCALENDAR\r\nVERSION:2.0\r\n", 0), 0U);
  EXPECT_TRUE(file->body.ends_with("END:VCALENDAR\r\n"));
  const Json calendar =
      served_.post(kOne + "hall_cabinet/plan", Json::object())["plan"]["calendar"];
  for (const Json& delivery : calendar["deliveries"]) {
    std::string day = delivery["order_by"];
    std::erase(day, '-');
    EXPECT_NE(file->body.find("DTSTART;VALUE=DATE:" + day), std::string::npos) << day;
  }
}

TEST_P(Answers, ACalendarThatCannotBeMadeSaysWhatIsMissing) {
  const std::string at = kOne + "hall_cabinet/";
  const Json kept = served_.get(at + "text");
  std::string text = kept["text"];
  const std::size_t quoted = text.find("quoted:");
  ASSERT_NE(quoted, std::string::npos);
  text.insert(quoted, "# ");
  served_.put(at + "text", {{"text", text}, {"version", kept["version"]}});
  const Json refused = served_.get(at + "calendar.ics", 422);
  EXPECT_NE(refused["errors"][0]["message"].get<std::string>().find("quoted"), std::string::npos);
  served_.get(kOne + "no_such_piece/calendar.ics", 404);
}

TEST_P(Answers, StepsAreTickedOff) {
  const std::string at = kOne + "hall_cabinet/ticks";
  EXPECT_TRUE(served_.get(at)["done"].empty());
  EXPECT_EQ(served_.put(at, {{"step", 4}, {"done", true}})["done"], Json({4}));
  EXPECT_EQ(served_.get(at)["done"], Json({4}));
  EXPECT_EQ(served_.put(at, {{"step", 4}, {"done", false}})["done"], Json::array());
  served_.put(at, {{"step", -1}, {"done", true}}, 400);
  served_.put(at, {{"step", "4"}, {"done", true}}, 400);
  served_.put(at, {{"step", 99999999999}, {"done", true}}, 400);
}

TEST_P(Answers, TheSchemaIsTheProgramsOwn) {
  std::ifstream published{kSource / "docs/commission.schema.json"};
  EXPECT_EQ(served_.get("/api/schema"), Json::parse(published));
}

TEST_P(Answers, NothingToCallOffIsNoMistake) {
  EXPECT_EQ(served_.post(kOne + "hall_cabinet/cancel", Json::object())["called_off"], 0);
}

TEST_P(Answers, PagesAreHandedOutPackedAndNotTwice) {
  auto client = served_.client();
  client.set_decompress(false);
  const auto front = client.Get("/", {{"Accept-Encoding", "gzip"}});
  ASSERT_TRUE(front);
  EXPECT_EQ(front->status, 200);
  EXPECT_EQ(front->get_header_value("Content-Type"), "text/html; charset=utf-8");
  EXPECT_EQ(front->get_header_value("Content-Encoding"), "gzip");
  const std::string tag = front->get_header_value("ETag");
  const auto again = client.Get("/", {{"If-None-Match", tag}});
  ASSERT_TRUE(again);
  EXPECT_EQ(again->status, 304);
  EXPECT_TRUE(again->body.empty());
  for (const char* page : {"/c/study_wall", "/c/study_wall/price", "/shelf"}) {
    const auto same = client.Get(page);
    ASSERT_TRUE(same);
    EXPECT_EQ(same->get_header_value("ETag"), tag) << page;
  }
  EXPECT_EQ(client.Get("/assets/none.js")->status, 404);
  EXPECT_EQ(client.Get("/api/none")->status, 404);
}

TEST(Versions, OfABookAreListedAndGoneBackTo) {
  const Served served{true};
  const Json first = served.get(kOne + "study_wall/text");
  served.put(kOne + "study_wall/text",
             {{"text", "commission: x\n"}, {"version", first["version"]}});
  EXPECT_EQ(served.get(kOne + "study_wall/versions")["versions"].size(), 2U);
  EXPECT_EQ(served.get(kOne + "study_wall/versions/1")["text"], first["text"]);
  EXPECT_EQ(served.post(kOne + "study_wall/undo", {{"number", 1}})["version"], first["version"]);
  EXPECT_EQ(served.get(kOne + "study_wall/versions")["versions"].size(), 3U);
  served.get(kOne + "study_wall/versions/9", 404);
}

}  // namespace
}  // namespace plankwright::server
