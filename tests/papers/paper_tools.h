#pragma once
// What the outside makes of a paper: the PDF tools of poppler, run on a file in the test's folder.

#include <array>
#include <cstdio>
#include <cstdlib>
#include <fstream>
#include <memory>
#include <sstream>
#include <string>
#include <vector>

#include <gtest/gtest.h>
#include <unistd.h>

#include "papers/page_output.h"

namespace plankwright::papers {

inline bool have_pdf_tools() {
  return std::system("command -v pdftotext pdffonts pdftoppm pdfinfo >/dev/null") == 0;
}

/// What `command` prints. Ends the test when it cannot be run.
inline std::string output_of(const std::string& command) {
  const std::unique_ptr<FILE, int (*)(FILE*)> pipe{popen((command + " 2>&1").c_str(), "r"), pclose};
  std::string all;
  std::array<char, 4096> part{};
  while (const std::size_t n = std::fread(part.data(), 1, part.size(), pipe.get())) {
    all.append(part.data(), n);
  }
  return all;
}

/// A PDF file name no other test writes, not even one running beside this.
inline std::string temporary_file(const std::string& name) {
  return testing::TempDir() + name + "_" + std::to_string(::getpid()) + ".pdf";
}

/// A PDF file that goes away with this.
class PdfFile {
 public:
  explicit PdfFile(const Paper& paper) : name_{temporary_file("paper")} {
    std::ofstream{name_, std::ios::binary} << to_pdf(paper);
  }
  PdfFile(const PdfFile&) = delete;
  PdfFile& operator=(const PdfFile&) = delete;
  ~PdfFile() { std::remove(name_.c_str()); }

  const std::string& name() const { return name_; }
  std::string text() const { return output_of("pdftotext -layout " + name_ + " -"); }
  std::string fonts() const { return output_of("pdffonts " + name_); }
  std::string info() const { return output_of("pdfinfo " + name_); }

 private:
  std::string name_;
};

struct FoundWord {
  int page = 0;
  double left = 0, top = 0, right = 0, bottom = 0;  // points
  std::string text;
};

/// Every word of the file with its box.
inline std::vector<FoundWord> words_of(const PdfFile& file) {
  std::istringstream lines{output_of("pdftotext -bbox " + file.name() + " -")};
  std::vector<FoundWord> words;
  int page = -1;
  for (std::string line; std::getline(lines, line);) {
    page += line.find("<page ") != std::string::npos ? 1 : 0;
    FoundWord w;
    w.page = page;
    if (std::sscanf(line.c_str(),
                    " <word xMin=\"%lf\" yMin=\"%lf\" xMax=\"%lf\" yMax=\"%lf\"",
                    &w.left,
                    &w.top,
                    &w.right,
                    &w.bottom) == 4) {
      const auto begin = line.find('>') + 1;
      w.text = line.substr(begin, line.find("</word>") - begin);
      words.push_back(w);
    }
  }
  return words;
}

inline PaperInfo test_info() {
  return {
      .title = "Hall cabinet",
      .author = "Low Bridge Joinery",
      .subject = "Shop packet",
      .date = measure::Date{std::chrono::year{2026}, std::chrono::month{3}, std::chrono::day{14}}};
}

/// All texts of a page, in the order set.
inline std::vector<TextMark> texts_of(const Page& page) {
  std::vector<TextMark> texts;
  for (const Mark& mark : page.marks()) {
    if (const auto* text = std::get_if<TextMark>(&mark)) {
      texts.push_back(*text);
    }
  }
  return texts;
}

}  // namespace plankwright::papers
