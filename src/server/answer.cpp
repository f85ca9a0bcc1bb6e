#include "server/answer.h"

#include <algorithm>

#include <fmt/format.h>
#include <nlohmann/json.hpp>

namespace plankwright::server {
namespace {

using Json = nlohmann::ordered_json;

/// "found `x`, expected y": the two halves, or nothing of a message that is put otherwise.
std::pair<std::string, std::string> halves_of(const std::string& message) {
  constexpr std::string_view kFound = "found ";
  constexpr std::string_view kExpected = ", expected ";
  const std::size_t comma = message.find(kExpected);
  if (!message.starts_with(kFound) || comma == std::string::npos) {
    return {};
  }
  return {message.substr(kFound.size(), comma - kFound.size()),
          message.substr(comma + kExpected.size())};
}

Json error_json(const base::Error& error) {
  const auto [found, expected] = halves_of(error.message);
  Json json = {{"message", error.message}};
  json["file"] = error.at ? error.at->file : "";
  json["line"] = error.at ? error.at->line : 0;
  json["column"] = error.at ? error.at->column : 0;
  json["found"] = found;
  json["expected"] = expected;
  json["nearest"] = error.nearest;
  return json;
}

/// Where the byte stands in the body.
base::Position place_in(std::string_view body, std::size_t byte) {
  const std::string_view before = body.substr(0, std::min(byte, body.size()));
  const std::size_t line_start = before.rfind('\n') + 1;  // npos + 1 is 0
  return {"request",
          1 + static_cast<int>(std::ranges::count(before, '\n')),
          static_cast<int>(std::max<std::size_t>(before.size() - line_start, 1))};
}

}  // namespace

Answer json_answer(const Json& json, int status) {
  return {.status = status,
          .type = "application/json",
          .body = json.dump(-1, ' ', false, Json::error_handler_t::replace)};
}

Json errors_json(const base::Errors& errors) {
  Json list = Json::array();
  for (const base::Error& error : errors) {
    list.push_back(error_json(error));
  }
  return list;
}

Answer refusal(int status, const base::Errors& errors) {
  return json_answer({{"errors", errors_json(errors)}}, status);
}

Answer refusal(int status, std::string message) {
  return refusal(status, base::Errors{{base::ErrorCode::kBadInput, std::move(message)}});
}

Answer refusal_of(const base::Error& error) {
  return refusal(error.code == base::ErrorCode::kIo ? 500 : 404, base::Errors{error});
}

base::Result<nlohmann::json> body_json(const Request& request) {
  if (request.body.find_first_not_of(" \t\r\n") == std::string::npos) {
    return nlohmann::json::object();
  }
  try {
    nlohmann::json json = nlohmann::json::parse(request.body);
    if (!json.is_object()) {
      return base::Error{base::ErrorCode::kBadInput, "found no object, expected a JSON object"};
    }
    return json;
  } catch (const nlohmann::json::parse_error& error) {
    return base::Error{base::ErrorCode::kBadInput,
                       "the request is not JSON from here on",
                       place_in(request.body, error.byte)};
  }
}

}  // namespace plankwright::server
