// A connection holds a thread of the pool for as long as it lives, so the pool is wider than all
// the streams that are let in, and the rest is for the other requests. A body is read only after
// its head was looked at: what has no length, is packed or comes from elsewhere is refused before.
#include "server/server.h"

#include <atomic>
#include <thread>

#include <fmt/format.h>
#include <httplib.h>
#include <nlohmann/json.hpp>

#include "server/office.h"
#include "server/pages.h"

namespace plankwright::server {
namespace {

constexpr std::size_t kThreads = 64;
constexpr int kMostStreams = 24;
constexpr std::size_t kLargestBody = 4U << 20U;
constexpr int kKeepAliveSeconds = 1;
constexpr std::size_t kMostOnOneConnection = 100000;
constexpr std::chrono::milliseconds kStreamPatience{1000};
constexpr std::chrono::milliseconds kLinger{50};
constexpr std::chrono::milliseconds kLookEvery{1000};

using Handler = Answer (*)(const Office&, const Request&);

Request to_request(const httplib::Request& from) {
  Request request;
  if (from.matches.size() > 1) {
    request.id = from.matches[1];
  }
  if (from.matches.size() > 2) {
    request.rest = from.matches[2];
  }
  for (const auto& [name, value] : from.params) {
    request.query.emplace(name, value);
  }
  request.body = from.body;
  return request;
}

void send(const Answer& answer, httplib::Response& to) {
  to.status = answer.status;
  for (const auto& [name, value] : answer.headers) {
    to.set_header(name, value);
  }
  to.set_header("Cache-Control", "no-store");
  // By a provider and not as a body: the library would pack a body, at a cost that no machine
  // talking to itself gets back.
  to.set_content_provider(answer.body.size(),
                          answer.type,
                          [body = answer.body](std::size_t at, std::size_t length, auto& sink) {
                            return sink.write(body.data() + at, length);
                          });
}

/// Without a body that was read, what follows on the connection is not a request, though it may be
/// dressed up as one: nothing more is read from it. `wait` lets the other side read the answer
/// before the system cuts off what it still sends.
void send_and_close(const Answer& answer, bool wait, httplib::Response& to) {
  to.status = answer.status;
  to.set_header("Connection", "close");
  to.set_content_provider(
      answer.body.size(),
      answer.type,
      [body = answer.body, wait](std::size_t at, std::size_t length, auto& sink) {
        sink.write(body.data() + at, length);
        if (wait) {
          std::this_thread::sleep_for(kLinger);
        }
        return false;  // ends the connection
      });
}

void send_page(const PageFile& page, const httplib::Request& from, httplib::Response& to) {
  to.set_header("ETag", page.tag);
  // Files under /assets/ carry the hash of what they hold in their names.
  to.set_header("Cache-Control",
                from.path.starts_with("/assets/") ? "max-age=31536000, immutable" : "no-cache");
  to.set_header("Vary", "Accept-Encoding");
  if (from.get_header_value("If-None-Match") == page.tag) {
    to.status = 304;
    return;
  }
  const bool packed = !page.packed.empty() &&
                      from.get_header_value("Accept-Encoding").find("gzip") != std::string::npos;
  const std::string_view bytes = packed ? std::string_view{page.packed} : page.bytes;
  if (packed) {
    to.set_header("Content-Encoding", "gzip");
  }
  to.set_content_provider(
      bytes.size(), page.type, [bytes](std::size_t at, std::size_t length, auto& sink) {
        return sink.write(bytes.data() + at, length);
      });
}

}  // namespace

class Server::Inside {
 public:
  explicit Inside(Setting setting)
      : keeper_{setting.keeper},
        planner_{std::move(setting.reference)},
        jobs_{events_},
        afterthoughts_{planner_, jobs_, events_},
        watch_{keeper_, events_, kLookEvery},
        office_{keeper_,
                planner_,
                desk_,
                jobs_,
                afterthoughts_,
                watch_,
                comparisons_,
                setting.data / "patterns"} {
    set_limits();
    set_answers();
  }

  bool bind(int port) {
    port_ = port == 0 ? http_.bind_to_any_port("127.0.0.1")
                      : (http_.bind_to_port("127.0.0.1", port) ? port : -1);
    return port_ > 0;
  }

  void listen() {
    listening_ = std::thread{[this] { http_.listen_after_bind(); }};
    while (!http_.is_running()) {
      std::this_thread::yield();
    }
  }

  void stop() {
    jobs_.call_off_all();
    events_.close();
    http_.stop();
    watch_.stop();
    afterthoughts_.stop();
    if (listening_.joinable()) {
      listening_.join();
    }
  }

  int port() const { return port_; }

 private:
  void set_limits() {
    http_.new_task_queue = [] { return new httplib::ThreadPool(kThreads); };
    http_.set_keep_alive_timeout(kKeepAliveSeconds);
    http_.set_keep_alive_max_count(kMostOnOneConnection);
    http_.set_tcp_nodelay(true);
    // Only what lets a port be used again at once after a stop. The library's own choice would let
    // two programs listen on one port, and each get some of the requests.
    http_.set_socket_options([](socket_t socket) {
      const int yes = 1;
      ::setsockopt(socket, SOL_SOCKET, SO_REUSEADDR, &yes, sizeof yes);
    });
    http_.set_payload_max_length(kLargestBody);
    http_.set_pre_routing_handler([this](const auto& from, auto& to) {
      const Answer refused = refuse(from);
      if (refused.status == 200) {
        return httplib::Server::HandlerResponse::Unhandled;
      }
      send_and_close(refused, from.has_header("Content-Length"), to);
      return httplib::Server::HandlerResponse::Handled;
    });
    http_.set_exception_handler(
        [](const auto& /*from*/, auto& to, const std::exception_ptr& fault) {
          send(fault_answer(fault), to);
        });
    http_.set_error_handler([](const auto& /*from*/, auto& to) {
      if (to.status == 413) {
        send(refusal(413, "the request is larger than 4 MB"), to);
      } else if (!to.has_header("Content-Type")) {
        send(refusal(to.status, "there is nothing here"), to);
      }
    });
  }

  static Answer fault_answer(const std::exception_ptr& fault) {
    try {
      std::rethrow_exception(fault);
    } catch (const std::exception& known) {
      return refusal(500, fmt::format("internal fault: {}; nothing was written", known.what()));
    } catch (...) {
      return refusal(500, "internal fault; nothing was written");
    }
  }

  /// Whether `authority` names this machine and this port: a page of another site cannot, even
  /// when its name leads here.
  bool is_here(const std::string& authority) const {
    for (const char* name : {"127.0.0.1", "localhost", "[::1]"}) {
      if (authority == fmt::format("{}:{}", name, port_)) {
        return true;
      }
    }
    return false;
  }

  /// Status 200 when the request may go on.
  Answer refuse(const httplib::Request& from) const {
    if (from.get_header_value_count("Host") != 1 || !is_here(from.get_header_value("Host"))) {
      return refusal(403, "this server answers only to 127.0.0.1 and localhost");
    }
    if (from.has_header("Origin")) {
      const std::string origin = from.get_header_value("Origin");
      if (!origin.starts_with("http://") || !is_here(origin.substr(7))) {
        return refusal(403, "this server answers only its own pages");
      }
    }
    const bool carries_body = from.method == "POST" || from.method == "PUT";
    if (from.has_header("Transfer-Encoding") ||
        (carries_body && !from.has_header("Content-Length"))) {
      return refusal(411, "a request must say how long it is (Content-Length)");
    }
    if (from.has_header("Content-Encoding")) {
      return refusal(415, "a request must not be packed (Content-Encoding)");
    }
    if (from.ranges.size() > 1) {
      return refusal(416, "one range at most");
    }
    return {};
  }

  httplib::Server::Handler answer_with(Handler handler) {
    return [this, handler](const httplib::Request& from, httplib::Response& to) {
      send(handler(office_, to_request(from)), to);
    };
  }

  void set_answers() {
    http_.Get("/api/shelf", answer_with(get_shelf));
    http_.Post("/api/shelf", answer_with(post_shelf));
    http_.Get("/api/schema", answer_with(get_schema));
    const std::string one = "/api/commissions/([a-z0-9_-]+)";
    http_.Get(one + "/text", answer_with(get_text));
    http_.Put(one + "/text", answer_with(put_text));
    http_.Post(one + "/plan", answer_with(post_plan));
    http_.Post(one + "/edit", answer_with(post_edit));
    http_.Post(one + "/values", answer_with(post_values));
    http_.Get(one + "/compare", answer_with(get_compare));
    http_.Post(one + "/solids", answer_with(post_solids));
    http_.Post(one + "/drawing", answer_with(post_drawing));
    http_.Get(one + "/papers", answer_with(get_papers));
    http_.Get(one + "/papers/([a-z_]+)\\.pdf", answer_with(get_paper));
    http_.Get(one + "/calendar\\.ics", answer_with(get_calendar));
    http_.Get(one + "/ticks", answer_with(get_ticks));
    http_.Put(one + "/ticks", answer_with(put_ticks));
    http_.Get(one + "/versions", answer_with(get_versions));
    http_.Get(one + "/versions/([0-9]{1,9})", answer_with(get_version));
    http_.Post(one + "/undo", answer_with(post_undo));
    http_.Post(one + "/cancel", answer_with(post_cancel));
    http_.Get("/api/events", [this](const auto& from, auto& to) { stream(from, to); });
    http_.Get("/.*", [this](const httplib::Request& from, httplib::Response& to) {
      if (const PageFile* page = pages_.find(from.path)) {
        send_page(*page, from, to);
      } else {
        send(refusal(404, "there is nothing here"), to);
      }
    });
  }

  void stream(const httplib::Request& from, httplib::Response& to) {
    if (streams_.fetch_add(1) >= kMostStreams) {
      --streams_;
      send(refusal(503, "too many pages are open at once; close some of them"), to);
      return;
    }
    auto last = std::make_shared<std::uint64_t>(start_of(from));
    to.set_header("Cache-Control", "no-store");
    to.set_chunked_content_provider(
        "text/event-stream",
        [this, last](std::size_t, httplib::DataSink& sink) {
          Events::Told told = events_.wait(*last, kStreamPatience);
          if (told.closed) {
            sink.done();
            return true;
          }
          *last = told.last;
          // A comment finds out whether anyone is still there.
          const std::string& text = told.text.empty() ? kStillHere : told.text;
          return sink.is_writable() && sink.write(text.data(), text.size());
        },
        [this](bool) { --streams_; });
  }

  /// A page that lost its stream says which event it saw last.
  std::uint64_t start_of(const httplib::Request& from) const {
    const std::uint64_t newest = events_.newest();
    const std::string seen = from.get_header_value("Last-Event-ID");
    if (seen.empty() || seen.find_first_not_of("0123456789") != std::string::npos) {
      return newest;
    }
    return std::min<std::uint64_t>(std::strtoull(seen.c_str(), nullptr, 10), newest);
  }

  inline static const std::string kStillHere = ": still here\n\n";

  store::Keeper& keeper_;
  Events events_;
  Planner planner_;
  DrawingDesk desk_;
  Jobs jobs_;
  Afterthoughts afterthoughts_;
  Watch watch_;
  Recent<std::pair<SharedPlan, bool>, std::shared_ptr<const std::string>> comparisons_{8};
  Office office_;
  Pages pages_;
  httplib::Server http_;
  std::thread listening_;
  std::atomic<int> streams_{0};
  int port_ = 0;
};

Server::Server(std::unique_ptr<Inside> inside) : inside_{std::move(inside)} {}
Server::~Server() {
  stop();
}

base::Result<std::unique_ptr<Server>> Server::start(Setting setting) {
  const int port = setting.port;
  auto inside = std::make_unique<Inside>(std::move(setting));
  if (!inside->bind(port)) {
    return base::Error{base::ErrorCode::kIo,
                       fmt::format("port {} is taken by another program", port)};
  }
  inside->listen();
  return std::unique_ptr<Server>{new Server{std::move(inside)}};
}

int Server::port() const {
  return inside_->port();
}

std::string Server::address() const {
  return fmt::format("http://127.0.0.1:{}/", port());
}

void Server::stop() {
  inside_->stop();
}

}  // namespace plankwright::server
