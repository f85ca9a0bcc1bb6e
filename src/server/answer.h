#pragma once
// What is asked and what is answered, apart from how it travels.

#include <functional>
#include <map>
#include <string>
#include <string_view>

#include <nlohmann/json_fwd.hpp>

#include "base/result.h"

namespace plankwright::server {

struct Request {
  std::string id;    // of the commission in the path, or ""
  std::string rest;  // what the path names beyond it
  std::map<std::string, std::string> query = {};
  std::string body = {};
};

struct Answer {
  int status = 200;
  std::string type = "application/json";
  std::string body = {};
  std::map<std::string, std::string> headers = {};
};

Answer json_answer(const nlohmann::ordered_json& json, int status = 200);

/// {"errors": [...]}. `found` and `expected` are taken from messages that are put that way.
nlohmann::ordered_json errors_json(const base::Errors& errors);
Answer refusal(int status, const base::Errors& errors);
Answer refusal(int status, std::string message);
/// Of a keeper's error: 404 when there is no such commission, 500 when the disk failed.
Answer refusal_of(const base::Error& error);

/// The body as a JSON object; empty for an empty body. Error kBadInput with line and column.
base::Result<nlohmann::json> body_json(const Request& request);

}  // namespace plankwright::server
