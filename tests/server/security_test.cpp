// What others on this machine, and pages of other sites, may try.
#include <atomic>
#include <chrono>
#include <thread>

#include <fmt/format.h>

#include "server/served.h"

namespace plankwright::server {
namespace {

using Clock = std::chrono::steady_clock;

const Served& served() {
  static const Served kServed;
  return kServed;
}

std::string ask(const std::string& head, const std::string& body = "") {
  const RawConnection connection{served().port()};
  connection.send(head + "\r\n" + body);
  return connection.receive();
}

std::string here() {
  return fmt::format("127.0.0.1:{}", served().port());
}

TEST(Security, OnlyThisMachineIsAnswered) {
  const int port = served().port();
  for (const std::string& host :
       {here(), fmt::format("localhost:{}", port), fmt::format("[::1]:{}", port)}) {
    EXPECT_EQ(status_of(ask("GET /api/schema HTTP/1.1\r\nHost: " + host + "\r\n")), 200) << host;
  }
  for (const std::string& host : {std::string{"evil.example"},
                                  fmt::format("evil.example:{}", port),
                                  std::string{"127.0.0.1"},
                                  fmt::format("127.0.0.1:{}", port + 1),
                                  fmt::format("127.0.0.1:{}.evil.example", port),
                                  fmt::format("localhost.evil.example:{}", port),
                                  fmt::format("0.0.0.0:{}", port),
                                  std::string{}}) {
    EXPECT_EQ(status_of(ask("GET /api/schema HTTP/1.1\r\nHost: " + host + "\r\n")), 403) << host;
  }
  EXPECT_EQ(status_of(ask("GET /api/schema HTTP/1.1\r\n")), 403);
  EXPECT_EQ(
      status_of(ask("GET /api/schema HTTP/1.1\r\nHost: " + here() + "\r\nHost: evil.example\r\n")),
      403);
}

TEST(Security, OnlyItsOwnPagesAreAnswered) {
  const auto from = [](const std::string& origin) {
    return status_of(
        ask("GET /api/shelf HTTP/1.1\r\nHost: " + here() + "\r\nOrigin: " + origin + "\r\n"));
  };
  EXPECT_EQ(from("http://" + here()), 200);
  for (const std::string& origin : {std::string{"http://evil.example"},
                                    std::string{"null"},
                                    "https://" + here(),
                                    std::string{"http://127.0.0.1:1"},
                                    "http://" + here() + ".evil.example"}) {
    EXPECT_EQ(from(origin), 403) << origin;
  }
}

TEST(Security, NoOtherSiteMayReadAnAnswer) {
  for (const char* method : {"GET", "OPTIONS"}) {
    const std::string answer =
        ask(std::string{method} + " /api/shelf HTTP/1.1\r\nHost: " + here() + "\r\n");
    EXPECT_EQ(answer.find("Access-Control"), std::string::npos) << method;
  }
}

TEST(Security, BodiesSayHowLongTheyAreAndAreNotPacked) {
  const std::string post =
      "POST /api/commissions/study_wall/plan HTTP/1.1\r\nHost: " + here() + "\r\n";
  EXPECT_EQ(status_of(ask(post + "Transfer-Encoding: chunked\r\n", "2\r\n{}\r\n0\r\n\r\n")), 411);
  EXPECT_EQ(status_of(ask(post)), 411);
  EXPECT_EQ(status_of(ask(post + "Content-Encoding: gzip\r\nContent-Length: 2\r\n", "{}")), 415);
  EXPECT_EQ(status_of(ask(post + "Content-Length: 2\r\n", "{}")), 200);
  EXPECT_EQ(status_of(ask("GET / HTTP/1.1\r\nHost: " + here() + "\r\nRange: bytes=0-1,2-3\r\n")),
            416);
}

// A page of another site can send a text that looks like a second request; it must not be read as
// one after the first was refused.
TEST(Security, NothingIsReadAfterARefusal) {
  const std::string before = served().get("/api/commissions/hall_cabinet/text")["version"];
  const std::string second = "PUT /api/commissions/hall_cabinet/ticks HTTP/1.1\r\nHost: " + here() +
                             "\r\nContent-Length: 23\r\n\r\n{\"step\":1,\"done\":true}  ";
  const RawConnection connection{served().port()};
  connection.send("POST /api/shelf HTTP/1.1\r\nHost: " + here() +
                  "\r\nOrigin: http://evil.example\r\nContent-Length: " +
                  std::to_string(second.size()) + "\r\n\r\n" + second);
  const std::string answer = connection.receive_all();
  EXPECT_EQ(status_of(answer), 403);
  EXPECT_EQ(answer.find("HTTP/1.1", 8), std::string::npos) << "answered twice";
  EXPECT_TRUE(served().get("/api/commissions/hall_cabinet/ticks")["done"].empty());
}

TEST(Security, WhatIsTooLargeIsRefusedAndTheServerGoesOn) {
  const auto answer = served().client().Put(
      "/api/commissions/study_wall/text", std::string(10U << 20U, 'x'), "application/json");
  ASSERT_TRUE(answer);
  EXPECT_EQ(answer->status, 413);
  EXPECT_TRUE(Json::parse(answer->body)["errors"].is_array());
  EXPECT_EQ(served().get("/api/shelf")["commissions"].size(), 3U);
}

TEST(Security, NoPathLeadsOutOfThePages) {
  for (const char* path : {"/../../../../etc/passwd",
                           "/assets/../../etc/passwd",
                           "/%2e%2e/%2e%2e/etc/passwd",
                           "/assets/%2e%2e%2f%2e%2e%2fetc/passwd",
                           "/api/commissions/../shelf/text",
                           "/api/commissions/..%2f..%2fshop/text",
                           "/api/commissions/rope_walk_shop/text",
                           "//etc/passwd",
                           "/assets/%00"}) {
    const std::string answer =
        ask(fmt::format("GET {} HTTP/1.1\r\nHost: {}\r\nConnection: close\r\n", path, here()));
    EXPECT_EQ(answer.find("root:"), std::string::npos) << path;
    EXPECT_NE(status_of(answer), 500) << path;
    EXPECT_NE(status_of(answer), 0) << path;
  }
}

TEST(Security, ATextCannotOpenFilesElsewhere) {
  const std::string text = "commission: x\nshop: ../../../../../etc/passwd\n";
  const Json answer = served().post("/api/commissions/study_wall/plan", {{"text", text}});
  ASSERT_EQ(answer["errors"].size(), 1U);
  EXPECT_EQ(answer["errors"][0]["expected"], "a file beside the commission");
}

TEST(Security, OddRequestsGetClearWords) {
  const auto posted = [](const std::string& body) {
    const auto answer =
        served().client().Post("/api/commissions/study_wall/plan", body, "application/json");
    return answer ? answer->status : 0;
  };
  EXPECT_EQ(posted("{\"text\": "), 400);
  EXPECT_EQ(posted("[]"), 400);
  EXPECT_EQ(posted(std::string(100000, '[')), 400);
  EXPECT_EQ(posted("{\"text\": \"\\u0000\\ud800\"}"), 400);
  EXPECT_EQ(posted("{\"picks\": 3}"), 400);
  EXPECT_EQ(posted("{\"text\": 3, \"quick\": \"x\"}"), 200);  // as kept
  for (const std::string& text : {std::string{"\x01\x02"},
                                  std::string{"%PDF-1.4"},
                                  std::string(1000000, 'a'),
                                  std::string(5000, '{'),
                                  std::string{"a: &b [*b]"}}) {
    const auto answer = served().client().Post(
        "/api/commissions/study_wall/plan", Json{{"text", text}}.dump(), "application/json");
    ASSERT_TRUE(answer);
    EXPECT_EQ(answer->status, 200);
    EXPECT_FALSE(Json::parse(answer->body)["errors"].empty());
  }
}

TEST(Security, AHundredStreamsLeaveTheOthersAnswered) {
  Served own;
  std::vector<std::unique_ptr<RawConnection>> streams;
  int let_in = 0;
  int turned_away = 0;
  for (int i = 0; i < 100; ++i) {
    streams.push_back(std::make_unique<RawConnection>(own.port()));
    ASSERT_TRUE(streams.back()->open());
    streams.back()->send(fmt::format(
        "GET /api/events HTTP/1.1\r\nHost: 127.0.0.1:{}\r\nConnection: close\r\n\r\n", own.port()));
    const int status = status_of(streams.back()->receive());
    let_in += status == 200 ? 1 : 0;
    turned_away += status == 503 ? 1 : 0;
  }
  EXPECT_EQ(let_in, 24);
  EXPECT_EQ(turned_away, 76);
  const auto start = Clock::now();
  EXPECT_TRUE(own.get("/api/schema").is_object());
  EXPECT_LT(Clock::now() - start, std::chrono::seconds{1});
  // Places are free again when pages are closed.
  streams.clear();
  int status = 0;
  for (int i = 0; i < 50 && status != 200; ++i) {
    std::this_thread::sleep_for(std::chrono::milliseconds{100});
    const RawConnection again{own.port()};
    again.send(fmt::format("GET /api/events HTTP/1.1\r\nHost: 127.0.0.1:{}\r\n\r\n", own.port()));
    status = status_of(again.receive());
  }
  EXPECT_EQ(status, 200);
}

TEST(Security, StopsWithinTwoSecondsWithStreamsOpen) {
  Served own;
  std::vector<std::unique_ptr<RawConnection>> streams;
  for (int i = 0; i < 20; ++i) {
    streams.push_back(std::make_unique<RawConnection>(own.port()));
    streams.back()->send(
        fmt::format("GET /api/events HTTP/1.1\r\nHost: 127.0.0.1:{}\r\n\r\n", own.port()));
    EXPECT_EQ(status_of(streams.back()->receive()), 200);
  }
  const RawConnection idle{own.port()};
  idle.send(fmt::format("GET /api/schema HTTP/1.1\r\nHost: 127.0.0.1:{}\r\n\r\n", own.port()));
  idle.receive();
  const auto start = Clock::now();
  own.server().stop();
  EXPECT_LT(Clock::now() - start, std::chrono::seconds{2});
}

}  // namespace
}  // namespace plankwright::server
