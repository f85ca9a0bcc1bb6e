// The command line. Help teaches by example; exit status 0 fine, 1 our fault, 2 bad input.

#include <cstdio>
#include <exception>
#include <filesystem>
#include <map>
#include <string>
#include <vector>

#include <CLI/CLI.hpp>
#include <fmt/format.h>

#include "base/nearest.h"
#include "main/book.h"
#include "main/calendar_command.h"
#include "main/serve.h"
#include "main/summary.h"
#include "main/yard_text.h"
#include "papers/papers.h"
#include "papers/plan_json.h"
#include "papers/schemas.h"
#include "plan/plan.h"
#include "store/files.h"

namespace {

using namespace plankwright;  // NOLINT(google-build-using-namespace): the top of the program

constexpr int kFine = 0;
constexpr int kOurFault = 1;
constexpr int kBadInput = 2;

/// What was asked for on the command line.
struct Asked {
  std::string file;
  std::string shop_file;
  std::string tally_file;
  std::string rack_file;
  std::vector<std::string> picks;
  std::string into = "out";
  std::string schema;
  bool json = false;
  bool all = false;
  double work = 1.0;
};

int complain(const base::Errors& errors) {
  std::map<std::string, std::string> sources;
  for (const base::Error& error : errors) {
    std::string source;
    if (error.at) {
      if (!sources.contains(error.at->file)) {
        const auto text = store::read_file(error.at->file);
        sources[error.at->file] = text.ok() ? text.value() : "";
      }
      source = sources[error.at->file];
    }
    fmt::print(stderr, "{}", base::describe(error, source));
  }
  fmt::print(
      stderr, "{} mistake{}; nothing was planned.\n", errors.size(), errors.size() == 1 ? "" : "s");
  return kBadInput;
}

base::Result<commission::Picks> parse_picks(const std::vector<std::string>& words) {
  commission::Picks picks;
  for (const std::string& word : words) {
    const std::size_t equals = word.find('=');
    if (equals == std::string::npos || equals == 0) {
      return base::Error{base::ErrorCode::kBadInput,
                         fmt::format("found --pick {}, expected a choice and an option, such as "
                                     "--pick drawers=bought",
                                     word)};
    }
    picks[word.substr(0, equals)] = word.substr(equals + 1);
  }
  return picks;
}

/// The text of a commission, what it needs, and the plan; or the exit status.
struct Job {
  int status = kFine;
  std::string text;
  plan::Reference reference;
  commission::Picks picks;
  plan::Plan plan;
};

Job plan_job(const Asked& asked, bool compare) {
  Job job;
  const auto text = store::read_file(asked.file);
  auto reference = store::read_reference();
  const auto picks = parse_picks(asked.picks);
  base::Errors errors;
  if (!text.ok()) {
    errors.push_back(text.error());
  }
  if (!picks.ok()) {
    errors.push_back(picks.error());
  }
  const auto tally = asked.tally_file.empty() ? base::Result<std::string>{std::string{}}
                                              : store::read_file(asked.tally_file);
  if (!tally.ok()) {
    errors.push_back(tally.error());
  }
  const auto rack = asked.rack_file.empty() ? base::Result<std::string>{std::string{}}
                                            : store::read_file(asked.rack_file);
  if (!rack.ok()) {
    errors.push_back(rack.error());
  }
  if (!reference.ok()) {
    fmt::print(stderr, "{}", base::describe(reference.error()));
    job.status = kOurFault;
    return job;
  }
  if (errors.empty()) {
    job.text = text.value();
    job.reference = std::move(reference).value();
    job.picks = picks.value();
    plan::PlanLimits limits;
    limits.work = asked.work;
    limits.compare_choices = compare;
    limits.draw_purchases = compare;
    limits.shop_file = asked.shop_file;
    limits.tally = tally.value();
    limits.tally_file = asked.tally_file;
    limits.rack = rack.value();
    limits.rack_file = asked.rack_file;
    plan::Planned planned = plan::plan_commission(
        job.text, asked.file, store::open_beside(asked.file), job.reference, job.picks, limits);
    errors = std::move(planned.errors);
    if (planned.plan) {
      job.plan = std::move(*planned.plan);
    }
  }
  if (!errors.empty()) {
    job.status = complain(errors);
  }
  return job;
}

int run_plan(const Asked& asked) {
  const Job job = plan_job(asked, true);
  if (job.status != kFine) {
    return job.status;
  }
  if (asked.json) {
    fmt::print("{}\n", papers::plan_json(job.plan));
    return kFine;
  }
  fmt::print("{}", cli::summary(job.plan));
  if (asked.all) {
    constexpr std::size_t kMostCombinations = 512;
    fmt::print("{}",
               cli::combinations_text(plan::plan_combinations(job.text,
                                                              asked.file,
                                                              store::open_beside(asked.file),
                                                              job.reference,
                                                              kMostCombinations),
                                      job.plan));
  }
  return kFine;
}

int run_yard(const Asked& asked) {
  const Job job = plan_job(asked, false);
  if (job.status == kFine) {
    fmt::print("{}", cli::yard_text(job.plan));
  }
  return job.status;
}

int run_check(const Asked& asked) {
  const Job job = plan_job(asked, false);
  if (job.status == kFine) {
    fmt::print("{}", cli::findings_text(job.plan));
  }
  return job.status;
}

int run_calendar(const cli::CalendarAsked& asked) {
  const cli::CalendarResult result = cli::answer_calendar(asked);
  if (!result.answer) {
    return complain(result.errors);
  }
  fmt::print("{}", result.answer->text);
  for (const auto& [file, bytes] : {std::pair{&asked.ics, &result.answer->ics},
                                    std::pair{&asked.pdf, &result.answer->pdf}}) {
    if (file->empty()) {
      continue;
    }
    const auto written = store::write_file(*file, *bytes);
    if (!written.ok()) {
      fmt::print(stderr, "{}", base::describe(written.error()));
      return kOurFault;
    }
    fmt::print(stderr, "\n  {} ({} kB)\n", *file, (written.value() + 512) / 1024);
  }
  return kFine;
}

void add_calendar(CLI::App& app, cli::CalendarAsked& asked, int& status) {
  CLI::App* command =
      app.add_subcommand("calendar", "Put one or more commissions into the days of one shop");
  command->add_option("files", asked.files, "the written commissions")->required();
  command->add_option("--shop", asked.shop_file, "another shop than the one the first names");
  command->add_option("--start", asked.start, "first day of work, such as 2026-03-02");
  command->add_option("--ics", asked.ics, "write an iCalendar file (RFC 5545)");
  command->add_option("--pdf", asked.pdf, "write the calendar and week sheets");
  command->add_flag("--json", asked.json, "as JSON (`calendar` in docs/plan.schema.json)");
  command->footer("Example: plankwright calendar examples/hall_cabinet.yaml --ics hall.ics");
  command->callback([&] { status = run_calendar(asked); });
}

int run_papers(const Asked& asked) {
  const Job job = plan_job(asked, true);
  if (job.status != kFine) {
    return job.status;
  }
  const std::filesystem::path into = asked.into;
  const std::map<std::string, std::string> papers = {
      {"quotation.pdf", papers::quotation(job.plan)},
      {"shop_packet.pdf", papers::shop_packet(job.plan)},
      {"plan.json", papers::plan_json(job.plan)}};
  for (const auto& [name, bytes] : papers) {
    const auto written = store::write_file(into / name, bytes);
    if (!written.ok()) {
      fmt::print(stderr, "{}", base::describe(written.error()));
      return kOurFault;
    }
    fmt::print("  {} ({} kB)\n", (into / name).string(), (written.value() + 512) / 1024);
  }
  return kFine;
}

int run_schema(const Asked& asked) {
  const std::vector<std::string> known = papers::schema_names();
  const auto schema = papers::schema(asked.schema);
  if (!schema.ok()) {
    fmt::print(stderr, "{}", base::describe(schema.error()));
    return kBadInput;
  }
  fmt::print("{}\n", schema.value());
  return kFine;
}

void add_document_options(CLI::App& command, Asked& asked) {
  command.add_option("file", asked.file, "the written commission, a YAML file")->required();
  command.add_option("--shop", asked.shop_file, "another shop than the one the commission names");
  command.add_option("--pick", asked.picks, "take a choice differently: --pick drawers=bought");
  command.add_option("--work", asked.work, "how long to look for better layouts; 1 is usual")
      ->check(CLI::Range(0.01, 1000.0));
}

void add_boards_option(CLI::App& command, Asked& asked) {
  command.add_option("--boards",
                     asked.tally_file,
                     "lay the parts on the boards of this tally, then on usual ones");
  command.add_option(
      "--rack", asked.rack_file, "what stands in the rack, instead of the file the shop names");
}

std::string command_names(const CLI::App& app, const std::string& typed) {
  std::vector<std::string> names;
  for (const CLI::App* command : app.get_subcommands({})) {
    names.push_back(command->get_name());
  }
  return base::nearest_word(typed, std::span<const std::string>{names});
}

int report_usage(const CLI::App& app, const CLI::ParseError& error, int argc, char** argv) {
  if (error.get_exit_code() == 0) {
    app.exit(error);
    return kFine;
  }
  fmt::print(stderr, "error: {}\n", error.what());
  const std::string typed = argc > 1 ? argv[1] : "";
  const std::string meant = app.get_subcommands().empty() ? command_names(app, typed) : "";
  if (!meant.empty() && meant != typed) {
    fmt::print(stderr, "did you mean `{}`?\n", meant);
  }
  fmt::print(stderr, "For help: plankwright --help\n");
  return kBadInput;
}

void add_book_commands(CLI::App& app, cli::BookAsked& asked, int& status) {
  CLI::App* book = app.add_subcommand("book", "Look after a shop book");
  book->require_subcommand(1);
  book->footer(
      "Examples:\n"
      "  plankwright book backup shop.book shop_friday.book\n"
      "  plankwright book versions shop.book hall_cabinet\n"
      "  plankwright book undo shop.book hall_cabinet 3");
  const auto add = [&](const char* name, const char* says, int (*work)(const cli::BookAsked&)) {
    CLI::App* command = book->add_subcommand(name, says);
    command->add_option("book", asked.book, "the book, a file")->required();
    command->callback([&, work] { status = work(asked); });
    return command;
  };
  add("backup", "Copy a book while it is in use", cli::book_backup)
      ->add_option("into", asked.into, "the copy")
      ->required();
  add("versions", "List the commissions, or the versions of one", cli::book_versions)
      ->add_option("commission", asked.id, "its id");
  CLI::App* text = add("text", "Print the text of a commission", cli::book_text);
  text->add_option("commission", asked.id, "its id")->required();
  text->add_option("version", asked.version, "the newest if none");
  CLI::App* undo = add("undo", "Go back to an older version, as a new one", cli::book_undo);
  undo->add_option("commission", asked.id, "its id")->required();
  undo->add_option("version", asked.version, "the version to go back to")->required();
}

int run(int argc, char** argv) {
  Asked asked;
  CLI::App app{
      "Plans a piece of furniture before the first cut: parts, stock, hours, findings, "
      "price and papers.",
      "plankwright"};
  app.footer(
      "Examples:\n"
      "  plankwright plan examples/hall_cabinet.yaml\n"
      "  plankwright plan examples/hall_cabinet.yaml --pick drawers=bought\n"
      "  plankwright check examples/dining_table.yaml\n"
      "  plankwright papers examples/study_wall.yaml --into out/study_wall\n"
      "  plankwright serve examples\n"
      "Exit status: 0 fine, 1 internal fault, 2 mistakes in what was written.");
  app.set_version_flag("--version", std::string{"plankwright 0.1.0"});
  app.require_subcommand(1);
  int status = kFine;

  CLI::App* plan = app.add_subcommand("plan", "Plan a commission and print it for reading");
  add_document_options(*plan, asked);
  plan->add_flag("--json", asked.json, "the whole plan as JSON (docs/plan.schema.json)");
  plan->add_flag("--all-combinations", asked.all, "price every combination of choices too");
  add_boards_option(*plan, asked);
  plan->footer("Example: plankwright plan examples/study_wall.yaml --pick shelves=plain");
  plan->callback([&] { status = run_plan(asked); });

  CLI::App* check = app.add_subcommand("check", "Print mistakes and findings only");
  add_document_options(*check, asked);
  check->footer("Example: plankwright check examples/dining_table.yaml --pick base=fixed");
  check->callback([&] { status = run_check(asked); });

  CLI::App* papers = app.add_subcommand("papers", "Write the quotation and the shop packet");
  add_document_options(*papers, asked);
  papers->add_option("--into", asked.into, "folder for the papers");
  add_boards_option(*papers, asked);
  papers->footer("Example: plankwright papers examples/hall_cabinet.yaml --into out/hall_cabinet");
  papers->callback([&] { status = run_papers(asked); });

  cli::CalendarAsked calendar;
  add_calendar(app, calendar, status);

  CLI::App* yard = app.add_subcommand("yard", "Say what the boards tallied so far cover");
  add_document_options(*yard, asked);
  yard->add_option("tally", asked.tally_file, "the boards, a line each: cherry_4_4, 8', 7 1/2")
      ->required();
  yard->footer("Example: plankwright yard examples/hall_cabinet.yaml examples/hall_cabinet.tally");
  yard->callback([&] { status = run_yard(asked); });

  CLI::App* schema = app.add_subcommand("schema", "Print a JSON Schema for an editor");
  schema->add_option("name", asked.schema, "commission, shop or plan")->required();
  schema->footer("Example: plankwright schema commission > commission.schema.json");
  schema->callback([&] { status = run_schema(asked); });

  cli::ServeAsked serve;
  CLI::App* pages = app.add_subcommand("serve", "Show commissions as pages on this machine");
  pages->add_option("places", serve.places, "commissions, or folders of them; this folder if none");
  pages->add_option("--book", serve.book, "keep them in this one file, with every version");
  pages->add_option("--port", serve.port, "of the address; any free one if none")
      ->check(CLI::Range(0, 65535));
  pages->footer(
      "Examples:\n"
      "  plankwright serve examples\n"
      "  plankwright serve examples --book shop.book   # takes in what the book does not have yet\n"
      "  plankwright serve --book shop.book");
  pages->callback([&] { status = cli::serve(serve); });

  cli::BookAsked book;
  add_book_commands(app, book, status);

  try {
    app.parse(argc, argv);
  } catch (const CLI::ParseError& error) {
    return report_usage(app, error, argc, argv);
  }
  return status;
}

}  // namespace

int main(int argc, char** argv) {
  try {
    return run(argc, argv);
  } catch (const std::exception& fault) {
    fmt::print(stderr, "internal fault: {}\nNothing was written.\n", fault.what());
    return kOurFault;
  }
}
