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
  ClientStation(Session& session, QString title) : title_(std::move(title)), session_(session) {
    auto* column = new QVBoxLayout(this);
    column->addWidget(name = new TextField("Name"));
    name->on_commit([this](const std::optional<std::string>& words) -> Result<void> {
      if (!words) return Error{ErrorCode::missing_key, "name", "", {}};
      return session_.journal.record("rename a client",
                                     [&](history::ChangeSet& set) { return set.set(client::name, record, *words); });
    });
  }
  QString title() const override { return title_; }
  Icon icon() const override { return Icon::receiving; }
  int waiting_count() override { return waiting; }
  void notebook_changed(const history::Written&) override { ++told; }
  bool show_record(const RecordRef& wanted) override { return wanted == RecordRef{history::Entity::client, record}; }

  TextField* name;
  RecordId record = 0;
  int waiting = 3, told = 0;

 private:
  QString title_;
  Session& session_;
};

struct Windows : testing::Test {
  testing_support::MemoryNotebook notebook;
  QTemporaryDir folder;
  Notifier notifier{*notebook.journal};
  testing_support::ScriptedPrompter prompter;
  Drafts drafts{"test", folder.path()};
  Session session{*notebook.connection, *notebook.journal, notifier, prompter, drafts, {}};
  ClientStation* first = new ClientStation(session, "Receiving");
  ClientStation* second = new ClientStation(session, "Pan");
  std::unique_ptr<MainWindow> window;

  Windows() {
    const auto made = notebook.journal->record_for<RecordId>("new client", [](history::ChangeSet& set) {
      return set.make(history::Entity::client, {{client::name, std::string("Sorrel")}});
    });
    second->record = made.value();
    WindowParts parts;
    parts.way = {first};
    parts.beside = {second};
    parts.notebook_name = "Lab";
    parts.find = [this](const QString& typed, int) {
      return typed == "Sor" ? std::vector<Found>{{{history::Entity::client, second->record}, "Sorrel", ""}}
                            : std::vector<Found>{};
    };
    parts.describe = [](const history::Written&) { return QString("Rue for client 1"); };
    window = std::make_unique<MainWindow>(session, std::move(parts));
    window->show();
    second->name->set_value("Sorrel");
  }
};

TEST_F(Windows, OneFieldIsOneWriteToldToAllAndSaidBelow) {
  second->name->type("Rue");
  press(second->name->line(), Qt::Key_Return);
  EXPECT_EQ(first->told, 1);
  EXPECT_EQ(second->told, 1);
  const QString said = window->findChild<MessageBar*>()->words();
  EXPECT_TRUE(said.startsWith("Rue for client 1 written 09:00")) << said.toStdString();
  EXPECT_TRUE(said.endsWith("by HM"));
  EXPECT_TRUE(notebook.journal->can_undo());
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

TEST_F(Windows, TheWayCountsWhatWaits) {
  const auto steps = window->findChildren<WayStep*>();
  ASSERT_EQ(steps.size(), 2);
  EXPECT_TRUE(steps[0]->accessibleName().contains("3"));
  first->waiting = 7;
  emit first->waiting_changed();
  EXPECT_TRUE(steps[0]->accessibleName().contains("7"));
}

TEST_F(Windows, ClosingWritesTypedText) {
  second->name->type("Rue");
  EXPECT_TRUE(window->close());
  EXPECT_EQ(second->told, 1);
}

TEST_F(Windows, ClosingShowsRefusedTextOnceAndThenLeavesTheDraft) {
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
  window->go_to(first);
  EXPECT_EQ(window->current(), first);
}

}  // namespace
}  // namespace prillbook::ui
