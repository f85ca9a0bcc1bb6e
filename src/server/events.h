#pragma once
// What the pages are told without asking: each event goes to every open stream.

#include <chrono>
#include <condition_variable>
#include <cstdint>
#include <deque>
#include <mutex>
#include <string>

namespace plankwright::server {

/// A bounded log of events that any number of streams follow. Safe from several threads.
class Events {
 public:
  /// `data` is JSON. Old events are forgotten beyond the last 256.
  void publish(const std::string& name, const std::string& data);

  /// The number of the newest event; a stream begins behind it.
  std::uint64_t newest() const;

  /// What came after event `after`, as server-sent events, and the number of the last of them.
  /// Waits up to `patience` when nothing did, and then says nothing.
  struct Told {
    std::string text;
    std::uint64_t last = 0;
    bool closed = false;
  };
  Told wait(std::uint64_t after, std::chrono::milliseconds patience) const;

  /// Ends all streams.
  void close();

 private:
  struct Event {
    std::uint64_t number = 0;
    std::string text;
  };
  mutable std::mutex mutex_;
  mutable std::condition_variable changed_;
  std::deque<Event> log_;
  std::uint64_t newest_ = 0;
  bool closed_ = false;
};

}  // namespace plankwright::server
