// SPDX-License-Identifier: GPL-3.0-or-later
// `prillbook notebook …`, one function a verb. Each opens the notebook it is given, does one thing and closes it.
#pragma once

#include <nlohmann/json.hpp>
#include <optional>
#include <string>
#include <vector>

#include "app/batch/run.h"
#include "core/base/id.h"
#include "core/store/connection.h"
#include "core/upkeep/copies.h"

namespace prillbook::batch {

using Json = nlohmann::ordered_json;

Result<Json> notebook_new(const std::string& file);
// Reads only. The object holds "sound" and, where it is not, "faults".
Result<Json> notebook_check(const std::string& file);
Result<Json> notebook_backup(const std::string& file, const std::string& to, World& world);
Result<Json> notebook_load(const std::string& file, const std::string& text, World& world);
// Writes the dump itself to the output, not an object about it.
Result<void> notebook_dump(const std::string& file, World& world);
Result<Json> notebook_restore(const std::string& file, std::istream& dump);
// A checked copy, sealed by the passphrase on the first line of the file; and the notebook in such a copy, checked.
// Errors: as upkeep::back_up, upkeep::seal and upkeep::unseal.
Result<Json> notebook_sealed_backup(const std::string& file, const std::string& to, const std::string& passphrase_file,
                                    World& world);
Result<Json> notebook_open_sealed(const std::string& file, const std::string& from, const std::string& passphrase_file);
// The copies that a notebook takes of itself. Errors: as upkeep::take_copy, upkeep::restore_copy.
Result<Json> notebook_take_copy(const std::string& file, const upkeep::CopyPlaces& places, World& world);
Result<Json> notebook_copies(const std::string& file, const upkeep::CopyPlaces& places);
Result<Json> notebook_compare_copy(const std::string& file, const std::string& copy, const std::string& passphrase_file);
Result<Json> notebook_restore_copy(const std::string& file, const std::string& copy, const std::string& passphrase_file,
                                   World& world);
// The journal as a list. Errors besides those of the notebook: out_of_range, unknown_key.
struct JournalWish {
  std::string file, csv;
  std::string by, kind, from, until, words;
};
Result<Json> notebook_journal(const JournalWish& wish);
// What reads of a damaged notebook, in a new one. Errors: as upkeep::salvage.
Result<Json> notebook_salvage(const std::string& file, const std::string& to, World& world);
Result<Json> notebook_findings(const std::string& file, const std::vector<std::string>& samples, World& world);
Result<Json> notebook_demo(const std::string& file);

// By name, or by id where the name is a number and no client has it as a name. Errors: not_found, ambiguous.
Result<ClientId> find_client(store::Connection& connection, const std::string& name);

struct ImportWish {
  std::string file, csv;
  std::string as;                            // "samples"
  std::string client, consignment;           // whose list it is, or what it belongs to
  std::string encoding, delimiter, decimal;  // what is not to be found by itself
};
Result<Json> notebook_import(const ImportWish& wish, World& world);

struct SummaryWish {
  std::string file;
  std::string client;                // name, or id where two have one name; or
  std::vector<std::string> samples;  // lab numbers
  std::string pdf, xlsx, csv, json;  // one of them, or more
  std::string consignment = {};      // its number, in place of client and samples
  std::string language = {};         // "en", "es"; empty: as set for the client or the lab
  std::string paper = "a4";
};
Result<std::vector<SampleId>> wished_samples(store::Connection& connection, const SummaryWish& wish);
Result<Json> notebook_summary(const SummaryWish& wish, World& world);

// Numbered summaries. Errors besides those of the notebook: missing_key, conflict, out_of_range.
struct DraftWish {
  std::string file, client, consignment;
  std::vector<std::string> samples, hidden;
  std::string paper = "a4", gold_price, silver_price, price_unit, price_date;
  std::string language, title, remarks;  // empty: as usual
};
Result<Json> notebook_draft_summary(const DraftWish& wish, World& world);

struct IssueSummaryWish {
  std::string file, number, by, pdf;
  std::string key, passphrase_file;  // signs with this key; the passphrase is the first line of the file
  bool over = false;                 // as preliminary, over an open finding that stops
};
Result<Json> notebook_issue_summary(const IssueSummaryWish& wish, World& world);

struct AmendWish {
  std::string file, number, changed, why;
};
Result<Json> notebook_amend_summary(const AmendWish& wish, World& world);
// The issued bytes, or the draft as it would be issued now.
Result<Json> notebook_print_summary(const std::string& file, const std::string& number, const std::string& pdf, World& world);
Result<Json> notebook_summaries(const std::string& file);
// Whether this notebook issued the file, who signed it, and what took its place since. Reads only.
Result<Json> notebook_verify_summary(const std::string& file, const std::string& pdf);
// A new key for signing, in a file of its own.
Result<Json> notebook_lab_key(const std::string& key, const std::string& passphrase_file);

struct LabelsWish {
  std::string file;
  std::vector<std::string> samples;  // lab numbers, or
  std::string consignment;           // its number
  std::vector<std::string> kinds;    // names of label kinds; empty: bags, and with samples their portions
  std::string layout, layout_file;   // a name, or a file with a grid of one's own
  int start = 1;
  std::string out;
};
Result<Json> notebook_labels(const LabelsWish& wish, World& world);

struct BenchSheetsWish {
  std::vector<std::string> names;  // empty: all
  std::string paper = "a4", out;
};
// Needs no notebook.
Result<Json> notebook_bench_sheets(const BenchSheetsWish& wish, World& world);

struct CustodyWish {
  std::string file;
  std::vector<std::string> samples;  // lab numbers; or
  std::string consignment;           // the number of a consignment
  std::string out;                   // PDF
};
// Errors besides those of the notebook: missing_key, conflict, not_found.
Result<Json> notebook_custody(const CustodyWish& wish, World& world);

}  // namespace prillbook::batch
