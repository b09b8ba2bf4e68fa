// SPDX-License-Identifier: GPL-3.0-or-later
#include "core/summary/custody_report.h"

#include <fmt/format.h>

#include <algorithm>
#include <cstdlib>

#include "core/history/journal.h"
#include "core/summary/figure.h"

namespace prillbook::summary {
namespace {

using custody::Chain;
using custody::Link;
using results::SampleRecord;

constexpr std::int64_t an_hour_ms = 3'600'000;
constexpr const char* not_said = "not stated";

std::string spoken(std::string word) {
  std::replace(word.begin(), word.end(), '_', ' ');
  return word;
}

std::string moment(const Instant& at) { return local_date(at) + " " + local_time(at); }

std::string said(const std::optional<std::string>& words) { return words.value_or(not_said); }

// "2026-05-06 10:25; written 2026-05-12 18:00 HM" where the two are more than an hour apart.
std::string both_times(const Link& link) {
  std::string words = moment(link.at);
  if (link.typed && std::abs(link.typed->at.utc_ms - link.at.utc_ms) > an_hour_ms)
    words += fmt::format("; written {} {}", moment(link.typed->at), link.typed->who);
  return words;
}

std::string seal_words(const std::optional<std::string>& seal, const std::optional<std::string>& state) {
  if (!seal && !state) return "no seal noted";
  return fmt::format("{}{}{}", seal.value_or("seal"), state ? ", " : "", state.value_or(""));
}

Table holders_table(const Chain& chain) {
  Table table{
      {{"From", false}, {"To", false}, {"When", false}, {"Where, why", false}, {"Seal, condition", false}, {"Initials", false}},
      {}};
  for (const Link& link : chain.links) {
    TableRow row;
    std::string where = link.place;
    const std::string why = link.reason.value_or(link.id ? "" : "received");
    if (!why.empty()) where += (where.empty() ? "" : "; ") + why;
    std::string state = seal_words(link.seal, link.seal_state);
    if (link.condition) state += "; " + spoken(*link.condition);
    row.cells = {link.from, link.to.empty() ? std::string(not_said) : link.to, both_times(link), where, state, link.initials};
    if (link.remarks) row.note = *link.remarks;
    table.rows.push_back(std::move(row));
  }
  return table;
}

void add_chain(Report& report, const Chain& chain, const std::string& what) {
  report.blocks.push_back(Heading{2, "Holders"});
  report.blocks.push_back(holders_table(chain));
  const std::string holder = chain.holder(), place = chain.place();
  report.blocks.push_back(Paragraph{fmt::format("{} is now with {}{}, since {}.", what, holder.empty() ? "nobody named" : holder,
                                                place.empty() ? "" : ", " + place, moment(chain.last().at)),
                                    Tone::plain});
  for (std::size_t i = 0; i < chain.links.size(); ++i) {
    const Link& link = chain.links[i];
    const std::string until = i + 1 < chain.links.size() ? " to " + moment(chain.links[i + 1].at) : "";
    report.blocks.push_back(
        Signature{fmt::format("{}older from {}{}", link.to.empty() ? "H" : link.to + ", h", moment(link.at), until)});
  }
}

void add_pieces(Report& report, const custody::Consignment& consignment, const std::vector<custody::Piece>& pieces) {
  std::string words = fmt::format("Pieces declared: {}. Pieces found: {}.",
                                  consignment.pieces_declared ? std::to_string(*consignment.pieces_declared) : not_said,
                                  consignment.pieces_found ? std::to_string(*consignment.pieces_found) : not_said);
  if (consignment.seals) words += fmt::format(" Seals as found: {}.", *consignment.seals);
  if (consignment.pieces_condition) words += fmt::format(" Condition: {}.", *consignment.pieces_condition);
  report.blocks.push_back(Paragraph{words, Tone::plain});
  if (pieces.empty()) return;
  Table table{{{"Container", false}, {"Condition", false}, {"Seal named", false}, {"Seal found", false}}, {}};
  for (const custody::Piece& piece : pieces)
    table.rows.push_back({{fmt::format("piece {}", piece.number), spoken(piece.condition.value_or(not_said)),
                           piece.seal_declared.value_or(""), seal_words(piece.seal, piece.seal_state)},
                          piece.remarks.value_or(""),
                          false,
                          false});
  report.blocks.push_back(std::move(table));
}

void add_consignment(Report& report, const custody::Consignment& consignment, const lab::Client& client,
                     const std::vector<custody::Piece>& pieces) {
  report.blocks.push_back(Heading{1, fmt::format("Consignment {}", consignment.number)});
  report.blocks.push_back(Paragraph{fmt::format("Project or client: {}. Shipped by: {}. Date of receipt: {}.", client.name,
                                                said(consignment.carrier), moment(consignment.arrived)),
                                    Tone::plain});
  add_pieces(report, consignment, pieces);
  if (consignment.remarks) report.blocks.push_back(Paragraph{"Remarks: " + *consignment.remarks + ".", Tone::plain});
}

void add_own_metal(Report& report, const SampleRecord& record) {
  if (record.custody.own_metal.empty()) return;
  Table table{
      {{"What", false}, {"What became of it", false}, {"Mass", false}, {"When", false}, {"To whom", false}, {"Initials", false}},
      {}};
  for (const custody::OwnMetal& metal : record.custody.own_metal)
    table.rows.push_back({{spoken(metal.what), spoken(metal.fate), metal.mass ? as_typed(*metal.mass, report.say) : "",
                           moment(metal.at), metal.to_whom.value_or(""), record.initials(metal.written_by)},
                          metal.remarks.value_or(""),
                          false,
                          false});
  report.blocks.push_back(Heading{2, "Metal and rests of the client"});
  report.blocks.push_back(std::move(table));
}

std::string what_is_left_of(const custody::Sample& sample) {
  std::string words;
  if (sample.retain_until) words += fmt::format("What is left is kept until {}. ", local_date(*sample.retain_until));
  if (sample.disposal)
    words += fmt::format("What was left was {}{}. ", *sample.disposal == "disposed" ? "disposed of" : *sample.disposal,
                         sample.disposed_at ? " on " + local_date(*sample.disposed_at) : "");
  if (!words.empty()) words.pop_back();
  return words;
}

// `swept_from` is the number of the sample that leaked; empty for one that came in a bag of its own.
void add_sample(Report& report, const SampleRecord& record, const std::string& swept_from) {
  const custody::Sample& sample = record.sample;
  report.blocks.push_back(Heading{1, fmt::format("Sample {} · {}", sample.number, sample.mark)});
  std::string words =
      fmt::format("Sample number: {}. Kind: {}. Place taken: {}. Collector: {}. Date and time taken: {}.", sample.number,
                  said(sample.kind), said(sample.place), said(sample.taken_by), said(sample.taken_when));
  words += fmt::format(" Condition on receipt: {}.", said(sample.condition));
  if (sample.mass_declared) words += fmt::format(" Mass declared: {}.", as_typed(*sample.mass_declared, report.say));
  words += fmt::format(" Mass received: {}.", sample.mass_received ? as_typed(*sample.mass_received, report.say) : "not weighed");
  report.blocks.push_back(Paragraph{std::move(words), Tone::plain});
  if (!swept_from.empty())
    report.blocks.push_back(
        Paragraph{fmt::format("Swept up from what sample {} left in its container.", swept_from), Tone::plain});
  if (sample.remarks) report.blocks.push_back(Paragraph{fmt::format("Remarks: {}.", *sample.remarks), Tone::plain});
  if (sample.treatment && sample.treatment != "none")
    report.blocks.push_back(Paragraph{
        fmt::format("To be {}: {}.", sample.treatment == "refuse" ? "refused" : "treated apart", said(sample.treatment_reason)),
        Tone::plain});
  add_chain(report, record.custody.chain, fmt::format("Sample {}", sample.number));
  add_own_metal(report, record);
  if (const std::string left = what_is_left_of(sample); !left.empty()) report.blocks.push_back(Paragraph{left, Tone::plain});
  report.blocks.push_back(Signature{fmt::format("Collector of {}", sample.number)});
}

Result<Report> begun(store::Connection& connection, const Instant& now) {
  Report report;
  PRILLBOOK_ASSIGN(const lab::Settings settings, lab::settings(connection));
  report.title = "Custody record";
  report.foot = "Custody record";
  report.now = now;
  report.issued = local_date(now);
  report.say = settings.decimal_mark;
  for (const std::string* text : {&settings.lab_name, &settings.lab_address, &settings.lab_contact})
    if (!text->empty()) report.letterhead.push_back(*text);
  return report;
}

Result<Report> ended(store::Connection& connection, Report report) {
  PRILLBOOK_ASSIGN(const history::Hash head, history::head_of(connection));
  report.blocks.push_back(Heading{1, "What this record says"});
  report.blocks.push_back(Cautions{{"It speaks of the items named here as they were received, and of nothing else.",
                                    "A time is when it happened; where it was written down more than an hour apart, the time of "
                                    "writing stands beside it.",
                                    "Corrections keep the older entry readable in the notebook, with who made them and when."}});
  report.blocks.push_back(Signature{"For the lab"});
  report.blocks.push_back(EndMark{"End of custody record", history::hex(head)});
  return report;
}

}  // namespace

Result<Report> custody_report_of(store::Connection& connection, std::span<const SampleId> ids, const Instant& now) {
  if (ids.empty()) return refusal(ErrorCode::missing_key, "sample", "no sample is named");
  PRILLBOOK_ASSIGN(Report report, begun(connection, now));
  ConsignmentId shown;
  for (const SampleId id : ids) {
    PRILLBOOK_ASSIGN(const SampleRecord record, results::load_sample_record(connection, id));
    const lab::Client& client = record.client;
    if (std::find(report.client.begin(), report.client.end(), client.name) == report.client.end())
      report.client.push_back(client.name);
    if (record.consignment.id != shown) add_consignment(report, record.consignment, client, record.custody.pieces);
    shown = record.consignment.id;
    std::string swept_from;
    if (record.sample.swept_from) {
      PRILLBOOK_ASSIGN(const custody::Sample leaked, custody::sample(connection, record.sample.swept_from));
      swept_from = leaked.number;
    }
    add_sample(report, record, swept_from);
  }
  return ended(connection, std::move(report));
}

Result<Report> custody_report_of(store::Connection& connection, ConsignmentId id, const Instant& now) {
  PRILLBOOK_ASSIGN(const auto samples, custody::samples_of(connection, id));
  if (!samples.empty()) {
    std::vector<SampleId> ids;
    for (const custody::Sample& sample : samples) ids.push_back(sample.id);
    return custody_report_of(connection, ids, now);
  }
  PRILLBOOK_ASSIGN(const custody::Consignment consignment, custody::consignment(connection, id));
  PRILLBOOK_ASSIGN(const lab::Client client, lab::client(connection, consignment.client));
  PRILLBOOK_ASSIGN(const auto pieces, custody::pieces_of(connection, id));
  PRILLBOOK_ASSIGN(const Chain chain, custody::chain_of(connection, consignment));
  PRILLBOOK_ASSIGN(Report report, begun(connection, now));
  report.client.push_back(client.name);
  add_consignment(report, consignment, client, pieces);
  add_chain(report, chain, fmt::format("Consignment {}", consignment.number));
  return ended(connection, std::move(report));
}

}  // namespace prillbook::summary
