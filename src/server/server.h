#pragma once
// The pages and their answers over HTTP, on this machine only.

#include <filesystem>
#include <memory>
#include <string>

#include "base/result.h"
#include "plan/plan.h"
#include "store/keeper.h"

namespace plankwright::server {

/// What the server needs to begin with.
struct Setting {
  store::Keeper& keeper;
  plan::Reference reference;
  std::filesystem::path data;  // where the patterns lie
  int port = 0;                // 0: any free one
};

/// Listens on 127.0.0.1. Answers only requests that name this machine as their host and come from
/// its own pages; refuses chunked, packed and overlong bodies. Stops within two seconds.
class Server {
 public:
  /// Error kIo when the port is taken.
  static base::Result<std::unique_ptr<Server>> start(Setting setting);
  ~Server();
  Server(const Server&) = delete;
  Server& operator=(const Server&) = delete;

  int port() const;
  std::string address() const;  // "http://127.0.0.1:7326/"
  /// Ends all streams and waits for what is being answered. May be called twice.
  void stop();

  class Inside;

 private:
  explicit Server(std::unique_ptr<Inside> inside);
  std::unique_ptr<Inside> inside_;
};

}  // namespace plankwright::server
