// SPDX-License-Identifier: GPL-3.0-or-later
#include "tests/gallery/stations.h"

#include <QtCore/QCoreApplication>
#include <QtGui/QKeyEvent>
#include <QtWidgets/QLabel>
#include <QtWidgets/QLineEdit>
#include <QtWidgets/QPushButton>
#include <QtWidgets/QVBoxLayout>

#include "core/history/fields.h"
#include "ui/kit/bench.h"
#include "ui/kit/fields.h"
#include "ui/kit/form.h"
#include "ui/kit/interval_scale.h"
#include "ui/kit/messages.h"
#include "ui/kit/sentences.h"
#include "ui/kit/thread.h"
#include "ui/kit/waiting_list.h"

namespace prillbook::ui::gallery {
namespace {

const std::vector<WaitingRow> waiting_rows = {
    {14, "26-0014", "Larch adit N", "torn, sweepings", Urgency::now},
    {15, "26-0015", "Larch adit S", "sealed", Urgency::usual},
    {16, "26-0016", "Old dump, lower bench", "wet, dry first", Urgency::soon},
    {17, "26-0017", "Tailing, first barrel", "open, 12.4 kg", Urgency::usual},
    {18, "26-0018", "Quartz with visible gold", "specimen: crush last", Urgency::soon},
};

IntervalPicture picture() {
  return {{{"pan", Metal::gold, 12.4, 11.8, 13.0, {{9.9, 14.9}}, "12.4 ± 0.6 g/t"},
           {"fire", Metal::gold, 16.5, 15.6, 17.4, {{13.8, 19.2}}, "16.5 ± 0.9 g/t"},
           {"fire", Metal::silver, 5.1, 3.9, 6.3, {}, "5.1 ± 1.2 g/t"}},
          {{13.0, 15.6}},
          "left behind 4.1 ± 1.1 g/t",
          "g/t",
          DecimalMark::point};
}

std::vector<ThreadEntry> thread_entries() {
  const auto at = [](const char* iso) { return *parse_iso(iso); };
  return {
      {1,
       at("2026-05-04T08:12+02:00"),
       "Received",
       "HM",
       "torn bag, sweepings kept apart",
       {{"declared", {"4.55", "kg"}}, {"received", {"4.10", "kg"}}},
       {{Severity::caution, "0.45 kg short: look for sweepings."}},
       {{"open", "Open"}}},
      {2,
       at("2026-05-04T10:40+02:00"),
       "Crushed to 2 mm",
       "TK",
       "",
       {{"in", {"4.10", "kg"}}, {"out", {"4.07", "kg"}}, {"moisture", {}}},
       {},
       {}},
      {3,
       at("2026-05-05T09:05+02:00"),
       "Panned 500 g",
       "HM",
       "7 colours, little black sand",
       {{"free gold", {"6.2", "mg"}}},
       {},
       {{"open", "Open"}}},
      {4,
       at("2026-05-05T14:02+02:00"),
       "Pan bead weighed",
       "HM",
       "",
       {{"pan bead", {"0.0062", "g"}}},
       {{Severity::stop, "The blank of this furnace load failed."}},
       {{"open", "Open"}, {"back", "Take back"}}},
  };
}

class Shown : public Station {
 public:
  void notebook_changed(const history::Written&) override {}
  bool show_record(const RecordRef&) override { return false; }
};

class Parts : public Shown {
 public:
  explicit Parts(Session& session) {
    auto* list = new WaitingList("Waiting at Receiving");
    list->read_from([](int from, int) { return from == 0 ? waiting_rows : std::vector<WaitingRow>{}; });
    list->take(14);
    auto* hand = new QWidget;
    auto* column = new QVBoxLayout(hand);
    column->setContentsMargins(0, 0, 0, 0);
    auto* head = new Headline;
    head->set("26-0014", "torn bag · 4.10 kg of 4.55 kg declared");
    column->addWidget(head);
    column->addWidget(hairline());
    column->addSpacing(rhythm);
    column->addWidget(form(session));
    column->addWidget(new FindingRow(Severity::caution, "0.45 kg short: look for sweepings.", "Explain"));
    column->addWidget(new FindingRow(Severity::note, "The client's last bag came from the same adit."));
    column->addStretch();
    column->addWidget(new CautionLine(
        "Dust of dry rock holds crystalline silica: damp the bag before it is opened, wear a P3 mask.", "silica"));
    auto* whole = new QVBoxLayout(this);
    whole->setContentsMargins(0, 0, 0, 0);
    whole->addWidget(new Bench(list, hand));
  }

  LineField* bad = nullptr;
  LineField* doubtful = nullptr;

 private:
  QWidget* form(Session& session) {
    auto* form = new Form(3);
    auto* mark = new TextField("Client's mark");
    mark->set_value("Larch adit N");
    auto* client = new PickField("Client");
    client->set_items({{1, "A. Sorrel"}, {2, "Fernhill claim"}});
    client->set_value(2);
    auto* arrived = new DateTimeField("Arrived", session.journal.clock());
    arrived->set_value(session.journal.clock().now());
    form->row({mark, client, arrived});
    auto* kind = new ChoiceField("Kind", {{"grab", "grab"},
                                          {"chip", "chip"},
                                          {"channel", "channel"},
                                          {"bulk", "bulk"},
                                          {"dump", "dump"},
                                          {"tailing", "tailing"},
                                          {"concentrate", "concentrate"}});
    kind->set_value("chip");
    form->row({kind});
    auto* declared = new ReadingField("Mass declared", {Measure::mass, "kg", session.writing.mark});
    declared->set_value(*readings::parse("4.55", {Measure::mass, "kg"}));
    auto* received = new ReadingField("Mass received", {Measure::mass, "kg", session.writing.mark});
    received->on_doubt([](const readings::Reading&) { return ReadingField::Doubt{{{'k', "4.10 kg"}}}; });
    auto* moisture = new ReadingField("Moisture", {Measure::share, "%", session.writing.mark});
    form->row({declared, received, moisture});
    auto* pieces = new WholeField("Pieces found", 0);
    auto* wet = new FlagField("Condition", "leaking");
    wet->set_value(true);
    form->row({pieces, wet});
    bad = moisture;
    doubtful = received;
    return form;
  }
};

class Compare : public Shown {
 public:
  Compare() {
    auto* list = new WaitingList("Waiting at Compare");
    list->set_empty_words("Nothing to compare yet. A pan test and a charge of one sample meet here.");
    auto* hand = new QWidget;
    auto* column = new QVBoxLayout(hand);
    column->setContentsMargins(0, 0, 0, 0);
    auto* head = new Headline;
    head->set("26-0003", "Larch adit N · pan 500 g, two charges of 30 g");
    column->addWidget(head);
    column->addWidget(hairline());
    column->addSpacing(2 * rhythm);
    auto* scale = new IntervalScale;
    scale->set_picture(picture());
    column->addWidget(scale);
    column->addSpacing(2 * rhythm);
    auto* verdict = new QLabel("The pan caught 75 % (66 to 85) of what the fire found; 4.1 ± 1.1 g/t were left behind.");
    verdict->setFont(face(TextSize::large));
    verdict->setWordWrap(true);
    column->addWidget(verdict);
    column->addWidget(new FindingRow(Severity::note, "Assay the remainder and the tail to tell locked gold from lost gold."));
    auto* buttons = new QHBoxLayout;
    auto* write = new QPushButton("Write into the summary");
    write->setProperty("main", true);
    buttons->addWidget(write);
    buttons->addWidget(new QPushButton("Regrind and pan again"));
    buttons->addStretch();
    column->addSpacing(rhythm);
    column->addLayout(buttons);
    column->addStretch();
    auto* whole = new QVBoxLayout(this);
    whole->setContentsMargins(0, 0, 0, 0);
    whole->addWidget(new Bench(list, hand));
  }
};

class Weigh : public Shown {
 public:
  explicit Weigh(Session& session) {
    auto* column = new QVBoxLayout(this);
    column->setContentsMargins(4 * rhythm, 3 * rhythm, 4 * rhythm, rhythm);
    auto* head = new Headline;
    head->set("26-0003 pan bead", "position 7 of 12");
    column->addWidget(head);
    column->addWidget(hairline());
    column->addSpacing(3 * rhythm);
    bead = new ReadingField("Bead", {Measure::mass, "mg", session.writing.mark});
    bead->set_huge(true);
    bead->set_width_in_digits(7);
    bead->set_hint("step of the balance 0.001 mg");
    column->addWidget(bead);
    column->addStretch();
  }
  ReadingField* bead;
};

class Sheet : public Shown {
 public:
  Sheet() {
    auto* column = new QVBoxLayout(this);
    column->setContentsMargins(3 * rhythm, 2 * rhythm, 3 * rhythm, rhythm);
    auto* head = new Headline;
    head->set("26-0003", "Larch adit N · Fernhill claim");
    column->addWidget(head);
    column->addWidget(hairline());
    auto* thread = new Thread;
    thread->set_entries(thread_entries());
    column->addWidget(thread);
  }
};

StationPlace place(
    const QString& title, Icon icon, int waiting, std::function<Station*()> make = [] { return new Shown; }) {
  return {title, icon, [waiting] { return waiting; }, {}, std::move(make)};
}

// Where the pages that open() names lie on the way.
constexpr std::size_t parts_place = 0, weigh_place = 5, compare_place = 6, thread_place = 7;

}  // namespace

std::vector<StationPlace> way(Session& session) {
  return {place("Receiving", Icon::receiving, 2, [&session] { return new Parts(session); }),
          place("Preparation", Icon::preparation, 5),
          place("Pan", Icon::pan, 1),
          place("Furnace", Icon::furnace, 3),
          place("Sieves", Icon::sieves, 0),
          place("Weigh room", Icon::weigh_room, 0, [&session] { return new Weigh(session); }),
          place("Compare", Icon::compare, 0, [] { return new Compare; }),
          place("Summary", Icon::summary, 0, [] { return new Sheet; })};
}

std::vector<StationPlace> beside(Session&) {
  return {place("Quality", Icon::quality, -1), place("Findings", Icon::findings, 4), place("Lab set-up", Icon::setup, -1)};
}

std::vector<Found> find(const QString& typed, int most) {
  std::vector<Found> found;
  for (const WaitingRow& row : waiting_rows)
    if (int(found.size()) < most && (row.number.contains(typed) || row.title.contains(typed, Qt::CaseInsensitive)))
      found.push_back({{history::Entity::sample, row.id}, row.number, row.title + ", " + row.words});
  return found;
}

void open(MainWindow& window, const QStringList& arguments) {
  const auto enter = [](LineField* field) {
    field->line()->setFocus();
    QKeyEvent press(QEvent::KeyPress, Qt::Key_Return, Qt::NoModifier);
    QCoreApplication::sendEvent(field->line(), &press);
  };
  if (arguments.contains("empty")) return;
  if (arguments.contains("weigh")) {
    auto* station = static_cast<Weigh*>(window.go_to(weigh_place));
    station->bead->type("6.217");
    station->bead->line()->setFocus();
  } else if (arguments.contains("compare")) {
    window.go_to(compare_place);
  } else if (arguments.contains("thread")) {
    window.go_to(thread_place);
  } else {
    auto* station = static_cast<Parts*>(window.go_to(parts_place));
    station->bad->type("108 %");
    enter(station->bad);
    station->doubtful->type("4.10 g");
    enter(station->doubtful);
  }
  if (arguments.contains("find")) {
    auto* line = window.findChildren<QLineEdit*>().first();
    for (QLineEdit* other : window.findChildren<QLineEdit*>())
      if (other->accessibleName() == "Find") line = other;
    line->setFocus();
    line->setText("Larch");
    emit line->textEdited("Larch");
  }
}

}  // namespace prillbook::ui::gallery
