// What a page waits for: the server asked over loopback, as a browser asks it. Prints one line a
// question: median, 95 of 100, worst, processor time; then small answers a second and the memory of
// it all.
#include "server/server.h"

#include <algorithm>
#include <atomic>
#include <chrono>
#include <filesystem>
#include <fstream>
#include <functional>
#include <string>
#include <thread>
#include <vector>

#include <fmt/format.h>
#include <httplib.h>
#include <nlohmann/json.hpp>
#include <sys/resource.h>
#include <unistd.h>

#include "store/files.h"
#include "store/folder_keeper.h"

namespace {

using namespace plankwright;  // NOLINT(google-build-using-namespace): a benchmark's own file
using Clock = std::chrono::steady_clock;
using Json = nlohmann::json;

constexpr int kEdits = 200;

double milliseconds(Clock::time_point since) {
  return std::chrono::duration<double, std::milli>(Clock::now() - since).count();
}

double memory_mb() {
  std::ifstream status{"/proc/self/status"};
  for (std::string line; std::getline(status, line);) {
    if (line.rfind("VmRSS:", 0) == 0) {
      return std::stod(line.substr(6)) / 1024;
    }
  }
  return 0;
}

/// Processor time of this process, which asks and answers, so far.
double processor_ms() {
  rusage used{};
  ::getrusage(RUSAGE_SELF, &used);
  const auto ms = [](const timeval& t) {
    return 1e3 * static_cast<double>(t.tv_sec) + 1e-3 * static_cast<double>(t.tv_usec);
  };
  return ms(used.ru_utime) + ms(used.ru_stime);
}

/// Asks `count` times and prints how long it took, and the processor time of one question.
void measure(const std::string& what, int count, const std::function<bool(int)>& ask) {
  std::vector<double> took;
  const double before = processor_ms();
  for (int i = 0; i < count; ++i) {
    const auto start = Clock::now();
    if (!ask(i)) {
      fmt::print("{}: no good answer\n", what);
      return;
    }
    took.push_back(milliseconds(start));
  }
  std::ranges::sort(took);
  fmt::print("{:<58} {:>7.1f} {:>7.1f} {:>7.1f} ms  processor {:>7.1f} ms\n",
             what,
             took[took.size() / 2],
             took[took.size() * 95 / 100],
             took.back(),
             (processor_ms() - before) / count);
  std::fflush(stdout);
}

bool is_good(const httplib::Result& answer) {
  return answer && answer->status == 200;
}

/// A text with another size each time, so that no answer is remembered.
std::string edited(const std::string& text, int number) {
  std::string changed = text;
  const std::string before = "shelf_deep: 260";
  changed.replace(
      changed.find(before), before.size(), fmt::format("shelf_deep: {}", 200 + 0.1 * number));
  return changed;
}

void small_answers(int port) {
  constexpr int kAskers = 8;
  constexpr std::chrono::seconds kFor{3};
  std::atomic<long> answered{0};
  std::vector<std::thread> askers;
  const auto end = Clock::now() + kFor;
  for (int i = 0; i < kAskers; ++i) {
    askers.emplace_back([&] {
      httplib::Client client{"127.0.0.1", port};
      client.set_keep_alive(true);
      while (Clock::now() < end && is_good(client.Get("/api/commissions/study_wall/ticks"))) {
        ++answered;
      }
    });
  }
  for (std::thread& asker : askers) {
    asker.join();
  }
  fmt::print("small answers a second, {} askers: {}\n", kAskers, answered / kFor.count());
}

void ask_all(const server::Server& server, const std::string& text) {
  httplib::Client client{"127.0.0.1", server.port()};
  client.set_keep_alive(true);
  client.set_read_timeout(60);
  client.set_tcp_nodelay(true);  // as browsers do; else each question waits for an acknowledgement
  const std::string wall = "/api/commissions/study_wall/";
  const auto post = [&](const std::string& what, const Json& body) {
    return is_good(client.Post(wall + what, body.dump(), "application/json"));
  };
  measure("the shelf of three, first", 1, [&](int) { return is_good(client.Get("/api/shelf")); });
  measure("the shelf of three, again", 50, [&](int) { return is_good(client.Get("/api/shelf")); });
  measure("solids of the wall, first", 1, [&](int) { return post("solids", Json::object()); });
  measure("solids of the wall, again", 50, [&](int) { return post("solids", Json::object()); });
  measure("an edit of the wall to fresh figures (90 parts)", kEdits, [&](int i) {
    return post("plan", {{"text", edited(text, i)}, {"quick", true}});
  });
  measure("an edit of the wall to fresh solids", kEdits / 2, [&](int i) {
    return post("solids", {{"text", edited(text, kEdits + i)}});
  });
  measure("front view of the wall after an edit of its shape", 8, [&](int i) {
    return post("drawing", {{"text", edited(text, 2 * kEdits + i)}, {"view", "front"}});
  });
  measure("values of the wall", 50, [&](int) { return post("values", Json::object()); });
  measure("all 12 combinations of the wall", 1, [&](int) {
    return is_good(client.Get(wall + "compare?all=1"));
  });
  measure("a page of the shop packet as SVG, first", 1, [&](int) {
    return is_good(client.Get(wall + "papers/shop_packet.pdf?page=3&svg=1"));
  });
  measure("another page of it", 20, [&](int i) {
    return is_good(client.Get(fmt::format("{}papers/shop_packet.pdf?page={}&svg=1", wall, 4 + i)));
  });
}

}  // namespace

int main() {
  namespace fs = std::filesystem;
  const fs::path folder = fs::temp_directory_path() / fmt::format("server_bench_{}", ::getpid());
  fs::create_directories(folder);
  fs::copy(PLANKWRIGHT_SOURCE_DIR "/examples", folder);
  {
    const auto keeper = store::keep_folder({folder}).value();
    const auto server =
        server::Server::start({*keeper, store::read_reference().value(), store::data_folder(), 0})
            .value();
    fmt::print("memory before the first question: {:.0f} MB\n", memory_mb());
    ask_all(*server, store::read_file(folder / "study_wall.yaml").value());
    small_answers(server->port());
    fmt::print("memory after all of it: {:.0f} MB\n", memory_mb());
  }
  fs::remove_all(folder);
}
