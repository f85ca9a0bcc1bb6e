#include "base/csv.h"

#include <string>

#include <gtest/gtest.h>
#include <rapidcheck.h>

namespace plankwright::base {
namespace {

std::vector<std::vector<std::string>> texts(const CsvTable& table) {
  std::vector<std::vector<std::string>> rows;
  for (const auto& row : table.rows) {
    rows.emplace_back();
    for (const CsvCell& cell : row) {
      rows.back().push_back(cell.text);
    }
  }
  return rows;
}

struct ReadCase {
  std::string_view why;
  std::string text;
  std::vector<std::vector<std::string>> rows;
};

TEST(ReadCsv, TakesWhatTablesHold) {
  const ReadCase cases[] = {
      {"plain", "id,name\noak,white oak\n", {{"oak", "white oak"}}},
      {"no line end at the end", "id,name\noak,x", {{"oak", "x"}}},
      {"comma inside quotes", "id,name\noak,\"Oak, white\"\n", {{"oak", "Oak, white"}}},
      {"doubled quote", "id,name\na,\"3/4\"\" ply\"\n", {{"a", "3/4\" ply"}}},
      {"line end inside quotes", "id,name\na,\"x\ny\"\n", {{"a", "x\ny"}}},
      {"comments and blank lines", "# a table\n\nid,name\n  # more\na,b\n\n#end", {{"a", "b"}}},
      {"hash inside a row stays", "id,name\na,#2\n", {{"a", "#2"}}},
      {"other line ends", "id,name\r\na,b\r\n", {{"a", "b"}}},
      {"byte order mark", "\xEF\xBB\xBFid,name\na,b\n", {{"a", "b"}}},
      {"spaces are cut away", " id , name\n a ,  \"b\" \n", {{"a", "b"}}},
      {"empty cells", "id,name\n,\n", {{"", ""}}},
      {"header alone", "id,name\n", {}},
  };
  for (const ReadCase& c : cases) {
    SCOPED_TRACE(c.why);
    const auto table = read_csv(c.text, "t.csv");
    ASSERT_TRUE(table.ok()) << describe(table.error());
    EXPECT_EQ(texts(table.value()), c.rows);
    EXPECT_EQ(table.value().columns[0].text, "id");
    EXPECT_EQ(table.value().columns[1].text, "name");
  }
}

struct ErrorCase {
  std::string text;
  std::string error;
};

TEST(ReadCsv, SaysWhereATableIsWrong) {
  const ErrorCase cases[] = {
      {"", "t.csv:1:1: error: expected a first line with the names of the columns\n"},
      {"a,b\n1,2,3\n", "t.csv:2:1: error: this row has 3 cells, the header 2\n"},
      {"# note\na,b\n1\n", "t.csv:3:1: error: this row has 1 cells, the header 2\n"},
      {"a,a\n", "t.csv:1:3: error: there are two columns `a`\n"},
      {"a,,b\n", "t.csv:1:3: error: a column has no name\n"},
      {"a,b\n1,\"2\n", "t.csv:2:3: error: this quote is never closed\n"},
      {"a,b\n1,\"2\"3\n",
       "t.csv:2:6: error: expected a comma or the end of the line after a closing quote\n"},
  };
  for (const ErrorCase& c : cases) {
    SCOPED_TRACE(c.text);
    const auto table = read_csv(c.text, "t.csv");
    ASSERT_FALSE(table.ok());
    EXPECT_EQ(describe(table.error()), c.error);
  }
}

TEST(ReadCsv, CountsColumnsInCharacters) {
  const auto table = read_csv("a,b\nöä,2\n", "t.csv");
  ASSERT_TRUE(table.ok());
  EXPECT_EQ(table.value().rows[0][1].column, 4);
}

struct Board {
  std::string name;
  double width = 0;
  std::optional<double> knots;
};

Result<std::vector<Board>> read_boards(std::string_view text) {
  return read_csv_rows(text, "boards.csv", [](const CsvRow& row) {
    return Board{.name = row.word("name"),
                 .width = row.number("width", 1, 1000),
                 .knots = row.number_if_any("knots", 0, 99)};
  });
}

TEST(CsvRow, ReadsCellsByName) {
  const auto boards = read_boards("width,name,knots\n12.5,elm,\n3,ash,2\n");
  ASSERT_TRUE(boards.ok());
  ASSERT_EQ(boards.value().size(), 2U);
  EXPECT_EQ(boards.value()[0].name, "elm");
  EXPECT_EQ(boards.value()[0].width, 12.5);
  EXPECT_FALSE(boards.value()[0].knots.has_value());
  EXPECT_EQ(boards.value()[1].knots, 2);
}

TEST(CsvRow, ReportsTheFirstWrongCell) {
  const ErrorCase cases[] = {
      {"name,width,knots\n,3,\n", "boards.csv:2:1: error: `name` must not be empty\n"},
      {"name,width,knots\na,wide,\n",
       "boards.csv:2:3: error: `width` must be a number, not `wide`\n"},
      {"name,width,knots\na,3in,\n",
       "boards.csv:2:3: error: `width` must be a number, not `3in`\n"},
      {"name,width,knots\na,nan,\n",
       "boards.csv:2:3: error: `width` must be a number, not `nan`\n"},
      {"name,width,knots\na,0.5,\n", "boards.csv:2:3: error: `width` is 0.5, expected 1 to 1000\n"},
      {"name,width,knots\na,3,100\nb,x,\n",
       "boards.csv:2:5: error: `knots` is 100, expected 0 to 99\n"},
      {"name,width\na,3\n", "boards.csv:1:1: error: there is no column `knots`\n"},
  };
  for (const ErrorCase& c : cases) {
    SCOPED_TRACE(c.text);
    const auto boards = read_boards(c.text);
    ASSERT_FALSE(boards.ok());
    EXPECT_EQ(describe(boards.error()), c.error);
  }
}

std::string quoted(const std::string& text) {
  std::string written = "\"";
  for (const char c : text) {
    written += c == '"' ? "\"\"" : std::string{c};
  }
  return written + "\"";
}

TEST(ReadCsv, GivesBackWhateverWasQuoted) {
  EXPECT_TRUE(rc::check([](const std::vector<std::string>& cells) {
    std::string text = "first,second\n";
    for (const std::string& cell : cells) {
      text += quoted(cell) + ",x\n";
    }
    const auto table = read_csv(text, "t.csv");
    RC_ASSERT(table.ok());
    RC_ASSERT(table.value().rows.size() == cells.size());
    for (std::size_t i = 0; i < cells.size(); ++i) {
      RC_ASSERT(table.value().rows[i][0].text == cells[i]);
    }
  }));
}

TEST(ReadCsv, SurvivesGarbage) {
  const auto piece = rc::gen::element<std::string>(
      "\"", ",", "\n", "\r", "#", " ", "a", "1.5", "\xEF\xBB\xBF", "\xFF", std::string(1, '\0'));
  EXPECT_TRUE(rc::check([&] {
    std::string text;
    for (const auto& part : *rc::gen::container<std::vector<std::string>>(piece)) {
      text += part;
    }
    const auto table = read_csv(text, "t.csv");
    if (table.ok()) {
      for (const auto& row : table.value().rows) {
        RC_ASSERT(row.size() == table.value().columns.size());
      }
    } else {
      RC_ASSERT(table.error().at.has_value());
    }
  }));
}

}  // namespace
}  // namespace plankwright::base
