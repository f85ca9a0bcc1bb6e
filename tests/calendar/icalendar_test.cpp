// The file other programs read, against RFC 5545.

#include "calendar/icalendar.h"

#include <gmock/gmock.h>
#include <gtest/gtest.h>

#include "calendar_fixture.h"

namespace plankwright::calendar {
namespace {

using ::testing::HasSubstr;
using ::testing::Not;
using namespace testing;  // NOLINT(google-build-using-namespace): the fixture of this folder

std::string file_of(const Job& job, const std::string& start = "2026-03-02") {
  const Planned planned = plan(job, plain_shop(), start);
  return icalendar(*planned.calendar, {job.work()}, day("2026-03-01"));
}

Job a_job() {
  Job job = job_of({operation("Glue; clamp, wait", 60, {}, "carcase_glue"),
                    operation(std::string(90, 'x') + "\xC3\xA9\xC3\xA9", 30)});
  job.bench.operations[0].unattended = Minutes{90};
  job.commission.number = "26-031";
  return job;
}

// RFC 5545, 3.1: lines end in CRLF and are no longer than 75 octets without it.
TEST(ICalendar, EndsAndFoldsItsLines) {
  std::string text = file_of(a_job());
  std::size_t at = 0;
  while (at < text.size()) {
    const std::size_t end = text.find("\r\n", at);
    ASSERT_NE(end, std::string::npos);
    EXPECT_LE(end - at, 75U);
    EXPECT_EQ(text.substr(at, end - at).find('\n'), std::string::npos);
    at = end + 2;
  }
}

TEST(ICalendar, SplitsNoCharacter) {
  const std::string line = std::string(74, 'a') + "\xC3\xA9" + "b";
  EXPECT_EQ(folded(line), std::string(74, 'a') + "\r\n \xC3\xA9" + "b\r\n");
}

// RFC 5545, 3.3.11.
TEST(ICalendar, EscapesText) {
  EXPECT_EQ(escaped("a;b,c\\d\ne"), "a\\;b\\,c\\\\d\\ne");
}

TEST(ICalendar, HasWorkAndWaits) {
  const std::string text = file_of(a_job());
  EXPECT_THAT(text, HasSubstr("BEGIN:VCALENDAR\r\nVERSION:2.0\r\nPRODID:"));
  EXPECT_THAT(text, HasSubstr("UID:26-031-work-Glue-clamp-wait@plankwright\r\n"));
  EXPECT_THAT(text, HasSubstr("DTSTAMP:20260301T000000Z\r\n"));
  EXPECT_THAT(text, HasSubstr("SUMMARY:Glue\\; clamp\\, wait\r\n"));
  EXPECT_THAT(text, HasSubstr("DTSTART:20260302T080000\r\nDTEND:20260302T090000\r\n"));
  EXPECT_THAT(text, HasSubstr("DTSTART:20260302T090000\r\nDTEND:20260302T103000\r\n"));
}

TEST(ICalendar, KeepsTheUidsWhenDatesMove) {
  const auto uids = [](const std::string& text) {
    std::vector<std::string> found;
    for (std::size_t at = text.find("UID:"); at != std::string::npos;
         at = text.find("UID:", at + 1)) {
      found.push_back(text.substr(at, text.find("\r\nDTSTAMP", at) - at));
    }
    std::ranges::sort(found);
    return found;
  };
  const std::vector<std::string> now = uids(file_of(a_job()));
  EXPECT_EQ(now, uids(file_of(a_job(), "2026-06-01")));
  EXPECT_EQ(std::ranges::adjacent_find(now), now.end());
}

}  // namespace
}  // namespace plankwright::calendar
