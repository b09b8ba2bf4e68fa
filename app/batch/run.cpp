// SPDX-License-Identifier: GPL-3.0-or-later
#include "app/batch/run.h"

#include <fmt/format.h>

#include <CLI/CLI.hpp>
#include <fstream>
#include <iterator>
#include <sstream>

#include "app/batch/calc.h"
#include "app/batch/notebook_verbs.h"
#include "core/json/json_input.h"
#include "core/upkeep/sealed.h"

namespace prillbook::batch {
namespace {

int refuse(World& world, const Error& error) {
  Json object{{"error", {{"code", contract_name(error.code)}, {"field", error.field}, {"message", error.detail}}}};
  world.out << object.dump(2, ' ', false, Json::error_handler_t::replace) << '\n';
  return exit_status(error.code);
}

int give(World& world, const Result<Json>& result) {
  if (!result) return refuse(world, result.error());
  world.out << result->dump(2, ' ', false, Json::error_handler_t::replace) << '\n';
  if (world.out.flush()) return 0;
  world.err << "the output can not be written\n";
  return exit_status(ErrorCode::disk_full);
}

// Standard input where no file is named.
Result<std::string> input_text(const std::string& file, World& world) {
  if (file.empty()) return std::string(std::istreambuf_iterator<char>(world.in), {});
  std::ifstream stream(file, std::ios::binary);
  if (!stream) return Error{ErrorCode::not_found, "", fmt::format("{}: the file can not be opened", file), {file}};
  return std::string(std::istreambuf_iterator<char>(stream), {});
}

Result<Json> run_calc(const std::string& name, const std::string& in, World& world) {
  const auto names = calc_names();
  if (std::find(names.begin(), names.end(), name) == names.end()) return calc(name, {});
  PRILLBOOK_ASSIGN(const std::string text, input_text(in, world));
  PRILLBOOK_ASSIGN(const nlohmann::json input, parse_json(text));
  return calc(name, input);
}

// The words of the command line; the parser fills them in.
struct Words {
  std::string name, in, file, to, from, passphrase_file;
  std::vector<std::string> samples;
  ImportWish import;
  SummaryWish summary;
  LabelsWish labels;
  BenchSheetsWish bench_sheets;
  CustodyWish custody;
  DraftWish draft;
  IssueSummaryWish issue;
  AmendWish amend;
  upkeep::CopyPlaces places;
  JournalWish journal;
};

int run_check(const Words& words, World& world) {
  const auto report = notebook_check(words.file);
  const int status = give(world, report);
  return status == 0 && !(*report)["sound"].get<bool>() ? 1 : status;
}

int run_dump(const Words& words, World& world) {
  const auto dumped = notebook_dump(words.file, world);
  return dumped ? 0 : refuse(world, dumped.error());
}

int run_load(const Words& words, World& world) {
  const auto text = input_text(words.from, world);
  if (!text) return refuse(world, text.error());
  return give(world, notebook_load(words.file, *text, world));
}

int run_restore(const Words& words, World& world) {
  if (words.from.empty()) return give(world, notebook_restore(words.file, world.in));
  if (upkeep::is_sealed(words.from)) return give(world, notebook_open_sealed(words.file, words.from, words.passphrase_file));
  std::ifstream stream(words.from, std::ios::binary);
  if (!stream)
    return refuse(world, {ErrorCode::not_found, "", fmt::format("{}: the file can not be opened", words.from), {words.from}});
  return give(world, notebook_restore(words.file, stream));
}

using Action = std::function<int()>;

void add_calc(CLI::App& program, Words& words, World& world, Action& action) {
  CLI::App* calc = program.add_subcommand("calc", "compute from JSON");
  calc->add_option("NAME", words.name, "the computation")->required();
  calc->add_option("--in", words.in, "file with the JSON; standard input where absent");
  calc->callback([&] { action = [&] { return give(world, run_calc(words.name, words.in, world)); }; });
}

CLI::App* add_verb(CLI::App* notebook, const char* name, const char* help, Words& words, Action& action, Action run) {
  CLI::App* verb = notebook->add_subcommand(name, help);
  verb->add_option("FILE", words.file, "the notebook")->required();
  verb->callback([&action, run] { action = run; });
  return verb;
}

void add_labels(CLI::App* notebook, Words& words, World& world, Action& action) {
  CLI::App* labels = add_verb(notebook, "labels", "write a sheet of labels", words, action, [&] {
    words.labels.file = words.file;
    return give(world, notebook_labels(words.labels, world));
  });
  labels->add_option("--sample", words.labels.samples, "lab numbers");
  labels->add_option("--consignment", words.labels.consignment, "number of the consignment");
  labels->add_option("--what", words.labels.kinds, "bag, portion, charge, reject, lead-waste");
  labels->add_option("--layout", words.labels.layout, "name of the sheet");
  labels->add_option("--layout-file", words.labels.layout_file, "file with the grid of another sheet");
  labels->add_option("--start", words.labels.start, "place of the first label, from 1");
  labels->add_option("--out", words.labels.out, "PDF to write");
  CLI::App* sheets = notebook->add_subcommand("bench-sheets", "write blank bench sheets");
  sheets->add_option("--sheet", words.bench_sheets.names, "names of sheets; all where absent");
  sheets->add_option("--paper", words.bench_sheets.paper, "a4 or letter");
  sheets->add_option("--out", words.bench_sheets.out, "PDF to write");
  sheets->callback([&] { action = [&] { return give(world, notebook_bench_sheets(words.bench_sheets, world)); }; });
}

// Numbered summaries: from the draft to what took their place.
void add_issue(CLI::App* notebook, Words& words, World& world, Action& action) {
  CLI::App* draft = add_verb(notebook, "draft-summary", "begin a numbered summary", words, action, [&] {
    words.draft.file = words.file;
    return give(world, notebook_draft_summary(words.draft, world));
  });
  draft->add_option("--client", words.draft.client, "name of the client, or the id");
  draft->add_option("--consignment", words.draft.consignment, "number of the consignment");
  draft->add_option("--sample", words.draft.samples, "lab numbers");
  draft->add_option("--hide", words.draft.hidden, "parts: pictures, sieves, photographs, custody, methods, tests");
  draft->add_option("--paper", words.draft.paper, "a4 or letter");
  draft->add_option("--gold-price", words.draft.gold_price, "price of gold, a number");
  draft->add_option("--silver-price", words.draft.silver_price, "price of silver, a number");
  draft->add_option("--price-unit", words.draft.price_unit, "what it is in: USD/ozt, EUR/g");
  draft->add_option("--price-date", words.draft.price_date, "the day of the price: 2026-05-04");
  draft->add_option("--language", words.draft.language, "en or es; absent: as set for the client or the lab");
  draft->add_option("--title", words.draft.title, "title in the place of ours");
  draft->add_option("--remarks", words.draft.remarks, "what the lab says beside the figures");
  CLI::App* issue = add_verb(notebook, "issue-summary", "issue a draft and freeze it", words, action, [&] {
    words.issue.file = words.file;
    return give(world, notebook_issue_summary(words.issue, world));
  });
  issue->add_option("NUMBER", words.issue.number, "number of the summary")->required();
  issue->add_option("--by", words.issue.by, "initials of who issues it")->required();
  issue->add_option("--pdf", words.issue.pdf, "PDF to write besides");
  issue->add_option("--key", words.issue.key, "file with the key to sign with");
  issue->add_flag("--preliminary", words.issue.over, "also over an open finding that stops, printed as preliminary");
  issue->add_option("--passphrase-file", words.issue.passphrase_file, "file with its passphrase on the first line");
  CLI::App* amend = add_verb(notebook, "amend-summary", "begin what takes the place of an issued one", words, action, [&] {
    words.amend.file = words.file;
    return give(world, notebook_amend_summary(words.amend, world));
  });
  amend->add_option("NUMBER", words.amend.number, "number of the issued summary")->required();
  amend->add_option("--changed", words.amend.changed, "what is different")->required();
  amend->add_option("--why", words.amend.why, "why")->required();
  CLI::App* print = add_verb(notebook, "print-summary", "write the issued bytes again, or the draft", words, action,
                             [&] { return give(world, notebook_print_summary(words.file, words.name, words.to, world)); });
  print->add_option("NUMBER", words.name, "number of the summary")->required();
  print->add_option("--pdf", words.to, "PDF to write")->required();
  add_verb(notebook, "summaries", "list numbered summaries", words, action,
           [&] { return give(world, notebook_summaries(words.file)); });
  add_verb(notebook, "verify-summary", "say whether this lab issued a PDF", words, action,
           [&] { return give(world, notebook_verify_summary(words.file, words.in)); })
      ->add_option("PDF", words.in, "the file")
      ->required();
  CLI::App* key = notebook->add_subcommand("lab-key", "make a key to sign summaries with");
  key->add_option("FILE", words.to, "the key file to write")->required();
  key->add_option("--passphrase-file", words.in, "file with its passphrase on the first line")->required();
  key->callback([&] { action = [&] { return give(world, notebook_lab_key(words.to, words.in)); }; });
}

void add_copies(CLI::App* notebook, Words& words, World& world, Action& action) {
  const auto with_places = [&](CLI::App* verb) {
    verb->add_option("--place", words.places.first, "folder of the copies; beside the notebook where absent");
    verb->add_option("--second", words.places.second, "second folder of copies");
  };
  with_places(add_verb(notebook, "take-copy", "take a checked copy and thin out older ones", words, action,
                       [&] { return give(world, notebook_take_copy(words.file, words.places, world)); }));
  with_places(add_verb(notebook, "copies", "list its copies", words, action,
                       [&] { return give(world, notebook_copies(words.file, words.places)); }));
  CLI::App* compare = add_verb(notebook, "compare-copy", "say what parts it from a copy", words, action,
                               [&] { return give(world, notebook_compare_copy(words.file, words.from, words.passphrase_file)); });
  compare->add_option("COPY", words.from, "the copy")->required();
  CLI::App* restore = add_verb(notebook, "restore-copy", "put a copy in its place, keeping what was there", words, action, [&] {
    return give(world, notebook_restore_copy(words.file, words.from, words.passphrase_file, world));
  });
  restore->add_option("--from", words.from, "the copy")->required();
  for (CLI::App* verb : {compare, restore})
    verb->add_option("--passphrase-file", words.passphrase_file, "file with the passphrase of a sealed copy");
}

void add_journal(CLI::App* notebook, Words& words, World& world, Action& action) {
  CLI::App* journal = add_verb(notebook, "journal", "write the journal as a list", words, action, [&] {
    words.journal.file = words.file;
    return give(world, notebook_journal(words.journal));
  });
  journal->add_option("--csv", words.journal.csv, "CSV to write")->required();
  journal->add_option("--by", words.journal.by, "initials");
  journal->add_option("--kind", words.journal.kind, "table of the records");
  journal->add_option("--from", words.journal.from, "from this day or time on");
  journal->add_option("--until", words.journal.until, "before this day or time");
  journal->add_option("--words", words.journal.words, "in the gesture, the reason, the old or the new value");
  CLI::App* salvage = add_verb(notebook, "salvage", "save what reads of a damaged one", words, action,
                               [&] { return give(world, notebook_salvage(words.file, words.to, world)); });
  salvage->add_option("TO", words.to, "the new notebook")->required();
}

void add_notebook(CLI::App& program, Words& words, World& world, Action& action) {
  CLI::App* notebook = program.add_subcommand("notebook", "work on a notebook file");
  notebook->require_subcommand(1);
  add_verb(notebook, "new", "make an empty notebook", words, action, [&] { return give(world, notebook_new(words.file)); });
  add_verb(notebook, "check", "look it over; reads only", words, action, [&] { return run_check(words, world); });
  CLI::App* backup = add_verb(notebook, "backup", "copy it and check the copy", words, action, [&] {
    return give(world, words.passphrase_file.empty()
                           ? notebook_backup(words.file, words.to, world)
                           : notebook_sealed_backup(words.file, words.to, words.passphrase_file, world));
  });
  backup->add_option("TO", words.to, "the copy")->required();
  backup->add_option("--passphrase-file", words.passphrase_file, "file with a passphrase on its first line: seals the copy");
  add_verb(notebook, "load", "write hand-written records into it", words, action, [&] {
    return run_load(words, world);
  })->add_option("--from", words.from, "file with the records; standard input where absent");
  add_verb(notebook, "dump", "write all it holds as JSON", words, action, [&] { return run_dump(words, world); });
  CLI::App* restore = add_verb(notebook, "restore", "make it from a dump or a sealed copy", words, action,
                               [&] { return run_restore(words, world); });
  restore->add_option("--from", words.from, "file with the dump or the sealed copy; standard input where absent");
  restore->add_option("--passphrase-file", words.passphrase_file, "file with the passphrase of a sealed copy");
  add_verb(notebook, "findings", "say what it noticed", words, action, [&] {
    return give(world, notebook_findings(words.file, words.samples, world));
  })->add_option("--sample", words.samples, "lab number; all where absent");
  add_verb(notebook, "demo", "write the demonstration", words, action, [&] { return give(world, notebook_demo(words.file)); });
  CLI::App* import = add_verb(notebook, "import", "enter a client's list", words, action, [&] {
    words.import.file = words.file;
    return give(world, notebook_import(words.import, world));
  });
  import->add_option("--csv", words.import.csv, "the list")->required();
  import->add_option("--as", words.import.as, "what its rows are: samples")->required();
  import->add_option("--client", words.import.client, "name of the client, or the id: a new consignment");
  import->add_option("--consignment", words.import.consignment, "number of the consignment that it belongs to");
  import->add_option("--encoding", words.import.encoding, "utf-8, utf-16le, utf-16be, windows-1252; found where absent");
  import->add_option("--delimiter", words.import.delimiter, "comma, semicolon, tab, bar; found where absent");
  import->add_option("--decimal", words.import.decimal, "comma, point; found where absent");
  add_copies(notebook, words, world, action);
  add_journal(notebook, words, world, action);
  add_labels(notebook, words, world, action);
  CLI::App* summary = add_verb(notebook, "summary", "write the client summary", words, action, [&] {
    words.summary.file = words.file;
    return give(world, notebook_summary(words.summary, world));
  });
  summary->add_option("--client", words.summary.client, "name of the client, or the id");
  summary->add_option("--sample", words.summary.samples, "lab numbers");
  summary->add_option("--pdf", words.summary.pdf, "PDF to write");
  summary->add_option("--xlsx", words.summary.xlsx, "workbook to write");
  summary->add_option("--consignment", words.summary.consignment, "number of the consignment");
  summary->add_option("--csv", words.summary.csv, "CSV to write");
  summary->add_option("--json", words.summary.json, "JSON to write");
  summary->add_option("--language", words.summary.language, "en or es; absent: as set for the client or the lab");
  summary->add_option("--paper", words.summary.paper, "a4 or letter");
  add_issue(notebook, words, world, action);
  CLI::App* custody = add_verb(notebook, "custody", "write the custody record", words, action, [&] {
    words.custody.file = words.file;
    return give(world, notebook_custody(words.custody, world));
  });
  custody->add_option("--sample", words.custody.samples, "lab numbers");
  custody->add_option("--consignment", words.custody.consignment, "number of the consignment");
  custody->add_option("--out", words.custody.out, "PDF to write");
}

}  // namespace

bool is_batch(const std::vector<std::string>& arguments) {
  return !arguments.empty() &&
         (arguments[0] == "calc" || arguments[0] == "notebook" || arguments[0] == "--help" || arguments[0] == "-h");
}

int run(const std::vector<std::string>& arguments, World& world) {
  CLI::App program("Prillbook, a lab notebook for small assay labs", "prillbook");
  program.require_subcommand(1);
  Words words;
  Action action;
  add_calc(program, words, world, action);
  add_notebook(program, words, world, action);
  // The parser takes its arguments from the back.
  std::vector<std::string> reversed(arguments.rbegin(), arguments.rend());
  try {
    program.parse(reversed);
  } catch (const CLI::CallForHelp&) {
    world.out << program.help("", CLI::AppFormatMode::All);
    return 0;
  } catch (const CLI::ParseError& error) {
    world.err << error.what() << '\n';
    return refuse(world, {ErrorCode::unknown_verb, "", error.what(), {}});
  }
  return action();
}

}  // namespace prillbook::batch
