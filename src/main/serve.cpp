#include "main/serve.h"

#include <csignal>
#include <filesystem>
#include <memory>

#include <fmt/format.h>

#include "server/server.h"
#include "store/book.h"
#include "store/files.h"
#include "store/folder_keeper.h"

namespace plankwright::cli {
namespace {

constexpr int kUsualPort = 7326;
constexpr int kFine = 0;
constexpr int kOurFault = 1;
constexpr int kBadInput = 2;

/// Interruptions wait until they are asked for; so it must be before any thread starts.
class Interruption {
 public:
  Interruption() {
    sigemptyset(&signals_);
    sigaddset(&signals_, SIGINT);
    sigaddset(&signals_, SIGTERM);
    pthread_sigmask(SIG_BLOCK, &signals_, nullptr);
  }
  void wait() const {
    int which = 0;
    sigwait(&signals_, &which);
  }

 private:
  sigset_t signals_{};
};

base::Result<std::unique_ptr<store::Keeper>> book_keeper(const ServeAsked& asked) {
  auto book = store::Book::open(asked.book);
  if (!book.ok()) {
    return book.error();
  }
  const auto files = store::commission_files({asked.places.begin(), asked.places.end()});
  const auto taken = book.value()->take_in(files);
  if (!taken.ok()) {
    return taken.error();
  }
  for (const std::string& id : taken.value()) {
    fmt::print("  taken into the book: {}\n", id);
  }
  return std::unique_ptr<store::Keeper>{std::move(book).value()};
}

base::Result<std::unique_ptr<store::Keeper>> keeper_of(const ServeAsked& asked) {
  if (!asked.book.empty()) {
    return book_keeper(asked);
  }
  std::vector<std::filesystem::path> places(asked.places.begin(), asked.places.end());
  if (places.empty()) {
    places.emplace_back(".");
  }
  return store::keep_folder(places);
}

base::Result<std::unique_ptr<server::Server>> start(const ServeAsked& asked,
                                                    store::Keeper& keeper,
                                                    const plan::Reference& reference) {
  const auto on = [&](int port) {
    return server::Server::start({keeper, reference, store::data_folder(), port});
  };
  if (asked.port >= 0) {
    return on(asked.port);
  }
  auto usual = on(kUsualPort);
  return usual.ok() ? std::move(usual) : on(0);
}

}  // namespace

int serve(const ServeAsked& asked) {
  const Interruption interruption;
  const auto reference = store::read_reference();
  if (!reference.ok()) {
    fmt::print(stderr, "{}", base::describe(reference.error()));
    return kOurFault;
  }
  const auto keeper = keeper_of(asked);
  if (!keeper.ok()) {
    fmt::print(stderr, "{}", base::describe(keeper.error()));
    return kBadInput;
  }
  const auto server = start(asked, *keeper.value(), reference.value());
  if (!server.ok()) {
    fmt::print(stderr, "{}", base::describe(server.error()));
    return kBadInput;
  }
  fmt::print("The pages are at {}\nStop with Ctrl+C.\n", server.value()->address());
  std::fflush(stdout);
  interruption.wait();
  fmt::print("Stopping.\n");
  server.value()->stop();
  return kFine;
}

}  // namespace plankwright::cli
