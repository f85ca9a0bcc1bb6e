#pragma once
// A server of the test's own on a free port, with copies of the examples.

#include <memory>
#include <string>

#include <arpa/inet.h>
#include <gtest/gtest.h>
#include <httplib.h>
#include <netinet/in.h>
#include <nlohmann/json.hpp>
#include <sys/socket.h>
#include <unistd.h>

#include "server/server.h"
#include "store/book.h"
#include "store/files.h"
#include "store/folder_keeper.h"
#include "store/temporary_folder.h"

namespace plankwright::server {

using Json = nlohmann::json;

inline const std::filesystem::path kSource = PLANKWRIGHT_SOURCE_DIR;

inline const plan::Reference& reference() {
  static const plan::Reference kReference = store::read_reference().value();
  return kReference;
}

class Served {
 public:
  explicit Served(bool as_book = false) {
    for (const auto& entry : std::filesystem::directory_iterator{kSource / "examples"}) {
      std::filesystem::copy(entry.path(), folder_.path());
    }
    if (as_book) {
      auto book = store::Book::open(folder_ / "shop.book").value();
      EXPECT_TRUE(book->take_in(store::commission_files({folder_.path()})).ok());
      keeper_ = std::move(book);
    } else {
      keeper_ = store::keep_folder({folder_.path()}).value();
    }
    server_ = Server::start({*keeper_, reference(), store::data_folder(), 0}).value();
  }

  int port() const { return server_->port(); }
  Server& server() { return *server_; }
  const store::TemporaryFolder& folder() const { return folder_; }
  store::Keeper& keeper() { return *keeper_; }

  httplib::Client client() const {
    httplib::Client client{"127.0.0.1", port()};
    client.set_read_timeout(60);
    return client;
  }

  Json get(const std::string& path, int status = 200) const {
    return read(client().Get(path), path, status);
  }
  Json post(const std::string& path, const Json& body, int status = 200) const {
    return read(client().Post(path, body.dump(), "application/json"), path, status);
  }
  Json put(const std::string& path, const Json& body, int status = 200) const {
    return read(client().Put(path, body.dump(), "application/json"), path, status);
  }

 private:
  static Json read(const httplib::Result& result, const std::string& path, int status) {
    if (!result) {
      ADD_FAILURE() << path << ": no answer";
      return {};
    }
    EXPECT_EQ(result->status, status) << path << ": " << result->body.substr(0, 400);
    return Json::parse(result->body, nullptr, false);
  }

  store::TemporaryFolder folder_;
  std::unique_ptr<store::Keeper> keeper_;
  std::unique_ptr<Server> server_;
};

/// Bytes as they are over a socket: what no well-behaved client sends.
class RawConnection {
 public:
  explicit RawConnection(int port) : socket_{::socket(AF_INET, SOCK_STREAM, 0)} {
    sockaddr_in to{};
    to.sin_family = AF_INET;
    to.sin_port = htons(static_cast<std::uint16_t>(port));
    to.sin_addr.s_addr = htonl(INADDR_LOOPBACK);
    timeval patience{5, 0};
    ::setsockopt(socket_, SOL_SOCKET, SO_RCVTIMEO, &patience, sizeof patience);
    open_ = ::connect(socket_, reinterpret_cast<const sockaddr*>(&to), sizeof to) == 0;
  }
  ~RawConnection() { ::close(socket_); }
  RawConnection(const RawConnection&) = delete;
  RawConnection& operator=(const RawConnection&) = delete;

  bool open() const { return open_; }
  void send(const std::string& bytes) const {
    static_cast<void>(::send(socket_, bytes.data(), bytes.size(), MSG_NOSIGNAL));
  }
  /// What comes until `until` is among it, the other side closes, or nothing comes for 5 s.
  std::string receive(const std::string& until = "\r\n\r\n") const {
    std::string all;
    char some[4096];
    while (all.find(until) == std::string::npos) {
      const ssize_t got = ::recv(socket_, some, sizeof some, 0);
      if (got <= 0) {
        break;
      }
      all.append(some, static_cast<std::size_t>(got));
    }
    return all;
  }
  std::string receive_all() const { return receive(std::string(1, '\0') + "never"); }

 private:
  int socket_;
  bool open_ = false;
};

inline int status_of(const std::string& answer) {
  return answer.size() > 12 ? std::atoi(answer.c_str() + 9) : 0;
}

}  // namespace plankwright::server
