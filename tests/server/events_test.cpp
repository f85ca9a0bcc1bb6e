// What the pages are told without asking, and two who write at once.
#include "server/events.h"

#include <atomic>
#include <thread>

#include <fmt/format.h>

#include "server/served.h"

namespace plankwright::server {
namespace {

class Stream {
 public:
  explicit Stream(int port) : connection_{port} {
    connection_.send(fmt::format("GET /api/events HTTP/1.1\r\nHost: 127.0.0.1:{}\r\n\r\n", port));
    EXPECT_EQ(status_of(connection_.receive()), 200);
  }
  /// The first event called `name`, or "" when none came among the next thirty or in half a minute.
  std::string wait_for(const std::string& name) {
    for (int i = 0; i < 30; ++i) {
      const std::size_t at = heard_.find("event: " + name + "\n");
      const std::size_t end = at == std::string::npos ? at : heard_.find("\n\n", at);
      if (end != std::string::npos) {
        return heard_.substr(at, end - at);
      }
      const std::string more = connection_.receive("\n\n");
      heard_ += more;
      if (more.empty()) {
        break;
      }
    }
    return "";
  }

 private:
  RawConnection connection_;
  std::string heard_;
};

TEST(Stream, TellsOfAFileChangedByAnotherProgram) {
  const Served served;
  Stream stream{served.port()};
  served.folder().put("hall_cabinet.yaml", "commission: Changed\n");
  const std::string data = stream.wait_for("changed");
  EXPECT_NE(data.find("hall_cabinet"), std::string::npos) << data;
  EXPECT_NE(data.find(store::hash_of("commission: Changed\n")), std::string::npos) << data;
}

TEST(Stream, TellsOtherPagesOfATextThatWasKept) {
  const Served served{true};
  Stream stream{served.port()};
  const Json text = served.get("/api/commissions/study_wall/text");
  served.put("/api/commissions/study_wall/text",
             {{"text", "commission: x\n"}, {"version", text["version"]}});
  EXPECT_NE(stream.wait_for("changed").find("study_wall"), std::string::npos);
}

TEST(Stream, TellsWhenTheFullPlanIsThere) {
  const Served served;
  Stream stream{served.port()};
  served.post("/api/commissions/study_wall/plan", {{"quick", true}});
  EXPECT_NE(stream.wait_for("progress").find("\"share\""), std::string::npos);
  EXPECT_NE(stream.wait_for("better").find("\"price\""), std::string::npos);
  // The full plan was made meanwhile, and is given even to who asks for a quick one.
  const Json again = served.post("/api/commissions/study_wall/plan", {{"quick", true}});
  EXPECT_FALSE(again["quick"]);
  EXPECT_FALSE(again["plan"]["choices"].empty());
  EXPECT_GT(again["plan"]["stock"]["solids"][0]["odds"]["purchases"], 0);
}

TEST(Stream, OfATrialNoFullPlanIsMade) {
  const Served served;
  Stream stream{served.port()};
  const std::string tried = "/api/commissions/dining_table/plan";
  EXPECT_TRUE(served.post(tried, {{"quick", true}, {"trial", true}})["quick"]);
  // What is made afterwards is made one by one: a full plan of the trial would have come first.
  served.post("/api/commissions/study_wall/plan", {{"quick", true}});
  EXPECT_NE(stream.wait_for("better").find("study_wall"), std::string::npos);
  EXPECT_TRUE(served.post(tried, {{"quick", true}, {"trial", true}})["quick"]);
}

TEST(Stream, LongWorkIsToldOfAndCalledOff) {
  const Served served;
  Stream stream{served.port()};
  std::atomic<int> status{0};
  std::thread asking{[&] {
    const auto answer = served.client().Get("/api/commissions/hall_cabinet/compare?all=1");
    status = answer ? answer->status : -1;
  }};
  EXPECT_NE(stream.wait_for("progress").find("progress"), std::string::npos);
  const Json called = served.post("/api/commissions/hall_cabinet/cancel", Json::object());
  asking.join();
  EXPECT_EQ(called["called_off"], 1);
  EXPECT_EQ(status, 409);
  // Asking again does the work again.
  EXPECT_EQ(served.get("/api/commissions/hall_cabinet/compare?all=1")["choices"].size(), 32U);
}

TEST(Writers, OneOfTwoWins) {
  const Served served;
  const std::string at = "/api/commissions/dining_table/text";
  const std::string version = served.get(at)["version"];
  std::atomic<int> kept{0};
  std::atomic<int> refused{0};
  std::vector<std::thread> writers;
  for (int i = 0; i < 6; ++i) {
    writers.emplace_back([&, i] {
      const auto answer = served.client().Put(
          at,
          Json{{"text", fmt::format("commission: {}\n", i)}, {"version", version}}.dump(),
          "application/json");
      kept += answer && answer->status == 200 ? 1 : 0;
      refused += answer && answer->status == 409 ? 1 : 0;
    });
  }
  for (std::thread& writer : writers) {
    writer.join();
  }
  EXPECT_EQ(kept, 1);
  EXPECT_EQ(refused, 5);
}

TEST(Files, ChangedUnderUsAreShownAndNotOverwritten) {
  const Served served;
  const std::string at = "/api/commissions/dining_table/text";
  const std::string version = served.get(at)["version"];
  served.folder().put("dining_table.yaml", "commission: theirs\n");
  const Json refused = served.put(at, {{"text", "mine"}, {"version", version}}, 409);
  EXPECT_EQ(refused["text"], "commission: theirs\n");
  // One that grew beyond what a document may be, and one that is none, are told of and kept.
  served.folder().put("dining_table.yaml", std::string(10U << 20U, 'x'));
  const Json large = served.get(at, 404);
  EXPECT_NE(large["errors"][0]["message"].get<std::string>().find("10 MB"), std::string::npos);
  const Json shelf = served.get("/api/shelf");
  EXPECT_EQ(shelf["commissions"].size(), 3U);
  EXPECT_EQ(shelf["commissions"][0]["errors"], 1);
  served.folder().put("dining_table.yaml", "\x01\x02\x03");
  EXPECT_FALSE(served.post("/api/commissions/dining_table/plan", Json::object())["errors"].empty());
}

TEST(Plans, FollowTheShopsFile) {
  const Served served;
  const std::string at = "/api/commissions/study_wall/plan";
  const Json before = served.post(at, Json::object());
  std::string shop = store::read_file(served.folder() / "signal_house_shop.yaml").value();
  served.folder().put("signal_house_shop.yaml", shop + "\nterms: {margin: 35 %}\n");
  const Json after = served.post(at, Json::object());
  if (after["errors"].empty()) {
    EXPECT_GT(after["plan"]["price"]["price"], before["plan"]["price"]["price"]);
  } else {
    // The shop has its terms already: then the plan must show the mistake rather than the old plan.
    EXPECT_TRUE(after["plan"].is_null());
  }
}

TEST(Events, AreForgottenFromTheOldEnd) {
  Events events;
  for (int i = 0; i < 1000; ++i) {
    events.publish("x", std::to_string(i));
  }
  const auto told = events.wait(0, std::chrono::milliseconds{0});
  EXPECT_EQ(told.last, 1000U);
  EXPECT_EQ(told.text.find("data: 500\n"), std::string::npos);
  EXPECT_NE(told.text.find("data: 999\n"), std::string::npos);
  EXPECT_TRUE(events.wait(1000, std::chrono::milliseconds{1}).text.empty());
  events.close();
  EXPECT_TRUE(events.wait(1000, std::chrono::milliseconds{10000}).closed);
}

}  // namespace
}  // namespace plankwright::server
