// SPDX-License-Identifier: GPL-3.0-or-later
#include "ui/sheet/thread_words.h"

#include <QtCore/QCoreApplication>
#include <algorithm>

#include "ui/findings/findings_panel.h"
#include "ui/kit/record_fields.h"
#include "ui/kit/sentences.h"

namespace prillbook::ui {
namespace {

using story::Event;
using story::EventKind;

struct Words {
  Q_DECLARE_TR_FUNCTIONS(ThreadWords)

 public:
  explicit Words(const results::SampleRecord& record) : record_(record) {}

  ThreadEntry entry(const Event& event, std::int64_t id) const {
    ThreadEntry entry;
    entry.id = id;
    entry.when = event.when;
    entry.who = to_qt(event.who);
    switch (event.kind) {
      case EventKind::arrived: arrived(entry); break;
      case EventKind::portion_cut: cut(entry, event); break;
      case EventKind::stepped: stepped(entry, event); break;
      case EventKind::panned: panned(entry, event); break;
      case EventKind::fired: fired(entry, event); break;
      case EventKind::sieved: sieved(entry, event); break;
      case EventKind::weighed: weighed(entry, event); break;
      case EventKind::none_seen: entry.what = tr("No bead seen after a search, %1").arg(test_name(event.portion)); break;
      case EventKind::fineness: fineness(entry, event); break;
      case EventKind::spoiled:
        entry.what = tr("Spoiled: %1").arg(test_name(event.portion));
        entry.words = cell_text(event.after);
        break;
      case EventKind::left_out:
        entry.what = tr("Left out: %1")
                         .arg(event.entity == history::Entity::weighing ? tr("a weighing of %1").arg(test_name(event.portion))
                                                                        : test_name(event.portion));
        entry.words = cell_text(event.after);
        break;
      case EventKind::handed_over: handed_over(entry, event); break;
      case EventKind::own_metal: own_metal(entry, event); break;
      case EventKind::told: told(entry, event); break;
      case EventKind::corrected: corrected(entry, event); break;
    }
    if (event.typed) join(entry.words, tr("written %1").arg(date_time_text(*event.typed)));
    return entry;
  }

 private:
  static QString cell_text(const store::Value& value) {
    if (const auto* words = std::get_if<std::string>(&value)) return to_qt(*words);
    if (const auto* number = std::get_if<std::int64_t>(&value)) return QString::number(*number);
    return {};
  }

  static Figure cell_figure(const history::Field& field, const store::Value& value) {
    if (field.kind != history::FieldKind::reading) return {in_short(cell_text(value)), {}};
    const auto* cell = std::get_if<std::string>(&value);
    if (!cell) return {};
    const auto reading = readings::decode(*cell, field.measure.value_or(Measure::mass));
    return reading.ok() ? as_typed(*reading) : Figure{};
  }

  static void add(ThreadEntry& entry, const QString& name, const readings::Figure& figure) {
    if (figure) entry.figures.emplace_back(name, as_typed(figure));
  }

  static void join(QString& words, const QString& more) {
    if (more.isEmpty()) return;
    words += words.isEmpty() ? more : QStringLiteral(" · ") + more;
  }

  // "/2": the number of the sample stands above the thread.
  QString portion_name(PortionId id) const {
    const portions::Portion* portion = record_.portion(id);
    return portion ? QStringLiteral("/%1").arg(portion->number) : QString();
  }
  QString test_name(PortionId id) const {
    const portions::Portion* portion = record_.portion(id);
    return portion ? QStringLiteral("%1 %2").arg(portion_name(id), choice_word(portion->purpose)) : QString();
  }

  void arrived(ThreadEntry& entry) const {
    const custody::Sample& sample = record_.sample;
    entry.what = tr("Received with %1").arg(to_qt(record_.consignment.number));
    entry.figures.emplace_back(tr("declared"), as_typed(sample.mass_declared));
    entry.figures.emplace_back(tr("received"), as_typed(sample.mass_received));
    add(entry, tr("moisture"), sample.moisture);
    for (const auto& word : {sample.kind, sample.condition})
      if (word) join(entry.words, choice_word(*word));
    if (sample.place) join(entry.words, in_short(to_qt(*sample.place)));
    if (record_.consignment.carrier) join(entry.words, tr("brought by %1").arg(in_short(to_qt(*record_.consignment.carrier))));
    if (sample.remarks) join(entry.words, to_qt(*sample.remarks));
  }

  void handed_over(ThreadEntry& entry, const Event& event) const {
    for (const custody::Link& link : record_.custody.chain.links) {
      if (link.id.value != event.record) continue;
      const QString from = in_short(to_qt(link.from), 24), to = in_short(to_qt(link.to), 24);
      entry.what =
          link.of_consignment ? tr("Consignment handed over: %1 to %2").arg(from, to) : tr("Handed over: %1 to %2").arg(from, to);
      if (!link.place.empty()) join(entry.words, in_short(to_qt(link.place)));
      if (link.reason) join(entry.words, to_qt(*link.reason));
      if (link.seal) join(entry.words, tr("seal %1").arg(to_qt(*link.seal)));
      if (link.seal_state)
        join(entry.words, link.seal ? choice_word(*link.seal_state) : tr("seal %1").arg(choice_word(*link.seal_state)));
      if (link.condition) join(entry.words, choice_word(*link.condition));
      if (link.remarks) join(entry.words, to_qt(*link.remarks));
    }
  }

  void own_metal(ThreadEntry& entry, const Event& event) const {
    for (const custody::OwnMetal& metal : record_.custody.own_metal) {
      if (metal.id.value != event.record) continue;
      entry.what = tr("Client’s %1: %2").arg(choice_word(metal.what), choice_word(metal.fate));
      add(entry, tr("mass"), metal.mass);
      if (metal.to_whom) join(entry.words, tr("to %1").arg(to_qt(*metal.to_whom)));
      if (metal.remarks) join(entry.words, to_qt(*metal.remarks));
    }
  }

  void told(ThreadEntry& entry, const Event& event) const {
    for (const custody::ToldFigure& figure : record_.custody.told) {
      if (figure.id.value != event.record) continue;
      entry.what = tr("Told %1: %2 %3")
                       .arg(in_short(to_qt(figure.to_whom), 24), choice_word(figure.what), in_short(to_qt(figure.said), 24));
      if (figure.remarks) join(entry.words, to_qt(*figure.remarks));
    }
  }

  void cut(ThreadEntry& entry, const Event& event) const {
    const portions::Portion* portion = record_.portion(event.portion);
    if (!portion) return;
    const bool product = portion->purpose == "remainder" || portion->purpose == "tail" || portion->purpose == "fraction";
    entry.what = product ? tr("%1 weighed: %2").arg(portion_name(event.portion), choice_word(portion->purpose))
                         : tr("%1 cut for %2").arg(portion_name(event.portion), choice_word(portion->purpose));
    entry.figures.emplace_back(tr("mass"), as_typed(portion->mass));
    if (portion->parent && !product) join(entry.words, tr("from %1").arg(portion_name(portion->parent)));
    if (portion->remarks) join(entry.words, to_qt(*portion->remarks));
  }

  static QString step_words(const std::string& kind) {
    if (kind == "dry") return tr("dried");
    if (kind == "crush") return tr("crushed");
    if (kind == "pulverise") return tr("pulverised");
    if (kind == "blend") return tr("blended");
    if (kind == "split") return tr("split");
    if (kind == "screen") return tr("screened");
    return tr("put together from others");
  }

  void stepped(ThreadEntry& entry, const Event& event) const {
    for (const milling::Step& step : record_.steps) {
      if (step.id.value != event.record) continue;
      const QString words = step_words(step.kind);
      entry.what =
          step.portion ? QStringLiteral("%1 %2").arg(portion_name(step.portion), words) : words.left(1).toUpper() + words.mid(1);
      add(entry, tr("in"), step.mass_in);
      add(entry, tr("out"), step.mass_out);
      add(entry, tr("top size"), step.top_size);
      if (step.remarks) join(entry.words, to_qt(*step.remarks));
    }
  }

  void panned(ThreadEntry& entry, const Event& event) const {
    entry.what = tr("%1 panned").arg(portion_name(event.portion));
    for (const results::PanEntry& pan : record_.pan_tests) {
      if (pan.test.id.value != event.record) continue;
      add(entry, tr("grind"), pan.test.grind);
      add(entry, tr("free gold"), pan.test.free_gold);
      add(entry, tr("largest colour"), pan.test.largest_colour);
      if (pan.test.colours) join(entry.words, tr("colours: %1").arg(in_short(to_qt(*pan.test.colours))));
      if (pan.test.black_sand) join(entry.words, tr("black sand: %1").arg(choice_word(*pan.test.black_sand)));
      if (pan.test.sulphides) join(entry.words, tr("sulphides: %1").arg(choice_word(*pan.test.sulphides)));
      if (pan.test.remarks) join(entry.words, to_qt(*pan.test.remarks));
    }
  }

  void fired(ThreadEntry& entry, const Event& event) const {
    entry.what = tr("%1 in the crucible").arg(portion_name(event.portion));
    for (const results::FireEntry& fire : record_.charges) {
      if (fire.charge.id.value != event.record) continue;
      add(entry, tr("collector silver"), fire.charge.collector);
      add(entry, tr("button"), fire.charge.button);
      if (fire.charge.slag_look) join(entry.words, tr("slag: %1").arg(in_short(to_qt(*fire.charge.slag_look))));
      if (fire.charge.remarks) join(entry.words, to_qt(*fire.charge.remarks));
    }
  }

  void sieved(ThreadEntry& entry, const Event& event) const {
    entry.what = tr("%1 sieved").arg(portion_name(event.portion));
    for (const sieves::Analysis& analysis : record_.sieve_analyses) {
      if (analysis.id.value != event.record) continue;
      const DecimalMark mark = record_.settings.decimal_mark;
      const results::SizeResult size = results::size_result(record_, analysis, {});
      if (size.curve && size.curve->p80.size) entry.figures.emplace_back(tr("P80"), size_figure(*size.curve->p80.size, mark));
      if (size.curve && size.curve->p50.size) entry.figures.emplace_back(tr("P50"), size_figure(*size.curve->p50.size, mark));
      if (!size.waits_for.empty()) join(entry.words, tr("not all weighed yet"));
      if (size.state == results::SizeState::refused) join(entry.words, tr("the masses contradict each other"));
      if (analysis.method) join(entry.words, choice_word(*analysis.method));
      if (analysis.minutes) join(entry.words, tr("%n minutes", nullptr, int(*analysis.minutes)));
      if (analysis.remarks) join(entry.words, to_qt(*analysis.remarks));
    }
  }

  static Figure size_figure(Opening size, DecimalMark mark) {
    const std::string words = size_in_words(size, mark);  // "212 µm"
    const std::size_t blank = words.find(' ');
    return {to_qt(words.substr(0, blank)), to_qt(words.substr(blank + 1))};
  }

  const weighing::Bead* bead(RecordId id, PortionId portion) const {
    for (const results::PanEntry& pan : record_.pan_tests)
      if (pan.test.portion == portion && (id == 0 || pan.bead.id.value == id)) return &pan.bead;
    for (const results::FireEntry& fire : record_.charges)
      if (fire.charge.portion == portion && (id == 0 || fire.bead.id.value == id)) return &fire.bead;
    return nullptr;
  }

  void weighed(ThreadEntry& entry, const Event& event) const {
    const weighing::Bead* of = bead(0, event.portion);
    if (!of) return;
    for (const weighing::Weighing& one : of->weighings) {
      if (one.id.value != event.record) continue;
      const bool gold = one.what == weighing::of_gold;
      entry.what = gold ? tr("Gold weighed after parting, %1").arg(test_name(event.portion))
                        : tr("Bead weighed, %1").arg(test_name(event.portion));
      entry.figures.emplace_back(gold ? tr("gold") : tr("bead"), as_typed(one.mass));
      for (const lab::Balance& balance : record_.balances)
        if (balance.id == one.balance) join(entry.words, in_short(to_qt(balance.name)));
      if (one.mass.answer) join(entry.words, to_qt(*one.mass.answer));
    }
  }

  void fineness(ThreadEntry& entry, const Event& event) const {
    entry.what = tr("Fineness of the bead, %1").arg(test_name(event.portion));
    const weighing::Bead* of = bead(event.record, event.portion);
    if (!of) return;
    add(entry, tr("fineness"), of->fineness);
    add(entry, tr("uncertainty"), of->fineness_u);
    if (of->method) join(entry.words, choice_word(*of->method));
  }

  void corrected(ThreadEntry& entry, const Event& event) const {
    const QString whose = event.portion ? test_name(event.portion) : to_qt(record_.sample.number);
    entry.what =
        tr("Corrected, %1: %2").arg(whose, QCoreApplication::translate("Fields", std::string(event.field->meaning).c_str()));
    entry.figures = {{tr("was"), cell_figure(*event.field, event.before)}, {tr("is"), cell_figure(*event.field, event.after)}};
    if (event.why) entry.words = tr("because %1").arg(to_qt(*event.why));
  }

  const results::SampleRecord& record_;
};

// Place of the newest event that the evidence names; without one the first, where the sample came in.
std::size_t place_of(const findings::Finding& finding, const std::vector<Event>& events) {
  std::size_t place = 0;
  for (std::size_t i = 0; i < events.size(); ++i)
    for (const findings::Evidence& evidence : finding.evidence)
      if (events[i].entity == evidence.entity && events[i].record == evidence.record) place = i;
  if (finding.rule.starts_with("sieve_")) return place;
  constexpr std::string_view of_arrival[] = {
      "short_on_arrival", "leaking_bag",      "treated_apart",        "seal_not_whole",    "hand_over_gap",  "before_arrival",
      "same_mark",        "pieces_missing",   "net_mass_differs",     "overdue",           "retention_over", "told_differs",
      "open_tree",        "moisture_differs", "moisture_not_written", "moisture_not_found"};
  const bool of_tests = std::find(std::begin(of_arrival), std::end(of_arrival), finding.rule) == std::end(of_arrival);
  for (std::size_t i = events.size(); of_tests && place == 0 && i-- > 0;)
    if (events[i].kind == EventKind::weighed || events[i].kind == EventKind::fineness) return i;
  return place;
}

}  // namespace

std::vector<ThreadEntry> thread_entries(const results::SampleRecord& record, const std::vector<Event>& events,
                                        const std::vector<findings::OpenOrAnswered>& findings) {
  const Words words(record);
  std::vector<ThreadEntry> entries;
  std::vector<std::vector<std::size_t>> at(events.size());
  for (std::size_t i = 0; i < findings.size() && !events.empty(); ++i) at[place_of(findings[i].finding, events)].push_back(i);
  for (std::size_t i = 0; i < events.size(); ++i) {
    entries.push_back(words.entry(events[i], std::int64_t(i)));
    bool taken = false;
    for (const std::size_t number : at[i]) {
      const findings::OpenOrAnswered& found = findings[number];
      if (found.answer) {
        QString& line = entries.back().words;
        const QString answer =
            Words::tr("%1 Explained by %2: %3")
                .arg(unbroken(to_qt(found.finding.seen)), to_qt(found.answer->who), to_qt(found.answer->explanation));
        line += line.isEmpty() ? answer : QLatin1Char('\n') + answer;
        continue;
      }
      if (taken) {
        ThreadEntry more;
        more.id = std::int64_t(i);
        more.when = events[i].when;
        more.what = Words::tr("Noticed as well");
        entries.push_back(std::move(more));
      }
      taken = true;
      entries.back().finding = {severity_of(found.finding.severity), unbroken(to_qt(found.finding.seen))};
      entries.back().actions.push_back({QStringLiteral("explain/%1").arg(number), Words::tr("Explain")});
    }
  }
  return entries;
}

}  // namespace prillbook::ui
