#include "board_instances.h"

#include <algorithm>
#include <fstream>
#include <map>

#include <fmt/format.h>
#include <nlohmann/json.hpp>

namespace plankwright::bench_tool {
namespace {

using nlohmann::json;

std::int64_t number(const json& value) {
  return value.get<std::int64_t>();
}

void add_defects(const json& list, solve::BoardFace face, solve::RoughBoard& board) {
  for (const json& from : list) {
    const auto type = from[4].get<std::string>();
    solve::BoardDefect defect;
    defect.x = std::max<std::int64_t>(0, number(from[0]));
    defect.y = std::max<std::int64_t>(0, number(from[1]));
    defect.length = std::min(board.length, number(from[2])) - defect.x;
    defect.width = std::min(board.width, number(from[3])) - defect.y;
    defect.face = face;
    defect.sound = type == "SOUND_KNOT" || type == "STAIN";
    if (defect.length > 0 && defect.width > 0) {
      board.defects.push_back(defect);
    }
  }
}

solve::RoughBoard board_of(const json& line) {
  solve::RoughBoard board;
  board.length = number(line["length"]);
  board.width = number(line["width"]);
  board.price = board.length * board.width;
  add_defects(line["defects_front"], solve::BoardFace::kUpper, board);
  add_defects(line["defects_back"], solve::BoardFace::kLower, board);
  return board;
}

solve::Quality quality_of(const json& word) {
  return word == "both"  ? solve::Quality::kClearBothFaces
         : word == "one" ? solve::Quality::kClearOneFace
                         : solve::Quality::kSound;
}

void add_bill(const json& bill, std::int64_t times, solve::BoardJob& job) {
  job.kerf = number(bill["kerf"]);
  job.end_trim = number(bill["end_trim"]);
  job.edge_trim = number(bill["edge_trim"]);
  for (const json& p : bill["parts"]) {
    job.parts.push_back({number(p[0]),
                         number(p[1]),
                         quality_of(p[3]),
                         number(p[2]) * times,
                         number(p[0]) * number(p[1]),
                         -1});
  }
  for (const json& p : bill["panels"]) {
    job.panels.push_back({number(p[0]),
                          number(p[1]),
                          number(p[2]),
                          number(p[3]),
                          number(p[4]),
                          quality_of(p[6]),
                          number(p[5]) * times,
                          number(p[0]) * number(p[1]),
                          -1});
  }
}

std::int64_t area_of(const json& bill) {
  std::int64_t area = 0;
  for (const json& p : bill["parts"]) {
    area += number(p[0]) * number(p[1]) * number(p[2]);
  }
  for (const json& p : bill["panels"]) {
    area += number(p[0]) * number(p[1]) * number(p[5]);
  }
  return area;
}

}  // namespace

base::Result<std::vector<BoardInstance>> read_board_instances(const std::vector<std::string>& files,
                                                              const std::string& variant) {
  std::map<std::string, std::vector<solve::RoughBoard>> sets;
  std::vector<json> bills;
  for (const std::string& name : files) {
    std::ifstream file{name};
    if (!file) {
      return base::Error{base::ErrorCode::kIo, fmt::format("{} cannot be read", name), {}, {}};
    }
    for (std::string line; std::getline(file, line);) {
      json read = json::parse(line);
      if (read.contains("parts")) {
        bills.push_back(std::move(read));
      } else {
        sets[read["set"].get<std::string>()].push_back(board_of(read));
      }
    }
  }
  if (sets.size() > 1) {
    std::vector<solve::RoughBoard> all;
    for (const auto& [set, boards] : sets) {
      all.insert(all.end(), boards.begin(), boards.end());
    }
    sets["all"] = std::move(all);
  }
  std::vector<BoardInstance> instances;
  for (const auto& [set, boards] : sets) {
    std::int64_t area = 0;
    for (const solve::RoughBoard& board : boards) {
      area += board.price;
    }
    for (const json& bill : bills) {
      BoardInstance instance;
      instance.name = fmt::format("{} {}", set, bill["name"].get<std::string>());
      instance.job.boards = boards;
      const bool money = variant == "money";
      const std::int64_t wanted = money ? area / 3 : area;
      add_bill(bill, std::max<std::int64_t>(1, wanted / area_of(bill)), instance.job);
      instance.job.goal = money ? solve::BoardGoal::kLeastMoney : solve::BoardGoal::kGreatestValue;
      instances.push_back(std::move(instance));
    }
  }
  return instances;
}

}  // namespace plankwright::bench_tool
