// SPDX-License-Identifier: GPL-3.0-or-later
#include <QtCore/QTemporaryDir>
#include <QtGui/QShortcut>
#include <QtWidgets/QLineEdit>
#include <QtWidgets/QVBoxLayout>

#include "core/history/fields.h"
#include "tests/support/keys.h"
#include "tests/support/notebook.h"
#include "tests/support/scripted_prompter.h"
#include "ui/kit/fields.h"
#include "ui/kit/messages.h"
#include "ui/window/find_line.h"
#include "ui/window/main_window.h"
#include "ui/window/way.h"

namespace prillbook::ui {
namespace {

namespace client = history::fields::client;
using testing_support::press;

// One client and the field with its name.
class ClientStation : public Station {
 public:
  explicit ClientStation(Session& session) : session_(session) {
    auto* column = new QVBoxLayout(this);
    column->addWidget(name = new TextField("Name"));
    name->on_commit([this](const std::optional<std::string>& words) -> Result<void> {
      if (!words) return Error{ErrorCode::missing_key, "name", "", {}};
      return session_.journal.record("rename a client",
                                     [&](history::ChangeSet& set) { return set.set(client::name, record, *words); });
    });
  }
  void notebook_changed(const history::Written& written) override {
    ++told;
    heard += int(written.changes.size());
  }
  bool follows_out_of_sight() const override { return always; }
  bool show_record(const RecordRef& wanted) override { return wanted == RecordRef{history::Entity::client, record}; }

  TextField* name;
  RecordId record = 0;
  int told = 0, heard = 0;  // how often, of how many changes
  bool always = false;

 private:
  Session& session_;
};

struct Windows : testing::Test {
  testing_support::MemoryNotebook notebook;
  QTemporaryDir folder;
  Notifier notifier{*notebook.journal};
  testing_support::ScriptedPrompter prompter;
  Drafts drafts{"test", folder.path()};
  Session session{*notebook.connection, *notebook.journal, notifier, prompter, drafts, {}};
  RecordId known = 0;  // the client of the second station
  int waiting = 3;
  ClientStation *first = nullptr, *second = nullptr;  // once the window has made them
  std::unique_ptr<MainWindow> window;

  Windows() {
    const auto made = notebook.journal->record_for<RecordId>("new client", [](history::ChangeSet& set) {
      return set.make(history::Entity::client, {{client::name, std::string("Sorrel")}});
    });
    known = made.value();
    WindowParts parts;
    parts.way = {{"Receiving", Icon::receiving, [this] { return waiting; }, {}, [this] { return first = make_station(0); }}};
    parts.beside = {{"Pan", Icon::pan, {}, {history::Entity::client}, [this] { return second = make_station(known); }}};
    parts.notebook_name = "Lab";
    parts.find = [this](const QString& typed, int) {
      return typed == "Sor" ? std::vector<Found>{{{history::Entity::client, known}, "Sorrel", ""}} : std::vector<Found>{};
    };
    parts.describe = [](const history::Written&) { return QString("Rue for client 1"); };
    window = std::make_unique<MainWindow>(session, std::move(parts));
    window->show();
    window->grab();
    QCoreApplication::processEvents();  // the first station comes after the first paint
  }

  ClientStation* make_station(RecordId record) {
    auto* station = new ClientStation(session);
    station->record = record;
    return station;
  }
  void go_to_second() {
    window->go_to(1);
    second->name->set_value("Sorrel");
  }
};

TEST_F(Windows, OneFieldIsOneWriteToldToAllAndSaidBelow) {
  go_to_second();
  second->name->type("Rue");
  press(second->name->line(), Qt::Key_Return);
  EXPECT_EQ(second->told, 1);
  EXPECT_EQ(first->told, 0) << "out of sight";
  window->go_to(0);
  EXPECT_EQ(first->told, 1);
  window->go_to(1);
  const QString said = window->findChild<MessageBar*>()->words();
  EXPECT_TRUE(said.startsWith("Rue for client 1 written 09:00")) << said.toStdString();
  EXPECT_TRUE(said.endsWith("by HM"));
  EXPECT_TRUE(notebook.journal->can_undo());
}

TEST_F(Windows, OutOfSightAStationHearsOnceOfAllThatWasWritten) {
  go_to_second();
  for (const char* name : {"Rue", "Yarrow"}) {
    second->name->type(name);
    press(second->name->line(), Qt::Key_Return);
  }
  EXPECT_EQ(second->told, 2);
  window->go_to(0);
  EXPECT_EQ(first->told, 1);
  EXPECT_EQ(first->heard, 2);
  window->go_to(1);
  window->go_to(0);
  EXPECT_EQ(first->told, 1) << "nothing was written since";
}

TEST_F(Windows, AStationThatOthersFollowHearsAtOnce) {
  first->always = true;
  go_to_second();
  second->name->type("Rue");
  press(second->name->line(), Qt::Key_Return);
  EXPECT_EQ(first->told, 1);
}

// A page lies over its station, which reads again when the page is left.
TEST_F(Windows, UnderAPageAStationIsOutOfSight) {
  QWidget page;
  window->show_page(&page);
  ASSERT_TRUE(
      notebook.journal
          ->record("rename a client", [&](history::ChangeSet& set) { return set.set(client::name, known, std::string("Rue")); })
          .ok());
  EXPECT_EQ(first->told, 0);
  window->go_to(0);
  EXPECT_EQ(first->told, 1);
}

TEST_F(Windows, AStationIsMadeWhenSomebodyFirstGoesThere) {
  EXPECT_NE(first, nullptr);
  EXPECT_EQ(second, nullptr);
  EXPECT_FALSE(window->open({history::Entity::sample, 1})) << "nobody has a place for it";
  EXPECT_EQ(second, nullptr) << "and nobody was made to say so";
  EXPECT_TRUE(window->open({history::Entity::client, known}));
  EXPECT_EQ(window->current(), second);
  const auto* made = second;
  window->go_to(0);
  EXPECT_EQ(window->go_to(1), made) << "once";
}

TEST_F(Windows, ALongMessageDoesNotWidenTheWindow) {
  auto* bar = window->findChild<MessageBar*>();
  const int before = window->minimumSizeHint().width();
  const QString words = QStringLiteral("Syndicate of the Upper Sallow ").repeated(12);
  bar->written(words);
  QCoreApplication::processEvents();
  EXPECT_LT(window->minimumSizeHint().width(), before + 100);
  EXPECT_EQ(bar->words(), words);
}

TEST_F(Windows, FindOpensTheStationThatHasThePlace) {
  EXPECT_EQ(window->current(), first);
  auto* line = window->findChild<FindLine*>()->line();
  testing_support::write(line, "Sor");
  press(line, Qt::Key_Return);
  EXPECT_EQ(window->current(), second);
  EXPECT_EQ(line->text(), "");
  EXPECT_FALSE(window->open({history::Entity::sample, 99}));
}

TEST_F(Windows, KeysGoToStations) {
  const auto shortcuts = window->findChildren<QShortcut*>();
  const auto found = std::find_if(shortcuts.begin(), shortcuts.end(),
                                  [](QShortcut* each) { return each->key() == QKeySequence(Qt::CTRL | Qt::Key_2); });
  ASSERT_NE(found, shortcuts.end());
  emit(*found)->activated();
  EXPECT_EQ(window->current(), second);
}

TEST_F(Windows, TheTenthPlaceHasCtrl0) {
  WindowParts parts;
  for (int i = 0; i < 11; ++i) parts.way.push_back({QString::number(i), Icon::pan, {}, {}, [this] { return make_station(0); }});
  const MainWindow wide(session, std::move(parts));
  const auto steps = wide.findChildren<WayStep*>();
  ASSERT_EQ(steps.size(), 11);
  EXPECT_EQ(steps[8]->toolTip(), "Ctrl+9");
  EXPECT_EQ(steps[9]->toolTip(), "Ctrl+0");
  EXPECT_EQ(steps[10]->toolTip(), "");
}

TEST_F(Windows, ANumberNotKnownYetIsAskedForAgain) {
  const auto* step = window->findChildren<WayStep*>()[0];
  waiting = -1;
  emit first->waiting_changed();
  EXPECT_TRUE(QTest::qWaitFor([&] { return step->accessibleName() == "Receiving"; })) << "no number";
  waiting = 5;
  EXPECT_TRUE(QTest::qWaitFor([&] { return step->accessibleName().contains("5"); }));
}

TEST_F(Windows, TheWayCountsWhatWaits) {
  const auto steps = window->findChildren<WayStep*>();
  ASSERT_EQ(steps.size(), 2);
  const auto shows = [&](const QString& number) {
    return QTest::qWaitFor([&] { return steps[0]->accessibleName().contains(number); });
  };
  EXPECT_TRUE(shows("3"));
  waiting = 7;
  emit first->waiting_changed();
  EXPECT_TRUE(shows("7"));
}

TEST_F(Windows, ClosingWritesTypedText) {
  go_to_second();
  second->name->type("Rue");
  EXPECT_TRUE(window->close());
  EXPECT_EQ(second->told, 1);
}

TEST_F(Windows, ClosingShowsRefusedTextOnceAndThenLeavesTheDraft) {
  go_to_second();
  second->name->keep_drafts(drafts, "client/1/name");
  second->name->type(" ");
  EXPECT_FALSE(window->close());
  EXPECT_EQ(window->current(), second);
  EXPECT_TRUE(second->name->refused());
  EXPECT_TRUE(window->close());
  EXPECT_TRUE(drafts.draft("client/1/name").has_value());
}

TEST_F(Windows, APageLiesOverTheStationsUntilItIsLeft) {
  auto* page = new QWidget(window.get());
  window->show_page(page);
  EXPECT_EQ(window->current(), nullptr);
  window->go_to(0);
  EXPECT_EQ(window->current(), first);
}

}  // namespace
}  // namespace prillbook::ui
